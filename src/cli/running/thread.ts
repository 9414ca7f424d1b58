/**
 * The thread that does the work of one command, while the first thread hears signals and keeps the clock. Only
 * what the streams, the terminal and the signals are is asked of that one.
 */

import { parentPort, workerData } from 'node:worker_threads';
import { countBusyIn } from './busy.js';
import type { Io } from '../io.js';
import { isFull } from './memory.js';
import { run } from '../run.js';
import { BEFORE_CLOCK, SHARED } from './shared.js';
import type { Heard, Job, Told } from './shared.js';
import { today } from '../today.js';

const { argv, shared, origin, terminal } = workerData as Job;
const port = parentPort!;
const words = new Int32Array(shared);
countBusyIn(words.subarray(SHARED.busy, SHARED.busy + 1));
const tell = (told: Told): void => port.postMessage(told);
const size = (which: number): number | undefined => Atomics.load(words, which) || undefined;
const stops = new Set<() => void>();
const ahead = BEFORE_CLOCK + performance.timeOrigin - origin;

const io: Io = {
  out: (text) => tell({ out: text }),
  err: (text) => tell({ err: text }),
  inIsTerminal: terminal.in,
  outIsTerminal: terminal.out,
  errIsTerminal: terminal.err,
  get outRows() {
    return size(SHARED.rows);
  },
  get errColumns() {
    return size(SHARED.columns);
  },
  env: process.env,
  started: 0,
  now: () => ahead + performance.now(),
  today,
  isFull,
  isAsked,
  breathe: async () => {
    await new Promise((resolve) => setImmediate(resolve));
    isAsked();
  },
  onInterrupt: (stop) => {
    stops.add(stop);
    Atomics.store(words, SHARED.listeners, stops.size);
    return () => {
      stops.delete(stop);
      Atomics.store(words, SHARED.listeners, stops.size);
    };
  },
  stdin,
};

function isAsked(): boolean {
  if (Atomics.load(words, SHARED.asked) === 0) return false;
  for (const stop of stops) stop();
  return true;
}

async function* stdin(): AsyncIterable<Uint8Array> {
  const waiting: Heard[] = [];
  let wake = (): void => undefined;
  const hear = (heard: Heard): void => {
    waiting.push(heard);
    wake();
  };
  port.on('message', hear);
  tell({ stdin: true });
  try {
    for (;;) {
      const next = waiting.shift();
      if (next === undefined) {
        await new Promise<void>((resolve) => (wake = resolve));
      } else if ('end' in next) return;
      else if ('failed' in next) throw Object.assign(new Error(next.failed), systemError(next));
      else yield next.piece;
    }
  } finally {
    port.off('message', hear);
  }
}

/** As Node marks errors of the system. */
function systemError({ failed }: { readonly failed: string }) {
  return { code: failed, syscall: 'read' };
}

tell({ status: await run(argv, io) });
