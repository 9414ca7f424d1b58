import { describe, expect, it } from 'vitest';
import { createGap, gapBetween } from '../../src/geometry/gap.js';
import {
  createRockedGap,
  ROCK_TOLERANCE,
  rockedGap,
} from '../../src/geometry/motion/rocked-gap.js';
import { REACH_TOLERANCE, rockedAxisGap } from '../../src/geometry/motion/rocked-reach.js';
import { attitude } from '../../src/geometry/rotation.js';
import { coreContains } from '../../src/geometry/contains.js';
import { placed } from '../../src/geometry/placed.js';
import { extent } from '../../src/geometry/reach.js';
import { shapeOf, type Shape } from '../../src/geometry/shape.js';
import {
  between,
  direction,
  point,
  randomShape,
  seeded,
  solid,
  SORTS,
  type Sort,
} from './random.js';

const DEGREE = Math.PI / 180;
const rotation = new Float64Array(9);
const gap = createGap();

function gapAt(a: Shape, b: Shape, pitch: number, angle: number, s: readonly number[]) {
  gapBetween(placed(a, attitude(pitch, angle, rotation)), b, s[0]!, s[1]!, s[2]!, gap);
  return gap;
}

describe('rocked gap', () => {
  it('brackets the least over a dense sweep of angles', () => {
    const random = seeded(60);
    const rocked = createRockedGap();
    const STEPS = 60;
    let inner = 0;
    let overlapping = 0;
    for (let i = 0; i < 400; i++) {
      const a = shapeOf(solid(random, SORTS[i % SORTS.length]!, 150));
      const b = randomShape(random, SORTS, 150);
      const s = point(random, 60);
      const pitch = between(random, -0.1, 0.1);
      const rock = DEGREE * (i % 5 === 0 ? between(random, 5, 40) : between(random, 0.2, 4));
      rockedGap(a, b, pitch, rock, ...s, ROCK_TOLERANCE, rocked);
      expect(rocked.upper - rocked.lower).toBeLessThanOrEqual(ROCK_TOLERANCE + 1.1e-3);
      expect(Math.abs(rocked.angle)).toBeLessThanOrEqual(rock);
      let least = Infinity;
      let leastUpper = Infinity;
      for (let k = 0; k <= STEPS; k++) {
        const at = gapAt(a, b, pitch, rock * ((2 * k) / STEPS - 1), s);
        leastUpper = Math.min(leastUpper, at.upper);
        least = Math.min(least, at.lower);
      }
      expect(leastUpper).toBeGreaterThanOrEqual(rocked.lower - 1e-9);
      expect(rocked.lower).toBeGreaterThanOrEqual(
        least - ROCK_TOLERANCE - 1.1e-3 - reachOf(a, rock / STEPS),
      );
      // The angle named, the point pair and the direction are those of one real position.
      const there = gapAt(a, b, pitch, rocked.angle, s);
      expect(there.lower).toBeLessThanOrEqual(rocked.upper + 1e-9);
      expect(there.upper).toBeGreaterThanOrEqual(rocked.upper - 1.1e-3);
      if (!rocked.coresOverlap) {
        const length = Math.hypot(
          rocked.ax - rocked.bx,
          rocked.ay - rocked.by,
          rocked.az - rocked.bz,
        );
        expect(length - a.ball - b.ball).toBeCloseTo(rocked.upper, 6);
      } else overlapping++;
      if (Math.abs(rocked.angle) < 0.99 * rock) inner++;
    }
    expect(inner).toBeGreaterThan(10);
    expect(overlapping).toBeGreaterThan(20);
  });

  it('is left wide only where its lower end is enough, and holds the least all the same', () => {
    const random = seeded(62);
    const [fine, coarse] = [createRockedGap(), createRockedGap()];
    const count = { left: 0, closed: 0 };
    for (let i = 0; i < 200; i++) {
      const a = shapeOf(solid(random, SORTS[i % SORTS.length]!, 150));
      const b = randomShape(random, SORTS, 150);
      const s = point(random, 200);
      const rock = DEGREE * between(random, 0.2, 6);
      const asked = [a, b, between(random, -0.1, 0.1), rock, ...s, ROCK_TOLERANCE] as const;
      rockedGap(...asked, fine);
      const enough = fine.upper + between(random, -30, 10);
      rockedGap(...asked, coarse, enough);
      expect(coarse.lower).toBeLessThanOrEqual(fine.upper + 1e-9);
      expect(coarse.upper).toBeGreaterThanOrEqual(fine.lower - 1e-9);
      if (coarse.upper - coarse.lower > ROCK_TOLERANCE + 1.1e-3) {
        expect(coarse.lower).toBeGreaterThanOrEqual(enough);
        count.left++;
      } else count.closed++;
    }
    expect(Math.min(count.left, count.closed)).toBeGreaterThan(20);
  });

  it('closes to finer tolerances too', () => {
    const random = seeded(61);
    const rocked = createRockedGap();
    for (let i = 0; i < 60; i++) {
      const a = shapeOf(
        solid(random, (['box', 'tube', 'hull'] as const satisfies Sort[])[i % 3]!, 200),
      );
      const b = randomShape(random, ['box', 'tube', 'ball'], 200);
      rockedGap(a, b, 0.05, 2 * DEGREE, 0, 0, 0, 1e-4, rocked);
      expect(rocked.upper - rocked.lower).toBeLessThanOrEqual(1.01e-4);
    }
  });

  it('a tube over the crank swings toward a wall beside it (derived)', () => {
    // 300 above the crank, radius 10, wall face 100 to the right: at angle t the axis is at
    // -300 sin t, so it comes nearest at -rock.
    const tube = shapeOf({ shape: 'tube', from: [-50, 0, 300], to: [50, 0, 300], diameter: 20 });
    const wall = shapeOf({
      shape: 'box',
      x: { min: -500, max: 500 },
      y: { min: 100, max: 120 },
      z: { min: -500, max: 500 },
    });
    const rocked = createRockedGap();
    rockedGap(tube, wall, 0, 2 * DEGREE, 0, 0, 0, ROCK_TOLERANCE, rocked);
    expect(rocked.upper).toBeCloseTo(90 - 300 * Math.sin(2 * DEGREE), 9);
    expect(rocked.lower).toBeGreaterThan(rocked.upper - ROCK_TOLERANCE);
    expect(rocked.angle).toBeCloseTo(-2 * DEGREE, 12);
  });

  it('without rock is the gap at rest', () => {
    const random = seeded(62);
    const rocked = createRockedGap();
    for (let i = 0; i < 200; i++) {
      const a = shapeOf(solid(random, SORTS[i % SORTS.length]!, 100));
      const b = randomShape(random, SORTS, 100);
      const pitch = between(random, -0.1, 0.1);
      rockedGap(a, b, pitch, 0, 1, 2, 3, ROCK_TOLERANCE, rocked);
      const still = gapAt(a, b, pitch, 0, [1, 2, 3]);
      expect(rocked.angle).toBe(0);
      expect(rocked.lower).toBeLessThanOrEqual(still.upper + 1e-9);
      expect(still.lower).toBeLessThanOrEqual(rocked.upper + 1e-9);
    }
  });
});

