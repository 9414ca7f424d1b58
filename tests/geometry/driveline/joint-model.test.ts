/** A joint's angle over a box of positions: never outside what is said of it. */

import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { JointModel } from '../../../src/geometry/driveline/joint-model.js';
import { jointsAt } from '../../../src/geometry/driveline/standing.js';
import type { Driveline } from '../../../src/model/fitup/driveline.js';

const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const drivelines = fc
  .record({
    output: fc.tuple(within(600, 1200), within(-60, 60), within(-100, 100)),
    aim: fc.record({ down: within(-0.08, 0.08), right: within(-0.05, 0.05) }),
    at: fc.tuple(within(2400, 3200), within(-80, 80), within(-250, 50)),
    up: within(-0.1, 0.15),
    right: within(-0.05, 0.05),
  })
  .map(({ output, aim, at, up, right }): Driveline => ({
    output,
    aim,
    joints: 'two',
    pinion: { ride: { at, up, right } },
    speed: 3000,
    gears: { transmission: [] },
    angles: { least: 0, most: 1, mostBy: 'file', within: 1 },
    share: 0.75,
  }));
const middles = fc.tuple(within(300, 800), within(-80, 80), within(-60, 150), within(-0.1, 0.1));
const halves = fc.oneof(
  fc.tuple(within(0, 200), within(0, 60), within(0, 100), within(0, 0.08)),
  fc.tuple(within(0, 5), within(0, 5), within(0, 5), within(0, 0.005)),
);
const shares = fc.array(fc.tuple(within(-1, 1), within(-1, 1), within(-1, 1), within(-1, 1)), {
  minLength: 30,
  maxLength: 30,
});
const joints = fc.constantFrom('front' as const, 'rear' as const);

test('is the angle that the standing tells', () => {
  fc.assert(
    fc.property(drivelines, middles, joints, (driveline, x, joint) => {
      const [setback, offset, height, pitch] = x;
      const at = { setback, offset, height, pitch };
      const told = jointsAt(driveline, at, driveline.pinion.ride)[joint]!.true;
      expect(new JointModel(driveline, joint, 'ride').at(x)).toBeCloseTo(told, 12);
    }),
  );
});

test('lies in its enclosure all over a box, and about its line', () => {
  const tight = { all: 0, line: 0 };
  fc.assert(
    fc.property(drivelines, middles, halves, shares, joints, (driveline, mid, half, us, joint) => {
      const model = new JointModel(driveline, joint, 'ride');
      const { value, slopes, under, over, min, max } = model.over(mid, half);
      const corners = Array.from({ length: 16 }, (_, m) =>
        [0, 1, 2, 3].map((k) => ((m >> k) & 1) * 2 - 1),
      );
      for (const u of [...corners, ...us]) {
        const angle = model.at(mid.map((v, k) => v + half[k]! * u[k]!));
        expect(angle).toBeGreaterThanOrEqual(min - 1e-12);
        expect(angle).toBeLessThanOrEqual(max + 1e-12);
        const line = u.reduce((sum, part, k) => sum + slopes[k]! * part, value);
        expect(angle).toBeGreaterThanOrEqual(line - under - 1e-12);
        expect(angle).toBeLessThanOrEqual(line + over + 1e-12);
      }
      tight.all++;
      if (over < 0.002) tight.line++;
    }),
    { numRuns: 1500 },
  );
  // Not so wide that it says nothing: small boxes have lines that are all but the angle.
  expect(tight.line).toBeGreaterThan(tight.all / 10);
});

test('has the slopes that small steps find', () => {
  fc.assert(
    fc.property(drivelines, middles, joints, (driveline, x, joint) => {
      const model = new JointModel(driveline, joint, 'ride');
      fc.pre(model.at(x) > 0.01);
      const { slopes } = model.over(x, [1, 1, 1, 1]);
      for (let k = 0; k < 4; k++) {
        const d = k === 3 ? 1e-5 : 1e-2;
        const at = (by: number) => model.at(x.map((v, c) => (c === k ? v + by : v)));
        expect(slopes[k]).toBeCloseTo((at(d) - at(-d)) / (2 * d), 5);
      }
    }),
  );
});

test('a shaft that may have no length is enclosed by anything', () => {
  const driveline: Driveline = {
    output: [100, 0, 0],
    aim: { down: 0, right: 0 },
    joints: 'two',
    pinion: { ride: { at: [400, 0, 0], up: 0, right: 0 } },
    speed: 1000,
    gears: { transmission: [] },
    angles: { least: 0, most: 1, mostBy: 'file', within: 1 },
    share: 0.75,
  };
  const { min, max } = new JointModel(driveline, 'front', 'ride').over(
    [0, 0, 0, 0],
    [400, 9, 9, 0],
  );
  expect([min, max]).toEqual([0, Math.PI]);
});
