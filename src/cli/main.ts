/** Where the process meets the command line: which thread works, what ends the process, and its status. */

import { setTimeout as wait } from 'node:timers/promises';
import { isBusy } from './running/busy.js';
import { BAD_INPUT } from './status.js';
import { overProgress, sayAtOnce, TERMINAL, watchStreams } from './running/streams.js';

/** Commands that only wait, or are done at once. */
const SHORT = ['init', 'explore', 'schema'];
/** What ends a program: Ctrl-C, a polite request, and the terminal's window closed. */
const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
/** Milliseconds between looks at whether a file is still being written, and how many of them. */
const LOOK = 5;
const LOOKS = 400;
/** Milliseconds in which files just written are told of. */
const TELLING = 60;

const argv = process.argv.slice(2);
const isShort =
  argv.length === 0 ||
  SHORT.includes(argv[0]!) ||
  argv.some((word) => ['-h', '--help', '--version'].includes(word));

let isEnding = false;
let isAsked = false;

/** Waits for files that are being written; true where nothing was left to do but that. */
async function filesWritten(): Promise<boolean> {
  if (!isBusy()) return false;
  const wasTold = work.isTold();
  for (let look = 0; isBusy() && look < LOOKS; look++) await wait(LOOK);
  if (!isBusy()) await wait(TELLING);
  return !wasTold && work.isTold();
}

/** Says a last line, over no file half written; false where another was said or the answer came after all. */
async function lastLine(line: string): Promise<boolean> {
  if (isEnding) return false;
  isEnding = true;
  if (await filesWritten()) {
    isEnding = false;
    return false;
  }
  sayAtOnce(TERMINAL.err ? overProgress(line, process.stderr.columns) : `${line}\n`);
  return true;
}

/** Whether the working folder is still there: without one no thread starts, and no path has a beginning. */
function hasFolder(): boolean {
  try {
    return process.cwd() !== '';
  } catch {
    return false;
  }
}

/** Ends the process as the signal does that nobody hears: at once, whatever its threads wait for. */
async function endBy(signal: (typeof SIGNALS)[number]): Promise<void> {
  if (!(await lastLine('stopped'))) return;
  process.removeAllListeners(signal);
  process.kill(process.pid, signal);
}

if (!hasFolder()) {
  sayAtOnce('the folder that this was started in is no longer there: go to another\n');
  process.exit(BAD_INPUT);
}

const work = isShort
  ? (await import('./running/here.js')).workHere(argv)
  : (await import('./running/watch.js')).workWatched(argv, lastLine);

for (const signal of SIGNALS) {
  process.on(signal, () => {
    if (!isAsked && work.ask()) isAsked = true;
    else void endBy(signal);
  });
}

watchStreams({
  // A reader that has had enough (`| head`) is no fault: leave with the status of the work.
  gone: () => {
    if (isShort) process.exit();
  },
  ready: async () => void (await filesWritten()),
});

process.exitCode = await work.status;
