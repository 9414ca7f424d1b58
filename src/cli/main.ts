/** Where the process meets the command line: streams, signals and the exit status. */

import { isatty } from 'node:tty';
import type { Io } from './io.js';
import { run } from './run.js';
import { FAULT } from './status.js';

let isReading = false;

const io: Io = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  inIsTerminal: isatty(0),
  outIsTerminal: process.stdout.isTTY === true,
  errIsTerminal: process.stderr.isTTY === true,
  env: process.env,
  now: () => performance.now(),
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
    process.exit(error.code === 'EPIPE' ? undefined : FAULT);
  });
}

process.exitCode = await run(process.argv.slice(2), io);
// A terminal left open for a line that nobody waits for would keep the process from ending.
if (isReading) process.stdin.destroy();
