/**
 * Rules, limits and the way in with the engine rolled and yawed, against manifold-3d and against solids
 * stood at many moments of their motions, one turn after the other.
 */

import fc from 'fast-check';
import type { Manifold } from 'manifold-3d';
import { describe, expect, it } from 'vitest';
import { createGap, gapBetween } from '../../src/geometry/gap.js';
import { placed, shifted } from '../../src/geometry/placed.js';
import { extent } from '../../src/geometry/reach.js';
import { axisRotation, pitchRotation, rockRotation } from '../../src/geometry/rotation.js';
import { shapeOf } from '../../src/geometry/shape.js';
import type { Shape } from '../../src/geometry/shape.js';
import type { Facing, Limit, Part, Scenario, Solid, Vec3 } from '../../src/model/scenario.js';
import {
  carried,
  STANCE_MOTIONS,
  stanceFrom,
  stanceOf,
  stanceRotation,
  stanceVector,
} from '../../src/model/stance.js';
import type { Stance } from '../../src/model/stance.js';
import { compileBay } from '../../src/solver/measuring/compile.js';
import { guaranteedAt } from '../../src/solver/measuring/guaranteed.js';
import { HOIST_TOLERANCE, hoistTo } from '../../src/solver/measuring/hoist.js';
import { Leaning } from '../../src/solver/measuring/leaning.js';
import { measureAt, vectorOf } from '../../src/solver/measuring/measure.js';
import { createProbe, probe } from '../../src/solver/measuring/probe.js';
import { unruledAt } from '../../src/solver/measuring/unruled.js';
import { openOracle } from '../geometry/oracle.js';
import {
  between,
  FLAT_FACED,
  point,
  randomTurn as anyRotation,
  seeded,
  solid,
  SORTS,
} from '../geometry/random.js';
import type { Random, Sort } from '../geometry/random.js';
import { bay, part, rule } from '../model/sample-bay.js';
import { scenarioOf } from '../support/doc.js';
import { read } from '../support/taped.js';

const DEGREE = Math.PI / 180;
/** How wide the bracket of a gap over motions may be, with that of a single gap, mm. */
const BRACKET = 0.01 + 1.1e-3;
const seeds = fc.integer({ min: 0, max: 1e6 });

const AXIS_RULES: readonly (readonly [Facing, 0 | 1 | 2, 1 | -1])[] = [
  ['ahead', 0, 1],
  ['behind', 0, -1],
  ['left', 1, 1],
  ['right', 1, -1],
  ['below', 2, 1],
  ['above', 2, -1],
];
const MEASURES = ['fore-aft', 'side-to-side', 'up-down'] as const;

function anyStance(random: Random, spread: number): Stance {
  const [setback, offset, height] = point(random, spread);
  const turn = () => between(random, -0.35, 0.35);
  return { setback, offset, height, pitch: turn(), roll: turn(), yaw: turn() };
}

/** What a motion stands at: shares of the turns' ranges and of the sweeps', the rock and the lift. */
interface Moment {
  readonly turnA: number;
  readonly turnB: number;
  readonly rock: number;
  readonly lift: number;
}

interface Case {
  readonly scenario: Scenario;
  readonly stance: Stance;
  readonly a: Part;
  readonly b: Part;
  readonly facing: (typeof AXIS_RULES)[number];
}

/** Two parts that may turn and be swept, of an engine that may rock and be lifted, and a stance. */
function anyCase(seed: number, sorts: readonly Sort[]): Case {
  const random = seeded(seed);
  const some = (sort: Sort): Partial<Part> => {
    const range = () => ({ min: -between(random, 0, 20), max: between(random, 0, 20) });
    const min = -between(random, 0, 25) * DEGREE;
    return {
      solids: [solid(random, sort, 70)],
      ...(random() < 0.5 && {
        turn: {
          about: (['x', 'y', 'z'] as const)[Math.floor(3 * random())]!,
          at: point(random, 120),
          by: { min, max: min + between(random, 1, 25) * DEGREE },
        },
      }),
      ...(random() < 0.3 && { sweep: { x: range(), y: range(), z: { min: 0, max: 0 } } }),
    };
  };
  const pick = () => sorts[Math.floor(sorts.length * random())]!;
  const a = part('a', 'engine', some(pick()));
  const b = part('b', 'chassis', { kind: 'steering box', ...some(pick()) });
  const facing = AXIS_RULES[Math.floor(6 * random())]!;
  const scenario = bay({
    parts: [a, b],
    rock: random() < 0.5 ? between(random, 0.3, 4) * DEGREE : 0,
    lift: random() < 0.4 ? between(random, 5, 40) : 0,
    rules: [
      rule('side:engine', 'side:chassis', 3),
      rule('part:a', 'part:b', 2, { measured: MEASURES[facing[1]], facing: facing[0] }),
    ],
  });
  return { scenario, stance: anyStance(random, 80), a, b, facing };
}

