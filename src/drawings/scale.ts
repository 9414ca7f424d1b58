/** Usual drawing scales, and the bar that shows one. */

import type { Units } from '../model/text/tape.js';
import * as trig from '../model/trig.js';

/** How many times smaller than life a drawing may be; between powers of ten the first ones repeat. */
const USUAL = [1, 2, 4, 5, 8];

/** The largest usual scale, as how many times smaller than life, at which a size fits a room; mm. */
export function usualScale(
  size: readonly [number, number],
  room: readonly [number, number],
): number {
  const least = Math.max(size[0] / room[0], size[1] / room[1], Number.MIN_VALUE);
  for (let power = trig.powerOfTen(least); ; power++) {
    for (const step of power === 1 ? [1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8] : USUAL) {
      // A tenth and the like are not exact: a scale enlarged is one over a whole number.
      const scale =
        power < 0 ? 1 / Math.round(trig.tenTo(-power) / step) : step * trig.tenTo(power);
      if (scale >= least) return scale;
    }
  }
}

/** `1:8`, or `2:1` where the drawing is larger than life. */
export function scaleWords(scale: number): string {
  return scale >= 1
    ? `1:${Number(scale.toPrecision(6))}`
    : `${Number((1 / scale).toPrecision(6))}:1`;
}

/** A bar of a round length that takes at most so many millimetres of paper. */
export function scaleBar(
  scale: number,
  units: Units,
  most: number,
): { readonly words: string; readonly paper: number; readonly parts: number } {
  const mm = units === 'in' ? 25.4 : 1;
  const usual = units === 'in' ? [1, 2, 3, 6, 12, 24, 36, 60] : [1, 2, 5];
  let best = { words: '', paper: 0, parts: 1 };
  for (let power = -3; power <= 6; power++) {
    for (const step of usual) {
      const length = step * trig.tenTo(power);
      const paper = (length * mm) / scale;
      if (paper > most || paper <= best.paper) continue;
      const parts = step % 3 === 0 ? 3 : step === 5 ? 5 : 2;
      best = { words: `${Number(length.toPrecision(6))} ${units}`, paper, parts };
    }
  }
  return best;
}
