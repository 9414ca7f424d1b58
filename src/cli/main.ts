/** Where the process meets the command line: streams, signals and the exit status. */

import { writeSync } from 'node:fs';
import { isatty } from 'node:tty';
import type { Io } from './io.js';
import { run } from './run.js';
import { CANNOT_WRITE } from './status.js';

const CANNOT: Readonly<Record<string, string>> = {
  ENOSPC: 'no space',
  EDQUOT: 'no space',
  EIO: 'the device failed',
};

let isReading = false;

const io: Io = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  inIsTerminal: isatty(0),
  outIsTerminal: process.stdout.isTTY === true,
  errIsTerminal: process.stderr.isTTY === true,
  // Asked each time: a window may be resized.
  get outRows() {
    return process.stdout.rows;
  },
  get errColumns() {
    return process.stderr.columns;
  },
  env: process.env,
  now: () => performance.now(),
  today: () => {
    const now = new Date();
    const two = (value: number) => String(value).padStart(2, '0');
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  },
  breathe: () => new Promise((resolve) => setImmediate(resolve)),
  // Heard once: with no listener left, the second one ends the process at once, whatever it does.
  onInterrupt: (stop) => {
    process.once('SIGINT', stop);
    return () => process.off('SIGINT', stop);
  },
  stdin: () => {
    isReading = true;
    return process.stdin;
  },
};

// A reader that has had enough (`| head`) is no fault: leave with the status already known.
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit();
    sayCannotWrite(error);
    process.exit(CANNOT_WRITE);
  });
}

/** At once and past any stream, for the process ends. */
function sayCannotWrite({ code = '' }: NodeJS.ErrnoException): void {
  const why = CANNOT[code] ?? code;
  try {
    writeSync(process.stderr.fd, `cannot write the answer: ${why}\n`);
  } catch {
    // Nor can this be written: the status says it.
  }
}

process.exitCode = await run(process.argv.slice(2), io);
// A terminal left open for a line that nobody waits for would keep the process from ending.
if (isReading) process.stdin.destroy();
