/**
 * Cuts on bays whose answer is known: by arithmetic, by a part drawn already cut, by trying every mark,
 * and by a mixed-integer program.
 */

import { describe, expect, test } from 'vitest';
import type { Scenario, Trim } from '../../../src/model/scenario.js';
import { cheapestDepths } from '../../../src/solver/explaining/depths.js';
import { trimming } from '../../../src/solver/explaining/trimming.js';
import type { TrimAnswer, TrimCurve } from '../../../src/solver/explaining/trimming.js';
import { between, seeded } from '../../geometry/random.js';
import { scenarioOf } from '../../support/doc.js';
import type { BayDoc, OptionDoc, RuleDoc, Span } from '../../support/doc.js';
import { loadHighs, Program } from '../../support/highs.js';
import { solve } from '../../support/solve.js';

/** Millimetres between margin and bound. */
const FINE = 0.02;
/** What each cut of a test leaves to rounding. */
const ROUNDING = 1e-3;
const GAP = 5;

interface TrimDoc {
  readonly part: string;
  readonly cut: 'down' | 'up' | 'ahead' | 'back' | 'left' | 'right' | 'outward';
  readonly over?: Readonly<Partial<Record<'x' | 'y' | 'z', Span>>>;
  readonly 'up to': number;
  readonly hours?: number;
  readonly cost?: number;
  readonly plus?: { readonly hours?: number; readonly cost?: number; readonly per: number };
}

/** Boxes, or any other shape a file may hold, by part. */
type Parts = Readonly<Record<string, object>>;
type Box = readonly [x: Span, y: Span, z: Span];

interface Bay {
  readonly position?: Partial<BayDoc['position']>;
  readonly engine: Parts;
  readonly chassis: Parts;
  readonly trims?: readonly TrimDoc[];
  readonly rules?: readonly RuleDoc[];
  readonly choices?: Readonly<Record<string, Readonly<Record<string, OptionDoc>>>>;
}

function box(x: Span, y: Span, z: Span): object {
  return { box: { x, y, z } };
}

/** A bay in millimetres; every pair needs GAP. */
function scenario({ position, ...bay }: Bay): Scenario {
  return scenarioOf({
    units: 'mm',
    rulebook: 'none',
    rules: [{ between: ['engine', 'chassis'], gap: GAP }],
    ...bay,
    position: { setback: 0, offset: 0, height: 0, pitch: 0, ...position },
  } as unknown as BayDoc);
}

interface Asked {
  readonly margin?: number;
  readonly ranges?: TrimAnswer['wish']['ranges'];
  readonly withOptions?: boolean;
  readonly tolerance?: number;
  /** Steps after which the search is stopped. */
  readonly steps?: number;
}

function trim(s: Scenario, asked: Asked = {}): TrimAnswer {
  const { margin = 0, ranges = {}, withOptions = false, tolerance = FINE, steps = 40_000 } = asked;
  const wants = { ranges, options: [], margin };
  const search = trimming(s, { wants, tolerance, withOptions });
  let step = search.next();
  for (let n = 0; !step.done; n++) step = search.next(n < steps ? 'go' : 'time');
  return step.value;
}

function curveOf(s: Scenario): TrimCurve {
  return trim(s).curves[0]!;
}

/** The margin of a curve at a depth, along the straight between two of its points. */
function along({ points }: TrimCurve, depth: number): number {
  const next = points.findIndex((point) => point.depth >= depth - 1e-9);
  const [low, high] = [points[Math.max(0, next - 1)]!, points[next]!];
  if (high.depth - low.depth < 1e-9) return high.margin;
  return low.margin + ((depth - low.depth) / (high.depth - low.depth)) * (high.margin - low.margin);
}

function rises({ points }: TrimCurve): void {
  points.forEach((point, i) => {
    if (i === 0) return;
    expect(point.depth).toBeGreaterThan(points[i - 1]!.depth);
    expect(point.margin).toBeGreaterThanOrEqual(points[i - 1]!.margin);
  });
}

