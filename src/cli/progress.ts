/** Runs a search step by step: shows how far it is, keeps the clock, and stops it when asked. */

import type { Units } from '../model/tape.js';
import type { PlaceAnswer, Progress } from '../solver/answer.js';
import type { Io } from './io.js';
import { fit, WIDTH } from './report/text.js';
import type { Look } from './report/text.js';
import { boundWords, spare } from './report/words.js';

/** Milliseconds: a search shorter than this shows nothing. */
const QUIET = 500;

/** Milliseconds between looks at the clock's consequences: signals, and the line. */
const BREATH = 30;
const REDRAW = 100;

const CLEAR_LINE = '\r\u001b[2K';

export type Search = Generator<Progress, PlaceAnswer, 'go' | 'time' | 'asked'>;

/**
 * Drives a search to its answer.
 * @param limit seconds, or none.
 */
export async function drive(
  search: Search,
  io: Io,
  showing: { readonly limit?: number; readonly units: Units; readonly look: Look },
): Promise<PlaceAnswer> {
  const began = io.now();
  const ends = showing.limit === undefined ? Infinity : began + showing.limit * 1000;
  let asked = false;
  let breathed = began;
  let drawn = -Infinity;
  const ignore = io.onInterrupt(() => {
    asked = true;
  });
  try {
    let word: 'go' | 'time' | 'asked' = 'go';
    for (;;) {
      const step = search.next(word);
      if (step.done === true) return step.value;
      const now = io.now();
      if (now - breathed >= BREATH) {
        await io.breathe();
        breathed = io.now();
      }
      if (io.errIsTerminal && now - began >= QUIET && now - drawn >= REDRAW) {
        io.err(CLEAR_LINE + progressLine(step.value, (now - began) / 1000, showing));
        drawn = now;
      }
      if (asked) word = 'asked';
      else if (io.now() >= ends) word = 'time';
    }
  } finally {
    ignore();
    if (drawn > -Infinity) io.err(CLEAR_LINE);
  }
}

/** `all options: best 3/16 to spare, at most 7/8 to spare, 1204 boxes, 2 s`. */
function progressLine(
  progress: Progress,
  seconds: number,
  { units, look }: { readonly units: Units; readonly look: Look },
): string {
  const { doing, best, bound, effort } = progress;
  const at = `best ${spare(best, units)}, at most ${boundWords(bound, units)}`;
  // One column short of the edge, where some terminals would start a new line.
  const line = `${doing}: ${at}; ${effort.boxes} boxes, ${Math.floor(seconds)} s (Ctrl-C to stop)`;
  return fit(line, WIDTH - 1, look);
}
