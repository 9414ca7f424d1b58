/** The process's own streams: what cannot be written is said, a reader that has gone is no fault. */

import { writeSync } from 'node:fs';
import { isatty } from 'node:tty';
import { CANNOT_WRITE } from '../status.js';

const CANNOT: Readonly<Record<string, string>> = {
  ENOSPC: 'no space',
  EDQUOT: 'no space',
  EFBIG: 'no space',
  EIO: 'the device failed',
};

/** Columns that a line of progress may have. */
const WIDTH = 80;

/** Which streams are terminals; no stream is opened to find out. */
export const TERMINAL = { in: isatty(0), out: isatty(1), err: isatty(2) } as const;

/** What is done when something goes wrong in writing. */
export interface Heeding {
  /** Nobody reads what is written any more (`| head`). */
  readonly gone: () => void;
  /** The answer cannot be written, and the process ends once this is done. */
  readonly ready: () => Promise<void>;
}

/** Hears what goes wrong in writing. The answer is what counts: what is said beside it may be lost. */
export function watchStreams({ gone, ready }: Heeding): void {
  let isSaid = false;
  process.stderr.on('error', () => undefined);
  process.stdout.on('error', ({ code = '' }: NodeJS.ErrnoException) => {
    if (code === 'EPIPE' || code === 'ERR_STREAM_DESTROYED') {
      gone();
      return;
    }
    if (isSaid) return;
    isSaid = true;
    sayAtOnce(`cannot write the answer: ${CANNOT[code] ?? code}\n`);
    void ready().then(() => process.exit(CANNOT_WRITE));
  });
}

/**
 * A line in the place of whatever line of progress stands on a terminal.
 * @param columns of the terminal; one that does not know its own says 0.
 */
export function overProgress(line: string, columns: number | undefined): string {
  const width = columns === undefined || columns <= 0 ? WIDTH : Math.min(WIDTH, columns);
  return `\r${' '.repeat(width - 1)}\r${line}\n`;
}

/** Past any stream, for the process ends. */
export function sayAtOnce(text: string): void {
  try {
    writeSync(2, text);
  } catch {
    // Nor can this be written: the status says it.
  }
}
