/**
 * A box about a place, grown until nothing on its faces is as good: whatever is as good outside it is
 * another place, for no way from one to the other stays as good.
 */

import type { PositionRanges } from '../../model/scenario.js';
import type { Candidate } from '../searching/request.js';
import type { Searches, Steps } from '../answering/searches.js';
import { LENGTH_STEP, PITCH_STEP } from './slack.js';
import type { Corners } from './conditions.js';

/** How far a face stands from the place at first, in steps of the slack: 3/8 in and 1.2 degrees. */
const FIRST_STEPS = 24;
/** How much further from the place a face goes that was not shut. */
const FURTHER = 2;

/** What boxes may still be spent on a question. */
export interface Budget {
  left: number;
}

/** Whether anything in some ranges is as good as asked. */
export type Answer =
  | { readonly found: 'none' }
  | { readonly found: 'some'; readonly candidate: Candidate }
  /** The search was left before it was known. */
  | { readonly found: 'unknown' };

/**
 * Look for a place that reaches a margin, under any options.
 * @param toTheEnd go on to the one of the least work, not only the first.
 */
export function* anyReaching(
  searches: Searches,
  ranges: PositionRanges,
  reach: number,
  budget: Budget,
  toTheEnd = false,
): Steps<Answer> {
  const before = searches.meter.effort.boxes;
  const state = yield* searches.run({
    doing: 'other places',
    ranges,
    reach,
    boxes: budget.left,
    first: !toTheEnd,
    still: true,
  });
  budget.left -= searches.meter.effort.boxes - before;
  if (state.best) return { found: 'some', candidate: state.best };
  return { found: state.done && state.stuck.length === 0 ? 'none' : 'unknown' };
}

/**
 * The box about `x` within `within`, and whether all its faces are shut: proved to have nothing that
 * reaches the margin, or at the ends of the ranges searched.
 */
export function* regionAbout(
  searches: Searches,
  x: Float64Array,
  within: Corners,
  ends: Corners,
  reach: number,
  budget: Budget,
): Steps<{ readonly box: Corners; readonly shut: boolean }> {
  const box = {
    lo: within.lo.map((low, k) => Math.max(low, x[k]! - firstStep(k))),
    hi: within.hi.map((high, k) => Math.min(high, x[k]! + firstStep(k))),
  };
  let shut = true;
  // A face that has moved makes the others larger, so each is asked again until none moves.
  const known = new Map<string, string>();
  for (let moved = true; moved;) {
    moved = false;
    for (let side = 0; side < 8; side++) {
      const k = side >> 1;
      const face = side & 1 ? box.hi : box.lo;
      const last = side & 1 ? ends.hi : ends.lo;
      if (face[k] === last[k]) continue;
      const key = `${box.lo.join()} ${box.hi.join()}`;
      if (known.get(String(side)) === key) continue;
      const answer = yield* anyReaching(searches, faceOf(box, k, face[k]!), reach, budget);
      known.set(String(side), key);
      if (answer.found === 'none') continue;
      const limit = side & 1 ? within.hi : within.lo;
      if (face[k] === limit[k] || budget.left <= 0 || searches.stopped) {
        shut = false;
        continue;
      }
      const out = x[k]! + FURTHER * (face[k]! - x[k]!);
      face[k] = side & 1 ? Math.min(limit[k]!, out) : Math.max(limit[k]!, out);
      moved = true;
    }
  }
  return { box, shut };
}

/** Ranges between two corners. */
export function rangesOf({ lo, hi }: Corners): PositionRanges {
  const at = (k: number) => ({ min: lo[k]!, max: hi[k]! });
  return { setback: at(0), offset: at(1), height: at(2), pitch: at(3) };
}

function faceOf(box: Corners, k: number, at: number): PositionRanges {
  const lo = Float64Array.from(box.lo);
  const hi = Float64Array.from(box.hi);
  lo[k] = at;
  hi[k] = at;
  return rangesOf({ lo, hi });
}

function firstStep(k: number): number {
  return FIRST_STEPS * (k === 3 ? PITCH_STEP : LENGTH_STEP);
}
