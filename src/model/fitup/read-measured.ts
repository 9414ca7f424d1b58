/**
 * From the text of a file of readings to readings, or to everything that is wrong with it. Names are those of
 * the scenario; datums too.
 */

import { readDocument } from '../text/document.js';
import { parseExactLength } from '../text/length.js';
import { ANGLE_ERROR, READING_NAME, TAPE_ERROR } from './measured.js';
import type { MeasuredReading } from './measured.js';
import type { Problem } from '../text/problem.js';
import { splitError, tapeWordsIn } from '../text/places.js';
import type { DatumLookup } from '../text/places.js';
import { Frame } from '../reading/frame.js';
import { Reading } from '../reading/reading.js';
import type { Measured } from '../reading/reading.js';
import { structureProblems } from '../reading/structure.js';
import { AXES } from '../scenario.js';
import type { Axis, Path, Scenario, Side, Vec3 } from '../scenario.js';
import type { RawLength } from '../schema.js';
import { measuredSchema } from '../schema/measured.js';
import type { RawMeasured } from '../schema/measured.js';

/** Radians: an angle finder held the wrong way round reads more. */
const STEEPEST = Math.PI / 4;

/** Millimetres: a coordinate that a datum fixes, said again, must be the same. */
const SAME = 1e-6;

export interface MeasuredFile {
  /** Present when and only when no problem is an error. */
  readonly readings?: readonly MeasuredReading[];
  readonly problems: readonly Problem[];
}

/** Reads a file of readings. Never throws for what a file holds. */
export function readMeasured(
  text: string,
  format: 'yaml' | 'json' | 'auto',
  scenario: Scenario,
): MeasuredFile {
  const document = readDocument(text, format);
  const { value } = document;
  if (value === undefined) return { problems: document.problems };
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    const message = value === null ? 'the file is empty' : 'this is no file of readings';
    const expected = 'measured, gaps, points, angles, adjusters';
    return {
      problems: [
        ...document.problems,
        { code: 'missing', severity: 'error', message, path: [], line: 1, column: 1, expected },
      ],
    };
  }
  const raw = value as RawMeasured;
  const units = raw.units === 'in' || raw.units === 'mm' ? raw.units : scenario.units;
  const c = new Reading(document, units, structureProblems(raw, measuredSchema));
  c.datums = datumsOf(scenario);
  const readings = new Sheet(c, scenario, raw).readings();
  const problems = [...c.problems].sort(
    (a, b) => (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0),
  );
  return problems.some(({ severity }) => severity === 'error')
    ? { problems }
    : { readings, problems };
}

/** The datums of a scenario that has been read, their own errors left aside. */
function datumsOf({ datums }: Scenario): DatumLookup<Measured> {
  return {
    names: (side: Side) => datums[side].map(({ name }) => name),
    find: (side, name, axis) => {
      const at = datums[side].find((one) => one.name === name)?.[axis];
      if (at === undefined) return 'open';
      const exact = parseExactLength(at, 'mm');
      return 'problem' in exact ? 'faulty' : { at: { exact, taken: [] } };
    },
  };
}

class Sheet {
  private readonly error: number;
  private readonly angleError: number;

  constructor(
    private readonly c: Reading,
    private readonly scenario: Scenario,
    private readonly raw: RawMeasured,
  ) {
    this.error = this.positive(raw.error, ['error'], 'length') ?? TAPE_ERROR;
    this.angleError = this.positive(raw['angle error'], ['angle error'], 'angle') ?? ANGLE_ERROR;
  }

  readings(): MeasuredReading[] {
    const { c, raw } = this;
    const found = [
      ...c.items(raw.gaps).flatMap((gap, i) => this.gap(gap, ['gaps', i])),
      ...c.items(raw.points).flatMap((point, i) => this.point(point, ['points', i])),
      ...this.angles(),
      ...this.adjusters(),
    ];
    const what = found.map(({ value: _, error: __, ...wanted }) => JSON.stringify(wanted));
    found.forEach(({ name }, i) => {
      if (what.indexOf(what[i]!) === i) return;
      const message = `'${name}' is read more than once, and counts as often`;
      c.say('duplicate', [], message, { severity: 'warning' });
    });
    if (found.length === 0 && c.problems.length === 0) {
      c.say('missing', [], 'nothing is read in this file', {
        expected: 'gaps, points, angles or adjusters',
      });
    }
    return found;
  }

  private gap(raw: NonNullable<RawMeasured['gaps']>[number], path: Path): MeasuredReading[] {
    const { c } = this;
    if (c.faulty(path)) return [];
    const between = this.pair(raw.between, [...path, 'between']);
    const read = this.taped(raw.reads, [...path, 'reads'], 0);
    if (!between || !read) return [];
    const measured = raw.measured ?? 'nearest';
    return [{ of: 'gap', name: READING_NAME.gap(between, measured), between, measured, ...read }];
  }

  /** The engine's part first. */
  private pair(raw: readonly [string, string], path: Path): [string, string] | undefined {
    const { c } = this;
    const all = everyPart(this.scenario);
    raw.forEach((name, i) => {
      if (!all.has(name)) c.sayUnknown([...path, i], name, all.keys(), 'a part');
    });
    const [a, b] = raw.map((name) => all.get(name));
    if (a === undefined || b === undefined) return undefined;
    if (a !== b) return a === 'engine' ? [raw[0], raw[1]] : [raw[1], raw[0]];
    c.say('bad rule', path, `both ride with the ${a}: their gap tells nothing of the place`);
    return undefined;
  }

