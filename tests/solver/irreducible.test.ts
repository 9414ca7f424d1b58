/** Smallest sets that prevent something: linear programs from print, and families known beforehand. */

import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { irreducible, irreducibleSets } from '../../src/solver/explaining/irreducible.js';
import type { AllIrreducible, Oracle } from '../../src/solver/explaining/irreducible.js';
import type { Steps } from '../../src/solver/answering/searches.js';
import { loadHighs, Program } from '../support/highs.js';
import type { Highs, Term } from '../support/highs.js';

const MOST = 1000;

/** What a generator returns, run without a pause. */
function runThrough<T>(steps: Steps<T>): T {
  for (let step = steps.next(); ; step = steps.next('go')) if (step.done) return step.value;
}

/** Decides at once. */
function oracleOf(prevents: (kept: readonly number[]) => boolean | undefined): Oracle {
  return function* (kept) {
    const no = prevents(kept);
    if (no === undefined) return { possible: 'undecided' };
    return no ? { possible: 'no', by: kept } : { possible: 'yes' };
  };
}

function allOf(count: number): number[] {
  return Array.from({ length: count }, (_, i) => i);
}

function setsOf({ sets }: AllIrreducible): string[] {
  return sets.map(({ members }) => members.join()).sort();
}

/** A row of a system: `lower <= terms <= upper`, a bound of a variable written as a row. */
type Row = readonly [name: string, terms: readonly Term[], lower: number, upper: number];

const atMost = (name: string, terms: readonly Term[], upper: number): Row => [
  name,
  terms,
  -Infinity,
  upper,
];
const atLeast = (name: string, terms: readonly Term[], lower: number): Row => [
  name,
  terms,
  lower,
  Infinity,
];

describe('infeasible systems from print, feasibility decided by highs', () => {
  let highs: Highs;
  beforeAll(async () => {
    highs = await loadHighs();
  });

  /** Names of the rows in each irreducible set. */
  function irreducibleRows(rows: readonly Row[], variables: number): string[][] {
    const oracle = oracleOf((kept) => {
      const program = new Program();
      for (let v = 0; v < variables; v++) program.variable(0, -Infinity, Infinity);
      for (const r of kept) program.row(rows[r]![1], rows[r]![2], rows[r]![3]);
      const { status } = program.solve(highs);
      return status === 'other' ? undefined : status === 'infeasible';
    });
    const found = runThrough(irreducibleSets(allOf(rows.length), oracle, MOST));
    expect(found.complete).toBe(true);
    expect(found.sets.every(({ proved }) => proved)).toBe(true);
    return found.sets.map(({ members }) => members.map((r) => rows[r]![0]));
  }

  it('finds the one set of a system with seven rows (SAS/OR user guide, example 6.4, as printed there)', () => {
    const [a, b, c] = [0, 1, 2];
    const rows = [
      atLeast('a+b>=10', [[a, 1], [b, 1]], 10), // prettier-ignore
      atMost('a+c<=4', [[a, 1], [c, 1]], 4), // prettier-ignore
      atLeast('b+c>=4', [[b, 1], [c, 1]], 4), // prettier-ignore
      atMost('b+c<=5', [[b, 1], [c, 1]], 5), // prettier-ignore
      atMost('c<=3', [[c, 1]], 3),
      ...['a', 'b', 'c'].map((name, v) => atLeast(`${name}>=0`, [[v, 1]], 0)),
    ];
    expect(irreducibleRows(rows, 3)).toEqual([['a+b>=10', 'a+c<=4', 'b+c<=5', 'c>=0']]);
  });

  it('finds a row against both signs (the tests of HiGHS)', () => {
    const rows = [
      atMost('2x+y<=8', [[0, 2], [1, 1]], 8), // prettier-ignore
      atMost('x+3y<=9', [[0, 1], [1, 3]], 9), // prettier-ignore
      atMost('x+y<=-2', [[0, 1], [1, 1]], -2), // prettier-ignore
      atLeast('x>=0', [[0, 1]], 0),
      atLeast('y>=0', [[1, 1]], 0),
    ];
    expect(irreducibleRows(rows, 2)).toEqual([['x+y<=-2', 'x>=0', 'y>=0']]);
  });

  it('finds all three rows where all three are needed (a textbook: A<=60; B<=50; A+2B>=220)', () => {
    const rows = [
      atMost('A<=60', [[0, 1]], 60),
      atMost('B<=50', [[1, 1]], 50),
      atLeast('A+2B>=220', [[0, 1], [1, 2]], 220), // prettier-ignore
    ];
    expect(irreducibleRows(rows, 2)).toEqual([['A<=60', 'B<=50', 'A+2B>=220']]);
  });

  it('finds every set of intervals that have no value in common (any two that miss: worked out)', () => {
    const ends = [[0, 4], [1, 5], [6, 9], [4.5, 7], [8, 12]] as const; // prettier-ignore
    const rows = ends.map(([low, high]): Row => [`${low}..${high}`, [[0, 1]], low, high]);
    const missing = ends.flatMap(([low, high], i) =>
      ends.flatMap(([otherLow, otherHigh], j) =>
        i < j && (high < otherLow || otherHigh < low) ? [`${i},${j}`] : [],
      ),
    );
    expect(missing.length).toBe(6);
    const named = (i: string) => rows[Number(i)]![0];
    expect(irreducibleRows(rows, 1).map(String).sort()).toEqual(
      missing.map((pair) => pair.split(',').map(named).join()).sort(),
    );
  });
});

