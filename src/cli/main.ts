/** Where the process meets the command line: which thread works, what ends the process, and its status. */

import { setTimeout as wait } from 'node:timers/promises';
import { isBusy } from './busy.js';
import { sayAtOnce, TERMINAL, watchStreams } from './streams.js';

/** Commands that only wait, or are done at once. */
const SHORT = ['init', 'explore', 'schema'];
const SIGNALS = ['SIGINT', 'SIGTERM'] as const;
/** Milliseconds between looks at whether a file is still being written, and how many of them. */
const LOOK = 5;
const LOOKS = 400;

const argv = process.argv.slice(2);
const isShort =
  argv.length === 0 ||
  SHORT.includes(argv[0]!) ||
  argv.some((word) => ['-h', '--help', '--version'].includes(word));

let isEnding = false;
let isAsked = false;

/** Says a last line, once no file is half written; false where that is being done already. */
async function lastLine(line: string): Promise<boolean> {
  if (isEnding) return false;
  isEnding = true;
  for (let look = 0; isBusy() && look < LOOKS; look++) await wait(LOOK);
  const width = Math.min(80, process.stderr.columns ?? 80) - 1;
  // Over whatever line of progress stands there.
  sayAtOnce(`${TERMINAL.err ? `\r${' '.repeat(width)}\r` : ''}${line}\n`);
  return true;
}

/** Ends the process as the signal does that nobody hears: at once, whatever its threads wait for. */
async function endBy(signal: (typeof SIGNALS)[number]): Promise<void> {
  if (!(await lastLine('stopped'))) return;
  process.removeAllListeners(signal);
  process.kill(process.pid, signal);
}

const work = isShort
  ? (await import('./here.js')).workHere(argv)
  : (await import('./watch.js')).workWatched(argv, lastLine);

for (const signal of SIGNALS) {
  process.on(signal, () => {
    if (!isAsked && work.ask()) isAsked = true;
    else void endBy(signal);
  });
}

// A reader that has had enough (`| head`) is no fault: leave with the status of the work.
watchStreams(() => {
  if (isShort) process.exit();
});

process.exitCode = await work.status;
