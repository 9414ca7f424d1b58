/** Decisions made by asking a few telling rules first, against the whole search of every option set. */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { optionSets } from '../../../src/model/options.js';
import { readScenario } from '../../../src/model/read.js';
import type { OptionSet } from '../../../src/model/scenario.js';
import { Searches } from '../../../src/solver/answering/searches.js';
import { DECISION_SLACK } from '../../../src/solver/decision.js';
import { Decider } from '../../../src/solver/explaining/decider.js';
import type { Wish } from '../../../src/solver/explaining/decider.js';
import { standingAt } from '../../../src/solver/measuring/measure.js';
import { requestFor, solve, toEnd } from '../../support/solve.js';

const WISHES: readonly Wish[] = [
  { ranges: { offset: { min: 0, max: 0 } }, margin: 0 },
  { ranges: {}, margin: 3 },
];

describe.each(['narrow-rails', 'tower-squeeze', 'orchard-hauler'])('%s', (name) => {
  const { scenario } = readScenario(readFileSync(`scenarios/${name}.yaml`, 'utf8'), 'auto');
  const bay = scenario!;
  const sets: OptionSet[] = [...optionSets(bay)];
  // Every set of a small bay, every ninth of a large one.
  const some = sets.filter((_, i) => sets.length <= 12 || i % 9 === 0);

  test('decides as the whole search does, and names rules that refute by themselves', () => {
    const told = { yes: 0, no: 0 };
    for (const wish of WISHES) {
      const searches = new Searches(bay, requestFor(bay, { pins: wish.ranges }));
      const decider = new Decider(searches, wish, 'reasons');
      for (const set of some) {
        const held = decider.members.under(set);
        expect(held.length).toBeGreaterThan(40);
        const decision = toEnd(decider.decide(set, held));
        const allowed = set.map((option) => [option]);
        const { main } = solve(bay, { pins: wish.ranges, allowed, only: 'main' });
        if (decision.possible === 'yes') {
          told.yes++;
          expect(main.bound).toBeGreaterThanOrEqual(wish.margin - DECISION_SLACK);
          const { margin, limits } = standingAt(searches.meter, set, decision.at);
          expect(margin).toBeGreaterThanOrEqual(wish.margin - DECISION_SLACK);
          expect(limits.every(({ met }) => met)).toBe(true);
        } else {
          expect(decision.possible).toBe('no');
          const { by } = decision as { by: readonly number[] };
          told.no++;
          expect(main.optimum.margin).toBeLessThan(wish.margin);
          expect(held).toEqual(expect.arrayContaining([...by]));
          expect(by.length).toBeLessThan(held.length);
          expect(toEnd(decider.decide(set, by)).possible).toBe('no');
        }
      }
    }
    expect(told.no).toBeGreaterThan(0);
    if (name === 'orchard-hauler') expect(told.yes).toBeGreaterThan(0);
  });
});
