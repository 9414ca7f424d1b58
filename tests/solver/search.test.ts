/** A search that stops early, because little is asked of it, may leave room but never deny it. */

import { expect, test } from 'vitest';
import { workOf } from '../../src/model/options.js';
import { compileBay } from '../../src/solver/measuring/compile.js';
import { endsOf } from '../../src/solver/box.js';
import { Meter } from '../../src/solver/measuring/meter.js';
import { MARGIN } from '../../src/solver/searching/objective.js';
import { Search } from '../../src/solver/searching/search.js';
import { between, seeded } from '../geometry/random.js';
import { scenarioOf } from '../support/doc.js';
import { randomBay } from '../support/random-bays.js';

const ROUNDING = 1e-6;
/** Millimetres. */
const FINE = 0.1;
const COARSE = 60;

test('what a search of coarse tolerance lets go stays under its bound', () => {
  let mattered = 0;
  for (let seed = 1; seed <= 12; seed++) {
    const random = seeded(seed * 13);
    const scenario = scenarioOf({ ...randomBay({ random }), rock: 0 });
    const meter = new Meter(compileBay(scenario));
    const { domains } = meter.bay;
    const common = { meter, domains, objective: MARGIN, ranges: scenario.position };
    const fine = new Search({ ...common, tolerance: FINE, start: [] }).run(2000).best;
    const set = domains.map((domain) => domain[0]!);
    for (let i = 0; fine && i < 4; i++) {
      const { lo, hi } = endsOf(scenario.position);
      const x = lo.map((low, k) => between(random, low, hi[k]!));
      const of = meter.contactsOf(set);
      if (!meter.withinLimits(of, x)) continue;
      const value = Math.min(of.fixed, meter.marginAt(of, x, -Infinity));
      const tolerance = fine.value - value + between(random, 0, 30);
      const start = [{ x, set, value, work: workOf(scenario, set) }];
      const coarse = new Search({ ...common, tolerance, start }).run(2000);
      expect(coarse.done).toBe(true);
      expect(coarse.bound, `seed ${seed}`).toBeGreaterThanOrEqual(fine.value - ROUNDING);
      if (coarse.best!.value < fine.value - 1) mattered++;
    }
  }
  expect(mattered).toBeGreaterThan(10);
});

test('a box that one rule closes keeps the most that the rule allows under the bound', () => {
  // A wall behind, 10 mm off at the middle: from 5 mm off, where the place in hand is, to 15.
  const scenario = scenarioOf({
    units: 'mm',
    position: { setback: [-5, 5], offset: 0, height: 0, pitch: 0 },
    engine: { block: { box: { x: [-100, 0], y: [-50, 50], z: [-50, 50] } } },
    chassis: { wall: { box: { x: [10, 60], y: [-90, 90], z: [-90, 90] } } },
    rules: [{ between: ['engine', 'chassis'], gap: 0 }],
  });
  const meter = new Meter(compileBay(scenario));
  const x = Float64Array.of(5, 0, 0, 0);
  const value = meter.marginAt(meter.contactsOf([]), x, -Infinity);
  expect(value).toBeCloseTo(5, 6);
  const search = new Search({
    meter,
    domains: [],
    objective: MARGIN,
    ranges: scenario.position,
    tolerance: COARSE,
    start: [{ x, set: [], value, work: { hours: 0, cost: 0 } }],
  });
  const { bound, done, best } = search.run(10);
  expect(done).toBe(true);
  expect(best?.value).toBe(value);
  expect(meter.effort.lps).toBe(0);
  expect(bound).toBeGreaterThanOrEqual(15 - ROUNDING);
  expect(bound).toBeLessThan(value + COARSE);
});
