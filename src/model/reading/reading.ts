/** One file being read: its problems so far, and its lengths and angles turned into ours. */

import type { SourceDocument } from '../text/document.js';
import { ANGLE_EXPECTED, LENGTH_EXPECTED, parseAngle, parseLength } from '../text/length.js';
import type { ExactLength } from '../text/length.js';
import { nearestName } from '../text/nearest.js';
import { splitError, tapeWordsIn } from '../text/places.js';
import type { DatumLookup } from '../text/places.js';
import type { Problem, ProblemCode } from '../text/problem.js';
import type { Axis, Box, Measurement, Path, Range } from '../scenario.js';
import type { RawLength, RawMotion } from '../schema.js';
import { keyOf } from './structure.js';
import type { Found } from './structure.js';

/** More errors (or warnings) than this are not said: the file is something else altogether. */
const MAX_PROBLEMS = 300;

/** What a measuring error may look like, for messages. */
const ERROR_EXPECTED = 'a length after +-, such as 19 1/4 +- 1/16';

type Said = Partial<Pick<Problem, 'severity' | 'read' | 'expected' | 'nearest'>> & {
  readonly at?: 'key' | 'value';
};

/** A coordinate, and the measurements with an error that it rests on, as indexes. */
export interface Measured {
  readonly exact: ExactLength;
  readonly taken: readonly number[];
}

export class Reading {
  readonly problems: Problem[];
  /** What places are measured from; none until the file's datums are read. */
  datums: DatumLookup<Measured> = { names: () => [], find: () => 'open' };
  /** Every measurement with an error so far. */
  readonly measurements: Measurement[] = [];
  /** Millimetres: the error of what is taped without one of its own. */
  measuringError = 0;
  /** Every path at or under which the structure is at fault. */
  private readonly faults = new Set<string>();

  constructor(
    private readonly document: SourceDocument,
    readonly units: 'in' | 'mm',
    structure: readonly Found[],
  ) {
    this.problems = [...document.problems];
    for (const { at, ...problem } of structure) {
      this.add(problem, at);
      for (let n = 0; n <= problem.path.length; n++) {
        this.faults.add(keyOf(problem.path.slice(0, n)));
      }
    }
  }

  /** Whether the structure is at fault at this path or below it: such a value is passed over. */
  faulty(path: Path): boolean {
    return this.faults.has(keyOf(path));
  }

  say(code: ProblemCode, path: Path, message: string, said: Said = {}): void {
    const { at = 'value', severity = 'error', ...rest } = said;
    const read = code === 'missing' ? undefined : this.document.source(path);
    this.add(
      { code, severity, message, path, ...(read === undefined ? {} : { read }), ...rest },
      at,
    );
  }

  /** Says that a name is none of the known ones, with the nearest of them. */
  sayUnknown(path: Path, read: string, known: Iterable<string>, expected: string): void {
    const names = [...known];
    const nearest = nearestName(read, names);
    const message = `there is nothing called '${read}' here`;
    this.say('unknown name', path, message, {
      read,
      expected,
      ...(nearest === undefined ? {} : { nearest }),
    });
  }

  nearest(read: string, names: Iterable<string>): string | undefined {
    return nearestName(read, names);
  }

  /** The entries of a map in the file's order; none where the structure is at fault. */
  entries<T>(map: Readonly<Record<string, T>> | undefined, path: Path): [string, T][] {
    if (map === undefined || !isMap(map)) return [];
    return this.document
      .keys(path)
      .filter((name, index, all) => Object.hasOwn(map, name) && all.indexOf(name) === index)
      .map((name) => {
        if (name.trim() === '') {
          this.say('missing', [...path, name], 'a name is empty', { at: 'key' });
        }
        return [name, map[name]!];
      });
  }

  /** The items of a list; none where the structure is at fault. */
  items<T>(list: readonly T[] | undefined): readonly T[] {
    return list !== undefined && Array.isArray(list) ? (list as readonly T[]) : [];
  }

  /** Millimetres, or undefined once its problem is said. */
  length(raw: RawLength, path: Path): number | undefined {
    const length = parseLength(raw, this.units);
    if ('mm' in length) return length.mm;
    this.sayBadLength(raw, path, length.problem);
    return undefined;
  }

