/**
 * Coordinates of one side of a file: lengths from its origin, or places from its datums, with what
 * is known of their measuring errors.
 */

import { MAX_LENGTH_MM, LENGTH_EXPECTED, millimetres, parseExactLength } from '../text/length.js';
import type { ExactLength } from '../text/length.js';
import { findPlace, splitError, tapeWordsIn } from '../text/places.js';
import type { TapeWords } from '../text/places.js';
import { AXES } from '../scenario.js';
import type { Axis, Box, Path, Range, Side, Vec3 } from '../scenario.js';
import type { RawLength, RawMotion } from '../schema.js';
import type { Measured, Reading } from './reading.js';

type Ends = readonly [RawLength, RawLength];

/**
 * How the lengths of a frame come about: `taped` ones carry their own error, or the file's;
 * `datum` too, but a datum at 0 is where the file is measured from, and exact unless it says
 * otherwise; `chosen` ones (ranges, limits, cuts) carry none.
 */
export type Origin = 'taped' | 'datum' | 'chosen';

export class Frame {
  /** Every length read with an error, and the measurements that it rests on, in order. */
  readonly taken: { readonly path: Path; readonly from: readonly number[] }[] = [];

  constructor(
    readonly c: Reading,
    readonly side: Side,
    private readonly origin: Origin = 'taped',
  ) {}

  /** Millimetres along an axis, or undefined once its problem is said. */
  coordinate(raw: RawLength, path: Path, axis: Axis): number | undefined {
    const measured = this.measured(raw, path, axis);
    if (measured === undefined) return undefined;
    if (measured.taken.length > 0) this.taken.push({ path, from: measured.taken });
    return millimetres(measured.exact);
  }

  /** The same without rounding, so that a place and the plain number for it are one double. */
  measured(raw: RawLength, path: Path, axis: Axis): Measured | undefined {
    const words = tapeWordsIn(raw);
    if (words !== undefined) return this.place(words, path, axis);
    const { value, error } = splitError(raw);
    const exact = this.length(value, path);
    if (exact === undefined) return undefined;
    const isOrigin = this.origin === 'datum' && exact.valueOf() === 0;
    return this.withError(exact, [], error, path, isOrigin ? 0 : this.c.measuringError);
  }

  /** A size above `least`, with its error. */
  size(raw: RawLength, path: Path, what: string, least: number): number | undefined {
    const { value, error } = splitError(raw);
    const mm = this.c.size(value, path, what, 'bad solid', least);
    const own = this.ownError(error, path, this.c.measuringError);
    if (mm === undefined || own === undefined) return undefined;
    if (own > 0) this.taken.push({ path, from: [this.c.take(path, own)] });
    return mm;
  }

  /** A range of coordinates along an axis; the two ends in order. */
  range(raw: Ends, path: Path, axis: Axis): Range | undefined {
    const min = this.coordinate(raw[0], [...path, 0], axis);
    const max = this.coordinate(raw[1], [...path, 1], axis);
    return this.c.ordered(min, max, path);
  }

  point(raw: readonly [RawLength, RawLength, RawLength], path: Path): Vec3 | undefined {
    const [x, y, z] = AXES.map((axis, i) => this.coordinate(raw[i]!, [...path, i], axis));
    return x === undefined || y === undefined || z === undefined ? undefined : [x, y, z];
  }

  /** Two coordinates along the axes other than one, in x, y, z order. */
  across(raw: Ends, path: Path, axis: Axis): readonly [number, number] | undefined {
    const rest = AXES.filter((other) => other !== axis);
    const [u, v] = rest.map((other, i) => this.coordinate(raw[i]!, [...path, i], other));
    return u === undefined || v === undefined ? undefined : [u, v];
  }

  /** The ranges given, by axis. */
  ranges(raw: RawMotion, path: Path): Partial<Box> | undefined {
    return this.c.byAxis(raw, path, (ends, at, axis) => this.range(ends, at, axis));
  }

  private place(words: TapeWords, path: Path, axis: Axis): Measured | undefined {
    const { c, side } = this;
    const { value, error } = splitError(words.distance);
    const plain = { ...words, distance: String(value) };
    const found = findPlace(plain, { axis, side, unit: c.units }, c.datums);
    if (found === 'faulty') return undefined;
    if ('fault' in found) {
      const { code, message, ...rest } = found.fault;
      c.say(code, path, message, rest);
      return undefined;
    }
    const { datum, sign, distance } = found;
    const at = sign < 0 ? datum.exact.sub(distance) : datum.exact.add(distance);
    if (Math.abs(at.valueOf()) > MAX_LENGTH_MM) {
      c.say('bad length', path, 'this is longer than a kilometre', { expected: LENGTH_EXPECTED });
      return undefined;
    }
    return this.withError(at, datum.taken, error, path, c.measuringError);
  }

  private length(raw: RawLength, path: Path): ExactLength | undefined {
    const length = parseExactLength(raw, this.c.units);
    if (!('problem' in length)) return length;
    this.c.sayBadLength(raw, path, length.problem);
    return undefined;
  }

  private withError(
    exact: ExactLength,
    datum: readonly number[],
    error: string | undefined,
    path: Path,
    unlessGiven: number,
  ): Measured | undefined {
    const own = this.ownError(error, path, unlessGiven);
    if (own === undefined) return undefined;
    return { exact, taken: own > 0 ? [...datum, this.c.take(path, own)] : datum };
  }

  /** Millimetres; undefined once it is said what is wrong with an error. */
  private ownError(error: string | undefined, path: Path, unlessGiven: number): number | undefined {
    if (this.origin === 'chosen') {
      if (error === undefined) return 0;
      const message = 'this is chosen, not measured: it carries no measuring error';
      this.c.say('bad length', path, message, { expected: LENGTH_EXPECTED });
      return undefined;
    }
    return error === undefined ? unlessGiven : this.c.errorOf(error, path);
  }
}
