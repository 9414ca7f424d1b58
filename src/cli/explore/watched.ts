/**
 * A file that others write while it is looked at. Editors put a new file in the old one's place, so the folder
 * is watched; and some disks tell of nothing, so it is looked at now and then as well.
 */

import { watch } from 'node:fs';
import { stat } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import { readInput } from '../io.js';
import type { Io } from '../io.js';
import { UserError } from '../problems.js';

/** Milliseconds: between looks when nothing is told, and from a change to the look at it, while more may follow. */
const EVERY = 500;
const SETTLE = 40;

export interface Heard {
  /** The file's text is another. */
  changed(text: string): void;
  /** The file cannot be read any more, and why; said once. */
  lost(why: string): void;
}

export class WatchedFile {
  private held: string;
  private why: string | undefined;
  private stamp = '';
  private readonly timer: NodeJS.Timeout;
  private soon: NodeJS.Timeout | undefined;
  private readonly stopWatching: () => void;
  private looking: Promise<void> = Promise.resolve();
  private closed = false;

  /** @param text what the file held when it was first read. */
  constructor(
    private readonly path: string,
    text: string,
    private readonly io: Io,
    private readonly heard: Heard,
  ) {
    this.held = text;
    this.timer = setInterval(() => void this.lookIfTouched(), EVERY);
    this.stopWatching = this.watchFolder();
  }

  /** What the file held when last read. */
  get text(): string {
    return this.held;
  }

  /** Why it cannot be read, when it cannot. */
  get lost(): string | undefined {
    return this.why;
  }

  /** Reads the file again, and tells when it holds something else. Never throws. */
  look(): Promise<void> {
    // One after another, so that an older text is never told last.
    this.looking = this.looking.then(() => this.read());
    return this.looking;
  }

  close(): void {
    this.closed = true;
    clearInterval(this.timer);
    clearTimeout(this.soon);
    this.stopWatching();
  }

  private async read(): Promise<void> {
    if (this.closed) return;
    try {
      const { text } = await readInput(this.path, this.io);
      const wasLost = this.why !== undefined;
      this.why = undefined;
      if (text === this.held && !wasLost) return;
      this.held = text;
      this.heard.changed(text);
    } catch (error) {
      const why = error instanceof UserError ? error.message : String(error);
      if (why === this.why) return;
      this.why = why;
      this.heard.lost(why);
    }
  }

  private async lookIfTouched(): Promise<void> {
    const stamp = await stamped(this.path);
    if (stamp === this.stamp) return;
    this.stamp = stamp;
    await this.look();
  }

  private lookSoon(): void {
    clearTimeout(this.soon);
    this.soon = setTimeout(() => void this.look(), SETTLE);
  }

  private watchFolder(): () => void {
    try {
      const name = basename(this.path);
      const watcher = watch(dirname(this.path), { persistent: false }, (_kind, which) => {
        if (which === null || which === name) this.lookSoon();
      });
      // Told of no more, the timer still looks.
      watcher.on('error', () => watcher.close());
      return () => watcher.close();
    } catch {
      return () => undefined;
    }
  }
}

/** What changes when a file is written or another is put in its place. */
async function stamped(path: string): Promise<string> {
  try {
    const { mtimeMs, size, ino } = await stat(path);
    return `${mtimeMs} ${size} ${ino}`;
  } catch {
    return 'none';
  }
}
