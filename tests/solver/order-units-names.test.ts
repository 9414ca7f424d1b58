/** What a file is called, the order it is written in and its units do not change what is found. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PlaceAnswer } from '../../src/solver/answer.js';
import type { Random } from '../geometry/random.js';
import { seeded } from '../geometry/random.js';
import { renamed, scaled, scenarioOf, shuffled } from '../support/doc.js';
import type { BayDoc } from '../support/doc.js';
import { randomBay } from '../support/random-bays.js';
import { solve, TOLERANCE } from '../support/solve.js';
import { cases } from '../support/times.js';

/** Millimetres: a bracketed motion is printed at its lower end, which may differ by so much. */
const ROUNDING = 1e-3;

/** Options in another order, but for the first, which is the bay as it stands. */
function reordered(doc: BayDoc, random: Random): BayDoc {
  const choices = Object.entries(doc.choices ?? {}).map(([name, options]) => {
    const [first, ...rest] = Object.entries(options);
    return [name, Object.fromEntries([first!, ...shuffled(rest, random)])] as const;
  });
  return doc.choices ? { ...doc, choices: Object.fromEntries(choices) } : doc;
}

function inInches(doc: BayDoc): BayDoc {
  return { ...scaled(doc, 1 / 25.4), rock: doc.rock ?? 0, units: 'in' };
}

/** The options of an answer, by name. */
function named(doc: BayDoc, { main }: PlaceAnswer): string {
  const { choices } = scenarioOf(doc);
  return choices
    .map(({ name, options }, c) => `${name}=${options[main.options[c]!]!.name}`)
    .sort()
    .join();
}

describe('the same answer', () => {
  test('whatever the order, the names and the units', () => {
    const count = { fits: 0, short: 0, set: 0, turned: 0 };
    const property = (seed: number): void => {
      const doc = randomBay({ random: seeded(seed) });
      const random = seeded(seed + 1);
      const changed = inInches(reordered(renamed(doc, random), random));
      const [was, is] = [doc, changed].map((d) => solve(scenarioOf(d), { only: 'main' })) as [
        PlaceAnswer,
        PlaceAnswer,
      ];
      expect([was.main.best, is.main.best]).toEqual(['proved', 'proved']);
      const apart = Math.abs(was.bestBound - is.bestBound);
      expect(apart).toBeLessThanOrEqual(TOLERANCE + ROUNDING);
      if (doc.choices) count.set++;
      if (named(doc, was) !== named(changed, is)) {
        // Two sets, of which the cheaper is just worth it or just not, or two that cost as much.
        const [a, b] = [was.main.optimum.margin, is.main.optimum.margin];
        const edge = Math.max(was.bestBound, is.bestBound) - (doc.worth ?? 0);
        const tie = was.main.hours === is.main.hours && was.main.cost === is.main.cost;
        const off = tie ? Math.abs(a - b) : Math.abs(Math.min(a, b) - edge);
        expect(off).toBeLessThanOrEqual(2 * TOLERANCE + ROUNDING);
        count.turned++;
        return;
      }
      const margins = Math.abs(was.main.optimum.margin - is.main.optimum.margin);
      expect(margins).toBeLessThanOrEqual(TOLERANCE + ROUNDING);
      expect([is.main.hours, is.main.cost]).toEqual([was.main.hours, was.main.cost]);
      if (Math.abs(was.main.optimum.margin) > TOLERANCE) expect(is.main.fits).toBe(was.main.fits);
      count[was.main.fits === 'yes' ? 'fits' : 'short']++;
    };
    const runs = { numRuns: cases(16), seed: 88 };
    fc.assert(fc.property(fc.integer({ min: 1, max: 1e9 }), property), runs);
    expect(Math.min(count.fits, count.short, count.set)).toBeGreaterThan(3);
    expect(count.turned).toBeLessThan(cases(16) / 4);
  });
});