/** The two solids at a moment in the vehicle frame: each turn by itself, one after the other. */
function stoodAt({ a, b, stance }: Case, { turnA, turnB, rock, lift }: Moment) {
  const own = (one: Part, by: number): Shape =>
    shapeOf(one.solids[0]!, {
      ...(one.sweep && { sweep: one.sweep }),
      ...(one.turn && { turn: { about: one.turn.about, at: one.turn.at, by } }),
    });
  const out = () => new Float64Array(9);
  const rocked = placed(own(a, turnA), rockRotation(rock, out()));
  const rolled = placed(shifted(rocked, 0, 0, lift), rockRotation(stance.roll, out()));
  const pitched = placed(rolled, pitchRotation(stance.pitch, out()));
  return {
    engine: placed(pitched, axisRotation(0, 0, 1, stance.yaw, out())),
    chassis: own(b, turnB),
  };
}

const gap = createGap();

function nearestAt(one: Case, moment: Moment): { lower: number; upper: number } {
  const { engine, chassis } = stoodAt(one, moment);
  const { setback, offset, height } = one.stance;
  gapBetween(engine, chassis, setback, offset, height, gap);
  return gap;
}

function alongAt(one: Case, moment: Moment): number {
  const { engine, chassis } = stoodAt(one, moment);
  const [, axis, sign] = one.facing;
  const d = [0, 1, 2].map((k) => (k === axis ? sign : 0)) as [number, number, number];
  const { setback, offset, height } = one.stance;
  const moved = [setback, offset, height][axis]! * sign;
  return moved - extent(engine, -d[0], -d[1], -d[2]) - extent(chassis, ...d);
}

function anyMoment({ scenario, a, b }: Case, random: Random): Moment {
  // Ends as often as what lies between.
  const from = (low: number, high: number) =>
    low + (high - low) * Math.min(1, Math.max(0, between(random, -0.5, 1.5)));
  return {
    turnA: a.turn ? from(a.turn.by.min, a.turn.by.max) : 0,
    turnB: b.turn ? from(b.turn.by.min, b.turn.by.max) : 0,
    rock: from(-scenario.rock, scenario.rock),
    lift: from(0, scenario.lift),
  };
}

/** Both of a case's contacts at its stance, each with the moment at which it is least. */
function probed({ scenario, stance }: Case) {
  const { contacts } = compileBay(scenario);
  const leaning = new Leaning(stance);
  const [x, y, z, pitch] = Array.from(leaning.x) as [number, number, number, number];
  return contacts.map((contact) => {
    const out = createProbe();
    out.nx = NaN;
    probe(leaning.contact(contact), x, y, z, pitch, out);
    return { out, contact };
  });
}

