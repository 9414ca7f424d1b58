/** Whether a point counts as in a solid, against points that are drawn in it and outside it. */

import { describe, expect, it } from 'vitest';
import type { Part, Vec3 } from '../../src/model/scenario.js';
import { bodyOf, CLOSE_ENOUGH, distanceTo } from '../../src/verify/bodies.js';
import type { Body } from '../../src/verify/bodies.js';
import { add, exactly, minus, mul, sub, times, turnOf, vector } from '../../src/verify/outward.js';
import { extent } from '../../src/geometry/reach.js';
import { shapeOf } from '../../src/geometry/shape.js';
import { between, direction, seeded, solid, SORTS } from '../geometry/random.js';
import type { Random } from '../geometry/random.js';

const PART: Omit<Part, 'solids'> = { name: 'part', side: 'engine', mirrored: false };

function drawn(random: Random, body: Body): Vec3 {
  const weights = body.points.map(() => -Math.log(random()));
  const all = weights.reduce((sum, w) => sum + w, 0);
  const at = [0, 1, 2].map((k) =>
    body.points.reduce((sum, p, i) => sum + (weights[i]! / all) * p[k]!, 0),
  ) as unknown as Vec3;
  if (!body.disc) return at;
  const { normal, radius } = body.disc;
  const way = direction(random);
  const along = way[0] * normal[0] + way[1] * normal[1] + way[2] * normal[2];
  const across = way.map((x, k) => x - along * normal[k]!);
  const size = Math.hypot(...across);
  // Mostly on the rim, where it is the hardest to tell.
  const out = radius * (random() < 0.7 ? 1 : random());
  return at.map((x, k) => x + (out * across[k]!) / size) as unknown as Vec3;
}

describe('a point of a solid', () => {
  it('is told from one outside, for every sort of solid, turned, swept and mirrored', () => {
    const random = seeded(4);
    for (let n = 0; n < 160; n++) {
      const sort = SORTS[n % SORTS.length]!;
      const one = solid(random, sort, 80);
      const isTurned = n % 3 === 0;
      const part: Part = {
        ...PART,
        mirrored: n % 2 === 0,
        solids: [one],
        ...(isTurned && { turn: { about: 'z', at: [10, -20, 5], by: { min: -1, max: 1 } } }),
        ...(n % 5 < 2 && {
          sweep: { x: { min: -3, max: 9 }, y: { min: 0, max: 0 }, z: { min: 2, max: 4 } },
        }),
      };
      const move: Vec3 = [4, -6, 1];
      const angle = isTurned ? between(random, -1, 1) : 0;
      const body = bodyOf({ part, move }, one, 'in use', angle);
      const inside = drawn(random, body);
      expect(distanceTo(body, inside)).toBeLessThanOrEqual(CLOSE_ENOUGH);
      // What the solver's own shape reaches along a direction is where the outside begins.
      const shape = shapeOf(one, {
        mirrored: part.mirrored,
        move,
        ...(part.turn && { turn: { about: 'z', by: angle, at: [14, -26, 6] } }),
        ...(part.sweep && { sweep: part.sweep }),
      });
      const way = direction(random);
      const edge = extent(shape, ...way) - shape.ball;
      const out = 1e-3 + random();
      const from = inside[0] * way[0] + inside[1] * way[1] + inside[2] * way[2];
      expect(from).toBeLessThanOrEqual(edge + 1e-9);
      const outside = inside.map((x, k) => x + (edge - from + out) * way[k]!) as unknown as Vec3;
      expect(distanceTo(body, outside)).toBeGreaterThanOrEqual(out - 1e-9);
    }
  });

  it('is as far off as it is said to be, where it turns about a place far away', () => {
    const pivot: Vec3 = [9e5, 0, -9e5];
    const center: Vec3 = [30, 5, 40];
    const ball = { shape: 'ball', center, diameter: 2 } as const;
    const from = minus(vector(center), vector(pivot));
    let isFarther = false;
    for (const angle of [1e-5, 2e-5, 3e-5, 5e-5]) {
      // By how much the turn shifts it, so that nothing large is lost: cos - 1 is -2 sin^2 of half.
      const { sin } = turnOf(angle);
      const half = turnOf(angle / 2).sin;
      const less = times(mul(half, half), -2);
      const x = add(exactly(center[0]), add(mul(from[0], less), mul(from[2], sin)));
      const z = add(exactly(center[2]), sub(mul(from[2], less), mul(from[0], sin)));
      const turn = { about: 'y', at: pivot, by: { min: 0, max: 1 } } as const;
      const solid = { ...ball, tilt: { about: 'y', at: pivot, by: angle } } as const;
      for (const body of [
        bodyOf({ part: { ...PART, solids: [ball], turn }, move: [0, 0, 0] }, ball, 'in use', angle),
        bodyOf({ part: { ...PART, solids: [solid] }, move: [0, 0, 0] }, solid, 'in use', 0),
      ]) {
        const [point] = body.points;
        const off = Math.max(
          x.lo - point![0],
          point![0] - x.hi,
          z.lo - point![2],
          point![2] - z.hi,
        );
        expect(off).toBeLessThanOrEqual(body.rounding);
        isFarther ||= off > 1e-13 * Math.max(...point!.map(Math.abs));
      }
    }
    // A share of where it ends up would not do.
    expect(isFarther).toBe(true);
  });
});
