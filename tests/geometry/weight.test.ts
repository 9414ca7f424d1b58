/** What the axles carry, by statics. */

import { expect, test } from 'vitest';
import { axleLoadsAt, frontLoad, momentsOf } from '../../src/geometry/weight.js';
import type { Weights } from '../../src/model/fitup/weight.js';
import type { Stance } from '../../src/model/stance.js';
import { between, seeded } from './random.js';

const WEIGHTS: Weights = {
  axles: { front: 0, rear: 100 },
  before: { front: 60, rear: 40 },
  out: [{ name: 'old', side: 'chassis', mass: 20, at: [10, 0, 0] }],
  in: [],
};
const LEVEL: Stance = { setback: 0, offset: 0, height: 0, pitch: 0, roll: 0, yaw: 0 };
const engine = { name: 'new', side: 'engine', mass: 30, at: [-10, 5, 10] } as const;

test('a load goes to the axles as a beam hands it to its supports', () => {
  // Out: 18 of 20 off the front. In, at x = 20 - 10: 27 of 30 on it.
  expect(axleLoadsAt(WEIGHTS, [engine], { ...LEVEL, setback: 20 })).toEqual({
    front: 60 - 18 + 27,
    rear: 40 - 2 + 3,
  });
  // Stood on its tail: 10 up is 10 back.
  const upright = axleLoadsAt(WEIGHTS, [engine], { ...LEVEL, setback: 20, pitch: Math.PI / 2 });
  expect(upright.front).toBeCloseTo(60 - 18 + 21, 12);
  // Turned half about the vertical: 10 ahead is 10 behind.
  const turned = axleLoadsAt(WEIGHTS, [engine], { ...LEVEL, setback: 20, yaw: Math.PI });
  expect(turned.front).toBeCloseTo(60 - 18 + 21, 12);
  const { before, ...rest } = WEIGHTS;
  expect(axleLoadsAt({ ...rest, before: { front: before.front } }, [], LEVEL)).toEqual({
    front: 42,
  });
});

test('a load behind the rear axle takes weight off the front, and one on the chassis stays', () => {
  const tow = { name: 'tow', side: 'chassis', mass: 10, at: [150, 0, 0] } as const;
  const stance = { ...LEVEL, setback: 70, pitch: 0.1 };
  expect(axleLoadsAt(WEIGHTS, [tow], stance)).toEqual({ front: 42 - 5, rear: 38 + 15 });
});

test('without roll and yaw its moments say the same at every setback and pitch', () => {
  const random = seeded(2);
  const moments = momentsOf(WEIGHTS.axles, engine);
  for (let n = 0; n < 50; n++) {
    const [setback, pitch] = [between(random, -50, 50), between(random, -1, 1)];
    const { front } = axleLoadsAt(WEIGHTS, [engine], {
      ...LEVEL,
      setback,
      pitch,
      offset: between(random, -9, 9),
      height: between(random, -9, 9),
    });
    expect(42 + frontLoad(moments, setback, pitch)).toBeCloseTo(front, 10);
  }
});
