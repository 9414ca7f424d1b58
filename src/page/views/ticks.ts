/** The marks of a tape rule along an edge of a view, in the file's units, from a datum. */

import { maxOf, minOf } from '../../model/extremes.js';
import type { Units } from '../../model/text/tape.js';

export interface Tick {
  /** Pixels along the edge. */
  readonly at: number;
  /** 0 for the shortest mark, up to 1. */
  readonly rank: number;
  /** What the mark reads, where it is told. */
  readonly text?: string;
}

export interface Edge {
  /** Pixels. */
  readonly length: number;
  /** Millimetres from the datum at pixel 0, and a pixel's worth, less than 0 where the rule runs the other way. */
  readonly start: number;
  readonly perPixel: number;
}

/** Pixels that marks, and what they read, must be apart. */
const APART = 5;
const READ_APART = 44;

/** Divisions from fine to coarse, in the units of the rule. */
const DIVISIONS: Readonly<Record<Units, readonly number[]>> = {
  in: [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 4, 6, 12, 24, 48, 96],
  mm: [1, 5, 10, 50, 100, 200, 500, 1000, 2000],
};

/** Every mark between the ends of an edge. */
export function ticksOf({ length, start, perPixel }: Edge, units: Units): Tick[] {
  const size = units === 'in' ? 25.4 : 1;
  const pixels = (division: number): number => (division * size) / Math.abs(perPixel);
  const known = DIVISIONS[units];
  const fine = known.find((one) => pixels(one) >= APART) ?? known.at(-1)!;
  const read = known.find((one) => {
    return one >= 1 && pixels(one) >= READ_APART && isOn(one, fine);
  });
  const ends = [start / size, (start + length * perPixel) / size];
  const first = Math.ceil(minOf(ends) / fine - 1e-9);
  const last = Math.floor(maxOf(ends) / fine + 1e-9);
  const ticks: Tick[] = [];
  for (let n = first; n <= last; n++) {
    const value = n * fine;
    const isRead = read !== undefined && isOn(value, read);
    ticks.push({
      at: (value * size - start) / perPixel,
      rank: isRead ? 1 : rankOf(value, fine, known),
      ...(isRead && { text: String(Math.round(Math.abs(value))) }),
    });
  }
  return ticks.sort((a, b) => a.at - b.at);
}

function isOn(value: number, division: number): boolean {
  return Math.abs(value / division - Math.round(value / division)) < 1e-6;
}

/** The coarser the division a mark is on, the longer it is. */
function rankOf(value: number, fine: number, known: readonly number[]): number {
  const from = known.indexOf(fine);
  const coarser = known.slice(from + 1, from + 4).filter((one) => isOn(value, one)).length;
  return coarser * 0.22;
}
