/**
 * Scenario files as plain objects, and what can be done to a whole file without knowing its answer:
 * mirror it, scale it, rename it. Lengths are in the file's units, angles in degrees.
 */

import { readScenario } from '../../src/model/read.js';
import type { Scenario } from '../../src/model/scenario.js';
import type { Random } from '../geometry/random.js';

export type Span = readonly [number, number];
export type Point = readonly [number, number, number];
type AxisName = 'x' | 'y' | 'z';

type SolidDoc = { readonly tilt?: { about: 'y'; by: number; at: Point } } & (
  | { readonly box: { readonly x: Span; readonly y: Span; readonly z: Span } }
  | {
      readonly cylinder: {
        readonly axis: AxisName;
        readonly from: number;
        readonly to: number;
        readonly center: Span;
        readonly diameter: number;
      };
    }
  | {
      readonly prism: {
        readonly axis: AxisName;
        readonly from: number;
        readonly to: number;
        readonly profile: readonly Span[];
      };
    }
  | { readonly hull: { readonly points: readonly Point[] } }
  | { readonly ball: { readonly center: Point; readonly diameter: number } }
  | { readonly tube: { readonly through: readonly Point[]; readonly diameter: number } }
);

type Spans = Partial<Record<AxisName, Span>>;
export type PartDoc = SolidDoc & {
  readonly kind?: string;
  /** Also makes a part of this name, the mirror image. */
  readonly mirror?: string;
  readonly sweep?: Spans;
  readonly 'comes out'?: Spans;
};

export type FacingDoc = 'ahead' | 'behind' | 'left' | 'right' | 'above' | 'below';
export interface RuleDoc {
  readonly between: readonly [string, string];
  readonly gap: number | 'ignore';
  readonly measured?: string;
  readonly side?: FacingDoc;
  readonly why?: string;
}

export interface LimitDoc {
  readonly quantity: string;
  readonly of?: string;
  readonly above?: string;
  readonly min?: number;
  readonly max?: number;
}

export interface OptionDoc {
  readonly remove?: readonly string[];
  readonly add?: {
    readonly engine?: Readonly<Record<string, PartDoc>>;
    readonly chassis?: Readonly<Record<string, PartDoc>>;
  };
  readonly replace?: Readonly<Record<string, PartDoc>>;
  readonly move?: Readonly<Record<string, Partial<Record<AxisName, number>>>>;
  readonly rules?: readonly RuleDoc[];
  readonly limits?: readonly LimitDoc[];
  readonly needs?: Readonly<Record<string, string>>;
  readonly 'rules out'?: Readonly<Record<string, string>>;
  readonly hours?: number;
  readonly cost?: number;
}

export interface TrimDoc {
  readonly part: string;
  readonly cut: 'down' | 'up' | 'ahead' | 'back' | 'left' | 'right';
  readonly over?: Spans;
  readonly 'up to': number;
  readonly hours?: number;
  readonly cost?: number;
  readonly plus?: { readonly hours?: number; readonly cost?: number; readonly per: number };
}

export interface BayDoc {
  readonly units: 'in' | 'mm';
  readonly position: Readonly<Record<'setback' | 'offset' | 'height' | 'pitch', Span | number>>;
  readonly rock?: number;
  readonly datums?: unknown;
  readonly engine: Readonly<Record<string, PartDoc>>;
  readonly chassis: Readonly<Record<string, PartDoc>>;
  readonly groups?: Readonly<Record<string, readonly string[]>>;
  readonly rulebook?: 'none' | 'common practice';
  readonly rules: readonly RuleDoc[];
  readonly limits?: readonly LimitDoc[];
  readonly choices?: Readonly<Record<string, Readonly<Record<string, OptionDoc>>>>;
  readonly trims?: readonly TrimDoc[];
  readonly worth?: number;
}

/** The scenario of a file; throws what is wrong with it, for a test's own file has no mistakes. */
export function scenarioOf(doc: BayDoc): Scenario {
  const { scenario, problems } = readScenario(fileOf(doc), 'json');
  if (scenario) return scenario;
  throw new Error(problems.map(({ message, path }) => `${path.join('/')}: ${message}`).join('\n'));
}

