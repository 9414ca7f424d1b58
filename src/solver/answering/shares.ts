/**
 * Shares: the multipliers of the first-order model at a position. A rule's share is the margin gained
 * per unit of room given at it; shares sum to 1.
 */

import type { Position } from '../../model/scenario.js';
import type { Reading } from '../answer.js';
import { createLpResult, solveLp } from '../bounding/lp.js';
import { Rows } from '../rows.js';

const rows = new Rows();
const lp = createLpResult();

/** Half the model's box, millimetres: wide against rounding, narrow against curvature. */
const MODEL_HALF = 0.05;
/** The same for pitch, radians. */
const MODEL_TURN = 1e-4;
/** Millimetres above the tightest margin up to which a rule enters the model. */
const MODEL_DEPTH = 0.2;
/** A share below this is none. */
const LEAST_SHARE = 1e-6;

/**
 * Readings with the share of each binding rule. `free` tells which coordinates may move; `room` the
 * way left to each end of their ranges, so that a range end can carry part of the load.
 */
export function withShares(
  readings: readonly Reading[],
  room: { readonly down: Position; readonly up: Position },
): Reading[] {
  const tightest = Math.min(Infinity, ...readings.filter((r) => !r.fixed).map((r) => r.margin));
  rows.clear();
  const names = ['setback', 'offset', 'height', 'pitch'] as const;
  const half = names.map((name) => (name === 'pitch' ? MODEL_TURN : MODEL_HALF));
  const lo = names.map((name, k) => -Math.min(half[k]!, room.down[name]));
  const hi = names.map((name, k) => Math.min(half[k]!, room.up[name]));
  readings.forEach((reading, i) => {
    if (!reading.slope || reading.margin > tightest + MODEL_DEPTH) return;
    const row = rows.add(i, false);
    let value = reading.margin;
    names.forEach((name, k) => {
      value += (reading.slope![name] * (lo[k]! + hi[k]!)) / 2;
      rows.slopes[4 * row + k] = (reading.slope![name] * (hi[k]! - lo[k]!)) / 2;
    });
    rows.values[row] = value;
  });
  if (rows.count === 0) return [...readings];
  solveLp(
    rows,
    lo.map((low, k) => hi[k]! - low > 1e-12),
    lp,
  );
  const share = new Map<number, number>();
  for (let row = 0; row < rows.count; row++) {
    if (rows.share[row]! > LEAST_SHARE) share.set(rows.source[row]!, rows.share[row]!);
  }
  return readings.map((reading, i) => {
    const own = share.get(i);
    if (own === undefined) return reading;
    return { ...reading, binding: true, share: own };
  });
}