const BLOCK: Box = [
  [-20, 20],
  [-20, 20],
  [-20, 20],
];
const WIDE: Span = [-200, 200];
/** Ten under the sump of NOTCHED, twenty over the block. */
const NOTCH: TrimDoc = {
  part: 'crossmember',
  cut: 'down',
  over: { x: [-40, 40], y: [-40, 40] },
  'up to': 24,
  hours: 2,
  plus: { hours: 1, per: 10 },
};
const NOTCHED: Bay = {
  engine: {
    block: box(...BLOCK),
    sump: box([-10, 10], [-10, 10], [-40, -20]),
  },
  chassis: {
    crossmember: box(WIDE, WIDE, [-90, -50]),
    hood: box(WIDE, WIDE, [40, 60]),
  },
  trims: [NOTCH],
};

describe('one notch, by arithmetic', () => {
  test('gains its depth until another rule takes over', () => {
    const curve = curveOf(scenario(NOTCHED));
    rises(curve);
    for (const { depth, margin, bound } of curve.points) {
      const known = Math.min(10 + depth, 20) - GAP;
      expect(margin).toBeCloseTo(known, 3);
      expect(bound).toBeGreaterThan(known - ROUNDING);
      expect(bound).toBeLessThan(known + FINE);
    }
    const at10 = curve.points.find(({ depth }) => depth === 10)!;
    expect(at10.binding.map(({ between: [, part] }) => part).sort()).toEqual([
      'crossmember',
      'hood',
    ]);
    expect(curve.points[0]!.binding.map(({ between: b }) => b)).toEqual([['sump', 'crossmember']]);
    expect(curve.enough).toBe(10);
    expect(curve.best!.depth).toBe(10);
    expect(curve.best!.perHour).toBeCloseTo(10 / 3, 3);
  });

  test('gains half its depth where the engine may follow it', () => {
    const curve = curveOf(scenario({ ...NOTCHED, position: { height: [-60, 60] } }));
    const { points } = curve;
    for (const { depth, margin } of points)
      expect(margin).toBeCloseTo((30 + Math.min(24, depth)) / 2 - GAP, 1);
    expect(points.at(-1)!.depth).toBe(24);
    expect(curve.enough).toBe(24);
  });

  test('stops gaining where the same part is left on either side of the notch', () => {
    const flange = { box: { x: [-10, 10], y: [-60, 60], z: [-35, -20] } };
    const tip = { box: { x: [-10, 10], y: [-10, 10], z: [-40, -35] } };
    const engine = { sump: { solids: [tip, flange] } };
    const curve = curveOf(scenario({ ...NOTCHED, engine }));
    for (const { depth, margin } of curve.points)
      expect(margin).toBeCloseTo(Math.min(10 + depth, 15) - GAP, 3);
    expect(curve.enough).toBe(5);
    expect(curve.best!.depth).toBe(5);
  });

  test('gains nothing where something else is tighter', () => {
    const chassis = { ...NOTCHED.chassis, hood: box(WIDE, WIDE, [28, 40]) };
    const curve = curveOf(scenario({ ...NOTCHED, chassis }));
    expect(curve.enough).toBe(0);
    expect(curve.best).toBeUndefined();
    for (const { margin } of curve.points) expect(margin).toBeCloseTo(8 - GAP, 3);
  });

  test('the wish takes the least mark that reaches it, for its price', () => {
    const answer = trim(scenario(NOTCHED), { margin: 11.4 });
    expect(answer.uncut).toBe('no');
    expect(answer.cheapestProved).toBe(true);
    expect(answer.cheapest!.cuts.map(({ depth }) => depth)).toEqual([7]);
    expect(answer.cheapest!.hours).toBeCloseTo(2.7, 9);
    expect(answer.cheapest!.placement.optimum.margin).toBeCloseTo(12, 3);
    expect(trim(scenario(NOTCHED), { margin: 5 }).cheapest).toBeUndefined();
    expect(trim(scenario(NOTCHED), { margin: 5 }).uncut).toBe('yes');
    const out = trim(scenario(NOTCHED), { margin: 15.1 });
    expect([out.uncut, out.cheapest, out.cheapestProved]).toEqual(['no', undefined, true]);
  });

  test('a wish beyond the ranges has no place at any depth', () => {
    const answer = trim(scenario(NOTCHED), { ranges: { height: { min: 50, max: 60 } } });
    expect([answer.uncut, answer.cheapestProved]).toEqual(['no', true]);
    expect(answer.curves[0]!.points.map(({ margin }) => margin)).toEqual([-Infinity, -Infinity]);
    expect(answer.curves[0]!.best).toBeUndefined();
  });

  test('stopped, it tells no curve that it has not worked out', () => {
    const answer = trim(scenario({ ...NOTCHED, position: { height: [-60, 60], pitch: [0, 5] } }), {
      steps: 2,
      margin: 15,
    });
    expect(answer.stopped).toBe('time');
    expect(answer.cheapestProved).toBe(false);
    expect(answer.curves).toEqual([]);
  });
});

