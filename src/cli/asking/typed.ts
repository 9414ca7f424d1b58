/** What a person types, or pipes in, a line at a time. */

import type { Io } from '../io.js';

/** Longer lines than any answer are cut here, so that a stream without line ends cannot fill memory. */
const LONGEST = 2000;

/** Lines of standard input, without their ends; the last one may lack its end. */
export async function* typedLines(io: Io): AsyncGenerator<string, void> {
  const decoder = new TextDecoder();
  let held = '';
  for await (const chunk of io.stdin()) {
    const pieces = (held + decoder.decode(chunk, { stream: true })).split(/\r\n|\n|\r(?!$)/);
    held = pieces.pop()!.slice(0, LONGEST);
    yield* pieces;
  }
  const last = held + decoder.decode();
  if (last !== '') yield last.replace(/\r$/, '');
}
