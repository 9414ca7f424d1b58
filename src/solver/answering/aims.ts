/** Aims other than the roomiest place: which coordinate each pushes, and which way. */

import type { PositionRanges, Range } from '../../model/scenario.js';
import type { Aim } from '../answer.js';
import type { CoordinateObjective } from '../searching/objective.js';

export type SpecialAim = Exclude<Aim, 'margin'>;

export const TOWARDS = {
  low: (keep: number) => towards(2, -1, keep),
  back: (keep: number) => towards(0, 1, keep),
};
export const COORDINATE_OF = { centre: 'offset', low: 'height', back: 'setback' } as const;
export const COORDINATE_INDEX = { centre: 1, low: 2, back: 0 } as const;

/** What an aim maximises, and within which ranges; the centre is approached from either side. */
export function targetsOf(
  aim: SpecialAim,
  keep: number,
  ranges: PositionRanges,
): (readonly [CoordinateObjective, PositionRanges])[] {
  if (aim !== 'centre') return [[TOWARDS[aim](keep), ranges]];
  const { min, max } = ranges.offset;
  const targets: (readonly [CoordinateObjective, PositionRanges])[] = [];
  if (max >= 0) {
    const right = { ...ranges, offset: { min: Math.max(0, min), max } };
    targets.push([towards(1, -1, keep), right]);
  }
  if (min <= 0) {
    const left = { ...ranges, offset: { min, max: Math.min(0, max) } };
    targets.push([towards(1, 1, keep), left]);
  }
  return targets;
}

/** The first mark at or beyond the aimed coordinate, on the side that gives room; itself if none is. */
export function markBeyond(aim: SpecialAim, at: number, step: number, range: Range): number {
  const up = aim === 'low' || (aim === 'centre' && at > 0);
  // A coordinate on a mark stays there: rounding must not cost it a step.
  const steps = at / step;
  const mark = step * (up ? Math.ceil(steps - 1e-9) : Math.floor(steps + 1e-9));
  return inside(mark, range) ? mark : at;
}

export function inside(value: number, range: Range): boolean {
  return value >= range.min && value <= range.max;
}

/** Whether a range leaves nothing to choose. */
export function pinned(range: Range): boolean {
  return range.max - range.min <= 1e-9;
}

function towards(coordinate: 0 | 1 | 2, sign: 1 | -1, keep: number): CoordinateObjective {
  return { kind: 'coordinate', coordinate, sign, keep };
}
