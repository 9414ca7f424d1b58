/** The LP of a box against `highs`, against textbook answers, and the trap of the library beneath. */

import solver from 'javascript-lp-solver';
import { solve as yalps } from 'yalps';
import { beforeAll, describe, expect, test } from 'vitest';
import { createLpResult, solveHardRows, solveLp } from '../../src/solver/bounding/lp.js';
import { Rows } from '../../src/solver/rows.js';
import { between, seeded } from '../geometry/random.js';
import type { Random } from '../geometry/random.js';
import { loadHighs, Program } from '../support/highs.js';
import type { Highs } from '../support/highs.js';

/** The library as its types should have it. */
const library = solver as unknown as { Solve(model: unknown): { readonly feasible: boolean } };

/** One row: `value + slopes . u`, soft (m <= row) or hard (0 <= row). */
interface Row {
  readonly value: number;
  readonly slopes: readonly number[];
  readonly hard: boolean;
}
interface Box {
  readonly rows: readonly Row[];
  readonly free: readonly boolean[];
}

/** Millimetres: what a certified bound may miss the true optimum by, below and above. */
const SOUND = 1e-7;
const TIGHT = 1e-5;
/** Half of what a missed hard row costs: above it the priced program is another program. */
const SMALL_MULTIPLIER = 100;
/** An optimum of the hard rows nearer to zero than this is neither feasible nor not. */
const BAND = 1e-5;

let highs: Highs;
beforeAll(async () => {
  highs = await loadHighs();
});

function load(box: Box): Rows {
  const rows = new Rows();
  for (const { value, slopes, hard } of box.rows) {
    const row = rows.add(-1, hard);
    rows.values[row] = value;
    slopes.forEach((slope, k) => (rows.slopes[4 * row + k] = slope));
  }
  return rows;
}

function at(row: Row, u: ArrayLike<number>): number {
  return row.slopes.reduce((sum, slope, k) => sum + slope * u[k]!, row.value);
}

/** What `highs` finds for many boxes at once, as one program of independent blocks. */
function optima(boxes: readonly Box[], only: 'soft and hard' | 'hard'): number[] {
  const program = new Program();
  const margins = boxes.map(({ rows, free }) => {
    const u = free.map((isFree) => program.variable(0, isFree ? -1 : 0, isFree ? 1 : 0));
    const m = program.variable(1, -Infinity, Infinity);
    for (const { value, slopes, hard } of rows) {
      if (only === 'hard' && !hard) continue;
      const terms = slopes.map((slope, k) => [u[k]!, -slope] as const);
      const margin = only === 'hard' || !hard ? [[m, 1] as const] : [];
      program.row([...margin, ...terms], -Infinity, value);
    }
    return m;
  });
  const { status, x } = program.solve(highs);
  expect(status).toBe('optimal');
  return margins.map((m) => x[m]!);
}

const SORTS = ['general', 'vertex', 'negative', 'equal rows', 'few', 'parallel', 'pinned'] as const;

/** Soft rows of a sort: what the boxes of a search are made of, and what trips pivoting. */
function softBox(random: Random, sort: (typeof SORTS)[number]): Box {
  const pick = (n: number): number => Math.floor(n * random());
  const free = [0, 1, 2, 3].map(() => sort !== 'pinned' || random() < 0.5);
  const slopes = (size: number): number[] =>
    free.map((isFree) => (isFree ? between(random, -size, size) : 0));
  const count = sort === 'few' ? 1 + pick(4) : 2 + pick(40);
  const rows: Row[] = [];
  const meeting = free.map(() => pick(3) - 1);
  for (let i = 0; i < count; i++) {
    let row: Row = { value: between(random, -20, 40), slopes: slopes(15), hard: false };
    if (sort === 'vertex') {
      // Every row through one corner or face middle, at the same height: as degenerate as can be.
      const whole = slopes(4).map(Math.round);
      row = {
        value: 3 - at({ value: 0, slopes: whole, hard: false }, meeting),
        slopes: whole,
        hard: false,
      };
    } else if (sort === 'negative') {
      row = { ...row, value: between(random, -900, -20) };
    } else if (sort === 'equal rows' && i > 0 && random() < 0.7) {
      row = rows[pick(i)]!;
    } else if (sort === 'parallel') {
      const one = pick(4);
      row = { ...row, slopes: free.map((_, k) => (k === one ? (random() < 0.5 ? 5 : -5) : 0)) };
    }
    rows.push(row);
  }
  return { rows, free };
}