/** Sets of numbers below `count`, none of which contains another. */
const families = fc
  .integer({ min: 1, max: 10 })
  .chain((count) =>
    fc.tuple(
      fc.constant(count),
      fc.array(fc.subarray(allOf(count), { minLength: Math.min(count, 2) }), { maxLength: 8 }),
    ),
  )
  .map(([count, given]) => {
    const family = given.filter(
      (one, i) =>
        !given.some(
          (other, j) => j !== i && contains(one, other) && (j < i || !contains(other, one)),
        ),
    );
    return { count, family };
  });

function contains(set: readonly number[], part: readonly number[]): boolean {
  return part.every((id) => set.includes(id));
}

describe('random families', () => {
  it('finds every set, exactly, and says that these are all', () => {
    let many = 0;
    fc.assert(
      fc.property(families, fc.boolean(), ({ count, family }, generous) => {
        const oracle: Oracle = oracleOf((kept) => family.some((one) => contains(kept, one)));
        // A decider may name more than is needed, or just one set that is enough.

        const terse: Oracle = function* (kept) {
          const by = family.find((one) => contains(kept, one));
          return by ? { possible: 'no', by } : { possible: 'yes' };
        };
        const asked = generous ? oracle : terse;
        const found = runThrough(irreducibleSets(allOf(count), asked, MOST));
        many += family.length > 2 ? 1 : 0;
        expect(setsOf(found)).toEqual(family.map(String).sort());
        expect(found.complete).toBe(true);
        expect(found.sets.every(({ proved }) => proved)).toBe(true);
      }),
      { numRuns: 400, seed: 11 },
    );
    expect(many).toBeGreaterThan(50);
  });

  it('claims nothing wrong where the decider does not always know', () => {
    let [open, closed, dropped] = [0, 0, 0];
    const seen = { unproved: 0 };
    fc.assert(
      fc.property(
        families,
        fc.integer({ min: 2, max: 6 }),
        fc.nat(),
        ({ count, family }, n, salt) => {
          const prevents = (kept: readonly number[]) => family.some((one) => contains(kept, one));
          // The same question always gets the same answer.
          const oracle = oracleOf((kept) =>
            hash(kept, salt) % n === 0 ? undefined : prevents(kept),
          );
          const found = runThrough(irreducibleSets(allOf(count), oracle, MOST));
          for (const { members, proved } of found.sets) {
            expect(prevents(members)).toBe(true);
            if (proved) expect(family.map(String)).toContain(members.join());
            else seen.unproved++;
          }
          if (!found.complete) open++;
          else {
            closed++;
            expect(found.sets.every(({ proved }) => proved)).toBe(true);
            expect(setsOf(found)).toEqual(family.map(String).sort());
          }
          dropped += found.sets.length < family.length ? 1 : 0;
        },
      ),
      { numRuns: 600, seed: 12 },
    );
    expect(Math.min(open, closed, dropped, seen.unproved)).toBeGreaterThan(20);
  });

  it('says that there may be more once its checks are spent', () => {
    // Pairs of ten: 45 sets.
    const oracle = oracleOf((kept) => kept.length > 1);
    const found = runThrough(irreducibleSets(allOf(10), oracle, 20));
    expect(found.complete).toBe(false);
    expect(found.sets.length).toBeGreaterThan(5);
    expect(found.sets.every(({ members }) => members.length === 2)).toBe(true);
    expect(setsOf(runThrough(irreducibleSets(allOf(10), oracle, MOST))).length).toBe(45);
  });
});

describe('one irreducible set', () => {
  it('keeps those named first rather than those named last', () => {
    const oracle = oracleOf((kept) => kept.length >= 2);
    expect(runThrough(irreducible([3, 1, 2, 0], oracle)).members).toEqual([1, 3]);
  });

  it.each([
    ['is empty where nothing is needed', () => true, []],
    ['is the only member', (kept: readonly number[]) => kept.includes(4), [4]],
    ['is everything', (kept: readonly number[]) => kept.length === 5, [0, 1, 2, 3, 4]],
  ] as const)('%s', (_, prevents, members) => {
    expect(runThrough(irreducible(allOf(5), oracleOf(prevents)))).toEqual({
      members,
      proved: true,
    });
  });
});

/** A number that a set and a salt always give. */
function hash(kept: readonly number[], salt: number): number {
  let state = salt ^ 0x9e3779b9;
  for (const id of kept) state = Math.imul(state ^ (id + 1), 0x85ebca6b) ^ (state >>> 13);
  return state >>> 4;
}