describe('rules of a leaning engine', () => {
  it('are less at no moment of their motions, and as little at the one they name', () => {
    const seen = { turnsA: 0, turnsB: 0, rocks: 0, lifts: 0, inside: 0, wide: 0 };
    fc.assert(
      fc.property(seeds, (seed) => {
        const one = anyCase(seed, SORTS);
        const readings = measureAt(one.scenario, [], one.stance).readings;
        const random = seeded(seed + 1);
        const [near, along] = probed(one).map(({ out }) => out);
        const told = readings.find(({ measured }) => measured === 'nearest')!;
        const axial = readings.find(({ measured }) => measured !== 'nearest')!;
        expect(told.gap).toBeCloseTo(near!.lower, 2);
        expect(axial.gap).toBeCloseTo(along!.lower, 2);
        for (let n = 0; n < 14; n++) {
          const moment = anyMoment(one, random);
          expect(nearestAt(one, moment).upper).toBeGreaterThan(told.gap - 1e-8);
          expect(alongAt(one, moment)).toBeGreaterThan(axial.gap - 1e-8);
        }
        expect(nearestAt(one, near!).lower).toBeLessThan(near!.upper + 1e-8);
        if (near!.upper - near!.lower > BRACKET) seen.wide++;
        expect(along!.upper - along!.lower).toBeLessThan(BRACKET);
        expect(alongAt(one, along!)).toBeLessThan(axial.gap + BRACKET);
        // A tape is held to the still vehicle, where nothing is turned or swept.
        const still = { ...one, a: stillOf(one.a), b: stillOf(one.b) };
        const rest = { turnA: 0, turnB: 0, rock: 0, lift: 0 };
        expect(told.atRest).toBeGreaterThan(nearestAt(still, rest).lower - 2e-3);
        expect(told.atRest).toBeLessThan(nearestAt(still, rest).upper + BRACKET);
        expect(axial.atRest).toBeGreaterThan(alongAt(still, rest) - 1e-8);
        if (one.a.turn) seen.turnsA++;
        if (one.b.turn) seen.turnsB++;
        if (one.scenario.rock > 0) seen.rocks++;
        if (one.scenario.lift > 0) seen.lifts++;
        if (told.gap < 0) seen.inside++;
      }),
      { numRuns: 26, seed: 11, endOnFailure: true },
    );
    const { wide, ...others } = seen;
    expect(Math.min(...Object.values(others))).toBeGreaterThan(4);
    expect(wide).toBeLessThan(3);
  });

  it('agree with manifold-3d at the moment they name', async () => {
    const oracle = await openOracle();
    const still = pitchRotation(0, new Float64Array(9));
    const degrees = (angle: number): number => angle / DEGREE;
    let apart = 0;
    fc.assert(
      fc.property(seeds, (seed) => {
        const swept = anyCase(seed, FLAT_FACED);
        const one = withParts(swept, (part) => withoutSweep(part));
        const [near, along] = probed(one);
        const bodyOf = ({ solids: [own], turn }: Part, angle: number): Manifold => {
          const body = oracle.faceted(own!, still).body;
          if (!turn) return body;
          const by = (['x', 'y', 'z'] as const).map((k) => (k === turn.about ? degrees(angle) : 0));
          return body
            .translate([-turn.at[0], -turn.at[1], -turn.at[2]])
            .rotate([by[0]!, by[1]!, by[2]!])
            .translate([...turn.at]);
        };
        const bodies = ({ turnA, turnB, rock, lift }: Moment) => {
          const { setback, offset, height, pitch, roll, yaw } = one.stance;
          const engine = bodyOf(one.a, turnA)
            .rotate([degrees(rock), 0, 0])
            .translate([0, 0, lift])
            .rotate([degrees(roll), degrees(pitch), degrees(yaw)])
            .translate([setback, offset, height]);
          return [engine, bodyOf(one.b, turnB)] as const;
        };
        if (near!.out.upper > 1e-3) {
          apart++;
          const [engine, chassis] = bodies(near!.out);
          const distance = engine.minGap(chassis, 1e4);
          const close = 2e-5 * Math.max(1, distance);
          expect(Math.abs(distance - near!.out.upper)).toBeLessThan(close);
        }
        const [, axis, sign] = one.facing;
        const [engine, chassis] = bodies(along!.out).map((body) => body.boundingBox());
        const between =
          sign > 0
            ? engine!.min[axis] - chassis!.max[axis]
            : chassis!.min[axis] - engine!.max[axis];
        expect(between).toBeCloseTo(along!.out.upper, 3);
      }),
      { numRuns: 25, seed: 12, endOnFailure: true },
    );
    expect(apart).toBeGreaterThan(6);
  });

  it('keep the room for a part to come out, along the turned engine', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const random = seeded(seed);
        const out = { x: { min: 0, max: 80 }, y: { min: 0, max: 0 }, z: { min: -30, max: 0 } };
        const drawn = solid(random, 'hull', 60);
        const b = part('b', 'chassis', { solids: [solid(random, 'box', 200)] });
        const scenario = bay({
          parts: [part('a', 'engine', { solids: [drawn], comesOut: out }), b],
          rock: 2 * DEGREE,
          rules: [rule('part:a', 'part:b', 0, { comingOut: true })],
        });
        const stance = anyStance(random, 150);
        const [reading] = measureAt(scenario, [], stance).readings;
        expect(reading!.withdrawn!.part).toBe('a');
        const swept = placed(shapeOf(drawn, { sweep: out }), stanceRotation(stance));
        const { setback, offset, height } = stance;
        gapBetween(swept, shapeOf(b.solids[0]!), setback, offset, height, gap);
        expect(reading!.gap).toBeCloseTo(gap.lower, 2);
      }),
      { numRuns: 25, seed: 13, endOnFailure: true },
    );
  });

  it('are those of the position where roll and yaw are zero, and no jump away where they are next to it', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { scenario, stance } = anyCase(seed, SORTS);
        const { setback, offset, height, pitch } = stance;
        const position = { setback, offset, height, pitch };
        // The same four numbers go the same way; rounding alone depends on what was measured before.
        expect(vectorOf(stanceOf(position))).toEqual(vectorOf(position));
        expect(measureAt(scenario, [], stanceOf(position)).position).toEqual(position);
        const barely = measureAt(scenario, [], stanceOf(position, 1e-11, -1e-11));
        for (const [i, reading] of measureAt(scenario, [], position).readings.entries()) {
          const { gap: near, atRest } = barely.readings[i]!;
          expect(Math.abs(near - reading.gap)).toBeLessThan(BRACKET);
          expect(Math.abs(atRest - reading.atRest)).toBeLessThan(BRACKET);
        }
      }),
      { numRuns: 12, seed: 14, endOnFailure: true },
    );
  });

  it('do not feel the chassis and the engine turned together', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const random = seeded(seed);
        const hull = solid(random, 'hull', 150) as Extract<Solid, { shape: 'hull' }>;
        const engine = part('a', 'engine', { solids: [solid(random, 'cylinder', 100)] });
        const stance = anyStance(random, 200);
        const s = anyRotation(random);
        const turned = ([x, y, z]: Vec3): Vec3 => {
          const row = (i: number) => s[i]! * x + s[i + 1]! * y + s[i + 2]! * z;
          return [row(0), row(3), row(6)];
        };
        const gapIn = (points: readonly Vec3[], at: Stance) =>
          measureAt(
            bay({
              parts: [engine, part('b', 'chassis', { solids: [{ shape: 'hull', points }] })],
              rock: 3 * DEGREE,
              rules: [rule('side:engine', 'side:chassis', 0)],
            }),
            [],
            at,
          ).margin;
        // The turn of both, told as roll, pitch and yaw again.
        const [x, y, z] = ([0, 1, 2] as const).map((k) => {
          const unit = [0, 0, 0];
          unit[k] = 1;
          return turned(carried({ ...stance, setback: 0, offset: 0, height: 0 }, unit as never));
        }) as [Vec3, Vec3, Vec3];
        const [setback, offset, height] = turned([stance.setback, stance.offset, stance.height]);
        const together: Stance = {
          setback,
          offset,
          height,
          pitch: Math.asin(-x[2]),
          roll: Math.atan2(y[2], z[2]),
          yaw: Math.atan2(x[1], x[0]),
        };
        fc.pre(Math.abs(x[2]) < 0.999);
        expect(gapIn(hull.points.map(turned), together)).toBeCloseTo(gapIn(hull.points, stance), 1);
        expect(
          Math.abs(gapIn(hull.points.map(turned), together) - gapIn(hull.points, stance)),
        ).toBeLessThan(BRACKET);
      }),
      { numRuns: 40, seed: 15, endOnFailure: true },
    );
  });

  it('rolled are what rock finds at that angle', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const one = anyCase(seed, SORTS);
        const rock = 4 * DEGREE;
        const level = { ...one.stance, roll: 0, yaw: 0 };
        const rocking = measureAt({ ...one.scenario, rock, lift: 0 }, [], level).readings;
        const still = { ...one.scenario, rock: 0, lift: 0 };
        const least = new Map<string, number>();
        for (let n = -8; n <= 8; n++) {
          const rolled = { ...level, roll: (rock * n) / 8 };
          for (const { measured, gap: found } of measureAt(still, [], rolled).readings) {
            least.set(measured, Math.min(found, least.get(measured) ?? Infinity));
          }
        }
        for (const { measured, gap: told } of rocking) {
          expect(least.get(measured)!).toBeGreaterThan(told - BRACKET);
          // No point is farther than 330 mm from the crankshaft; a half step is a quarter degree.
          expect(least.get(measured)!).toBeLessThan(told + 330 * (DEGREE / 4) + BRACKET);
        }
      }),
      { numRuns: 6, seed: 16, endOnFailure: true },
    );
  });

  it('say what a step of each motion does', () => {
    let checked = 0;
    fc.assert(
      fc.property(seeds, (seed) => {
        const drawn = anyCase(seed, ['ball', 'tube']);
        const plain = withParts(drawn, stillOf);
        const one = { ...plain, scenario: { ...plain.scenario, rock: 0, lift: 0 } };
        const at = stanceVector(one.stance);
        const { readings } = measureAt(one.scenario, [], one.stance);
        for (const { measured, slope, gap: here } of readings) {
          if (here < 1) continue;
          checked++;
          STANCE_MOTIONS.forEach((motion, k) => {
            const step = k < 3 ? 1e-2 : 1e-4;
            const [ahead, behind] = [1, -1].map((way) => {
              const moved = Float64Array.from(at);
              moved[k]! += way * step;
              const there = measureAt(one.scenario, [], stanceFrom(moved)).readings;
              return there.find((other) => other.measured === measured)!.gap;
            });
            const slack = k < 3 ? 0.01 : 1;
            const found = (ahead! - behind!) / (2 * step);
            expect(Math.abs(found - slope![motion]), motion).toBeLessThan(slack);
          });
        }
      }),
      { numRuns: 30, seed: 17, endOnFailure: true },
    );
    expect(checked).toBeGreaterThan(15);
  });

  it('leave pairs of one side as they are', () => {
    const x = (min: number) => ({ min, max: min + 10 });
    const box = (at: number): Solid => ({ shape: 'box', x: x(at), y: x(0), z: x(0) });
    const scenario = bay({
      parts: [
        part('a', 'engine', { solids: [box(0)] }),
        part('other', 'engine', { solids: [box(17)] }),
      ],
      rules: [rule('part:a', 'part:other', 5, { measured: 'fore-aft', facing: 'behind' })],
    });
    const { readings } = measureAt(scenario, [], anyStance(seeded(3), 100));
    expect(readings).toHaveLength(1);
    expect(readings[0]).toMatchObject({ fixed: true, gap: 7 });
  });
});

