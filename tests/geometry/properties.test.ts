import { describe, expect, it } from 'vitest';
import {
  createGap,
  GAP_TOLERANCE,
  gapBetween,
  ROUND_TOLERANCE,
  type Gap,
} from '../../src/geometry/gap.js';
import { RULED_TOLERANCE } from '../../src/geometry/overlap/plane.js';
import { CURVED_TOLERANCE } from '../../src/geometry/overlap/round.js';
import { placed } from '../../src/geometry/placed.js';
import { coreExtent, extent } from '../../src/geometry/reach.js';
import { shapeOf, type Shape } from '../../src/geometry/shape.js';
import type { Vec3 } from '../../src/model/scenario.js';
import {
  between,
  direction,
  point,
  randomPlaced,
  randomShape,
  randomTurn,
  seeded,
  solid,
  SORTS,
} from './random.js';

const PAIRS = 1500;
/** The widest bracket any pair may have: overlapping cylinders on different axes, mm. */
const WIDEST = CURVED_TOLERANCE + 1e-9;

/** The bracket promised for a pair, with the rounding of coordinates under a metre. */
function widest(a: Shape, b: Shape, overlapping: boolean): number {
  const discs = (a.disc > 0 ? 1 : 0) + (b.disc > 0 ? 1 : 0);
  if (discs === 0) return 2 * GAP_TOLERANCE;
  if (!overlapping) return 2.1 * ROUND_TOLERANCE;
  return discs === 2 ? WIDEST : 1.1 * RULED_TOLERANCE;
}

function measure(a: Shape, b: Shape, s: Vec3): Gap {
  const gap = createGap();
  gapBetween(a, b, ...s, gap);
  return gap;
}

/** Two brackets of one number must overlap, up to rounding. */
function agree(p: Gap, q: Gap, slack = 1e-9): void {
  expect(p.lower).toBeLessThanOrEqual(q.upper + slack);
  expect(q.lower).toBeLessThanOrEqual(p.upper + slack);
}

function scenes(
  seed: number,
  count: number,
  judge: (a: Shape, b: Shape, s: Vec3, random: () => number) => void,
): void {
  const random = seeded(seed);
  for (let i = 0; i < count; i++) {
    judge(
      randomShape(random, SORTS, 90),
      randomShape(random, SORTS, 90),
      point(random, 40),
      random,
    );
  }
}

