import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lengthOf, scaledStance, stanceOfLengths } from '../../../src/geometry/adjusters/links.js';
import { COVERAGE, estimate } from '../../../src/solver/fitup/estimate.js';
import type { Observed } from '../../../src/solver/fitup/estimate.js';
import { turnsOf } from '../../../src/solver/fitup/set-up.js';
import { hung, LEVEL, noises, problems, readAt, readings, stances } from '../../support/hung.js';

const { adjusters } = hung.mockup!;

/** What is counted over many runs is counted over the same ones. */
const SEED = 20261129;

describe('where the engine really sits', () => {
  it('is read from a sheet', () => {
    expect(problems).toEqual([]);
    expect(readings).toHaveLength(16);
  });

  it('is found again from readings without error', () => {
    fc.assert(
      fc.property(stances, (stance) => {
        const found = estimate(readAt(stance, new Array<number>(16).fill(0)), LEVEL);
        const [a, b] = [scaledStance(found.stance), scaledStance(stance)];
        a.forEach((value, k) => expect(value).toBeCloseTo(b[k]!, 4));
        expect(found.doubtful).toEqual([]);
      }),
      { numRuns: 30 },
    );
  });

  it('lies within what is stated as often as is stated', () => {
    const inside = [0, 0, 0, 0, 0, 0];
    let runs = 0;
    let doubted = 0;
    fc.assert(
      fc.property(stances, noises, (stance, noise) => {
        const found = estimate(readAt(stance, noise), LEVEL);
        runs++;
        doubted += found.doubtful.length + found.atOdds.length > 0 ? 1 : 0;
        const [a, b] = [scaledStance(found.stance), scaledStance(stance)];
        found.covariance.forEach((row, k) => {
          if (Math.abs(a[k]! - b[k]!) <= COVERAGE * Math.sqrt(row[k]!)) inside[k]!++;
        });
      }),
      { numRuns: 150, seed: SEED },
    );
    // Two standard deviations of a sum of even errors hold about 95 in 100; of one alone, all: pitch and roll lean
    // on one angle finder. On the whole it is neither bold nor idle.
    for (const count of inside) expect(count / runs).toBeGreaterThan(0.93);
    const mean = inside.reduce((sum, count) => sum + count, 0) / (6 * runs);
    expect(mean).toBeGreaterThan(0.94);
    expect(mean).toBeLessThan(0.985);
    expect(doubted / runs).toBeLessThan(0.02);
  });

  it('names a reading that the others contradict, and is not moved by it', () => {
    let named = 0;
    let runs = 0;
    fc.assert(
      fc.property(stances, noises, fc.nat({ max: 11 }), fc.boolean(), (stance, noise, bad, up) => {
        const all = readAt(stance, noise);
        // A fraction misread by half an inch.
        all[bad] = { ...all[bad]!, value: all[bad]!.value + (up ? 12.7 : -12.7) };
        const found = estimate(all, LEVEL);
        runs++;
        if (found.doubtful.includes(bad) || found.atOdds.includes(bad)) named++;
        if (!found.doubtful.includes(bad)) return;
        const [a, b] = [scaledStance(found.stance), scaledStance(stance)];
        found.covariance.forEach((row, k) => {
          expect(Math.abs(a[k]! - b[k]!)).toBeLessThan(6 * Math.sqrt(row[k]!));
        });
      }),
      { numRuns: 50, seed: SEED },
    );
    expect(named / runs).toBeGreaterThan(0.95);
  });

  it('names two', () => {
    let named = 0;
    let runs = 0;
    fc.assert(
      fc.property(stances, noises, (stance, noise) => {
        const all = readAt(stance, noise);
        all[1] = { ...all[1]!, value: all[1]!.value + 25.4 };
        all[9] = { ...all[9]!, value: all[9]!.value - 12.7 };
        const { doubtful } = estimate(all, LEVEL);
        runs++;
        if (doubtful.includes(1) && doubtful.includes(9)) named++;
      }),
      { numRuns: 20, seed: SEED },
    );
    expect(named / runs).toBeGreaterThan(0.9);
  });

  it('names another place that fits as well', () => {
    // Five motions told outright, and yaw by an edge alone: as far off on either side.
    const told = (k: number): Observed => ({
      name: String(k),
      value: 0,
      deviation: 0.5,
      expected: (stance) => {
        const at = scaledStance(stance)[k]!;
        const isEdge = k === 5;
        const slope = isEdge ? Math.sign(at) || 1 : 1;
        return {
          value: isEdge ? Math.abs(at) : at,
          slopes: [0, 1, 2, 3, 4, 5].map((j) => (j === k ? slope : 0)),
        };
      },
    });
    const all = [0, 1, 2, 3, 4, 5].map(told);
    all[5] = { ...all[5]!, value: 4 };
    const found = estimate(all, LEVEL);
    expect(found.rivals).toHaveLength(1);
    const yaws = [found.stance, ...found.rivals].map((one) => scaledStance(one)[5]!);
    expect(yaws.map((yaw) => Math.round(yaw * 1e6) / 1e6).sort((a, b) => a - b)).toEqual([-4, 4]);
    // Nearer than the reading can tell, it is one place.
    all[5] = { ...all[5], value: 0.4 };
    expect(estimate(all, LEVEL).rivals).toEqual([]);
  });

  it('judges a reading that is left out by what the others do not know as well', () => {
    const straight = (k: number, value: number): Observed => ({
      name: String(k),
      value,
      deviation: 1,
      expected: (stance) => ({
        value: scaledStance(stance)[k]!,
        slopes: [0, 1, 2, 3, 4, 5].map((j) => (j === k ? 1 : 0)),
      }),
    });
    const all = [
      ...[1, 2, 3, 4, 5].map((k) => straight(k, 0)),
      ...[0, 0, 0, 12].map((v) => straight(0, v)),
    ];
    const found = estimate(all, LEVEL);
    expect(found.doubtful).toEqual([8]);
    // Three of deviation 1 know their mean to 1 / sqrt 3: 12 is off by 12 / sqrt(1 + 1/3).
    expect(found.residuals[8]!.disagrees).toBeCloseTo(12 / Math.sqrt(4 / 3), 6);
  });

  it('says that two of seven are at odds where neither can be told from the other', () => {
    const seven = [6, 7, 9, 10, 11, 15].map((k) => readings![k]!);
    const extra = { ...seven[0]!, name: 'pulley again' };
    const all = readAt(LEVEL, new Array<number>(7).fill(0), [...seven, extra]);
    all[6] = { ...all[6]!, value: all[6]!.value + 25 };
    const found = estimate(all, LEVEL);
    expect(found.doubtful).toEqual([]);
    expect(found.atOdds).toEqual([0, 6]);
  });

  it('says what is not determined', () => {
    const heights = readings!.filter((_, k) => k >= 9 && k <= 11);
    const found = estimate(readAt(LEVEL, [0, 0, 0], heights), LEVEL);
    expect(found.open.map(({ motion }) => motion).sort()).toEqual(['offset', 'setback', 'yaw']);
    // Nothing checks any of three that three are found from.
    for (const { disagrees, checked } of found.residuals) {
      expect(disagrees).toBe(0);
      expect(checked).toBeLessThan(1e-6);
    }
  });

  it('is the inverse of the mock-up: what was taped, turned, is where it was meant', () => {
    const worst = { way: 0 };
    fc.assert(
      fc.property(stances, stances, noises, (stance, meant, noise) => {
        const { stance: found, covariance } = estimate(readAt(stance, noise), LEVEL);
        const turns = adjusters.map((one) =>
          turnsOf(lengthOf(one, meant) - lengthOf(one, found), one.lead),
        );
        const after = adjusters.map((one, k) => lengthOf(one, stance) + turns[k]! * one.lead);
        const reached = stanceOfLengths(adjusters, after, stance, []).stance;
        const [a, b] = [scaledStance(reached), scaledStance(meant)];
        // What is not known of where it was, and an eighth of a turn, however the links stand.
        const known = 4 * Math.sqrt(Math.max(...covariance.map((row, k) => row[k]!)));
        const way = Math.hypot(...a.map((value, k) => value - b[k]!));
        worst.way = Math.max(worst.way, way);
        expect(way).toBeLessThan(2 * known + 3);
      }),
      { numRuns: 50, seed: SEED },
    );
    expect(worst.way).toBeGreaterThan(0);
  });
});