/** The same with hard rows that some point of the box meets. */
function feasibleBox(random: Random): Box {
  const box = softBox(random, SORTS[Math.floor(SORTS.length * random())]!);
  const inside = box.free.map((isFree) => (isFree ? between(random, -0.9, 0.9) : 0));
  const hard = Array.from({ length: 1 + Math.floor(6 * random()) }, () => {
    const slopes = box.free.map((isFree) => (isFree ? between(random, -30, 30) : 0));
    const spare = random() < 0.3 ? 0 : between(random, 0, 10);
    const row = { value: 0, slopes, hard: true };
    return { ...row, value: spare - at(row, inside) };
  });
  return { rows: [...box.rows, ...hard], free: box.free };
}

/** Hard rows alone, that some point meets or none does. */
function hardBox(random: Random): Box {
  const free = [0, 1, 2, 3].map(() => random() < 0.85);
  const rows = Array.from({ length: 2 + Math.floor(10 * random()) }, () => ({
    value: between(random, -12, 14),
    slopes: free.map((isFree) => (isFree ? between(random, -15, 15) : 0)),
    hard: true,
  }));
  return { rows, free };
}

/** Checks a result's multipliers: none negative, those of `soft` rows summing to 1. */
function checkShares(rows: Rows, isSoft: (row: number) => boolean, bound: number): void {
  let sum = 0;
  for (let row = 0; row < rows.count; row++) {
    expect(rows.share[row]).toBeGreaterThanOrEqual(0);
    if (isSoft(row)) sum += rows.share[row]!;
  }
  if (sum === 0) {
    // One row that no u changes is the whole program: it needs no multipliers.
    const least = Math.min(
      ...Array.from({ length: rows.count }, (_, r) =>
        isSoft(r) ? rows.values[r]! + rows.spread(r) : Infinity,
      ),
    );
    expect(bound).toBe(least);
  } else expect(sum).toBeCloseTo(1, 9);
}

function inBatches<T>(
  count: number,
  size: number,
  make: () => T,
  check: (batch: T[]) => void,
): void {
  for (let done = 0; done < count; done += size) check(Array.from({ length: size }, make));
}

