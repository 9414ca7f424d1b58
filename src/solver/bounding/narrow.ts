/**
 * Cutting off the ends of a box where one row alone leaves too little.
 *
 * A row lies above its contact's margin all over the box. Where even its greatest value on a slab at one
 * end of a coordinate is too little, no place in the slab is of use; what one row cuts off lets the next
 * cut more (bounds tightening by feasibility, common practice in global optimisation, from memory).
 */

import { DIMENSIONS } from '../rows.js';
import type { Rows } from '../rows.js';

/** Times that the rows are gone through at the most. */
const PASSES = 3;
/** Kept beyond where a row says: of half the box's width, and of the row's own terms. */
const ROUNDING = 1e-9;
const ROW_ROUNDING = 1e-12;
/** Millimetres over half the box's width: a row that rises less cuts nothing worth its rounding. */
const FLAT = 1e-9;

/** What is left of a box, in [-1, 1] a coordinate. */
export interface Narrowed {
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** Whether a soft row, and not hard ones alone, cut something off. */
  soft: boolean;
  /** The rows that cut something off, in the order in which they did. */
  readonly by: number[];
}

export function createNarrowed(): Narrowed {
  return {
    low: new Float64Array(DIMENSIONS),
    high: new Float64Array(DIMENSIONS),
    soft: false,
    by: [],
  };
}

/**
 * Narrow a box to where every soft row can reach `soft` and every hard one `hard`. What lies outside has
 * been cut off slab by slab: on each, one row is under its mark all over.
 */
export function narrow(rows: Rows, soft: number, hard: number, out: Narrowed): void {
  const { low, high } = out;
  low.fill(-1);
  high.fill(1);
  out.soft = false;
  out.by.length = 0;
  for (let pass = 0; pass < PASSES; pass++) {
    let moved = false;
    for (let row = 0; row < rows.count; row++) {
      const isSoft = rows.hard[row] === 0;
      if (!narrowBy(rows, row, isSoft ? soft : hard, low, high)) continue;
      moved = true;
      out.by.push(row);
      if (isSoft) out.soft = true;
    }
    if (!moved) return;
  }
}

/** Narrow to where one row can reach a mark; whether that cut anything off. */
function narrowBy(
  rows: Rows,
  row: number,
  mark: number,
  low: Float64Array,
  high: Float64Array,
): boolean {
  const { slopes } = rows;
  const size = Math.abs(rows.values[row]!) + rows.spread(row);
  let room = rows.values[row]! + ROW_ROUNDING * size - mark;
  for (let k = 0; k < DIMENSIONS; k++) {
    const slope = slopes[4 * row + k]!;
    room += slope * (slope > 0 ? high[k]! : low[k]!);
  }
  // Nowhere: left to the program, which says so with a bound.
  if (!(room >= 0)) return false;
  let moved = false;
  for (let k = 0; k < DIMENSIONS; k++) {
    const slope = slopes[4 * row + k]!;
    const steep = Math.abs(slope);
    if (steep <= FLAT) continue;
    const kept = room / steep + ROUNDING;
    if (kept >= high[k]! - low[k]!) continue;
    if (slope > 0) low[k] = high[k]! - kept;
    else high[k] = low[k]! + kept;
    moved = true;
  }
  return moved;
}