  /** Says why a text is no length. */
  sayBadLength(raw: RawLength, path: Path, problem: string): void {
    const misplaced = MISPLACED.find(([isSo]) => isSo(raw));
    const message = misplaced?.[1] ?? problem;
    this.say('bad length', path, message, { expected: LENGTH_EXPECTED });
  }

  /** A length above 0 (or from 0 on), for sizes. */
  size(raw: RawLength, path: Path, what: string, code: ProblemCode, least = 0): number | undefined {
    const mm = this.length(raw, path);
    if (mm === undefined || mm > least) return mm;
    this.say(code, path, `${what} must be more than 0`);
    return undefined;
  }

  /** A measuring error in millimetres, 0 or more, or undefined once its problem is said. */
  errorOf(raw: RawLength, path: Path): number | undefined {
    const error = parseLength(raw, this.units);
    const least = 'mm' in error && error.mm < 0;
    if ('mm' in error && !least) return error.mm;
    const message = least
      ? 'a measuring error goes both ways: it has no sign'
      : 'the measuring error is not a length';
    this.say('bad length', path, message, { expected: ERROR_EXPECTED });
    return undefined;
  }

  /** Notes a measurement with an error; its index. */
  take(path: Path, error: number): number {
    const written = this.document.source(path) ?? '';
    return this.measurements.push({ path, written, error }) - 1;
  }

  /** Radians, or undefined once its problem is said. */
  angle(raw: RawLength, path: Path): number | undefined {
    const angle = parseAngle(raw);
    if ('radians' in angle) return angle.radians;
    const hasError = splitError(raw).error !== undefined;
    const message = hasError ? 'an angle carries no measuring error' : angle.problem;
    this.say('bad number', path, message, { expected: ANGLE_EXPECTED });
    return undefined;
  }

  /** A range in millimetres, or in radians; the two ends in order. */
  range(
    raw: readonly [RawLength, RawLength],
    path: Path,
    of: 'length' | 'angle' = 'length',
  ): Range | undefined {
    const min = this[of](raw[0], [...path, 0]);
    const max = this[of](raw[1], [...path, 1]);
    return this.ordered(min, max, path);
  }

  /** Two ends as a range, once it is said where they are the wrong way round. */
  ordered(min: number | undefined, max: number | undefined, path: Path): Range | undefined {
    if (min === undefined || max === undefined) return undefined;
    if (min <= max) return { min, max };
    this.say('bad range', path, 'the range is the wrong way round', {
      expected: 'the lesser first',
    });
    return undefined;
  }

  /** The ranges of moves given, by axis. */
  ranges(raw: RawMotion, path: Path): Partial<Box> | undefined {
    return this.byAxis(raw, path, (ends, at) => this.range(ends, at));
  }

  /** Every range given read, by axis; undefined when any is not readable. */
  byAxis(
    raw: RawMotion,
    path: Path,
    read: (ends: readonly [RawLength, RawLength], at: Path, axis: Axis) => Range | undefined,
  ): Partial<Box> | undefined {
    const box: { -readonly [axis in keyof Box]?: Range } = {};
    let whole = true;
    for (const axis of ['x', 'y', 'z'] as const) {
      const given = raw[axis];
      if (given === undefined) continue;
      const range = read(given, [...path, axis], axis);
      if (range === undefined) whole = false;
      else box[axis] = range;
    }
    return whole ? box : undefined;
  }

  private add(problem: Problem, at: 'key' | 'value'): void {
    const said = this.problems.filter(({ severity }) => severity === problem.severity).length;
    if (said >= MAX_PROBLEMS) return;
    const place = this.document.locate(problem.path, at);
    const read =
      problem.read ?? (problem.code === 'missing' ? undefined : this.document.source(problem.path));
    this.problems.push({ ...problem, ...place, ...(read === undefined ? {} : { read }) });
  }
}

/** What may be said of other values, but not of a length. */
const MISPLACED: readonly (readonly [(raw: RawLength) => boolean, string])[] = [
  [(raw) => tapeWordsIn(raw) !== undefined, 'this is a size or a move, not a place from a datum'],
  [
    (raw) => splitError(raw).error !== undefined,
    'only what a tape measures carries an error: coordinates and sizes of solids, and datums',
  ],
  [
    (raw) => /\bguess|^~/i.test(String(raw)),
    'one size cannot be marked as a guess; mark the part with guess: true',
  ],
];

function isMap(value: unknown): boolean {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
