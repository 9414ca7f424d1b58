import type { Manifold } from 'manifold-3d';
import { describe, expect, it } from 'vitest';
import { createGap, gapBetween } from '../../src/geometry/gap.js';
import {
  createMovedGap,
  movedGap,
  TURN_TOLERANCE,
  type Along,
} from '../../src/geometry/motion/moved-gap.js';
import { sharpen } from '../../src/geometry/motion/cell-bound.js';
import {
  addCell,
  cellsBound,
  cellsHigh,
  cellsLow,
  clearCells,
} from '../../src/geometry/motion/motion-cells.js';
import { movingPair, standing, type MovingPair } from '../../src/geometry/motion/moving-pair.js';
import { TurningShape } from '../../src/geometry/motion/turning-shape.js';
import { placed } from '../../src/geometry/placed.js';
import { extent } from '../../src/geometry/reach.js';
import { attitude, pitchRotation } from '../../src/geometry/rotation.js';
import { shapeOf, type Shape } from '../../src/geometry/shape.js';
import type { Axis, Box, Solid, Turn } from '../../src/model/scenario.js';
import { openOracle } from './oracle.js';
import {
  between,
  FLAT_FACED,
  point,
  randomTurn as anyTurn,
  seeded,
  solid,
  SORTS,
  type Random,
} from './random.js';
import { cases } from '../support/times.js';

const DEGREE = Math.PI / 180;
/** How wide the bracket of a gap at a single state may be where discs overlap, mm. */
const SINGLE = 1.1e-3;
type Pose = readonly [number, number, number, number];

const rotation = new Float64Array(9);
const gap = createGap();

function randomTurn(random: Random, width: number): Turn {
  const about = (['x', 'y', 'z'] as const satisfies readonly Axis[])[Math.floor(3 * random())]!;
  const at = point(random, 150);
  const min = -between(random, 0, width) * DEGREE;
  return { about, at, by: { min, max: min + between(random, 0.2, width) * DEGREE } };
}

function randomSweep(random: Random): Box | undefined {
  if (random() < 0.7) return undefined;
  const range = () => ({ min: -between(random, 0, 20), max: between(random, 0, 20) });
  return { x: range(), y: range(), z: { min: 0, max: 0 } };
}

function turning(random: Random, drawn: Solid, width: number): TurningShape {
  const sweep = randomSweep(random);
  return new TurningShape(drawn, sweep ? { sweep } : {}, randomTurn(random, width));
}

interface Case {
  readonly pair: MovingPair;
  readonly pose: Pose;
}

/** Pairs that turn on either side or both, some while they rock or are lifted. */
function randomCase(random: Random, i: number): Case {
  const drawn = (n: number): Solid => solid(random, SORTS[(i + n) % SORTS.length]!, 110);
  const width = i % 4 === 0 ? 40 : 6;
  const which = i % 3;
  const a = which === 1 ? shapeOf(drawn(0)) : turning(random, drawn(0), width);
  const b = which === 0 ? shapeOf(drawn(3)) : turning(random, drawn(3), width);
  const rock = random() < 0.4 ? between(random, 0.2, 3) * DEGREE : 0;
  const lift = random() < 0.3 ? between(random, 5, 30) : 0;
  const pitch = between(random, -0.1, 0.1);
  return { pair: movingPair(a, b, rock, lift), pose: [pitch, ...point(random, 90)] };
}

/** The two solids of a pair at one state, in the vehicle's frame, before A is shifted. */
function standingAt({ pair, pose }: Case, state: readonly number[]): readonly [Shape, Shape, Pose] {
  const [turnA, rock, turnB, lift] = state as [number, number, number, number];
  const a = placed(standing(pair.a, turnA), attitude(pose[0], rock, rotation));
  const x = pose[1] + lift * Math.sin(pose[0]);
  return [a, standing(pair.b, turnB), [0, x, pose[2], pose[3] + lift * Math.cos(pose[0])]];
}

function gapAt(one: Case, state: readonly number[]): { lower: number; upper: number } {
  const [a, b, [, x, y, z]] = standingAt(one, state);
  gapBetween(a, b, x, y, z, gap);
  return gap;
}

/** States of the whole motion: a grid of its ends and what lies between. */
function* statesOf({ low, high, together }: MovingPair, steps: number): Generator<number[]> {
  const at = (k: number, share: number): number => low[k]! + share * (high[k]! - low[k]!);
  const shares = (k: number): number[] =>
    low[k] === high[k] ? [0] : Array.from({ length: steps + 1 }, (_, n) => n / steps);
  for (const p of shares(0))
    for (const q of shares(1))
      for (const r of together ? [p] : shares(2))
        for (const s of shares(3)) yield [at(0, p), at(1, q), at(2, r), at(3, s)];
}