/** The file as text, with what every file says of itself. */
export function fileOf(doc: BayDoc): string {
  const head = { berth: 1, title: 'test bay', driver: 'left', origin: 'test datum' };
  return JSON.stringify({ ...head, ...doc });
}

/** Millimetres in one of the file's units. */
export function unitOf(doc: BayDoc): number {
  return doc.units === 'in' ? 25.4 : 1;
}

/** Applies a change to every part of a file, those that options bring included. */
function eachPart(doc: BayDoc, change: (part: PartDoc) => PartDoc): BayDoc {
  const parts = (all: Readonly<Record<string, PartDoc>>) => mapValues(all, change);
  const option = ({ add, replace, ...rest }: OptionDoc): OptionDoc => ({
    ...rest,
    ...(add && { add: mapValues(add, (side) => side && parts(side)) }),
    ...(replace && { replace: parts(replace) }),
  });
  return {
    ...doc,
    engine: parts(doc.engine),
    chassis: parts(doc.chassis),
    ...(doc.choices && { choices: mapValues(doc.choices, (all) => mapValues(all, option)) }),
  };
}

/** Applies a change to every rule of a file, those that options bring included. */
export function eachRule(doc: BayDoc, change: (rule: RuleDoc) => RuleDoc): BayDoc {
  const option = (o: OptionDoc): OptionDoc => (o.rules ? { ...o, rules: o.rules.map(change) } : o);
  return {
    ...doc,
    rules: doc.rules.map(change),
    ...(doc.choices && { choices: mapValues(doc.choices, (all) => mapValues(all, option)) }),
  };
}

/** The file seen in a mirror: left becomes right. */
export function mirrored(doc: BayDoc): BayDoc {
  const { offset } = doc.position;
  const turned = eachPart(doc, (part) => mirroredPart(part));
  const swapped = eachRule(turned, (rule) => {
    const side = rule.side === 'left' ? 'right' : rule.side === 'right' ? 'left' : rule.side;
    return side ? { ...rule, side } : rule;
  });
  const options = (o: OptionDoc): OptionDoc =>
    o.move
      ? { ...o, move: mapValues(o.move, (m) => (m.y === undefined ? m : { ...m, y: -m.y })) }
      : o;
  return {
    ...swapped,
    position: { ...doc.position, offset: typeof offset === 'number' ? -offset : flip(offset) },
    ...(swapped.choices && { choices: mapValues(swapped.choices, (c) => mapValues(c, options)) }),
    ...(doc.trims && { trims: doc.trims.map(mirroredTrim) }),
  };
}

function mirroredTrim({ over, cut, ...trim }: TrimDoc): TrimDoc {
  const other = cut === 'left' ? 'right' : cut === 'right' ? 'left' : cut;
  return { ...trim, cut: other, ...(over && { over: flipSpans(over) }) };
}

function flip([low, high]: Span): Span {
  return [-high, -low];
}

function flipSpans<S extends Spans>(spans: S): S {
  return spans.y ? { ...spans, y: flip(spans.y) } : spans;
}

/** Where y stands among the two axes other than `axis`, or -1. */
function placeOfY(axis: AxisName): number {
  return axis === 'x' ? 0 : axis === 'z' ? 1 : -1;
}

function mirroredPart(part: PartDoc): PartDoc {
  const motions = {
    ...(part.sweep && { sweep: flipSpans(part.sweep) }),
    ...(part['comes out'] && { 'comes out': flipSpans(part['comes out']) }),
  };
  const flat = (axis: AxisName, uv: Span): Span =>
    [0, 1].map((i) => (i === placeOfY(axis) ? -uv[i]! : uv[i]!)) as unknown as Span;
  const ends = (s: { axis: AxisName; from: number; to: number }) =>
    s.axis === 'y' ? { from: -s.to, to: -s.from } : {};
  const point = ([x, y, z]: Point): Point => [x, -y, z];
  if ('box' in part) return { ...part, ...motions, box: flipSpans(part.box) };
  if ('cylinder' in part) {
    const c = part.cylinder;
    const cylinder = { ...c, ...ends(c), center: flat(c.axis, c.center) };
    return { ...part, ...motions, cylinder };
  }
  if ('prism' in part) {
    const p = part.prism;
    const prism = { ...p, ...ends(p), profile: p.profile.map((uv) => flat(p.axis, uv)) };
    return { ...part, ...motions, prism };
  }
  if ('hull' in part) return { ...part, ...motions, hull: { points: part.hull.points.map(point) } };
  if ('ball' in part) {
    return { ...part, ...motions, ball: { ...part.ball, center: point(part.ball.center) } };
  }
  return { ...part, ...motions, tube: { ...part.tube, through: part.tube.through.map(point) } };
}

