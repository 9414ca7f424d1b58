/** The process's own streams: what cannot be written is said, a reader that has gone is no fault. */

import { writeSync } from 'node:fs';
import { isatty } from 'node:tty';
import { CANNOT_WRITE } from './status.js';

const CANNOT: Readonly<Record<string, string>> = {
  ENOSPC: 'no space',
  EDQUOT: 'no space',
  EIO: 'the device failed',
};

/** Which streams are terminals; no stream is opened to find out. */
export const TERMINAL = { in: isatty(0), out: isatty(1), err: isatty(2) } as const;

/**
 * Hears what goes wrong in writing.
 * @param gone called when nobody reads what is written any more (`| head`).
 */
export function watchStreams(gone: () => void): void {
  for (const stream of [process.stdout, process.stderr]) {
    stream.on('error', ({ code = '' }: NodeJS.ErrnoException) => {
      if (code === 'EPIPE' || code === 'ERR_STREAM_DESTROYED') {
        gone();
        return;
      }
      sayAtOnce(`cannot write the answer: ${CANNOT[code] ?? code}\n`);
      process.exit(CANNOT_WRITE);
    });
  }
}

/** Past any stream, for the process ends. */
export function sayAtOnce(text: string): void {
  try {
    writeSync(2, text);
  } catch {
    // Nor can this be written: the status says it.
  }
}
