/** Limits on a height: rows that never promise too little room, and narrow bands that still close. */

import { describe, expect, test } from 'vitest';
import { boxOf } from '../../src/solver/box.js';
import { heightRows } from '../../src/solver/measuring/height-limit.js';
import { limitSlack, narrowByLimits, readyLimit } from '../../src/solver/measuring/limits.js';
import { LIMIT_SLACK } from '../../src/solver/decision.js';
import { Rows } from '../../src/solver/rows.js';
import type { Scenario } from '../../src/model/scenario.js';
import { between, seeded } from '../geometry/random.js';
import { scenarioOf } from '../support/doc.js';
import type { BayDoc, LimitDoc } from '../support/doc.js';
import { randomBay } from '../support/random-bays.js';
import { solve } from '../support/solve.js';

const DEGREE = Math.PI / 180;

/** One random part and its height above the ground, limited from below and from above. */
function limited(seed: number): Scenario {
  const { position, engine, chassis } = randomBay({ random: seeded(seed) });
  const height = { quantity: 'height above', of: 'any 1', above: 'ground' };
  return scenarioOf({
    units: 'mm',
    position,
    datums: { chassis: { ground: { z: -400 } } },
    engine: { 'any 1': engine['any 1']! },
    chassis: { 'thing 1': chassis['thing 1']! },
    rules: [{ between: ['engine', 'chassis'], gap: 1 }],
    limits: [
      { ...height, min: 300 },
      { ...height, max: 400 },
    ],
  });
}

/** The least that the limit's rows lie above its slack in a random box, whose pitch is free by `turn`. */
function roomOver(scenario: Scenario, seed: number, end: 0 | 1, turn: number): number {
  const random = seeded(seed);
  const limit = readyLimit(scenario, scenario.limits[end]!);
  if (limit.kind !== 'height') throw new Error('a limit on a height was asked for');
  const half = [0, 0, between(random, 0, 20), turn];
  const mid = [0, 0, between(random, -30, 30), between(random, -0.2, 0.2)];
  const box = boxOf(
    mid.map((v, k) => v - half[k]!),
    mid.map((v, k) => v + half[k]!),
  );
  const rows = new Rows();
  heightRows(limit, [], box, rows);
  let least = Infinity;
  for (let i = 0; i < 60; i++) {
    const u = Float64Array.of(0, 0, between(random, -1, 1), i < 3 ? i - 1 : between(random, -1, 1));
    const row = Math.min(...[...Array(rows.count).keys()].map((r) => rows.at(r, u)));
    const x = mid.map((v, k) => v + half[k]! * u[k]!);
    least = Math.min(least, row - limitSlack(limit, [], x));
  }
  return least;
}

describe('rows of a height limit', () => {
  const scenarios = [...Array(60).keys()].map(limited);

  test.each([
    ['from below', 0],
    ['from above', 1],
  ] as const)('%s: the least row lies above the slack all over the box', (_, end) => {
    for (const [seed, scenario] of scenarios.entries()) {
      for (const turn of [0, 0.02, 0.1, 0.4]) {
        const room = roomOver(scenario, seed, end, turn);
        expect(room, `seed ${seed}, pitch free by ${turn}`).toBeGreaterThan(0);
        if (turn === 0) expect(room, `seed ${seed}, at one pitch`).toBeLessThan(2 * LIMIT_SLACK);
      }
    }
  });
});

test('limits on a coordinate that miss each other by rounding alone leave one value', () => {
  const narrowed = (max: number): readonly number[] | undefined => {
    const scenario = limited(1);
    const limits = [
      { path: [], quantity: { of: 'height' }, min: 5, max: Infinity },
      { path: [], quantity: { of: 'height' }, min: -Infinity, max },
    ] as const;
    const lo = Float64Array.of(0, 0, 0, 0);
    const hi = Float64Array.of(9, 9, 9, 0);
    const ready = limits.map((limit) => readyLimit(scenario, limit));
    return narrowByLimits(ready, [], lo, hi) ? [lo[2]!, hi[2]!] : undefined;
  };
  expect(narrowed(7)).toEqual([5, 7]);
  expect(narrowed(5 - LIMIT_SLACK / 2)).toEqual([5, 5]);
  expect(narrowed(5 - 2 * LIMIT_SLACK)).toBeUndefined();
});

/** Two pads on the engine, `apart` from front to rear, and a roof that would have it low. */
function padded(apart: number, limits: readonly LimitDoc[]): BayDoc {
  return {
    units: 'mm',
    position: { setback: [-40, 40], offset: [-20, 20], height: [-40, 40], pitch: [-3, 3] },
    datums: {
      chassis: { ground: { z: -400 } },
      engine: { front: { x: -500, y: 0, z: 300 }, rear: { x: -500 + apart, y: 0, z: 300 } },
    },
    engine: {
      'any 1': { box: { x: [-300, 0], y: [-100, 100], z: [-120, 200] } },
      tail: { box: { x: [0, 700], y: [-50, 50], z: [-50, 50] } },
    },
    chassis: {
      roof: { box: { x: [600, 800], y: [-300, 300], z: [60, 300] } },
      core: { box: { x: [-500, -380], y: [-300, 300], z: [-300, 60] } },
    },
    rules: [{ between: ['engine', 'chassis'], gap: 10 }],
    limits,
  };
}

describe('two heights held to a narrow band', () => {
  test.each([
    [100, 1],
    [100, 5],
    [300, 1],
    [500, 0.5],
  ])('pads %i mm apart, each within %f mm: proved in few boxes', (apart, band) => {
    // Met at 1 degree tail-down, where the rear pad stands lower by the sine of it.
    const drop = apart * Math.sin(DEGREE);
    const above = { quantity: 'height above', above: 'ground' };
    const scenario = scenarioOf(
      padded(apart, [
        { ...above, of: 'front', min: 710, max: 710 + band },
        { ...above, of: 'rear', min: 710 - drop, max: 710 - drop + band },
      ]),
    );
    const { main, effort, stopped } = solve(scenario, { only: 'main' });
    expect(stopped).toBeUndefined();
    expect(main.best).toBe('proved');
    expect(main.optimum.limits.map(({ met }) => met)).toEqual([true, true]);
    expect(effort.boxes).toBeLessThan(300);
  });
});
