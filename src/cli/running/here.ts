/** Commands that wait more than they work run on the first thread. */

import { today } from '../today.js';
import type { Io } from '../io.js';
import { isFull } from './memory.js';
import { run } from '../run.js';
import { TERMINAL } from './streams.js';

/** A command at work: whether Ctrl-C was of use to it, and its status in the end. */
export interface Work {
  /** Passes Ctrl-C on; false where nobody would do anything about it. */
  ask(): boolean;
  /** Whether its answer is out; never of commands that tell as they go. */
  isTold(): boolean;
  readonly status: Promise<number>;
}

export function workHere(argv: readonly string[]): Work {
  const stops = new Set<() => void>();
  let isReading = false;
  const io: Io = {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    inIsTerminal: TERMINAL.in,
    outIsTerminal: TERMINAL.out,
    errIsTerminal: TERMINAL.err,
    // Asked each time: a window may be resized.
    get outRows() {
      return process.stdout.rows;
    },
    get errColumns() {
      return process.stderr.columns;
    },
    env: process.env,
    started: 0,
    now: () => performance.now(),
    today,
    isFull,
    isAsked: () => false,
    breathe: () => new Promise((resolve) => setImmediate(resolve)),
    onInterrupt: (stop) => {
      stops.add(stop);
      return () => void stops.delete(stop);
    },
    stdin: () => {
      isReading = true;
      return process.stdin;
    },
  };
  const status = run(argv, io).finally(() => {
    // A terminal left open for a line that nobody waits for would keep the process from ending.
    if (isReading) process.stdin.destroy();
  });
  return {
    ask: () => {
      for (const stop of stops) stop();
      return stops.size > 0;
    },
    isTold: () => false,
    status,
  };
}