test('a curve never falls, though what is round gets flats and corners when it is cut', () => {
  for (const top of [-30, -18, -12, -6]) {
    const curve = curveOf(
      scenario({
        engine: { block: box([38, 60], [-5, 5], [top - 10, top]) },
        chassis: { tank: { ball: { center: [0, 0, 0], diameter: 70 } } },
        trims: [{ part: 'tank', cut: 'down', 'up to': 8, hours: 1 }],
      }),
    );
    rises(curve);
    const known = Math.hypot(38, Math.max(0, -top)) - 35 - GAP;
    expect(curve.points[0]!.margin).toBeCloseTo(known, 2);
    expect(curve.points.at(-1)!.margin).toBeGreaterThanOrEqual(curve.points[0]!.margin);
  }
});

/** A convex outline in x and z, and half planes that cut it. */
type Outline = readonly Span[];

/** What is left where `side * (coordinate - at) <= 0`. */
function cutOutline(outline: Outline, axis: 0 | 1, side: 1 | -1, at: number): Outline {
  return outline.flatMap((p, i) => {
    const q = outline[(i + 1) % outline.length]!;
    const [f, g] = [side * (p[axis] - at), side * (q[axis] - at)];
    const t = f / (f - g);
    const crossing = [p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])] as const;
    return [...(f <= 0 ? [p] : []), ...(f * g < 0 ? [crossing] : [])];
  });
}

function turned(outline: Outline, by: number): Outline {
  const [c, s] = [Math.cos(by), Math.sin(by)];
  // About y, a positive turn takes z towards x.
  return outline.map(([x, z]) => [x * c + z * s, -x * s + z * c]);
}

const FLATS = 36;
const ROUND: Outline = Array.from({ length: FLATS }, (_, i) => [
  40 * Math.cos((2 * i * Math.PI) / FLATS),
  40 * Math.sin((2 * i * Math.PI) / FLATS),
]);
const SLOPE: Outline = [
  [-60, -30],
  [60, -30],
  [60, 20],
  [-60, -10],
];
const SQUARE: Outline = [
  [-50, -25],
  [50, -25],
  [50, 25],
  [-50, 25],
];
const profile = { axis: 'y', from: -100, to: 100 };
/** How a file draws each of them, and how much more metal a cut may leave than there is. */
const SHAPES = [
  { name: 'a sloping part', outline: SLOPE, drawn: { prism: { ...profile, profile: SLOPE } } },
  {
    name: 'a tilted part',
    outline: turned(SQUARE, 0.3),
    drawn: {
      ...box([-50, 50], [-100, 100], [-25, 25]),
      tilt: { about: 'y', by: (0.3 * 180) / Math.PI, at: [0, 0, 0] },
    },
  },
  {
    name: 'a round part',
    outline: ROUND,
    drawn: { cylinder: { ...profile, center: [0, 0], diameter: 80 } },
    more: 40 * (1 / Math.cos(Math.PI / 48) - Math.cos(Math.PI / FLATS)),
  },
] as const;

/** An engine over the part, with a leg down beside the face that is cut. */
function overPart(
  part: object,
  leg: Span,
  pitch: Span | number,
  trims?: readonly TrimDoc[],
): Scenario {
  return scenario({
    position: { setback: [-40, 40], height: [30, 120], pitch },
    engine: {
      block: box([-30, 30], [-20, 20], [0, 40]),
      sump: box([-10, 10], [-15, 15], [-20, 0]),
      leg: box(leg, [-10, 10], [-70, 0]),
    },
    chassis: {
      part,
      front: box([-150, -115], WIDE, [-100, 200]),
      back: box([115, 150], WIDE, [-100, 200]),
      hood: box(WIDE, WIDE, [115, 130]),
    },
    ...(trims && { trims }),
  });
}

