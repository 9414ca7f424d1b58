/**
 * Cells of states of a motion not yet settled, each with a lower bound on the gap over it and the corner
 * where that bound is least. There is one list, in module-level scratch; nothing here allocates.
 */

import { STATES } from './moving-pair.js';

/** Cells at which splitting stops and the honest bracket is returned. */
const MOST_CELLS = 600;

export const cellsLow = new Float64Array(STATES * MOST_CELLS);
export const cellsHigh = new Float64Array(STATES * MOST_CELLS);
/** The corner with the least of the sharper bound. */
export const cellsLeast = new Float64Array(STATES * MOST_CELLS);
export const cellsBound = new Float64Array(MOST_CELLS);
const count = new Int32Array(1);

export function clearCells(): void {
  count[0] = 0;
}

export function isFull(): boolean {
  return count[0] === MOST_CELLS;
}

/** A new cell like `from`, or without bound where there is none; its number. */
export function addCell(from?: number): number {
  const cell = count[0]!;
  count[0] = cell + 1;
  cellsBound[cell] = from === undefined ? -Infinity : cellsBound[from]!;
  if (from === undefined) return cell;
  for (const of of [cellsLow, cellsHigh, cellsLeast]) {
    of.copyWithin(STATES * cell, STATES * from, STATES * (from + 1));
  }
  return cell;
}

/** The cell with the least bound, which is then the bound over all. */
export function worstCell(): number {
  let worst = 0;
  for (let k = 1; k < count[0]!; k++) if (cellsBound[k]! < cellsBound[worst]!) worst = k;
  return worst;
}