/** How far any point of the shape moves in a turn by the angle. */
function reachOf(a: Shape, angle: number): number {
  return angle * (Math.hypot(...a.center) + a.radius);
}

describe('rocked reach along a direction', () => {
  it('brackets the least over a dense sweep, with a witness in the solid', () => {
    const random = seeded(63);
    const out = { lower: 0, upper: 0, angle: 0, px: 0, py: 0, pz: 0 };
    for (let i = 0; i < 400; i++) {
      const a = shapeOf(solid(random, SORTS[i % SORTS.length]!, 150));
      const pitch = between(random, -0.1, 0.1);
      const rock = i % 7 === 0 ? 0 : DEGREE * between(random, 0.5, i % 5 === 0 ? 60 : 4);
      const d =
        i % 3 === 0
          ? direction(random)
          : (
              [
                [1, 0, 0],
                [0, -1, 0],
                [0, 0, 1],
              ] as const
            )[i % 2]!;
      rockedAxisGap(a, pitch, rock, ...d, out);
      expect(out.upper - out.lower).toBeLessThanOrEqual(REACH_TOLERANCE);
      for (let k = 0; k <= 60; k++) {
        const turned = placed(a, attitude(pitch, rock * (k / 30 - 1), rotation));
        expect(-extent(turned, -d[0], -d[1], -d[2])).toBeGreaterThanOrEqual(out.lower - 1e-9);
      }
      expect(Math.abs(out.angle)).toBeLessThanOrEqual(rock);
      expect(coreContains(a, out.px, out.py, out.pz, 1e-9)).toBe(true);
      const r = attitude(pitch, out.angle, rotation);
      const at = [0, 3, 6].map((k) => r[k]! * out.px + r[k + 1]! * out.py + r[k + 2]! * out.pz);
      expect(d[0] * at[0]! + d[1] * at[1]! + d[2] * at[2]! - a.ball).toBeCloseTo(out.upper, 9);
    }
  });
});
