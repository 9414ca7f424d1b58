/**
 * What ends a search before its proof does: Ctrl-C, the time limit or the memory limit. All of them leave the
 * best so far, so they count only once something is in hand; before that the process itself is ended.
 */

import type { Signal } from '../../solver/asked.js';
import type { Io } from '../io.js';

/** MiB that a search may hold unless told otherwise. */
export const USUAL_MEMORY = 1024;
/** MiB under which reading a scenario takes all there is. */
export const LEAST_MEMORY = 96;

/** What a command is held to. */
export interface Limits {
  /** From the start of the program to its answer. */
  readonly seconds?: number;
  /** MiB of data. */
  readonly memory?: number;
}

/** Putting an answer together takes about this share of what getting ready for the search took... */
const TO_FINISH = 0.6;
/** ...and is left no more than this share of a time limit. */
const MOST_TO_FINISH = 0.55;
/** The share of a time limit that printing alone is left. */
const TO_PRINT = 0.05;
/** Milliseconds between looks at memory, which are dear. */
const LOOK = 100;

export class Interrupt {
  private stop: (() => void) | undefined;
  private heard = false;
  /** The end of the time limit, and when to stop a search for it. */
  private end = Infinity;
  private ends = Infinity;
  private toFinish = TO_FINISH;
  private memory = USUAL_MEMORY;
  private looked: number;
  private full = false;

  constructor(
    private readonly io: Io,
    limits: Limits = {},
  ) {
    this.looked = io.started;
    this.hold(limits);
  }

  /** MiB of data. */
  get mostMemory(): number {
    return this.memory;
  }

  /** Whether the person has asked to stop. */
  get asked(): boolean {
    return this.heard || (this.stop !== undefined && this.io.isAsked());
  }

  /** Sets the limits that are given; time counts from the start of the program. */
  hold({ seconds, memory }: Limits): void {
    if (memory !== undefined) this.memory = memory;
    if (seconds === undefined) return;
    this.end = this.io.started + seconds * 1000;
    this.ends = this.end;
  }

  /** From now on there is something to answer with: the first Ctrl-C asks, and the second ends the process. */
  listen(): void {
    if (this.stop !== undefined) return;
    this.stop = this.io.onInterrupt(() => {
      this.heard = true;
    });
    if (this.end === Infinity) return;
    // What comes after the search must be done by the limit too.
    const { started } = this.io;
    const toFinish = this.toFinish * (this.io.now() - started);
    this.ends = this.end - Math.min(toFinish, MOST_TO_FINISH * (this.end - started));
  }

  /** Keeps so many times as much time as usual for what comes after the search: drawings, more to measure. */
  keepFor(times: number): void {
    this.toFinish = TO_FINISH * times;
  }

  /** The search is over: what is still to do may take all the time there is, but for printing it. */
  release(): void {
    if (this.end < Infinity) this.ends = this.end - TO_PRINT * (this.end - this.io.started);
  }

  /** Parts the memory evenly with other threads; returns each one's, in MiB. */
  shared(threads: number): number {
    this.memory /= threads;
    return this.memory;
  }

  ignore(): void {
    this.stop?.();
    this.stop = undefined;
  }

  /** What to tell a search now. */
  word(): Signal {
    if (this.asked) return 'asked';
    const now = this.io.now();
    if (now >= this.ends) return 'time';
    if (!this.full && now - this.looked >= LOOK) {
      this.looked = now;
      this.full = this.io.isFull(this.memory);
    }
    return this.full ? 'memory' : 'go';
  }
}
