/** The least and the greatest of a list of any length: spread into `Math.min`, a long one overflows the stack. */

/** Infinity where the list is empty; NaN where it holds one. */
export function minOf(values: Iterable<number>): number {
  let least = Infinity;
  for (const value of values) least = Math.min(least, value);
  return least;
}

/** -Infinity where the list is empty; NaN where it holds one. */
export function maxOf(values: Iterable<number>): number {
  let greatest = -Infinity;
  for (const value of values) greatest = Math.max(greatest, value);
  return greatest;
}
