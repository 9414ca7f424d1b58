/**
 * Cells of angle not yet settled, each with a lower bound on what is bracketed over it. There is one
 * list, in module-level scratch; nothing here allocates.
 */

/** Cells at which splitting stops and the honest bracket is returned. */
const MOST_CELLS = 200;

export const cellLow = new Float64Array(MOST_CELLS);
export const cellHigh = new Float64Array(MOST_CELLS);
const cellBound = new Float64Array(MOST_CELLS);
let cells = 0;

export function clearCells(): void {
  cells = 0;
}

export function addCell(low: number, high: number, bound: number): void {
  cellLow[cells] = low;
  cellHigh[cells] = high;
  cellBound[cells] = bound;
  cells++;
}

/** The cell with the least bound, which is then the bound over all. */
export function worstCell(): number {
  let worst = 0;
  for (let k = 1; k < cells; k++) if (cellBound[k]! < cellBound[worst]!) worst = k;
  return worst;
}

/**
 * Sets `lower` from the worst cell and returns true, when that brings it within the tolerance of
 * `upper` or no cell may be split any more.
 */
export function isSettled(
  out: { lower: number; upper: number },
  worst: number,
  tolerance: number,
): boolean {
  const lower = cellBound[worst]!;
  if (!(out.upper - lower <= tolerance) && cells < MOST_CELLS) return false;
  out.lower = Math.min(lower, out.upper);
  return true;
}

/** Splits a cell in two, with a bound for each; that of the whole still holds for both. */
export function splitCell(k: number, middle: number, before: number, after: number): void {
  const bound = cellBound[k]!;
  addCell(middle, cellHigh[k]!, Math.max(bound, after));
  cellHigh[k] = middle;
  cellBound[k] = Math.max(bound, before);
}
