import { minOf } from '../../model/extremes.js';
import type { OptionSet } from '../../model/scenario.js';
import { limitSlack } from './limits.js';
import type { ReadyLimit } from './limits.js';

/** First and last step of the search, millimetres of travel. */
const FIRST_STEP = 256;
const LAST_STEP = 1 / 64;
/** Millimetres of travel for a radian of pitch. */
const PITCH_LEVER = 400;

/**
 * Where the worst-missed limit is missed by the least, looked for from the middle of the ranges by a
 * compass search: for showing a place where none meets them all. Proves nothing.
 */
export function nearestToLimits(
  limits: readonly ReadyLimit[],
  set: OptionSet,
  lo: Float64Array,
  hi: Float64Array,
): Float64Array {
  const slackAt = (x: Float64Array): number =>
    Math.min(0, minOf(limits.map((limit) => inMillimetres(limit, limitSlack(limit, set, x)))));
  let x = lo.map((low, k) => (low + hi[k]!) / 2);
  let slack = slackAt(x);
  for (let step = FIRST_STEP; step >= LAST_STEP && slack < 0;) {
    let moved = false;
    for (let k = 0; k < 4; k++) {
      for (const way of [-1, 1]) {
        const next = Float64Array.from(x);
        const far = x[k]! + (way * step) / (k === 3 ? PITCH_LEVER : 1);
        next[k] = Math.min(hi[k]!, Math.max(lo[k]!, far));
        const found = slackAt(next);
        if (found <= slack) continue;
        x = next;
        slack = found;
        moved = true;
      }
    }
    if (!moved) step /= 2;
  }
  return x;
}

function inMillimetres(limit: ReadyLimit, slack: number): number {
  if (limit.kind === 'weight') return slack * limit.lever;
  const isAngle = limit.kind === 'joint' || (limit.kind === 'coordinate' && limit.coordinate === 3);
  return isAngle ? slack * PITCH_LEVER : slack;
}