describe('random boxes against highs', () => {
  test('soft rows: the bound is the optimum, and is proved by its multipliers', () => {
    const random = seeded(11);
    const seen = new Map<string, number>();
    let negative = 0;
    let faulty = 0;
    let sort: (typeof SORTS)[number] = 'general';
    const make = (): Box => {
      sort = SORTS[Math.floor(SORTS.length * random())]!;
      seen.set(sort, (seen.get(sort) ?? 0) + 1);
      return softBox(random, sort);
    };
    const out = createLpResult();
    inBatches(3500, 50, make, (boxes) => {
      const best = optima(boxes, 'soft and hard');
      boxes.forEach((box, i) => {
        const rows = load(box);
        solveLp(rows, box.free, out);
        expect(out.bound).toBeGreaterThanOrEqual(best[i]! - SOUND);
        if (out.faulty) faulty++;
        else {
          expect(out.bound).toBeLessThanOrEqual(best[i]! + TIGHT);
          expect(Math.min(...box.rows.map((row) => at(row, out.u)))).toBeGreaterThan(
            best[i]! - TIGHT,
          );
          checkShares(rows, () => true, out.bound);
        }
        if (best[i]! < 0) negative++;
      });
    });
    expect([...seen.values()].every((n) => n > 300)).toBe(true);
    expect(negative).toBeGreaterThan(500);
    expect(faulty).toBe(0);
  });

  test('soft and hard rows that some point meets', () => {
    const random = seeded(12);
    let compared = 0;
    let carried = 0;
    let faulty = 0;
    const out = createLpResult();
    inBatches(
      1500,
      50,
      () => feasibleBox(random),
      (boxes) => {
        const best = optima(boxes, 'soft and hard');
        boxes.forEach((box, i) => {
          const rows = load(box);
          solveLp(rows, box.free, out);
          expect(out.bound).toBeGreaterThanOrEqual(best[i]! - SOUND);
          expect(out.u.every((u) => u >= -1 && u <= 1)).toBe(true);
          if (out.faulty) faulty++;
          else {
            checkShares(rows, (row) => rows.hard[row] === 0, out.bound);
            let hard = 0;
            for (let row = 0; row < rows.count; row++) if (rows.hard[row]) hard += rows.share[row]!;
            if (hard > SMALL_MULTIPLIER) return;
            compared++;
            if (hard > 1e-6) carried++;
            expect(out.bound).toBeLessThanOrEqual(best[i]! + TIGHT);
            expect(out.missed).toBeLessThan(TIGHT);
          }
        });
      },
    );
    expect(compared).toBeGreaterThan(1200);
    expect(carried).toBeGreaterThan(200);
    expect(faulty).toBe(0);
  });

  test('hard rows that no point meets are proved so, exactly when highs says infeasible', () => {
    const random = seeded(13);
    const count = { feasible: 0, infeasible: 0, band: 0 };
    const out = createLpResult();
    for (let i = 0; i < 600; i++) {
      const box = hardBox(random);
      const program = new Program();
      const u = box.free.map((isFree) => program.variable(0, isFree ? -1 : 0, isFree ? 1 : 0));
      for (const { value, slopes } of box.rows) {
        program.row(
          slopes.map((slope, k) => [u[k]!, -slope] as const),
          -Infinity,
          value,
        );
      }
      const { status } = program.solve(highs);
      solveHardRows(load(box), box.free, out);
      if (Math.abs(out.bound) < BAND) {
        count.band++;
        continue;
      }
      expect(status).toBe(out.bound < 0 ? 'infeasible' : 'optimal');
      count[out.bound < 0 ? 'infeasible' : 'feasible']++;
    }
    expect(count.feasible).toBeGreaterThan(100);
    expect(count.infeasible).toBeGreaterThan(100);
    expect(count.band).toBeLessThan(10);
  });

  test('the least hard row at its greatest', () => {
    const random = seeded(14);
    const out = createLpResult();
    let faulty = 0;
    inBatches(
      1000,
      50,
      () => hardBox(random),
      (boxes) => {
        const best = optima(boxes, 'hard');
        boxes.forEach((box, i) => {
          const rows = load(box);
          solveHardRows(rows, box.free, out);
          expect(out.bound).toBeGreaterThanOrEqual(best[i]! - SOUND);
          if (out.faulty) faulty++;
          else expect(out.bound).toBeLessThanOrEqual(best[i]! + TIGHT);
          checkShares(rows, () => true, out.bound);
        });
      },
    );
    expect(faulty).toBe(0);
  });
});

/** A textbook program: bounds of the variables and linear forms in them, as rows over a box. */
class Textbook {
  private readonly rows: Row[] = [];

  constructor(private readonly bounds: readonly (readonly [number, number])[]) {}

  /** `c . x + constant` is to be maximised. */
  maximise(c: readonly number[]): this {
    return this.add(c, 0, false);
  }

  /** `c . x <= limit`. */
  atMost(c: readonly number[], limit: number): this {
    return this.add(
      c.map((v) => -v),
      limit,
      true,
    );
  }

  private add(c: readonly number[], constant: number, hard: boolean): this {
    let value = constant;
    const slopes = [0, 1, 2, 3].map((k) => {
      const [low, high] = this.bounds[k] ?? [0, 0];
      value += (c[k] ?? 0) * ((low + high) / 2);
      return (c[k] ?? 0) * ((high - low) / 2);
    });
    this.rows.push({ value, slopes, hard });
    return this;
  }

  solve() {
    const rows = load({ rows: this.rows, free: [] });
    const out = createLpResult();
    const free = [0, 1, 2, 3].map((k) => this.bounds[k] !== undefined);
    const hardOnly = this.rows.every(({ hard }) => hard);
    (hardOnly ? solveHardRows : solveLp)(rows, free, out);
    const x = this.bounds.map(
      ([low, high], k) => (low + high) / 2 + ((high - low) / 2) * out.u[k]!,
    );
    return { bound: out.bound, x, shares: Array.from(rows.share.subarray(0, rows.count)) };
  }
}

function expectNear(found: readonly number[], wanted: readonly number[]): void {
  expect(found).toHaveLength(wanted.length);
  found.forEach((value, i) => expect(value).toBeCloseTo(wanted[i]!, 7));
}