function stillOf(one: Part): Part {
  const { turn: _turn, ...rest } = withoutSweep(one);
  return rest;
}

function withoutSweep({ sweep: _sweep, ...rest }: Part): Part {
  return rest;
}

function withParts(one: Case, change: (part: Part) => Part): Case {
  const [a, b] = [change(one.a), change(one.b)];
  return { ...one, a, b, scenario: { ...one.scenario, parts: [a, b] } };
}

describe('limits of a leaning engine', () => {
  it('take the height of a datum and of a lowest point as they are turned', () => {
    const points: readonly Vec3[] = [
      [-100, -40, -60],
      [200, 30, -90],
      [50, 120, 10],
      [0, -150, -20],
    ];
    const above = { of: 'height above' as const, above: 'ground' };
    const limit = (what: Extract<Limit['quantity'], { of: 'height above' }>['what']): Limit =>
      ({
        quantity: { ...above, what },
        min: -1000,
        max: 1000,
        origin: { from: 'file' },
      }) as never;
    const scenario = bay({
      parts: [part('pan', 'engine', { solids: [{ shape: 'hull', points }] })],
      datums: {
        chassis: [{ name: 'ground', z: -300 }],
        engine: [{ name: 'drain', x: 30, y: -70, z: -110 }],
      },
      limits: [
        limit({ datum: 'drain' }),
        limit({ part: 'pan' }),
        { quantity: { of: 'pitch' }, min: -1, max: 0.01 },
      ],
    });
    fc.assert(
      fc.property(seeds, (seed) => {
        const stance = anyStance(seeded(seed), 300);
        const [drain, pan, pitch] = measureAt(scenario, [], stance).limits;
        expect(drain!.value).toBeCloseTo(carried(stance, [30, -70, -110])[2] + 300, 9);
        const lowest = Math.min(...points.map((one) => carried(stance, one)[2]));
        expect(pan!.value).toBeCloseTo(lowest + 300, 9);
        expect(pitch!.value).toBe(stance.pitch);
        expect(pitch!.met).toBe(stance.pitch <= 0.01);
      }),
      { numRuns: 30, seed: 18 },
    );
  });

  it('take the joint angles of an output shaft that turns with the engine', () => {
    const pinion: Vec3 = [2300, 60, -120];
    const output: Vec3 = [900, 25, -10];
    const scenario = scenarioOf({
      units: 'mm',
      position: { setback: [0, 60], offset: [-40, 40], height: [-40, 40], pitch: [0, 6] },
      engine: { block: { box: { x: [-500, 0], y: [-250, 250], z: [-150, 250] } } },
      chassis: { wall: { box: { x: [-600, 100], y: [-420, -400], z: [-300, 300] } } },
      rules: [{ between: ['engine', 'chassis'], gap: 10 }],
      driveline: {
        output: { at: output },
        pinion: { ride: { at: pinion, up: 1 } },
        'top speed': { shaft: 3000 },
        angles: { least: 1, most: 3, within: 0.5 },
      },
    } as never);
    const angle = (a: Vec3, b: Vec3) => {
      const dot = a.reduce((sum, v, k) => sum + v * b[k]!, 0);
      return Math.acos(dot / Math.hypot(...a) / Math.hypot(...b));
    };
    fc.assert(
      fc.property(seeds, (seed) => {
        const stance = anyStance(seeded(seed), 60);
        const turned = carried({ ...stance, setback: 0, offset: 0, height: 0 }, [1, 0, 0]);
        const from = carried(stance, output);
        const shaft = pinion.map((v, k) => v - from[k]!) as unknown as Vec3;
        const nose: Vec3 = [Math.cos(DEGREE), 0, -Math.sin(DEGREE)];
        const [front, rear] = [angle(turned, shaft), angle(shaft, nose)];
        for (const { limit, value } of measureAt(scenario, [], stance).limits) {
          const { quantity } = limit;
          if (quantity.of === 'joint angle') {
            expect(value).toBeCloseTo(quantity.joint === 'front' ? front : rear, 7);
          } else expect(value).toBeCloseTo(Math.abs(front - rear), 7);
        }
        expect(scenario.limits.map(({ quantity }) => quantity.of)).toContain('joint difference');
      }),
      { numRuns: 20, seed: 19 },
    );
  });
});