  private point(raw: NonNullable<RawMeasured['points']>[number], path: Path): MeasuredReading[] {
    const { c } = this;
    if (c.faulty(path)) return [];
    const point = this.pointOf(raw, path);
    const at = [...path, 'is'];
    const axis = axisOf(raw.is);
    if (axis === undefined) {
      c.say('bad length', at, 'this does not say from which datum', {
        expected: "a place such as '2 7/8 behind core face'",
      });
      return [];
    }
    const words = tapeWordsIn(raw.is)!;
    const { value, error } = splitError(words.distance);
    const plain = `${value} ${words.word} ${splitError(words.datum).value}`;
    const place = new Frame(c, 'chassis', 'chosen').coordinate(plain, at, axis);
    const { error: after } = splitError(words.datum);
    if (error !== undefined && after !== undefined) {
      c.say('bad length', at, 'this carries two measuring errors', { expected: 'one of them' });
      return [];
    }
    const own = error ?? after;
    const off = own === undefined ? this.error : this.positive(own, at, 'length');
    if (!point || place === undefined || off === undefined) return [];
    return [
      {
        of: 'point',
        name: READING_NAME.point(raw.of, axis),
        point,
        axis,
        value: place,
        error: off,
      },
    ];
  }

  /** Where on the engine the tape was held. */
  private pointOf(
    { of, at }: NonNullable<RawMeasured['points']>[number],
    path: Path,
  ): Vec3 | undefined {
    const { c } = this;
    const { engine } = this.scenario.datums;
    const datum = engine.find(({ name }) => name === of);
    if (!datum) {
      const names = engine.map(({ name }) => name);
      c.sayUnknown([...path, 'of'], of, names, names.join(', ') || 'a datum of the engine');
      return undefined;
    }
    if (at === undefined) {
      if (datum.x !== undefined) return [datum.x, datum.y ?? 0, datum.z ?? 0];
      c.say('missing', [...path, 'at'], `it is not said where on '${of}' the tape was held`, {
        expected: 'at: [x, y, z], from the engine datum',
      });
      return undefined;
    }
    const point = new Frame(c, 'engine', 'chosen').point(at, [...path, 'at']);
    const wrong =
      point && AXES.find((axis, k) => Math.abs((datum[axis] ?? point[k]!) - point[k]!) > SAME);
    if (wrong === undefined) return point;
    c.say(
      'bad length',
      [...path, 'at', AXES.indexOf(wrong)],
      `'${of}' is not there along ${wrong}`,
    );
    return undefined;
  }

  private angles(): MeasuredReading[] {
    const { c, raw, scenario } = this;
    const given = raw.angles;
    if (given === undefined || c.faulty(['angles'])) return [];
    const rake = given.on === 'floor' ? scenario.rake : 0;
    const error = this.angleError;
    return (['pitch', 'roll'] as const).flatMap((angle): MeasuredReading[] => {
      const read = given[angle];
      const value = read === undefined ? undefined : c.angle(read, ['angles', angle]);
      if (value === undefined) return [];
      if (Math.abs(value) > STEEPEST) {
        c.say('bad number', ['angles', angle], 'no engine stands as steep as this', {
          expected: 'degrees from level, less than 45',
        });
        return [];
      }
      const own = angle === 'pitch' ? value + rake : value;
      return [{ of: 'angle', name: READING_NAME.angle(angle), angle, value: own, error }];
    });
  }

  private adjusters(): MeasuredReading[] {
    const { c, raw, scenario } = this;
    const known = scenario.mockup?.adjusters.map(({ name }) => name) ?? [];
    return c.entries(raw.adjusters, ['adjusters']).flatMap(([adjuster, read]) => {
      const path = ['adjusters', adjuster];
      if (c.faulty(path)) return [];
      if (!known.includes(adjuster)) {
        c.sayUnknown(path, adjuster, known, known.join(', ') || 'an adjuster of the mock-up');
        return [];
      }
      const { range } = scenario.mockup!.adjusters.find(({ name }) => name === adjuster)!;
      const taped = this.taped(read, path, 0);
      if (
        taped &&
        (taped.value < range.min - taped.error || taped.value > range.max + taped.error)
      ) {
        c.say('bad length', path, 'this is outside the range of the adjuster');
        return [];
      }
      return taped ? [{ of: 'adjuster' as const, name: adjuster, adjuster, ...taped }] : [];
    });
  }

  /** What a tape reads, no less than `least`, with its error. */
  private taped(
    raw: RawLength,
    path: Path,
    least: number,
  ): { value: number; error: number } | undefined {
    const { value: plain, error: own } = splitError(raw);
    const value = this.c.length(plain, path);
    if (value !== undefined && value < least) {
      this.c.say('bad length', path, 'a tape reads no less than 0');
      return undefined;
    }
    const error = own === undefined ? this.error : this.positive(own, path, 'length');
    return value === undefined || error === undefined ? undefined : { value, error };
  }

  private positive(
    raw: RawLength | undefined,
    path: Path,
    of: 'length' | 'angle',
  ): number | undefined {
    if (raw === undefined || this.c.faulty(path)) return undefined;
    const value = this.c[of](raw, path);
    if (value === undefined || value > 0) return value;
    this.c.say('bad length', path, 'a reading is never exact: its error must be more than 0');
    return undefined;
  }
}

function axisOf(is: string): Axis | undefined {
  const word = tapeWordsIn(is)?.word;
  if (word === undefined) return undefined;
  if (word === 'ahead of' || word === 'behind') return 'x';
  return word === 'left of' || word === 'right of' ? 'y' : 'z';
}

/** Every part that some options have, with its side. */
function everyPart({ parts, choices }: Scenario): ReadonlyMap<string, Side> {
  const added = choices.flatMap(({ options }) => options.flatMap(({ add }) => add));
  return new Map([...parts, ...added].map(({ name, side }) => [name, side]));
}
