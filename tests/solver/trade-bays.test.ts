/** Two invented bays whose sizes are all given, so that the answer can be said beforehand. */

import { expect, test } from 'vitest';
import { scenarioOf } from '../support/doc.js';
import type { BayDoc } from '../support/doc.js';
import { solve, TOLERANCE } from '../support/solve.js';

const IN = 25.4;

const COMMON = {
  units: 'in',
  position: { setback: [20, 30], offset: [-1.5, 1.5], height: [0, 4], pitch: 0 },
  rules: [{ between: ['engine', 'chassis'], gap: 0.6 }],
} as const;

test('equaliser: manifolds +-13 between y -15 and +14.2 stand at y -0.40, margin exactly +1.00', () => {
  const tall = { x: [-20, 60], z: [-30, 40] } as const;
  const doc: BayDoc = {
    ...COMMON,
    engine: { manifolds: { box: { x: [-20, -4], y: [-13, 13], z: [4, 8] } } },
    chassis: {
      'left obstacle': { box: { ...tall, y: [-18, -15] } },
      'right obstacle': { box: { ...tall, y: [14.2, 18] } },
    },
  };
  const { main } = solve(scenarioOf(doc));
  expect(main).toMatchObject({ fits: 'yes', best: 'proved' });
  expect(main.optimum.margin / IN).toBeCloseTo(1, 6);
  expect(main.optimum.position.offset / IN).toBeCloseTo(-0.4, 5);
});

test('between towers: heads +-14.5 between faces at +-13.5 are short 1.60 whatever is done', () => {
  const towers = { x: [-5, 14], z: [-10, 30] } as const;
  const doc: BayDoc = {
    ...COMMON,
    engine: {
      block: { box: { x: [-22, 0], y: [-8.5, 8.5], z: [-5, 8] } },
      heads: { box: { x: [-22, -1], y: [-14.5, 14.5], z: [8, 15] } },
    },
    chassis: {
      'left tower': { box: { ...towers, y: [-33.5, -13.5] } },
      'right tower': { box: { ...towers, y: [13.5, 33.5] } },
      firewall: { box: { x: [32, 33], y: [-30, 30], z: [0, 30] } },
      hood: { box: { x: [-20, 32], y: [-30, 30], z: [27, 28] } },
    },
    choices: {
      manifolds: {
        'as bought': {},
        'block huggers': { move: { block: { z: 0.25 } }, hours: 2 },
      },
    },
  };
  const answer = solve(scenarioOf(doc));
  expect(answer).toMatchObject({ anyFits: 'no', wishes: [] });
  expect(answer.leastWork).toBeUndefined();
  expect(answer.main).toMatchObject({ fits: 'no', best: 'proved', options: [0] });
  expect(Math.abs(answer.main.optimum.margin / IN + 1.6)).toBeLessThan(1e-5);
  expect(answer.bestBound).toBeLessThanOrEqual(-1.6 * IN + TOLERANCE);
  // The shortfall per side: the two towers, alike, each wanting the engine the other way.
  const short = answer.main.optimum.readings.filter(({ binding }) => binding);
  expect(short.map(({ between }) => between.join(' to ')).sort()).toEqual([
    'heads to left tower',
    'heads to right tower',
  ]);
  for (const reading of short) {
    expect(reading.margin / IN).toBeCloseTo(-1.6, 5);
    expect(reading.share).toBeCloseTo(0.5, 6);
    expect(Math.sign(reading.slope!.offset)).toBe(reading.between[1] === 'left tower' ? 1 : -1);
  }
});
