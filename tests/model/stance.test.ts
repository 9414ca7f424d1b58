import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { matrix, multiply } from 'mathjs';
import {
  carried,
  slopesAlong,
  stanceFrom,
  stanceRotation,
  stanceVector,
} from '../../src/model/stance.js';
import type { Stance } from '../../src/model/stance.js';
import type { Vec3 } from '../../src/model/scenario.js';
import { pitchRotation, rockRotation } from '../../src/geometry/rotation.js';

const angle = fc.double({ min: -0.6, max: 0.6, noNaN: true });
const length = fc.double({ min: -900, max: 900, noNaN: true });
const stances: fc.Arbitrary<Stance> = fc.record({
  setback: length,
  offset: length,
  height: length,
  pitch: angle,
  roll: angle,
  yaw: angle,
});
const points = fc.tuple(length, length, length);

describe('a stance', () => {
  it('turns as roll, then pitch, then yaw, each by itself', () => {
    fc.assert(
      fc.property(stances, (stance) => {
        const c = Math.cos(stance.yaw);
        const s = Math.sin(stance.yaw);
        const yaw = matrix([
          [c, -s, 0],
          [s, c, 0],
          [0, 0, 1],
        ]);
        const rows = (r: Float64Array) =>
          matrix([0, 3, 6].map((k) => Array.from(r.subarray(k, k + 3))));
        const pitch = rows(pitchRotation(stance.pitch, new Float64Array(9)));
        const roll = rows(rockRotation(stance.roll, new Float64Array(9)));
        const product = multiply(multiply(yaw, pitch), roll).toArray().flat() as number[];
        stanceRotation(stance).forEach((value, k) => expect(value).toBeCloseTo(product[k]!, 12));
      }),
    );
  });

  it('has the slopes of a point that rides with it, against differences', () => {
    fc.assert(
      fc.property(stances, points, points, (stance, point, towards) => {
        const size = Math.hypot(...towards);
        fc.pre(size > 1);
        const n = towards.map((v) => v / size) as unknown as Vec3;
        const along = (s: Stance) => carried(s, point).reduce((sum, v, k) => sum + v * n[k]!, 0);
        const slopes = slopesAlong(stance, carried(stance, point), n);
        const x = stanceVector(stance);
        for (let k = 0; k < 6; k++) {
          const step = k < 3 ? 1e-2 : 1e-5;
          const [ahead, behind] = [1, -1].map((way) => {
            const moved = Float64Array.from(x);
            moved[k]! += way * step;
            return along(stanceFrom(moved));
          });
          expect(slopes[k]).toBeCloseTo((ahead! - behind!) / (2 * step), 3);
        }
      }),
    );
  });
});