describe('worked examples', () => {
  test('Wyndor Glass (Hillier and Lieberman, from memory): 36 at (2, 6), shadow prices 0, 3/2, 1', () => {
    const { bound, x, shares } = new Textbook([
      [0, 10],
      [0, 10],
    ])
      .maximise([3, 5])
      .atMost([1, 0], 4)
      .atMost([0, 2], 12)
      .atMost([3, 2], 18)
      .solve();
    expect(bound).toBeCloseTo(36, 7);
    expectNear(x, [2, 6]);
    expectNear(shares, [1, 0, 3 / 2, 1]);
  });

  test('Klee-Minty, n = 3 (seen in print): 125 at (0, 0, 125)', () => {
    const { bound, x } = new Textbook([
      [0, 5],
      [0, 25],
      [0, 125],
    ])
      .maximise([4, 2, 1])
      .atMost([4, 1, 0], 25)
      .atMost([8, 4, 1], 125)
      .solve();
    expect(bound).toBeCloseTo(125, 6);
    expectNear(x, [0, 0, 125]);
  });

  test('Beale, which cycles (from memory, solved again): 1/20 at (1/25, 0, 1, 0)', () => {
    const { bound, x } = new Textbook([
      [0, 1],
      [0, 1],
      [0, 1],
      [0, 1],
    ])
      .maximise([3 / 4, -150, 1 / 50, -6])
      .atMost([1 / 4, -60, -1 / 25, 9], 0)
      .atMost([1 / 2, -90, -1 / 50, 3], 0)
      .solve();
    expect(bound).toBeCloseTo(1 / 20, 7);
    expectNear(x, [1 / 25, 0, 1, 0]);
  });

  test('Bland, which cycles (seen in print, solved again): 1 at (1, 0, 1, 0)', () => {
    const { bound, x } = new Textbook([
      [0, 1],
      [0, 5],
      [0, 5],
      [0, 5],
    ])
      .maximise([10, -57, -9, -24])
      .atMost([1 / 2, -11 / 2, -5 / 2, 9], 0)
      .atMost([1 / 2, -3 / 2, -1 / 2, 1], 0)
      .solve();
    expect(bound).toBeCloseTo(1, 7);
    expectNear(x, [1, 0, 1, 0]);
  });

  // An irreducible set shows as the rows that carry the proof.
  test('SAS/OR example 6.4 (seen): a+b>=10, a+c<=4, b+c<=5 and c>=0 cannot hold together', () => {
    const { bound, shares } = new Textbook([
      [0, 20],
      [0, 20],
      [0, 20],
    ])
      .atMost([-1, -1, 0], -10)
      .atMost([1, 0, 1], 4)
      .atMost([0, -1, -1], -4)
      .atMost([0, 1, 1], 5)
      .atMost([0, 0, 1], 3)
      .solve();
    expect(bound).toBeCloseTo(-1 / 3, 7);
    expectNear(shares, [1 / 3, 1 / 3, 0, 1 / 3, 0]);
  });

  test('HiGHS tests (seen): x+y<=-2 alone fails where x, y >= 0', () => {
    const { bound, shares } = new Textbook([
      [0, 10],
      [0, 10],
    ])
      .atMost([2, 1], 8)
      .atMost([1, 3], 9)
      .atMost([1, 1], -2)
      .solve();
    expect(bound).toBeCloseTo(-2, 7);
    expectNear(shares, [0, 0, 1]);
  });

  test('SAS/OR (seen): A<=60, B<=50 and A+2B>=220 fail, all three needed', () => {
    const { bound, shares } = new Textbook([
      [0, 200],
      [0, 200],
    ])
      .atMost([1, 0], 60)
      .atMost([0, 1], 50)
      .atMost([-1, -2], -220)
      .solve();
    expect(bound).toBeCloseTo(-15, 7);
    expectNear(shares, [1 / 4, 1 / 2, 1 / 4]);
  });

  test('lp_solve documentation (seen): x>=6, y>=6, x+y<=11 miss by 1 in all', () => {
    const { bound, shares } = new Textbook([
      [0, 20],
      [0, 20],
    ])
      .atMost([-1, 0], -6)
      .atMost([0, -1], -6)
      .atMost([1, 1], 11)
      .solve();
    expectNear(shares, [1 / 3, 1 / 3, 1 / 3]);
    expect(3 * bound).toBeCloseTo(-1, 7);
  });
});

