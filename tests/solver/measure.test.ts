import { expect, test } from 'vitest';
import { measureAt } from '../../src/solver/measuring/measure.js';
import { scenarioOf } from '../support/doc.js';

/** A block 10 mm ahead of a lever that moves back and forth. */
function readingOf(sweep: readonly [number, number], rock = 0) {
  const scenario = scenarioOf({
    units: 'mm',
    position: { setback: 0, offset: 0, height: 0, pitch: 0 },
    rock,
    engine: { block: { box: { x: [-100, 0], y: [-50, 50], z: [-50, 50] } } },
    chassis: { lever: { box: { x: [10, 60], y: [-50, 50], z: [-50, 50] }, sweep: { x: sweep } } },
    rules: [{ between: ['engine', 'chassis'], gap: 5 }],
  });
  const position = { setback: 0, offset: 0, height: 0, pitch: 0 };
  return measureAt(scenario, [], position).readings[0]!;
}

test('at rest is the still gap, also where the motion leaves rest out', () => {
  // In use the lever stands 20 to 40 mm further back than where a tape finds it.
  const { gap, atRest, margin } = readingOf([20, 40]);
  expect(gap).toBeCloseTo(30, 9);
  expect(atRest).toBeCloseTo(10, 9);
  expect(margin).toBeCloseTo(25, 9);
});

test('at rest is never printed the smaller by the bracket of a motion that rest is part of', () => {
  expect(readingOf([-4, 0])).toMatchObject({
    gap: expect.closeTo(6, 9) as number,
    atRest: expect.closeTo(10, 9) as number,
  });
  // Turned about the crankshaft, a block this size ahead of the lever's face keeps its gap.
  const rocked = readingOf([0, 0], 2);
  expect(rocked.atRest).toBeGreaterThanOrEqual(rocked.gap);
  expect(rocked.atRest).toBeCloseTo(10, 2);
});
