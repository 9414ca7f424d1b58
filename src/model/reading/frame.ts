/** Coordinates of one side of a file: lengths from its origin, or places from its datums. */

import { MAX_LENGTH_MM, LENGTH_EXPECTED, millimetres, parseExactLength } from '../length.js';
import type { ExactLength } from '../length.js';
import { findPlace, tapeWordsIn } from '../places.js';
import { AXES } from '../scenario.js';
import type { Axis, Box, Path, Range, Side, Vec3 } from '../scenario.js';
import type { RawLength, RawMotion } from '../schema.js';
import type { Reading } from './reading.js';

type Ends = readonly [RawLength, RawLength];

export class Frame {
  constructor(
    readonly c: Reading,
    readonly side: Side,
  ) {}

  /** Millimetres along an axis, or undefined once its problem is said. */
  coordinate(raw: RawLength, path: Path, axis: Axis): number | undefined {
    const exact = this.exact(raw, path, axis);
    return exact === undefined ? undefined : millimetres(exact);
  }

  /** The same without rounding, so that a place and the plain number for it are one double. */
  exact(raw: RawLength, path: Path, axis: Axis): ExactLength | undefined {
    const { c, side } = this;
    const words = tapeWordsIn(raw);
    if (words === undefined) {
      const length = parseExactLength(raw, c.units);
      if (!('problem' in length)) return length;
      c.sayBadLength(raw, path, length.problem);
      return undefined;
    }
    const found = findPlace(words, { axis, side, unit: c.units }, c.datums);
    if (found === 'faulty') return undefined;
    if ('fault' in found) {
      const { code, message, ...rest } = found.fault;
      c.say(code, path, message, rest);
      return undefined;
    }
    const { datum, sign, distance } = found;
    const at = sign < 0 ? datum.sub(distance) : datum.add(distance);
    if (Math.abs(at.valueOf()) <= MAX_LENGTH_MM) return at;
    c.say('bad length', path, 'this is longer than a kilometre', { expected: LENGTH_EXPECTED });
    return undefined;
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
}
