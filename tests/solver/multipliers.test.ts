/** Multipliers of plain programs: a textbook's, those of `highs`, and of ties made on purpose. */

import { beforeAll, describe, expect, test } from 'vitest';
import { multiplierRanges } from '../../src/solver/bounding/multipliers.js';
import type { PlainRow } from '../../src/solver/bounding/multipliers.js';
import { between, seeded } from '../geometry/random.js';
import type { Random } from '../geometry/random.js';
import { loadHighs, Program } from '../support/highs.js';
import type { Highs } from '../support/highs.js';

/** The change of a limit; and what an optimum may be missed by. */
const STEP = 1e-4;
const GIVE = 1e-9;
/** The library rounds what it finds to 1e-9, which is 1e-5 of a step. */
const DIGITS = 3;

let highs: Highs;
beforeAll(async () => {
  highs = await loadHighs();
});

function rangesOf(rows: readonly PlainRow[], costs: readonly number[]) {
  return multiplierRanges(
    rows,
    costs,
    rows.map((_, i) => i),
    STEP,
  )!;
}

/** The optimum of the program itself, by `highs`. */
function optimum(rows: readonly PlainRow[], costs: readonly number[]): number {
  const program = new Program();
  const x = costs.map((cost) => program.variable(cost, 0, Infinity));
  for (const { coefficients, limit } of rows) {
    program.row(
      coefficients.map((a, j) => [x[j]!, a] as const),
      -Infinity,
      limit,
    );
  }
  return program.solve(highs).value;
}

/** The greatest of a sum of multipliers over those that are optimal, by `highs`. */
function extreme(
  rows: readonly PlainRow[],
  costs: readonly number[],
  row: number,
  sign: 1 | -1,
): number {
  const program = new Program();
  const y = rows.map((_, i) => program.variable(i === row ? sign : 0, 0, Infinity));
  costs.forEach((cost, j) => {
    program.row(
      rows.map(({ coefficients }, i) => [y[i]!, coefficients[j]!] as const),
      cost,
      Infinity,
    );
  });
  program.row(
    rows.map(({ limit }, i) => [y[i]!, limit] as const),
    -Infinity,
    optimum(rows, costs) + GIVE,
  );
  return sign * program.solve(highs).value;
}

describe('the Wyndor Glass example (Hillier and Lieberman, Introduction to Operations Research; from memory)', () => {
  const wyndor = (b1: number, b2: number, b3: number): PlainRow[] => [
    { coefficients: [1, 0], limit: b1 },
    { coefficients: [0, 2], limit: b2 },
    { coefficients: [3, 2], limit: b3 },
  ];
  const prices = (b: readonly [number, number, number]) => rangesOf(wyndor(...b), [3, 5]);
  const PRICES = [0, 1.5, 1];

  function expectPrices(b: readonly [number, number, number]): void {
    prices(b).forEach(({ least, most }, i) => {
      expect(least).toBeCloseTo(PRICES[i]!, DIGITS);
      expect(most).toBeCloseTo(PRICES[i]!, DIGITS);
    });
  }

  test('shadow prices 0, 3/2 and 1, each one number', () => {
    expectPrices([4, 12, 18]);
  });

  test('they hold while the right sides stay within [2, inf), [6, 18] and [12, 24], and part there', () => {
    const inside = 0.01;
    for (const b1 of [2 + inside, 50]) expectPrices([b1, 12, 18]);
    for (const b2 of [6 + inside, 18 - inside]) expectPrices([4, b2, 18]);
    for (const b3 of [12 + inside, 24 - inside]) expectPrices([4, 12, b3]);
    for (const b of [
      [2, 12, 18],
      [4, 6, 18],
      [4, 18, 18],
      [4, 12, 12],
      [4, 12, 24],
    ] as const) {
      const ranges = prices(b);
      // The old prices are still among the optimal ones, no longer alone.
      ranges.forEach(({ least, most }, i) => {
        expect(least).toBeLessThanOrEqual(PRICES[i]! + 1e-3);
        expect(most).toBeGreaterThanOrEqual(PRICES[i]! - 1e-3);
      });
      expect(Math.max(...ranges.map(({ least, most }) => most - least))).toBeGreaterThan(0.5);
    }
    // Past an end they are others.
    expect(Math.abs(prices([4, 18.5, 18])[1]!.most - 1.5)).toBeGreaterThan(0.1);
  });
});

/** A bounded program with rows that all pass through one point, so that multipliers tie. */
function randomProgram(random: Random, tied: boolean) {
  const n = 2 + Math.floor(3 * random());
  const m = n + 2 + Math.floor(4 * random());
  const through = Array.from({ length: n }, () => between(random, 0.5, 3));
  const rows = Array.from({ length: m }, (_, i): PlainRow => {
    const coefficients = through.map(() => Math.round(between(random, -1, 4)));
    const at = coefficients.reduce((sum, a, j) => sum + a * through[j]!, 0);
    return {
      coefficients,
      limit: Math.max(0.5, at) + (tied && i % 2 === 0 ? 0 : between(random, 0, 2)),
    };
  });
  rows.push({ coefficients: through.map(() => 1), limit: 20 });
  return { rows, costs: through.map(() => Math.round(between(random, 1, 5))) };
}

describe('random programs', () => {
  test('ranges are those of `highs`, and hold the gain and the cost of a change', () => {
    const random = seeded(5);
    let ties = 0;
    let applied = 0;
    for (let i = 0; i < 120; i++) {
      const { rows, costs } = randomProgram(random, i % 2 === 0);
      const best = optimum(rows, costs);
      const ranges = rangesOf(rows, costs);
      ranges.forEach(({ least, most }, row) => {
        expect(least, `case ${i}`).toBeCloseTo(extreme(rows, costs, row, -1), DIGITS);
        expect(most, `case ${i}`).toBeCloseTo(extreme(rows, costs, row, 1), DIGITS);
        const eps = STEP / 2;
        const by = (d: number) =>
          optimum(
            rows.map((r, k) => (k === row ? { ...r, limit: r.limit + d } : r)),
            costs,
          );
        // The optimum is concave in a limit: more gains the least at first, less costs the most.
        expect(by(eps) - best).toBeLessThanOrEqual(least * eps + 1e-8);
        expect(best - by(-eps)).toBeGreaterThanOrEqual(most * eps - 1e-8);
        if (most - least > 1e-3) ties++;
        applied++;
      });
    }
    expect(applied).toBeGreaterThan(500);
    expect(ties).toBeGreaterThan(20);
  });
});