describe('gap', () => {
  it('is a narrow bracket, and both ends can be checked from what is returned', () => {
    let apart = 0;
    let overlapping = 0;
    scenes(21, PAIRS, (a, b, s) => {
      const g = measure(a, b, s);
      expect(g.upper).toBeGreaterThanOrEqual(g.lower);
      expect(g.upper - g.lower).toBeLessThanOrEqual(widest(a, b, g.coresOverlap));
      expect(Math.hypot(g.nx, g.ny, g.nz)).toBeCloseTo(1, 12);
      const { nx, ny, nz } = g;
      const parted =
        nx * s[0] + ny * s[1] + nz * s[2] - extent(a, -nx, -ny, -nz) - extent(b, nx, ny, nz);
      expect(parted).toBeGreaterThan(g.lower - 1e-9);
      if (g.coresOverlap) overlapping++;
      else {
        apart++;
        const length = Math.hypot(g.ax - g.bx, g.ay - g.by, g.az - g.bz);
        expect(length - a.ball - b.ball).toBeLessThan(g.upper + 1e-9);
      }
    });
    expect(apart).toBeGreaterThan(300);
    expect(overlapping).toBeGreaterThan(200);
  });

  it('has its witness points on the cores', () => {
    scenes(22, 500, (a, b, s, random) => {
      const g = measure(a, b, s);
      let out = -Infinity;
      for (let k = 0; k < 20; k++) {
        const [x, y, z] = direction(random);
        const onA = x * (g.ax - s[0]) + y * (g.ay - s[1]) + z * (g.az - s[2]);
        out = Math.max(out, onA - coreExtent(a, x, y, z));
        const onB = x * g.bx + y * g.by + z * g.bz;
        out = Math.max(out, onB - coreExtent(b, x, y, z));
      }
      expect(out).toBeLessThan(1e-9);
    });
  });

  it('is never beaten by any other direction', () => {
    scenes(23, 1000, (a, b, s, random) => {
      const g = measure(a, b, s);
      let farthest = -Infinity;
      for (let k = 0; k < 60; k++) {
        const e = direction(random);
        const q = k < 20 ? 1e9 : 10 ** between(random, -6, 0);
        const d = [g.nx + q * e[0], g.ny + q * e[1], g.nz + q * e[2]];
        const length = Math.hypot(...d);
        const [x, y, z] = d.map((v) => v / length) as [number, number, number];
        const parted = x * s[0] + y * s[1] + z * s[2] - extent(a, -x, -y, -z) - extent(b, x, y, z);
        farthest = Math.max(farthest, parted);
      }
      expect(farthest).toBeLessThan(g.upper + 1e-9);
    });
  });

  it('is the same seen from the other solid', () => {
    scenes(24, PAIRS, (a, b, s) => agree(measure(a, b, s), measure(b, a, [-s[0], -s[1], -s[2]])));
  });

  it('does not depend on where it starts', () => {
    scenes(25, PAIRS, (a, b, s, random) => {
      const g = createGap();
      [g.nx, g.ny, g.nz] = direction(random);
      gapBetween(a, b, ...s, g);
      const cold = measure(a, b, s);
      agree(g, cold);
      gapBetween(a, b, ...s, g);
      agree(g, cold);
    });
  });

  it('is the same after both are moved, and after both are turned', () => {
    scenes(26, 1000, (a, b, s, random) => {
      const turn = randomTurn(random);
      const [sx, sy, sz] = [0, 3, 6].map(
        (r) => turn[r]! * s[0] + turn[r + 1]! * s[1] + turn[r + 2]! * s[2],
      );
      const before = measure(a, b, s);
      agree(before, measure(placed(a, turn), placed(b, turn), [sx!, sy!, sz!]), 1e-8);
    });
    const random = seeded(27);
    for (let i = 0; i < 500; i++) {
      const one = solid(random, SORTS[i % SORTS.length]!, 90);
      const other = randomShape(random, SORTS, 90);
      const by = point(random, 500);
      const here = measure(shapeOf(one), other, by);
      agree(here, measure(shapeOf(one, { move: by }), other, [0, 0, 0]), 1e-8);
    }
  });

  it('grows in step with the solids', () => {
    scenes(28, 1000, (a, b, s, random) => {
      const by = 2 ** Math.round(between(random, -6, 6));
      const scaled = (shape: Shape): Shape => ({
        ...shape,
        points: shape.points.map((v) => v * by),
        offsets: shape.offsets.map((v) => v * by),
        center: shape.center.map((v) => v * by),
        generators: shape.generators.map((v) => v * by),
        disc: shape.disc * by,
        ball: shape.ball * by,
        radius: shape.radius * by,
      });
      const big = measure(scaled(a), scaled(b), [s[0] * by, s[1] * by, s[2] * by]);
      const small = measure(a, b, s);
      expect(big.lower).toBeLessThanOrEqual(small.upper * by + 1e-8 * by);
      expect(small.lower * by).toBeLessThanOrEqual(big.upper + 1e-8 * by);
    });
  });

  it('is convex along any straight move', () => {
    scenes(29, PAIRS, (a, b, s, random) => {
      const t = point(random, 120);
      const middle: Vec3 = [(s[0] + t[0]) / 2, (s[1] + t[1]) / 2, (s[2] + t[2]) / 2];
      const mean = (measure(a, b, s).upper + measure(a, b, t).upper) / 2;
      expect(measure(a, b, middle).lower).toBeLessThanOrEqual(mean + 1e-9);
    });
  });

  it('changes by no more than the move', () => {
    scenes(30, 1000, (a, b, s, random) => {
      const d = direction(random);
      const by = 10 ** between(random, -6, 2);
      const t: Vec3 = [s[0] + by * d[0], s[1] + by * d[1], s[2] + by * d[2]];
      const [p, q] = [measure(a, b, s), measure(a, b, t)];
      expect(p.lower - q.upper).toBeLessThan(by + 1e-9);
      expect(q.lower - p.upper).toBeLessThan(by + 1e-9);
    });
  });

  it('draws every sort of solid in these tests', () => {
    const random = seeded(21);
    const seen = new Set(
      Array.from({ length: 200 }, () => randomPlaced(random, SORTS, 90).solid.shape),
    );
    expect(seen.size).toBe(SORTS.length);
  });
});
