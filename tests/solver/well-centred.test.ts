/** What the answer does where the tightest margin leaves the place free, and where limits hold it. */

import { describe, expect, test } from 'vitest';
import { scenarioOf } from '../support/doc.js';
import type { BayDoc, PartDoc } from '../support/doc.js';
import { solve } from '../support/solve.js';

const IN = 25.4;

/** A pan below a hood: only height and pitch make any difference. */
const PAN: BayDoc = {
  units: 'in',
  position: { setback: [10, 20], offset: [-2, 2], height: [0, 6], pitch: [0, 3] },
  datums: { chassis: { 'rail top': { z: 0 } }, engine: {} },
  engine: { 'oil pan': { kind: 'oil pan', box: { x: [-11, -1], y: [-5, 5], z: [-8, -3] } } },
  chassis: { hood: { kind: 'hood', box: { x: [0, 40], y: [-20, 20], z: [25, 26] } } },
  rulebook: 'none',
  rules: [{ between: ['engine', 'chassis'], gap: 1 }],
};

/** `pairs` posts each side, each nearer than the last by little, and a hood and a floor that bind. */
function symmetricBay(pairs: number): BayDoc {
  const posts: Record<string, PartDoc> = {};
  for (let i = 0; i < pairs; i++) {
    const x = [-40 + 3 * i, -38 + 3 * i] as const;
    const near = 20 + 0.01 * i;
    posts[`left post ${i}`] = { box: { x, y: [-near - 1, -near], z: [-5, 15] } };
    posts[`right post ${i}`] = { box: { x, y: [near, near + 1], z: [-5, 15] } };
  }
  return {
    units: 'in',
    position: { setback: [0, 6], offset: [-2, 2], height: [0, 5], pitch: 0 },
    engine: { block: { box: { x: [-40, 0], y: [-10, 10], z: [0, 10] } } },
    chassis: {
      hood: { box: { x: [-90, 40], y: [-40, 40], z: [16, 17] } },
      floor: { box: { x: [-90, 40], y: [-40, 40], z: [-2, -1] } },
      wall: { box: { x: [10, 11], y: [-40, 40], z: [-20, 30] } },
      core: { box: { x: [-52, -51], y: [-40, 40], z: [-20, 30] } },
      ...posts,
    },
    rulebook: 'none',
    rules: [{ between: ['engine', 'chassis'], gap: 0.5 }],
  };
}

describe('where nothing tight settles a coordinate', () => {
  test.each([1, 4, 12])('a bay alike on both sides, %i posts each, is set on centre', (pairs) => {
    const { main } = solve(scenarioOf(symmetricBay(pairs)));
    expect(Math.abs(main.optimum.position.offset)).toBeLessThan(1e-3 * IN);
    expect(main.setting.position.offset).toBe(0);
  });

  test('what no margin minds stands in the middle, the offset on centre', () => {
    const { main } = solve(scenarioOf({ ...PAN, limits: [PAN_ABOVE_RAIL] }));
    expect(main.optimum.position.setback).toBeCloseTo(15 * IN, 6);
    expect(main.optimum.position.offset).toBe(0);
    expect(main.optimum.margin).toBeCloseTo(23 * IN, 3);
  });

  test('a margin that minds is not given up for the middle', () => {
    const chassis = {
      ...PAN.chassis,
      post: { box: { x: [-10, 40], y: [6, 7], z: [-20, 20] } },
    } as const;
    const { main } = solve(scenarioOf({ ...PAN, chassis }));
    expect(main.optimum.position.offset).toBeCloseTo(-2 * IN, 3);
  });
});

const PAN_ABOVE_RAIL = { quantity: 'height above', of: 'oil pan', above: 'rail top', min: -4 };

describe('a place that stands on a limit', () => {
  const answer = solve(scenarioOf({ ...PAN, limits: [PAN_ABOVE_RAIL] }));

  test('is met there, in the answer and in each wish', () => {
    expect(answer.main.optimum.fits).toBe(true);
    for (const wish of answer.wishes)
      expect(wish, wish.aim).toMatchObject({ fits: 'yes', best: 'proved' });
  });

  test('its setting keeps the limit, though the mark below has more room', () => {
    expect(answer.main.setting.limits).toMatchObject([{ met: true }]);
    expect(answer.main.setting.position.height).toBeLessThan(
      answer.main.optimum.position.height + 2,
    );
  });

  test('the rearmost is the end of the range', () => {
    const back = answer.wishes.find((wish) => wish.aim === 'back');
    expect(back?.standing?.position.setback).toBeCloseTo(20 * IN, 6);
  });
});

test('limits that no position meets: said so, at the position that comes nearest', () => {
  const limits = [{ ...PAN_ABOVE_RAIL, min: 5 }];
  const { main, bestBound, anyFits } = solve(scenarioOf({ ...PAN, limits }));
  expect({ fits: main.fits, anyFits, bestBound }).toEqual({
    fits: 'no',
    anyFits: 'no',
    bestBound: -Infinity,
  });
  // Highest and most tail-down: of the pan's lowest points the front one rises, the rear one too.
  expect(main.optimum.position.height).toBeCloseTo(6 * IN, 2);
  expect(main.optimum.position.pitch).toBeCloseTo((3 * Math.PI) / 180, 3);
  expect(main.optimum.limits[0]).toMatchObject({ met: false });
});
