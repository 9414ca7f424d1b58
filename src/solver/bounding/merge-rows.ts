import { DIMENSIONS } from '../rows.js';
import type { Rows } from '../rows.js';

/**
 * Add a soft row that lies above every one of `list` throughout the box: the greatest at the middle,
 * lifted by the most that any other exceeds it anywhere. For a pair whose variants are still open: its
 * gap is one of theirs, and nobody knows which. Returns the row.
 */
export function rowAbove(rows: Rows, list: readonly number[]): number {
  const top = list.reduce((a, b) => (rows.values[b]! > rows.values[a]! ? b : a));
  const merged = rows.add(rows.source[top]!, false);
  let lift = 0;
  for (const row of list) {
    let over = rows.values[row]! - rows.values[top]!;
    for (let k = 0; k < DIMENSIONS; k++) {
      over += Math.abs(rows.slopes[4 * row + k]! - rows.slopes[4 * top + k]!);
    }
    lift = Math.max(lift, over);
  }
  rows.values[merged] = rows.values[top]! + lift;
  rows.tightAtEnds[merged] = rows.tightAtEnds[top]!;
  for (let k = 0; k < DIMENSIONS; k++) {
    rows.slopes[4 * merged + k] = rows.slopes[4 * top + k]!;
    rows.blame[4 * merged + k] = rows.blame[4 * top + k]!;
  }
  return merged;
}