describe('what goes with the rules of a leaning engine', () => {
  it('finds what overlaps without a rule', () => {
    const x = (min: number, max: number) => ({ min, max });
    const long: Solid = { shape: 'box', x: x(0, 1000), y: x(-10, 10), z: x(-10, 10) };
    const post: Solid = { shape: 'box', x: x(900, 950), y: x(30, 60), z: x(-50, 50) };
    const scenario = bay({
      parts: [
        part('shaft', 'engine', { solids: [long] }),
        part('post', 'chassis', { solids: [post] }),
      ],
    });
    const overlapping = (yaw: number) => {
      const at = stanceOf({ setback: 0, offset: 0, height: 0, pitch: 0 }, 0, yaw * DEGREE);
      return unruledAt(scenario, [], measureAt(scenario, [], at)).overlaps.length;
    };
    expect([overlapping(0), overlapping(2), overlapping(-2)]).toEqual([0, 1, 0]);
  });

  it('goes in on the last leg by taking on its lean evenly', () => {
    let inside = 0;
    for (let seed = 1; seed <= 20; seed++) {
      const random = seeded(seed);
      const sort = () => SORTS[Math.floor(SORTS.length * random())]!;
      const level = (): Stance => ({ ...anyStance(random, 250), roll: 0, yaw: 0 });
      const through = [level()];
      const scenario = bay({
        parts: [
          part('a', 'engine', { solids: [solid(random, sort(), 250)] }),
          part('b', 'chassis', { solids: [solid(random, sort(), 90)] }),
        ],
        rules: [rule('side:engine', 'side:chassis', 0)],
        hoistPath: { off: [], without: [], gap: 0, through },
      });
      const place = anyStance(random, 250);
      const hoist = hoistTo(scenario, [], place)!;
      const [from, to] = [stanceVector(through[0]!), stanceVector(place)];
      for (let n = 0; n <= 60; n++) {
        const at = stanceFrom(from.map((start, k) => start + ((to[k]! - start) * n) / 60));
        const { margin } = measureAt(scenario, [], at);
        expect(margin, `seed ${seed}`).toBeGreaterThan(hoist.margin - 2e-3);
      }
      const least = measureAt(scenario, [], hoist.worst!.position).margin;
      expect(least - hoist.margin, `seed ${seed}`).toBeLessThan(HOIST_TOLERANCE + 2e-3);
      const [first, last] = hoist.worst!.leg;
      if (first !== last) inside++;
    }
    expect(inside).toBeGreaterThan(3);
  });

  it.each([true, false])(
    'guarantees what any true bay leaves, set by tape, sideways: %s',
    (sideways) => {
      const stance: Stance = {
        setback: 600,
        offset: 5,
        height: 20,
        pitch: 4 * DEGREE,
        roll: 12 * DEGREE,
        yaw: -9 * DEGREE,
      };
      // Along the engine's flank, so that what the tape does ahead tells at the side.
      const flank = [-300, -100].flatMap((x) =>
        [130, 150].flatMap((y) => [0, 150].map((z) => carried(stance, [x, y, z]))),
      );
      const doc = (m: (value: number, error: number) => string) => ({
        berth: 1,
        units: 'mm',
        driver: 'left',
        datums: {
          chassis: { axle: { x: m(0, 2) } },
          engine: { face: { x: m(-400, 6), ...(sideways && { y: m(0, 20) }), z: m(50, 15) } },
        },
        position: { setback: [400, 900], offset: [-20, 20], height: [0, 100], pitch: [-10, 10] },
        rock: 2,
        engine: { block: { box: { x: [-380, 0], y: [-100, 100], z: [-50, 200] } } },
        chassis: {
          core: { box: { x: [-20, 0], y: [-900, 900], z: [-900, 900] } },
          wall: { box: { x: [900, 950], y: [-900, 900], z: [-900, 900] } },
          hood: { box: { x: [0, 900], y: [-900, 900], z: [400, 420] } },
          side: { box: { x: [0, 900], y: [300, 350], z: [-900, 900] } },
          flank: { hull: { points: flank } },
        },
        rules: [{ between: ['engine', 'chassis'], gap: 0 }],
      });
      const drawn = read(doc((value, error) => `${value} +- ${error}`));
      const told = guaranteedAt(drawn, [], measureAt(drawn, [], stance));
      const least = new Map<string, number>();
      const random = seeded(8);
      for (let n = 0; n < 20; n++) {
        // Every corner of what the four may be off by, then some between.
        let next = 0;
        const share = () => (n < 16 ? ((n >> next++) & 1 ? 1 : -1) : between(random, -1, 1));
        const truth = read(doc((value, error) => String(value + error * share())));
        const face = truth.datums.engine[0]!;
        // The tape reads at the true datum what the position makes it read at the drawn one.
        const meant = carried(stance, [-400, 0, 50]);
        const found = carried(stance, [face.x!, face.y ?? 0, face.z!]);
        const set = {
          ...stance,
          setback: stance.setback + meant[0] - found[0] + truth.datums.chassis[0]!.x!,
          offset: stance.offset + (sideways ? meant[1] - found[1] : 0),
          height: stance.height + meant[2] - found[2],
        };
        for (const { between: pair, margin } of measureAt(truth, [], set).readings) {
          const reading = told.readings.find((one) => one.between[1] === pair[1])!;
          expect(margin, pair.join()).toBeGreaterThan(reading.guaranteed! - 1e-6);
          least.set(pair[1], Math.min(margin, least.get(pair[1]) ?? Infinity));
        }
      }
      for (const { between: pair, guaranteed, margin } of told.readings) {
        expect(guaranteed).toBeLessThan(margin - 0.5);
        expect(least.get(pair[1])! - guaranteed!, pair.join()).toBeLessThan(10);
      }
    },
  );
});