const BEFORE: Span = [-95, -80];
const BEHIND: Span = [80, 95];
const CUTS = [
  { cut: 'down', keeps: [1, 1], over: undefined, leg: BEHIND },
  { cut: 'down', keeps: [1, 1], over: [-25, 15], leg: BEHIND },
  { cut: 'ahead', keeps: [0, 1], over: undefined, leg: BEHIND },
  { cut: 'back', keeps: [0, -1], over: undefined, leg: BEFORE },
] as const;

/** The outlines that a cut leaves, by hand. */
function leftBy(outline: Outline, { keeps, over }: (typeof CUTS)[number], depth: number) {
  const [axis, side] = keeps;
  const extreme = Math.max(...outline.map((point) => side * point[axis])) * side;
  const cut = (o: Outline) => cutOutline(o, axis, side, extreme - side * depth);
  if (over === undefined) return [cut(outline)];
  const [low, high] = over;
  const middle = cutOutline(cutOutline(outline, 0, -1, low), 0, 1, high);
  return [cutOutline(outline, 0, 1, low), cut(middle), cutOutline(outline, 0, -1, high)];
}

describe('a curve against the part drawn already cut', () => {
  const cases = SHAPES.flatMap((shape) => CUTS.map((cut) => ({ shape, cut })));
  test.each(cases)('$shape.name, $cut.cut over $cut.over', ({ shape, cut }) => {
    const tolerance = 0.1;
    const pitch = 'more' in shape ? 2 : ([0, 3] as const);
    const more = 'more' in shape ? shape.more : 0;
    const doc: TrimDoc = {
      part: 'part',
      cut: cut.cut,
      'up to': 14,
      hours: 1,
      ...(cut.over && { over: { x: cut.over } }),
    };
    const [curve] = trim(overPart(shape.drawn, cut.leg, pitch, [doc]), { tolerance }).curves;
    rises(curve!);
    if (cut.cut === 'back') expect(along(curve!, 14) - along(curve!, 0)).toBeGreaterThan(1);
    for (const depth of [0, 1, 4, 7, 11, 14]) {
      const solids = leftBy(shape.outline, cut, depth).map((outline) => ({
        prism: { ...profile, profile: outline },
      }));
      const known = solve(overPart({ solids }, cut.leg, pitch), { tolerance }).asItStands!.optimum
        .margin;
      // Uncut, a round part is round; its hand-drawn outline has flats inside of it.
      expect(along(curve!, depth), `${depth} deep`).toBeLessThan(known + 2 * tolerance);
      expect(along(curve!, depth), `${depth} deep`).toBeGreaterThan(known - 2 * tolerance - more);
    }
  });
});

/** Room beside the block at the left wall, the right wall and, for an arm of it, a tower on the left. */
interface Corridor {
  readonly left: number;
  readonly right: number;
  readonly tower: number;
  readonly offset: Span;
  readonly trims: readonly TrimDoc[];
}

const SIDES = ['left wall', 'right wall', 'tower'] as const;

function corridor({ left, right, tower, offset, trims }: Corridor): Scenario {
  return scenario({
    position: { offset },
    engine: { block: box(...BLOCK), arm: box([-150, -140], [-30, 0], [-20, 20]) },
    chassis: {
      'left wall': box([-50, 300], [-200, -20 - left], WIDE),
      'right wall': box(WIDE, [20 + right, 200], WIDE),
      tower: box([-200, -100], [-200, -30 - tower], WIDE),
    },
    trims,
  });
}

/** The best margin with these cuts, by part. */
function roomWith(c: Corridor, depth: (part: string) => number): number {
  const low = Math.min(c.left + depth('left wall'), c.tower + depth('tower'));
  const high = c.right + depth('right wall');
  const [from, to] = c.offset;
  const offset = Math.min(to, Math.max(from, (high - low) / 2));
  return Math.min(low + offset, high - offset) - GAP;
}

function hoursOf(trims: readonly TrimDoc[], depths: readonly number[]): number {
  return depths.reduce((sum, depth, t) => {
    const { hours = 0, plus } = trims[t]!;
    return sum + (depth > 0 ? hours + ((plus?.hours ?? 0) * depth) / (plus?.per ?? 1) : 0);
  }, 0);
}

