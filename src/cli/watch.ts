/**
 * Work on a thread of its own, watched from the first one: signals are heard whatever it does, the time limit
 * holds even where it does not look at the clock, and running out of memory ends it and not the process.
 */

import { setTimeout as wait } from 'node:timers/promises';
import { Worker } from 'node:worker_threads';
import { countBusyIn } from './busy.js';
import type { Work } from './here.js';
import { USUAL_MEMORY } from './interrupt.js';
import { STATUS, FAULT } from './status.js';
import { TERMINAL } from './streams.js';
import { SHARED } from './shared.js';
import type { Heard, Job, Told } from './shared.js';

/** Says the last line of the process; false where another has been said. */
type LastLine = (line: string) => Promise<boolean>;

/** A time limit may be passed by this share of it while an answer is put together. */
const GRACE = 0.06;

/** Milliseconds for a thread to end. */
const PATIENCE = 500;

const WORKER = new URL('./thread.js', import.meta.url);

/** Starts the work; ends the process where the work can no longer be waited for. */
export function workWatched(argv: readonly string[], lastLine: LastLine): Work {
  const shared = new SharedArrayBuffer(4 * Object.keys(SHARED).length);
  const words = new Int32Array(shared);
  countBusyIn(words.subarray(SHARED.busy, SHARED.busy + 1));
  followWindow(words);
  const memory = memoryIn(argv);
  const job: Job = { argv, shared, origin: performance.timeOrigin, terminal: TERMINAL };
  const worker = new Worker(WORKER, {
    workerData: job,
    resourceLimits: { maxOldGenerationSizeMb: memory },
  });
  const end = async (line: string, status: number): Promise<void> => {
    if (!(await lastLine(line))) return;
    const isOver = await Promise.race([worker.terminate(), wait(PATIENCE)]);
    // A thread that waits for the system (a pipe that nobody opens) cannot be ended but with the process.
    if (isOver === undefined) process.kill(process.pid, 'SIGKILL');
    process.exit(status);
  };
  let isReading = false;
  let isAnswered = false;
  let timers: readonly NodeJS.Timeout[] = [];
  const isInHand = () => Atomics.load(words, SHARED.listeners) > 0;
  const outOfTime = (limit: number): void => {
    const by = `stopped by the time limit (${limit / 1000} s)`;
    const late = (why: string) => isAnswered || void end(`${by}, ${why}`, STATUS.undecided);
    const left = (at: number) => Math.max(0, at - performance.now());
    timers = [
      setTimeout(() => isInHand() || late('before anything was found'), left(limit)),
      setTimeout(() => late('before the answer was put together'), left(limit * (1 + GRACE))),
    ];
  };
  const status = new Promise<number>((resolve) => {
    worker.on('message', (told: Told) => {
      if ('out' in told) {
        isAnswered = true;
        process.stdout.write(told.out);
      } else if ('err' in told) process.stderr.write(told.err);
      else if ('until' in told) outOfTime(told.until);
      else if ('status' in told) {
        isAnswered = true;
        resolve(told.status);
      } else {
        isReading = true;
        void passStdin(worker).finally(() => (isReading = false));
      }
    });
    worker.on('error', (error: Error & { code?: string }) => {
      if (error.code === 'ERR_WORKER_OUT_OF_MEMORY') {
        void end(
          `stopped by the memory limit (${memory} MiB), with nothing to show`,
          STATUS.undecided,
        );
      } else void end(`a fault in Berth itself: ${error.message.slice(0, 300)}`, FAULT);
    });
  });
  return {
    ask: () => {
      if (isAnswered) return true;
      if (isReading || !isInHand()) return false;
      Atomics.store(words, SHARED.asked, 1);
      return true;
    },
    status: status.finally(() => {
      timers.forEach(clearTimeout);
      if (isReading) process.stdin.destroy();
    }),
  };
}

/** MiB, as typed; what is wrong with it is said where options are read. */
function memoryIn(argv: readonly string[]): number {
  const typed = /(?:^|\0)--memory-limit[=\0](\d+)(?:\0|$)/.exec(argv.join('\0'));
  return Number(typed?.[1] ?? 0) || USUAL_MEMORY;
}

/** Keeps the size of the window where the thread sees it. */
function followWindow(words: Int32Array): void {
  const note = (): void => {
    Atomics.store(words, SHARED.rows, process.stdout.rows ?? 0);
    Atomics.store(words, SHARED.columns, process.stderr.columns ?? 0);
  };
  note();
  for (const stream of [process.stdout, process.stderr]) stream.on('resize', note);
}

async function passStdin(worker: Worker): Promise<void> {
  const tell = (heard: Heard): void => worker.postMessage(heard);
  try {
    for await (const piece of process.stdin as AsyncIterable<Uint8Array>) tell({ piece });
    tell({ end: true });
  } catch (error) {
    tell({ failed: String((error as { code?: unknown }).code) });
  }
}
