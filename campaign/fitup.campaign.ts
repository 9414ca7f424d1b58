/** Mock-up and as-built check as inverses of each other, on thousands of stances with noise. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lengthOf, scaledStance, stanceOfLengths } from '../src/geometry/adjusters/links.js';
import { COVERAGE, estimate } from '../src/solver/fitup/estimate.js';
import { turnsOf } from '../src/solver/fitup/set-up.js';
import { hung, LEVEL, noises, readAt, stances } from '../tests/support/hung.js';

const RUNS = Number(process.env['RUNS'] ?? 5000);
const SEED = Number(process.env['SEED'] ?? 1);
const { adjusters } = hung.mockup!;

describe(`over ${RUNS} stances, seed ${SEED}`, () => {
  it('the estimate lies within what is stated 95 times in 100, and turning by it ends where it was meant', () => {
    const inside = [0, 0, 0, 0, 0, 0];
    let [runs, doubted, far] = [0, 0, 0];
    const ways: number[] = [];
    fc.assert(
      fc.property(stances, stances, noises, (stance, meant, noise) => {
        const found = estimate(readAt(stance, noise), LEVEL);
        runs++;
        if (found.doubtful.length + found.atOdds.length > 0) doubted++;
        const [a, b] = [scaledStance(found.stance), scaledStance(stance)];
        found.covariance.forEach((row, k) => {
          const off = Math.abs(a[k]! - b[k]!) / Math.sqrt(row[k]!);
          if (off <= COVERAGE) inside[k]!++;
          if (off > 5) far++;
        });
        const turns = adjusters.map((one) =>
          turnsOf(lengthOf(one, meant) - lengthOf(one, found.stance), one),
        );
        const after = adjusters.map((one, k) => lengthOf(one, stance) + turns[k]! * one.lead);
        const reached = scaledStance(stanceOfLengths(adjusters, after, stance, []).stance);
        const aim = scaledStance(meant);
        ways.push(Math.hypot(...reached.map((value, k) => value - aim[k]!)));
      }),
      { numRuns: RUNS, seed: SEED },
    );
    ways.sort((x, y) => x - y);
    const rates = inside.map((count) => ((100 * count) / runs).toFixed(1));
    console.log(
      `within two deviations, by motion: ${rates.join(' ')} %; readings doubted in ${doubted} runs; ` +
        `beyond five deviations: ${far}; after turning, off by ${ways[Math.floor(runs / 2)]!.toFixed(2)} mm ` +
        `at the median, ${ways[Math.floor(runs * 0.99)]!.toFixed(2)} mm at the 99th centile, ${ways.at(-1)!.toFixed(2)} mm at the most`,
    );
    for (const count of inside) expect(count / runs).toBeGreaterThan(0.945);
    expect(inside.reduce((sum, count) => sum + count, 0) / (6 * runs)).toBeLessThan(0.985);
    expect(doubted / runs).toBeLessThan(0.01);
    expect(far / runs).toBeLessThan(0.002);
  });
});