/** The least hours over every mark of every trim, no cut included. */
function bruteForce(c: Corridor, margin: number): number {
  const marks = c.trims.map((trim) => Array.from({ length: trim['up to'] + 1 }, (_, i) => i));
  const all = marks.reduce<number[][]>(
    (sets, own) => sets.flatMap((set) => own.map((depth) => [...set, depth])),
    [[]],
  );
  const depthIn = (depths: readonly number[]) => (part: string) =>
    depths[c.trims.findIndex((trim) => trim.part === part)] ?? 0;
  const enough = all.filter((depths) => roomWith(c, depthIn(depths)) >= margin - 1e-7);
  return Math.min(...enough.map((depths) => hoursOf(c.trims, depths)));
}

function cutting(part: string, upTo: number, hours: number, perMm: number): TrimDoc {
  const cut = part === 'right wall' ? 'right' : 'left';
  return { part, cut, 'up to': upTo, hours, plus: { hours: perMm, per: 1 } };
}

function cheapestIn(c: Corridor, margin: number): number {
  const { cheapest, cheapestProved, uncut } = trim(corridor(c), { margin, tolerance: 1 });
  expect(cheapestProved).toBe(true);
  if (uncut === 'yes') return 0;
  return cheapest?.hours ?? Infinity;
}

describe('the cheapest cuts against every mark', () => {
  test('two shallow cuts where one deep one is dearer', () => {
    const trims = [cutting('left wall', 8, 0, 5), cutting('right wall', 4, 1, 1)];
    const c: Corridor = { left: 8, right: 8, tower: 90, offset: [-50, 50], trims };
    const answer = trim(corridor(c), { margin: 6 });
    expect(answer.cheapest!.cuts.map(({ depth }) => depth)).toEqual([2, 4]);
    expect(answer.cheapest!.hours).toBeCloseTo(15, 9);
    expect(answer.cheapestProved).toBe(true);
    expect(bruteForce(c, 6)).toBeCloseTo(15, 9);
  });

  test('two trims, whatever they cost', () => {
    const random = seeded(71);
    for (let i = 0; i < 12; i++) {
      const cost = () => Math.round(between(random, 0, 4));
      const whole = (low: number, high: number) => Math.round(between(random, low, high));
      const trims = SIDES.slice(0, 2).map((part) => cutting(part, whole(4, 9), cost(), cost()));
      const c: Corridor = { left: 7, right: whole(5, 9), tower: 90, offset: [-3, 2], trims };
      const margin = whole(2, 8);
      expect(cheapestIn(c, margin), JSON.stringify({ c, margin })).toBeCloseTo(
        bruteForce(c, margin),
        6,
      );
    }
  });

  test('three trims, whatever they cost', () => {
    const random = seeded(72);
    for (let i = 0; i < 8; i++) {
      const cost = () => Math.round(between(random, 0, 4));
      const whole = (low: number, high: number) => Math.round(between(random, low, high));
      const trims = SIDES.map((part) => cutting(part, whole(4, 7), cost(), cost()));
      const c: Corridor = {
        left: 7,
        right: whole(5, 9),
        tower: whole(6, 8),
        offset: [-3, 2],
        trims,
      };
      const margin = whole(3, 6);
      expect(cheapestIn(c, margin), JSON.stringify({ c, margin })).toBeCloseTo(
        bruteForce(c, margin),
        6,
      );
    }
  });
});

/** The same as a program: depths in whole marks, or any depth, a cut paid for where there is one. */
async function programmed(c: Corridor, margin: number, whole: boolean): Promise<number> {
  const program = new Program();
  const offset = program.variable(0, ...c.offset);
  const depths = new Map(
    c.trims.map(({ part, hours = 0, plus, 'up to': upTo }) => {
      const depth = program.variable(-plus!.hours!, 0, upTo, whole);
      const made = program.variable(-hours, 0, 1, true);
      program.row(
        [
          [depth, 1],
          [made, -upTo],
        ],
        -Infinity,
        0,
      );
      return [part, depth];
    }),
  );
  const gap = (part: string, toRight: 1 | -1, room: number) =>
    program.row(
      [
        [depths.get(part)!, 1],
        [offset, toRight],
      ],
      margin + GAP - room,
      Infinity,
    );
  gap('left wall', 1, c.left);
  gap('tower', 1, c.tower);
  gap('right wall', -1, c.right);
  const { status, value } = program.solve(await loadHighs());
  return status === 'optimal' ? -value : Infinity;
}

