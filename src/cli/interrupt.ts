/** Ctrl-C, heard from the moment a search is asked for, so that even an early one ends in an answer. */

import type { Io } from './io.js';

export class Interrupt {
  private stop: (() => void) | undefined;
  private heard = false;

  constructor(private readonly io: Io) {}

  /** Whether the person has asked to stop. */
  get asked(): boolean {
    return this.heard;
  }

  /** From now on the first Ctrl-C asks; before it, and the second time, it ends the process. */
  listen(): void {
    this.stop ??= this.io.onInterrupt(() => {
      this.heard = true;
    });
  }

  ignore(): void {
    this.stop?.();
    this.stop = undefined;
  }
}