/** The LP of a box as the library's own model, the margin declared free in sign. */
function unrestrictedModel(box: Box) {
  const constraints: Record<string, { max: number }> = {};
  const variables: Record<string, Record<string, number>> = { m: { m: 1 } };
  box.free.forEach((_, k) => {
    variables[`u${k}`] = { [`wide${k}`]: 1 };
    constraints[`wide${k}`] = { max: 2 };
  });
  box.rows.forEach(({ value, slopes }, i) => {
    const corner = slopes.reduce((sum, slope) => sum - slope, value);
    constraints[`row${i}`] = { max: corner };
    variables['m']![`row${i}`] = 1;
    slopes.forEach((slope, k) => (variables[`u${k}`]![`row${i}`] = -slope));
  });
  return { constraints, variables };
}

describe('THE TRAP of javascript-lp-solver 1.0.3', () => {
  test('a margin declared unrestricted makes feasible programs "infeasible"; ours do not', () => {
    const random = seeded(15);
    const boxes = Array.from({ length: 500 }, () => softBox(random, 'negative'));
    const best = optima(boxes, 'soft and hard');
    const out = createLpResult();
    let trapped = 0;
    boxes.forEach((box, i) => {
      expect(best[i]).toBeLessThan(0);
      const { constraints, variables } = unrestrictedModel(box);
      const theirs = library.Solve({
        optimize: 'm',
        opType: 'max',
        constraints,
        variables,
        unrestricted: { m: 1 },
      });
      if (!theirs.feasible) trapped++;
      solveLp(load(box), box.free, out);
      expect(out.faulty).toBe(false);
      expect(Math.abs(out.bound - best[i]!)).toBeLessThan(TIGHT);
      if (i % 5 > 0) return;
      // A second opinion: the margin as the difference of two, for yalps knows no free variables.
      const minus = Object.fromEntries(
        Object.entries(variables['m']!).map(([row, c]) => [row, -c]),
      );
      const second = yalps({
        direction: 'maximize',
        objective: 'm',
        constraints,
        variables: { ...variables, minus },
      });
      expect(second.status).toBe('optimal');
      expect(Math.abs(second.result - best[i]!)).toBeLessThan(1e-4);
    });
    // When this fails the library has been mended, or has been changed: look at lp.ts again.
    expect(trapped).toBeGreaterThan(400);
  });
});

/** Rows of a box of under a micrometre, each as value and slopes: rounding made the library go round for ever. */
const ROUND_FOR_EVER: readonly (readonly [number, ...number[]])[] = [
  [-9.05651304696569, 0.0001759218604462376, 0, 0, -0.00006616753674828169],
  [-9.056513038659256, -0.0001759218604462376, 0, 0, -0.0000647867315457669],
  [-9.056513038446804, 0, 0, 0.00017592186044268487, 3.786429903862052e-15],
  [-9.05651303844651, 0, 0.0001759218604462376, 0, 0],
  [-9.05651303009489, 0.0001759218604462376, 0, 0, 0.00006642444695359044],
  [-9.056513021440535, -0.0001759218604462376, 0, 0, 0.00006642472530294871],
  [-9.056513005724556, 0, 0, 0.00017592186044268487, 0.0002531703189775389],
  [-9.056513038446496, 0, 0.0001759218604462376, 0, 0],
];

test('a tiny box is solved, and to the same part of its size as any other', () => {
  const rows = ROUND_FOR_EVER.map(([value, ...slopes]) => ({ value, slopes, hard: false }));
  const scaled = rows.map(({ value, slopes, hard }) => ({
    value: (value - rows[0]!.value) * 1e5,
    slopes: slopes.map((slope) => slope * 1e5),
    hard,
  }));
  const free = [true, true, true, true];
  const [own, large] = [createLpResult(), createLpResult()];
  solveLp(load({ rows, free }), free, own);
  solveLp(load({ rows: scaled, free }), free, large);
  expect([own.faulty, large.faulty]).toEqual([false, false]);
  expect((own.bound - rows[0]!.value) * 1e5).toBeCloseTo(large.bound, 3);
  expect(large.bound).toBeCloseTo(optima([{ rows: scaled, free }], 'soft and hard')[0]!, 5);
});