test('the cheapest of many marks against a mixed-integer program', async () => {
  const random = seeded(73);
  for (let i = 0; i < 4; i++) {
    const whole = (low: number, high: number) => Math.round(between(random, low, high));
    const trims = SIDES.map((part) => cutting(part, whole(15, 40), whole(0, 20), whole(1, 9)));
    const c: Corridor = { left: 7, right: 8, tower: whole(6, 20), offset: [-9, 7], trims };
    const margin = between(random, 4, 18);
    const cheapest = cheapestIn(c, margin);
    expect(cheapest, JSON.stringify({ c, margin })).toBeCloseTo(
      await programmed(c, margin, true),
      5,
    );
    const anyDepth = await programmed(c, margin, false);
    if (cheapest < Infinity) expect(cheapest).toBeGreaterThan(anyDepth - 1e-6);
  }
});

/** Runs to its end what asks nobody. */
function finished<T>(steps: Iterator<unknown, T, 'go'>): T {
  const { value, done } = steps.next('go');
  if (done !== true) throw new Error('it waits for something');
  return value;
}

test.each([1, 2, 3, 4])('the cheapest depths of %i trims against every mark', (count) => {
  const random = seeded(80 + count);
  for (let i = 0; i < 30; i++) {
    const trims = Array.from({ length: count }, () => {
      const {
        hours,
        'up to': upTo,
        plus,
      } = cutting('tower', Math.round(between(random, 2, 7)), 1, Math.round(between(random, 0, 3)));
      return { upTo, hours, cost: 0, plus: { hours: plus!.hours, cost: 0, per: 1 } };
    }) as unknown as Trim[];
    const worth = trims.map(
      ({ upTo }) => [between(random, 0, 3), between(random, 1, upTo)] as const,
    );
    const gained = (depths: readonly number[]) =>
      depths.reduce((sum, d, t) => sum + worth[t]![0] * Math.min(d, worth[t]![1]), 0);
    const wanted = between(random, 0, 1) * gained(trims.map(({ upTo }) => upTo));
    const hours = (depths: readonly number[]) =>
      depths.reduce((sum, d, t) => sum + d * trims[t]!.plus!.hours, 0);
    let least = Infinity;
    const sets = trims.reduce<number[][]>(
      (all, { upTo }) =>
        all.flatMap((set) => Array.from({ length: upTo }, (_, mark) => [...set, mark + 1])),
      [[]],
    );
    for (const set of sets) if (gained(set) >= wanted) least = Math.min(least, hours(set));
    const found = finished(
      cheapestDepths(trims, 1, function* (depths) {
        return gained(depths) >= wanted ? 'yes' : 'no';
      }),
    );
    expect(found.least).toBe(true);
    expect(gained(found.depths)).toBeGreaterThanOrEqual(wanted);
    expect(hours(found.depths)).toBe(least);
  }
});

describe('options beside cuts', () => {
  const choices = { filter: { 'on the block': {}, remote: { remove: ['arm'], hours: 2 } } };
  const trims = [cutting('tower', 9, 1, 1)];
  const c: Corridor = { left: 90, right: 90, tower: 3, offset: [0, 0], trims };
  const bay = (hours: number) =>
    scenario({
      engine: { block: box(...BLOCK), arm: box([-150, -140], [-30, 0], [-20, 20]) },
      chassis: { tower: box([-200, -100], [-200, -33], WIDE) },
      trims: [cutting('tower', 9, 1, 1)],
      choices: { filter: { ...choices.filter, remote: { remove: ['arm'], hours } } },
    });

  test('an option that is less work than the cut', () => {
    const answer = trim(bay(2), { withOptions: true });
    expect(answer.cheapest!.cuts).toEqual([]);
    expect(answer.cheapest!.options).toEqual([1]);
    expect([answer.cheapest!.hours, answer.cheapestProved]).toEqual([2, true]);
  });

  test('a cut that is less work than the option', () => {
    const answer = trim(bay(4), { withOptions: true });
    expect(answer.cheapest!.cuts.map(({ depth }) => depth)).toEqual([2]);
    expect(answer.cheapest!.options).toEqual([0]);
    expect([answer.cheapest!.hours, answer.cheapestProved]).toEqual([3, true]);
    expect(bruteForce(c, 0)).toBe(3);
  });

  test('cuts alone unless options are let in', () => {
    expect(trim(bay(2)).cheapest!.cuts.map(({ depth }) => depth)).toEqual([2]);
  });
});
