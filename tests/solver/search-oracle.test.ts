/**
 * Whole answers of random small bays against dense search with local polishing, which may never beat
 * the bound, nor the answer by more than the tolerance.
 */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { between, seeded } from '../geometry/random.js';
import { denseSearch } from '../support/dense.js';
import { eachRule, mirrored, renamed, scaled, scenarioOf } from '../support/doc.js';
import { randomBay } from '../support/random-bays.js';
import { solve, TOLERANCE } from '../support/solve.js';
import { cases } from '../support/times.js';

/** Millimetres: a bracketed motion is printed at its lower end, which may differ by so much. */
const ROUNDING = 1e-3;

function seedsOf(runs: number, property: (seed: number) => void): void {
  fc.assert(fc.property(fc.integer({ min: 1, max: 1e9 }), property), { numRuns: runs, seed: 77 });
}

describe('dense search never beats the answer', () => {
  test('mixed shapes, motions, choices and limits', () => {
    const count = { fits: 0, short: 0, choices: 0, rock: 0, limits: 0, pitch: 0, near: 0 };
    let places = 0;
    seedsOf(cases(22), (seed) => {
      const random = seeded(seed);
      const doc = randomBay({ random });
      const scenario = scenarioOf(doc);
      const { main, bestBound } = solve(scenario, { only: 'main' });
      expect(main.best).toBe('proved');
      expect(main.bound - main.optimum.margin).toBeLessThanOrEqual(TOLERANCE);
      expect(main.optimum.limits.every(({ met }) => met)).toBe(true);
      const dense = denseSearch(scenario, {
        random,
        places: doc.rock ? 120 : 500,
        polished: doc.rock ? 1 : 3,
      });
      places += dense.places;
      expect(dense.score).toBeLessThanOrEqual(bestBound + ROUNDING);
      // Within `worth` a cheaper set may have been taken: its own bound is the one to hold.
      const own = denseSearch(scenario, {
        random,
        places: doc.rock ? 60 : 200,
        polished: 1,
        sets: [main.options],
      });
      expect(own.score).toBeLessThanOrEqual(main.bound + ROUNDING);
      expect(own.score).toBeLessThanOrEqual(main.optimum.margin + TOLERANCE + ROUNDING);
      count[main.fits === 'yes' ? 'fits' : 'short']++;
      if (doc.choices) count.choices++;
      if (doc.rock) count.rock++;
      if (doc.limits) count.limits++;
      if (typeof doc.position.pitch !== 'number') count.pitch++;
      // The dense search is worth something only where it gets near.
      if (dense.score > bestBound - 2) count.near++;
    });
    expect(places).toBeGreaterThan(35_000);
    expect(count.near).toBeGreaterThan(19);
    for (const n of Object.values(count)) expect(n).toBeGreaterThan(5);
  });

  test('an aim: no place that keeps every rule is lower, or further back', () => {
    let judged = 0;
    seedsOf(30, (seed) => {
      const random = seeded(seed);
      const doc = randomBay({ random });
      const scenario = scenarioOf({ ...doc, rock: 0 });
      const answer = solve(scenario);
      for (const { aim, standing, bound, fits } of answer.wishes) {
        if (aim === 'centre' || !standing) continue;
        const sign = aim === 'low' ? -1 : 1;
        const of = aim === 'low' ? 'height' : 'setback';
        expect(fits).toBe('yes');
        expect(standing.fits).toBe(true);
        expect(sign * standing.position[of]).toBeGreaterThanOrEqual(sign * bound - TOLERANCE);
        const dense = denseSearch(scenario, {
          random,
          places: 300,
          polished: 2,
          sets: [answer.main.options],
          score: ({ margin, position }) => (margin >= 0 ? sign * position[of] : -Infinity),
        });
        expect(dense.score).toBeLessThanOrEqual(sign * bound + ROUNDING);
        judged++;
      }
    });
    expect(judged).toBeGreaterThan(15);
  });
});

describe('changes whose effect is known, on bays whose answer is not', () => {
  test('mirrored, renamed, scaled, and all gaps raised', () => {
    let applied = 0;
    seedsOf(16, (seed) => {
      const random = seeded(seed);
      const doc = { ...randomBay({ random }), rock: 0 };
      const by = between(random, 0.7, 1.5);
      const boundOf = (d: typeof doc): number => solve(scenarioOf(d), { only: 'main' }).bestBound;
      const same = (a: number, b: number, tolerance = TOLERANCE): void =>
        expect(Math.abs(a - b)).toBeLessThanOrEqual(tolerance + ROUNDING);
      const bound = boundOf(doc);
      same(boundOf({ ...mirrored(doc), rock: 0 }), bound);
      same(boundOf({ ...renamed(doc, random), rock: 0 }), bound);
      same(boundOf({ ...scaled(doc, by), rock: 0 }), by * bound, TOLERANCE * Math.max(1, by));
      const raised = eachRule(doc, (rule) => ({ ...rule, gap: (rule.gap as number) + 4 }));
      // The room to come out needs 0 whatever the rules say, so a raise may cost less than its size.
      const comesOut = [...Object.values(doc.engine)].some((part) => part['comes out']);
      const after = boundOf({ ...raised, rock: 0 });
      if (!comesOut) same(after, bound - 4);
      else {
        expect(after).toBeLessThanOrEqual(bound + TOLERANCE);
        expect(after).toBeGreaterThanOrEqual(bound - 4 - TOLERANCE);
      }
      applied++;
    });
    expect(applied).toBe(16);
  });
});
