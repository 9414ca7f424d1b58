/**
 * Work on a thread of its own, watched from the first one: signals are heard whatever it does, the time limit
 * holds even where it does not look at the clock, and running out of memory ends it and not the process.
 */

import { setTimeout as wait } from 'node:timers/promises';
import { Worker } from 'node:worker_threads';
import { countBusyIn } from './busy.js';
import type { Work } from './here.js';
import { LEAST_MEMORY, USUAL_MEMORY } from './interrupt.js';
import { STATUS, FAULT } from '../status.js';
import { TERMINAL } from './streams.js';
import { BEFORE_CLOCK, SHARED } from './shared.js';
import type { Heard, Job, Told } from './shared.js';

/** Says the last line of the process; false where another was said, or the answer came after all. */
type LastLine = (line: string) => Promise<boolean>;

/** A time limit may be passed by this share of it, all told... */
const LATE = 0.1;
/** ...of which an answer may take this to be put together, the rest being noise... */
const GRACE = 0.06;
/** ...and ending a thread and the process takes so many milliseconds. */
const TO_END = 120;

/** Milliseconds that a timer can count, 24 days; one that is longer would go off at once. */
const LONGEST = 0x7fffffff;

/** Milliseconds for a thread to end: one that is sweeping a large heap ends only after that. */
const PATIENCE = 3000;

const WORKER = new URL('./thread.js', import.meta.url);

/** Starts the work; ends the process where the work can no longer be waited for. */
export function workWatched(argv: readonly string[], lastLine: LastLine): Work {
  const shared = new SharedArrayBuffer(4 * Object.keys(SHARED).length);
  const words = new Int32Array(shared);
  countBusyIn(words.subarray(SHARED.busy, SHARED.busy + 1));
  followWindow(words);
  const typed = typedLast(argv, '--memory-limit', MEBIBYTES) ?? USUAL_MEMORY;
  // Under that there is no room to say that it is too little.
  const memory = Math.max(LEAST_MEMORY, typed);
  const job: Job = { argv, shared, origin: performance.timeOrigin, terminal: TERMINAL };
  const worker = new Worker(WORKER, {
    workerData: job,
    resourceLimits: { maxOldGenerationSizeMb: memory },
  });
  // What the thread tells after the last line comes too late.
  let isOver = false;
  const end = async (line: string, status: number): Promise<void> => {
    if (!(await lastLine(line))) return;
    isOver = true;
    // A thread that waits for the system (a pipe that nobody opens) cannot be ended but with the process.
    if (!(await hasEnded(worker, PATIENCE))) process.kill(process.pid, 'SIGKILL');
    process.exit(status);
  };
  let isReading = false;
  let isAnswered = false;
  let hasStatus = false;
  const isInHand = () => Atomics.load(words, SHARED.listeners) > 0;
  const late = (limit: number, why: string): void => {
    const line = `stopped by the time limit (${limit} s), ${why}`;
    if (!isAnswered) void end(line, STATUS.undecided);
  };
  const timers = timersOf(typedLast(argv, '--time-limit', SECONDS), {
    atLimit: (limit) => isInHand() || late(limit, 'before anything was found'),
    atLast: (limit) => late(limit, 'before the answer was put together'),
  });
  const status = new Promise<number>((resolve) => {
    worker.on('message', (told: Told) => {
      if (isOver) return;
      if ('out' in told) {
        isAnswered = true;
        process.stdout.write(told.out);
      } else if ('err' in told) process.stderr.write(told.err);
      else if ('status' in told) {
        isAnswered = hasStatus = true;
        resolve(told.status);
      } else {
        isReading = true;
        void passStdin(worker).finally(() => (isReading = false));
      }
    });
    worker.on('error', (error: Error & { code?: string }) => {
      if (error.code === 'ERR_WORKER_OUT_OF_MEMORY') {
        const shown = isAnswered ? 'after the answer was told' : 'with nothing to show';
        void end(`stopped by the memory limit (${memory} MiB), ${shown}`, STATUS.undecided);
      } else void end(`a fault in Berth itself: ${error.message.slice(0, 300)}`, FAULT);
    });
    worker.on('exit', () => {
      if (!hasStatus) void end('a fault in Berth itself: its thread has ended', FAULT);
    });
  });
  return {
    isTold: () => isAnswered,
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

/**
 * Ends a thread; false where it has not ended in so many milliseconds. One that has ended by itself, for want of
 * memory say, counts as ended: what `terminate` gives then is `undefined`.
 */
export function hasEnded(worker: Worker, patience: number): Promise<boolean> {
  return Promise.race([worker.terminate().then(() => true), wait(patience, false)]);
}

/** Seconds and MiB as the options of a command take them. */
const SECONDS = '\\d*\\.?\\d+';
const MEBIBYTES = '\\d{1,7}';

/**
 * The number typed last with an option, told before the thread that reads options has started; what is wrong
 * with one is said there.
 */
function typedLast(argv: readonly string[], option: string, number: string): number | undefined {
  const typed = new RegExp(`(?<![^\0])${option}[=\0] *(${number}) *(?![^\0])`, 'g');
  const last = [...argv.join('\0').matchAll(typed)].at(-1);
  return last && Number(last[1]);
}

/** Calls when a time limit, in seconds from the start of the program, and what may be added to it are over. */
function timersOf(
  limit: number | undefined,
  then: { readonly atLimit: (limit: number) => void; readonly atLast: (limit: number) => void },
): NodeJS.Timeout[] {
  // Nothing is no limit, which is said where options are read.
  if (limit === undefined || limit === 0) return [];
  const ms = 1000 * limit;
  const last = Math.min(ms * (1 + GRACE), ms * (1 + LATE) - TO_END);
  const left = (at: number) =>
    Math.min(LONGEST, Math.max(0, at - BEFORE_CLOCK - performance.now()));
  return [
    setTimeout(() => then.atLimit(limit), left(Math.min(ms, last))),
    setTimeout(() => then.atLast(limit), left(last)),
  ];
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
