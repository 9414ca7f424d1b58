import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { firstOptions } from '../../src/model/options.js';
import { readScenario } from '../../src/model/read.js';
import type { Reading } from '../../src/solver/answer.js';
import { compileBay } from '../../src/solver/measuring/compile.js';
import { measureAt, standingAt } from '../../src/solver/measuring/measure.js';
import { Meter } from '../../src/solver/measuring/meter.js';
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

test('told in brief, the readings near the tightest are all there, and the same', () => {
  const scenario = readScenario(
    readFileSync('scenarios/orchard-hauler.yaml', 'utf8'),
    'auto',
  ).scenario!;
  const set = firstOptions(scenario);
  const meter = new Meter(compileBay(scenario, { allowed: set.map((option) => [option]) }));
  const { min, max } = scenario.position.offset;
  for (let n = 0; n < 12; n++) {
    const x = Float64Array.of(40 + 9 * n, min + ((max - min) * n) / 11, 12 * n, 0.005 * n);
    const [all, brief] = [standingAt(meter, set, x), standingAt(meter, set, x, 3)];
    const isNear = (reading: Reading) => reading.fixed || reading.margin <= tightest + 3;
    const tightest = Math.min(...all.readings.filter((r) => !r.fixed).map((r) => r.margin));
    expect(brief.readings.filter(isNear)).toEqual(all.readings.filter(isNear));
    expect({ ...brief, readings: [] }).toEqual({ ...all, readings: [] });
    expect(brief.readings.length).toBeLessThan(all.readings.length / 2);
  }
});