/** Keys whose numbers are not lengths. */
const NOT_LENGTHS = new Set(['tilt', 'rock', 'pitch', 'hours', 'cost']);

/** Every length of the file times `by`. Limits on pitch and tilts other than about the datum stay. */
export function scaled(doc: BayDoc, by: number): BayDoc {
  const scale = (value: unknown, key: string): unknown => {
    if (typeof value === 'number') return value * by;
    if (Array.isArray(value)) return value.map((item) => scale(item, key));
    if (typeof value !== 'object' || value === null) return value;
    if ('quantity' in value && value.quantity === 'pitch') return value;
    return Object.fromEntries(
      Object.entries(value).map(([k, v]) => [k, NOT_LENGTHS.has(k) ? v : scale(v, k)]),
    );
  };
  return scale(doc, '') as BayDoc;
}

/** Other names for every part and group, and another order of parts, groups, rules and choices. */
export function renamed(doc: BayDoc, random: Random): BayDoc {
  const names = new Map<string, string>();
  const note = (all: object | undefined): void => {
    for (const name of Object.keys(all ?? {})) names.set(name, `thing ${1000 - names.size}`);
  };
  note(doc.engine);
  note(doc.chassis);
  note(doc.groups);
  for (const options of Object.values(doc.choices ?? {})) {
    for (const { add } of Object.values(options)) {
      note(add?.engine);
      note(add?.chassis);
    }
  }
  const other = (name: string): string => names.get(name) ?? name;
  const keys = <T>(all: Readonly<Record<string, T>>): Record<string, T> =>
    Object.fromEntries(
      shuffled(Object.entries(all), random).map(([name, value]) => [other(name), value]),
    );
  const option = (o: OptionDoc): OptionDoc => ({
    ...o,
    ...(o.remove && { remove: o.remove.map(other) }),
    ...(o.replace && { replace: keys(o.replace) }),
    ...(o.move && { move: keys(o.move) }),
    ...(o.add && { add: mapValues(o.add, (side) => side && keys(side)) }),
  });
  const named = eachRule(doc, (rule) => ({
    ...rule,
    between: [other(rule.between[0]), other(rule.between[1])],
  }));
  return {
    ...named,
    engine: keys(doc.engine),
    chassis: keys(doc.chassis),
    rules: shuffled(named.rules, random),
    ...(doc.limits && {
      limits: doc.limits.map((limit) => (limit.of ? { ...limit, of: other(limit.of) } : limit)),
    }),
    ...(doc.trims && { trims: doc.trims.map((trim) => ({ ...trim, part: other(trim.part) })) }),
    ...(doc.groups && { groups: keys(mapValues(doc.groups, (list) => list.map(other))) }),
    ...(named.choices && {
      choices: Object.fromEntries(
        shuffled(Object.entries(mapValues(named.choices, (c) => mapValues(c, option))), random),
      ),
    }),
  };
}

export function shuffled<T>(items: readonly T[], random: Random): T[] {
  const all = [...items];
  for (let i = all.length - 1; i > 0; i--) {
    const j = Math.floor((i + 1) * random());
    [all[i], all[j]] = [all[j]!, all[i]!];
  }
  return all;
}

function mapValues<T, R>(
  all: Readonly<Record<string, T>>,
  change: (value: T, name: string) => R,
): Record<string, R> {
  return Object.fromEntries(
    Object.entries(all).map(([name, value]) => [name, change(value, name)]),
  );
}