function stepsFor({ low, high, together }: MovingPair): number {
  const slots = [0, 1, 2, 3].filter((k) => low[k] !== high[k] && !(together && k === 2)).length;
  return [1, 160, 16, 7, 4][slots]!;
}

describe('the gap over motions', () => {
  it('is never more than dense sampling finds, and its bracket is as narrow as it says', () => {
    const random = seeded(70);
    const out = createMovedGap();
    const count = { wide: 0, apart: 0, overlapping: 0, several: 0, inner: 0 };
    for (let i = 0; i < cases(96); i++) {
      const one = randomCase(random, i);
      const { pair, pose } = one;
      movedGap(pair, pose, undefined, TURN_TOLERANCE, out);
      expect(out.lower).toBeLessThanOrEqual(out.upper);
      if (out.upper - out.lower > TURN_TOLERANCE + SINGLE) count.wide++;
      let least = Infinity;
      for (const state of statesOf(pair, stepsFor(pair))) {
        least = Math.min(least, gapAt(one, state).upper);
      }
      expect(least, `case ${i}`).toBeGreaterThanOrEqual(out.lower - 1e-9);
      // The upper end is the gap of a real state.
      const there = gapAt(one, [out.turnA, out.rock, out.turnB, out.lift]);
      expect(there.lower).toBeLessThanOrEqual(out.upper + 1e-9);
      expect(there.upper).toBeGreaterThanOrEqual(out.upper - SINGLE);
      count[out.coresOverlap ? 'overlapping' : 'apart']++;
      if (pair.low.filter((v, k) => v < pair.high[k]!).length > 1) count.several++;
      const state = [out.turnA, out.rock, out.turnB, out.lift];
      if (state.some((v, k) => v > pair.low[k]! && v < pair.high[k]!)) count.inner++;
    }
    for (const n of [count.apart, count.overlapping, count.several, count.inner]) {
      expect(n).toBeGreaterThan(8);
    }
    expect(count.wide).toBeLessThan(3);
  }, 60_000);

  it('has cells whose one bound is under every gap of theirs, however wide they are', () => {
    const random = seeded(74);
    let close = 0;
    for (let i = 0; i < 150; i++) {
      // Some turn about themselves on an engine that lifts far: what the lift moves is then the most of it.
      const small = i % 3 === 0;
      const at = point(random, 60);
      const range = (k: number, half: number) => ({ min: at[k]! - half, max: at[k]! + half });
      const about = (['x', 'y', 'z'] as const)[i % 3]!;
      const by = { min: -0.5, max: between(random, 0.1, 0.5) };
      const lever: Solid = { shape: 'box', x: range(0, 12), y: range(1, 3), z: range(2, 7) };
      const one = small
        ? {
            pair: movingPair(
              new TurningShape(lever, {}, { about, at, by }),
              i % 2 === 0
                ? shapeOf(solid(random, 'box', 60))
                : turning(random, solid(random, 'hull', 60), 40),
              i % 5 === 0 ? 0.05 : 0,
              between(random, 40, 150),
            ),
            pose: [between(random, -0.1, 0.1), ...point(random, 90)] as const,
          }
        : randomCase(random, 4 * i);
      const { pair, pose } = one;
      const middle = pair.low.map((low, k) => (low + pair.high[k]!) / 2);
      if (pair.together) middle[2] = middle[0]!;
      const { lower } = gapAt(one, [...middle]);
      const hint = { nx: gap.nx, ny: gap.ny, nz: gap.nz, state: Float64Array.from(middle) };
      clearCells();
      const cell = addCell();
      cellsLow.set(pair.low);
      cellsHigh.set(pair.high);
      sharpen(pair, pose, hint, cell, false);
      const bound = cellsBound[cell]!;
      let least = Infinity;
      for (const state of statesOf(pair, Math.min(12, stepsFor(pair))))
        least = Math.min(least, gapAt(one, state).upper);
      expect(bound, `case ${i}`).toBeLessThanOrEqual(least + 1e-9);
      if (least - bound < 10 && lower > 0) close++;
    }
    expect(close).toBeGreaterThan(20);
  });

  it('parts that turn together share their state', () => {
    const random = seeded(71);
    const out = createMovedGap();
    const apart = createMovedGap();
    let differs = 0;
    for (let i = 0; i < 18; i++) {
      const a = turning(random, solid(random, SORTS[i % SORTS.length]!, 120), 30);
      const b = turning(random, solid(random, SORTS[(i + 3) % SORTS.length]!, 120), 30);
      const pose: Pose = [0, ...point(random, 90)];
      const pair = movingPair(a, b, 0, 0, true);
      movedGap(pair, pose, undefined, TURN_TOLERANCE, out);
      expect(out.upper - out.lower).toBeLessThanOrEqual(TURN_TOLERANCE + SINGLE);
      for (const state of statesOf(pair, 100)) {
        expect(gapAt({ pair, pose }, state).upper).toBeGreaterThanOrEqual(out.lower - 1e-9);
      }
      const share = (angle: number, of: TurningShape): number =>
        (angle - of.range.min) / (of.range.max - of.range.min);
      expect(share(out.turnA, a)).toBeCloseTo(share(out.turnB, b), 9);
      movedGap(movingPair(a, b, 0, 0), pose, undefined, TURN_TOLERANCE, apart);
      expect(apart.lower).toBeLessThanOrEqual(out.upper + 1e-9);
      if (apart.upper < out.lower - 1) differs++;
    }
    expect(differs).toBeGreaterThan(6);
  });

  it('along an axis, no state reaches further than it says', () => {
    const random = seeded(72);
    const out = createMovedGap();
    let rocks = 0;
    for (let i = 0; i < 100; i++) {
      const one = randomCase(random, i);
      const along: Along = [i % 3 === 0 ? 1 : 0, i % 3 === 1 ? -1 : 0, i % 3 === 2 ? 1 : 0];
      movedGap(one.pair, one.pose, along, TURN_TOLERANCE, out);
      expect(out.upper - out.lower).toBeLessThanOrEqual(TURN_TOLERANCE);
      const gapAlong = (state: readonly number[]): number => {
        const [a, b, [, x, y, z]] = standingAt(one, state);
        const [p, q, r] = along;
        return p * x + q * y + r * z - extent(a, -p, -q, -r) - extent(b, p, q, r);
      };
      for (const state of statesOf(one.pair, 8)) {
        expect(gapAlong(state)).toBeGreaterThanOrEqual(out.lower - 1e-9);
      }
      expect(gapAlong([out.turnA, out.rock, out.turnB, out.lift])).toBeCloseTo(out.upper, 9);
      if (one.pair.rock > 0) rocks++;
    }
    expect(rocks).toBeGreaterThan(15);
  }, 60_000);

  it('is bracketed the same, seen from another frame', () => {
    const random = seeded(74);
    const out = createMovedGap();
    const same = createMovedGap();
    let split = 0;
    for (let i = 0; i < 24; i++) {
      const wide = i % 2 === 0 ? 50 : 8;
      const drawn = solid(random, SORTS[i % SORTS.length]!, 90);
      const a = i % 3 === 0 ? shapeOf(drawn) : turning(random, drawn, wide);
      const b = turning(random, solid(random, SORTS[(i + 3) % SORTS.length]!, 90), wide);
      const shift = point(random, 90);
      const slant = anyTurn(random);
      const turned = placed(shapeOf({ shape: 'ball', center: shift, diameter: 1 }), slant).center;
      // The engine's side turned too: seen from there, B is as it was.
      const slanted = 'range' in a ? a.slanted(slant) : placed(a, slant);
      const seen: Pose = [0, turned[0]!, turned[1]!, turned[2]!];
      movedGap(movingPair(a, b, 0, 0), [0, ...shift], undefined, TURN_TOLERANCE, out);
      movedGap(movingPair(slanted, b.slanted(slant), 0, 0), seen, undefined, TURN_TOLERANCE, same);
      expect(Math.abs(same.upper - out.upper), `case ${i}`).toBeLessThan(SINGLE);
      expect(Math.abs(same.lower - out.lower), `case ${i}`).toBeLessThan(TURN_TOLERANCE + SINGLE);
      // The same cells are halved, unless rounding says otherwise.
      const states = [out.turnA - same.turnA, out.turnB - same.turnB];
      if (Math.abs(same.lower - out.lower) < 1e-6 && Math.hypot(...states) < 1e-9) split++;
    }
    expect(split).toBeGreaterThan(21);
  });

  it('agrees with manifold-3d at the state it names', async () => {
    const oracle = await openOracle();
    const random = seeded(73);
    const out = createMovedGap();
    let apart = 0;
    for (let i = 0; i < 150; i++) {
      const drawn = solid(random, FLAT_FACED[i % FLAT_FACED.length]!, 130);
      const other = solid(random, FLAT_FACED[(i + 2) % FLAT_FACED.length]!, 130);
      const [turnA, turnB] = [randomTurn(random, 30), randomTurn(random, 30)];
      const rock = i % 2 === 0 ? 2 * DEGREE : 0;
      const lift = i % 3 === 0 ? 20 : 0;
      const pose: Pose = [between(random, -0.1, 0.1), ...point(random, 100)];
      const [a, b] = [new TurningShape(drawn, {}, turnA), new TurningShape(other, {}, turnB)];
      movedGap(movingPair(a, b, rock, lift), pose, undefined, TURN_TOLERANCE, out);
      if (out.upper < 1e-3) continue;
      apart++;
      // Turned about its axis, rocked, lifted and pitched one after the other, by the other library.
      const degrees = (angle: number): number => angle / DEGREE;
      const about = (body: Manifold, { about: axis, at }: Turn, angle: number): Manifold => {
        const by = (['x', 'y', 'z'] as const).map((k) => (k === axis ? degrees(angle) : 0));
        return body
          .translate([-at[0], -at[1], -at[2]])
          .rotate([by[0]!, by[1]!, by[2]!])
          .translate([...at]);
      };
      const still = pitchRotation(0, new Float64Array(9));
      const movedA = about(oracle.faceted(drawn, still).body, turnA, out.turnA)
        .rotate([degrees(out.rock), 0, 0])
        .translate([0, 0, out.lift])
        .rotate([0, degrees(pose[0]), 0])
        .translate([pose[1], pose[2], pose[3]]);
      const movedB = about(oracle.faceted(other, still).body, turnB, out.turnB);
      const distance = movedA.minGap(movedB, 1e4);
      expect(Math.abs(distance - out.upper)).toBeLessThan(2e-5 * Math.max(1, distance));
    }
    expect(apart).toBeGreaterThan(80);
  }, 60_000);

  it('an arm swings its tip towards a wall (derived)', () => {
    // 300 long from its pivot at the origin, radius 10, along +X at rest; turned by t about Z its tip
    // is at y = 300 sin t. The wall's face is 400 to the right.
    const arm = new TurningShape(
      { shape: 'tube', from: [0, 0, 0], to: [300, 0, 0], diameter: 20 },
      {},
      { about: 'z', at: [0, 0, 0], by: { min: -40 * DEGREE, max: 30 * DEGREE } },
    );
    const wall = shapeOf({
      shape: 'box',
      x: { min: -500, max: 500 },
      y: { min: 400, max: 420 },
      z: { min: -500, max: 500 },
    });
    const out = createMovedGap();
    for (const pair of [movingPair(arm, wall, 0, 0), movingPair(wall, arm, 0, 0)]) {
      movedGap(pair, [0, 0, 0, 0], undefined, TURN_TOLERANCE, out);
      expect(out.upper).toBeCloseTo(390 - 150, 9);
      expect(out.lower).toBeGreaterThan(out.upper - TURN_TOLERANCE);
      expect(Math.max(out.turnA, out.turnB)).toBeCloseTo(30 * DEGREE, 12);
    }
    // A wall on the other side is nearest at the other end.
    movedGap(movingPair(arm, wall, 0, 0), [0, 0, 900, 0], undefined, TURN_TOLERANCE, out);
    expect(out.upper).toBeCloseTo(480 - 10 - 300 * Math.sin(40 * DEGREE), 9);
  });

  it('turns before it sweeps, and rocks before it is lifted (derived)', () => {
    const far = shapeOf({ shape: 'ball', center: [0, 0, 1000], diameter: 2 });
    // A ball at (100, 0, 0) turned a quarter about Z stands at (0, 100, 0); swept 50 along X after
    // that, not before, its nearest to x = 1000 is 50.
    const swept = new TurningShape(
      { shape: 'ball', center: [100, 0, 0], diameter: 2 },
      { sweep: { x: { min: 0, max: 50 }, y: NOTHING, z: NOTHING } },
      { about: 'z', at: [0, 0, 0], by: { min: Math.PI / 2, max: Math.PI / 2 } },
    );
    const out = createMovedGap();
    const post = shapeOf({ shape: 'ball', center: [1000, 100, 0], diameter: 2 });
    movedGap(movingPair(post, swept, 0, 0), [0, 0, 0, 0], undefined, TURN_TOLERANCE, out);
    expect(out.upper).toBeCloseTo(948, 6);
    // A ball on the crank's axis does not rock; the lift is straight up, whatever the rock.
    const low = shapeOf({ shape: 'ball', center: [0, 0, 0], diameter: 2 });
    movedGap(movingPair(low, far, 0.1, 40), [0, 0, 0, 0], undefined, TURN_TOLERANCE, out);
    expect(out.upper).toBeCloseTo(958, 6);
    expect(out.lift).toBe(40);
    // It comes before pitch, so that a pitched engine is lifted along its own upright.
    movedGap(movingPair(low, far, 0, 40), [0.1, 0, 0, 0], undefined, TURN_TOLERANCE, out);
    const [x, z] = [40 * Math.sin(0.1), 1000 - 40 * Math.cos(0.1)];
    expect(out.upper).toBeCloseTo(Math.hypot(x, z) - 2, 6);
  });
});

const NOTHING = { min: 0, max: 0 };
