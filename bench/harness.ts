/**
 * What every benchmark shares: the row it reports, and how it takes a time.
 *
 * A benchmark is a function `(short: boolean) => Promise<BenchRow[]>`. It checks the answers that
 * it times and says how many it checked; wrong answers throw. Times alone never throw.
 */

/** One measured value. */
export interface BenchRow {
  /** What was measured, in a few words; unique within its benchmark. */
  name: string;
  /** The measured value, in `unit`. */
  value: number;
  /** Unit of `value` and of `against.value`: `ms`, `pairs/s`, `boxes`, ... */
  unit: string;
  /** The other thing measured in the same run, that `value` is compared with. */
  against?: { name: string; value: number };
  /** The ratio that `wanted` speaks of; say which way round in `wanted` or `note`. */
  ratio?: number;
  /** The target in words, for example `at most 2 x an empty file`. */
  wanted?: string;
  /** Whether the target was met in this run. */
  met?: boolean;
  /**
   * True when `met` comes from a count (boxes, linear programs) and not from a clock. Counts are
   * free of machine noise, so a counted target that is missed fails the run, short or not.
   */
  counted?: boolean;
  /** How many answers were compared with a known or independent one. 0 is an error. */
  checked: number;
  /** Anything a reader must know: sizes, what was left out, how it was compared. */
  note?: string;
}

/** A benchmark: short means a pass of a few seconds at most, on smaller input. */
export type Benchmark = (short: boolean) => Promise<BenchRow[]>;

/**
 * Median of a list of numbers; the mean of the middle two when the count is even.
 * Throws RangeError on an empty list.
 */
export function median(values: readonly number[]): number {
  if (values.length === 0) throw new RangeError('median of no values');
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  if (sorted.length % 2 === 1) return sorted[middle]!;
  return (sorted[middle - 1]! + sorted[middle]!) / 2;
}
