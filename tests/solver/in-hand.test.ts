/** What a search takes in hand must be what a measurement gives at that place, no more. */

import { expect, test } from 'vitest';
import { compileBay } from '../../src/solver/measuring/compile.js';
import { Meter } from '../../src/solver/measuring/meter.js';
import { MARGIN } from '../../src/solver/searching/objective.js';
import { Search } from '../../src/solver/searching/search.js';
import { seeded } from '../geometry/random.js';
import { scenarioOf } from '../support/doc.js';
import { plant } from '../support/planted.js';
import { TOLERANCE } from '../support/solve.js';

/** Millimetres: sums of a dozen lengths. */
const ROUNDING = 1e-9;

test('in a search for the least work, a place counts for its own margin', () => {
  let found = 0;
  for (let seed = 1; seed <= 30; seed++) {
    const { doc } = plant({ random: seeded(seed), pitch: 'free', choices: 3, play: [0.5, 4] });
    const scenario = scenarioOf(doc);
    const bay = compileBay(scenario);
    const common = { domains: bay.domains, objective: MARGIN, ranges: scenario.position };
    const meter = new Meter(bay);
    const best = new Search({ ...common, meter, tolerance: TOLERANCE, start: [] }).run(5000).best!;
    for (const less of [5, 25]) {
      const reach = best.value - less;
      const search = new Search({ ...common, meter, tolerance: TOLERANCE, reach, start: [best] });
      const cheapest = search.run(5000).best!;
      if (cheapest === best) continue;
      found++;
      const exact = new Meter(bay);
      const margin = exact.marginAt(exact.contactsOf(cheapest.set), cheapest.x, -Infinity);
      expect(cheapest.value).toBeLessThanOrEqual(margin + ROUNDING);
      expect(margin).toBeGreaterThan(reach - 1e-3);
    }
  }
  expect(found).toBeGreaterThan(10);
});
