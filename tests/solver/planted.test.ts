/** Bays whose best margin is known by construction, and changes whose effect on it is known. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PlaceAnswer, Placement } from '../../src/solver/answer.js';
import { seeded } from '../geometry/random.js';
import { eachRule, mirrored, renamed, scaled, scenarioOf, unitOf } from '../support/doc.js';
import type { BayDoc } from '../support/doc.js';
import { plant } from '../support/planted.js';
import type { Plant, PlantRequest } from '../support/planted.js';
import { isDoubtful, wantedOf } from '../support/planted-answers.js';
import type { Wanted } from '../support/planted-answers.js';
import { solve, TOLERANCE } from '../support/solve.js';

/** Millimetres: rounding of sums of a dozen lengths, and of the printed position. */
const ROUNDING = 1e-6;
/** Millimetres: how well the polish finds the middle of a side-to-side play. */
const POLISHED = 2e-3;

const seeds = fc.integer({ min: 1, max: 1e9 });
const pitches = fc.constantFrom<PlantRequest['pitch'][]>('pinned', 'free', 'tilted');

function check(runs: number, property: (seed: number, pitch: PlantRequest['pitch']) => void): void {
  fc.assert(fc.property(seeds, pitches, property), { numRuns: runs, seed: 20240607 });
}

/** One placement against the margin planted, in mm: neither side of the truth by more than allowed. */
function expectPlanted(found: Placement, planted: number): void {
  expect(found.best).toBe('proved');
  expect(found.optimum.margin).toBeLessThanOrEqual(planted + ROUNDING);
  expect(found.bound).toBeGreaterThanOrEqual(planted - ROUNDING);
  expect(found.optimum.margin).toBeGreaterThanOrEqual(planted - TOLERANCE);
  expect(found.fits).toBe(planted > 0 ? 'yes' : 'no');
}

function mainOf(doc: BayDoc): Placement {
  return solve(scenarioOf(doc), { only: 'main' }).main;
}

describe('the margin planted is the margin found', () => {
  test('without choices, fitting or not, at every sort of pitch', () => {
    const count = { fits: 0, short: 0, tilted: 0 };
    check(60, (seed, pitch) => {
      const { doc, marginOf } = plant({ random: seeded(seed), pitch, decoys: 3 });
      const margin = marginOf([]) * unitOf(doc);
      if (isDoubtful(margin)) return;
      expectPlanted(mainOf(doc), margin);
      count[margin > 0 ? 'fits' : 'short']++;
      if (pitch === 'tilted') count.tilted++;
    });
    expect(Math.min(count.fits, count.short, count.tilted)).toBeGreaterThan(8);
  });

  test('blocks and walls in many pieces', () => {
    check(6, (seed, pitch) => {
      const request: PlantRequest = {
        random: seeded(seed),
        pitch,
        pieces: { engine: 8, chassis: 2 },
        play: [0.5, 4],
        decoys: 2,
      };
      const { doc, marginOf } = plant(request);
      expectPlanted(mainOf(doc), marginOf([]) * unitOf(doc));
    });
  });
});

function expectThree(answer: PlaceAnswer, wanted: Wanted): void {
  expect(answer.bestBound).toBeGreaterThanOrEqual(wanted.best - ROUNDING);
  expect(answer.bestBound).toBeLessThanOrEqual(wanted.best + TOLERANCE);
  if (!isDoubtful(wanted.asItStands.margin)) {
    expectPlanted(answer.asItStands!, wanted.asItStands.margin);
  }
  if (wanted.mainIsClear && !isDoubtful(wanted.main.margin)) {
    expectPlanted(answer.main, wanted.main.margin);
    expect({ hours: answer.main.hours, cost: answer.main.cost }).toEqual({
      hours: wanted.main.hours,
      cost: wanted.main.cost,
    });
    expect(answer.cheaperUndecided).toEqual([]);
  }
  if (!wanted.leastIsClear) return;
  expect(answer.leastWork === undefined).toBe(wanted.least === undefined);
  expect(answer.anyFits).toBe(wanted.least ? 'yes' : 'no');
  if (wanted.least && !isDoubtful(wanted.least.margin)) {
    expectPlanted(answer.leastWork!, wanted.least.margin);
    expect(answer.leastWork!.hours).toBe(wanted.least.hours);
    expect(answer.leastWork!.cost).toBe(wanted.least.cost);
  }
}

describe('the options planted are the options chosen', () => {
  test('three answers: as it stands, least work, and the worth of a change', () => {
    const count = { main: 0, least: 0, none: 0, cheaper: 0 };
    check(40, (seed, pitch) => {
      const random = seeded(seed);
      const choices = 1 + (seed % 4);
      const planted = plant({ random, pitch, choices, play: [-0.5, 3.5], worth: 0.3 });
      const wanted = wantedOf(planted);
      expectThree(solve(scenarioOf(planted.doc)), wanted);
      if (wanted.mainIsClear && !isDoubtful(wanted.main.margin)) count.main++;
      if (wanted.main.margin < wanted.best - 0.01) count.cheaper++;
      if (wanted.leastIsClear) count[wanted.least ? 'least' : 'none']++;
    });
    expect(count.main).toBeGreaterThan(20);
    expect(count.least).toBeGreaterThan(15);
    expect(count.none).toBeGreaterThan(1);
    expect(count.cheaper).toBeGreaterThan(3);
  });
});

describe('changes whose effect is known', () => {
  /** Runs a change over planted bays with two choices and hands over both answers. */
  function compare(
    runs: number,
    change: (doc: BayDoc, seed: number) => BayDoc | undefined,
    judge: (before: Placement, after: Placement, doc: BayDoc, planted: Plant) => void,
  ): void {
    let applied = 0;
    check(runs, (seed, pitch) => {
      const planted = plant({ random: seeded(seed), pitch, choices: 2, decoys: 2 });
      const changed = change(planted.doc, seed);
      if (!changed) return;
      const [before, after] = [mainOf(planted.doc), mainOf(changed)];
      expect([before.best, after.best]).toEqual(['proved', 'proved']);
      judge(before, after, planted.doc, planted);
      applied++;
    });
    expect(applied).toBeGreaterThan(runs / 3);
  }

  function expectSame(a: number, b: number): void {
    expect(Math.abs(a - b)).toBeLessThanOrEqual(TOLERANCE);
  }

  test('mirrored: the same margin, the offset negated', () => {
    let sideways = 0;
    compare(24, mirrored, (before, after, doc, { offsetOf }) => {
      expectSame(after.optimum.margin, before.optimum.margin);
      expect(after.options).toEqual(before.options);
      const offset = offsetOf(before.options);
      if (offset === undefined) return;
      sideways++;
      const unit = unitOf(doc);
      expect(Math.abs(before.optimum.position.offset - offset * unit)).toBeLessThan(POLISHED);
      expect(Math.abs(after.optimum.position.offset + offset * unit)).toBeLessThan(POLISHED);
    });
    expect(sideways).toBeGreaterThan(4);
  });

  test('renamed and in another order: the same', () => {
    compare(
      12,
      (doc, seed) => renamed(doc, seeded(seed)),
      (before, after) => {
        expectSame(after.optimum.margin, before.optimum.margin);
        expect([after.hours, after.cost]).toEqual([before.hours, before.cost]);
      },
    );
  });

  test('the same bay in millimetres: the same', () => {
    compare(
      12,
      (doc) => ({ ...scaled(doc, 25.4), units: 'mm' }),
      (before, after) => {
        expectSame(after.optimum.margin, before.optimum.margin);
        expect(after.options).toEqual(before.options);
      },
    );
  });

  test('scaled: the margin scales', () => {
    compare(
      12,
      (doc) => scaled(doc, 1.7),
      (before, after) => {
        expect(Math.abs(after.optimum.margin - 1.7 * before.optimum.margin)).toBeLessThanOrEqual(
          1.7 * TOLERANCE,
        );
        expect(after.options).toEqual(before.options);
      },
    );
  });

  test('a part drawn twice: the same', () => {
    compare(
      12,
      (doc, seed) => {
        const twice = (names: readonly string[]) =>
          names.flatMap((name) => (name === 'block 1' ? [name, 'block again'] : [name]));
        return {
          ...doc,
          engine: { ...doc.engine, 'block again': doc.engine['block 1']! },
          chassis: { ...doc.chassis, 'behind again': doc.chassis[`behind ${1 + (seed % 2)}`]! },
          groups: { ...doc.groups, 'hard parts': twice(doc.groups!['hard parts']!) },
        };
      },
      (before, after) => {
        expectSame(after.optimum.margin, before.optimum.margin);
        expect(after.options).toEqual(before.options);
      },
    );
  });

  test('every gap needed raised by 0.2 in: the margin is 0.2 in less', () => {
    const RAISE = 0.2;
    compare(
      12,
      (doc) => eachRule(doc, (rule) => ({ ...rule, gap: (rule.gap as number) + RAISE })),
      (before, after, doc) => {
        expectSame(after.optimum.margin, before.optimum.margin - RAISE * unitOf(doc));
        expect(after.options).toEqual(before.options);
      },
    );
  });

  test('a part that nothing comes near: the same', () => {
    compare(
      12,
      (doc) => ({
        ...doc,
        chassis: {
          ...doc.chassis,
          'far away': { box: { x: [200, 210], y: [-5, 5], z: [100, 110] } },
        },
      }),
      (before, after) => {
        expectSame(after.optimum.margin, before.optimum.margin);
        expect(after.options).toEqual(before.options);
      },
    );
  });

  test('an obstacle less: never worse', () => {
    let better = 0;
    check(16, (seed, pitch) => {
      const { doc } = plant({ random: seeded(seed), pitch, choices: 2 });
      const wall = ['front', 'rear', 'left', 'right', 'top', 'bottom'][seed % 6]!;
      const { [`${wall} wall 1`]: _, ...chassis } = doc.chassis;
      const { [`${wall} walls`]: __, ...groups } = doc.groups!;
      const rules = doc.rules.filter(({ between }) => between[1] !== `${wall} walls`);
      const [before, after] = [doc, { ...doc, chassis, groups, rules }].map((d) =>
        solve(scenarioOf(d), { only: 'main' }),
      );
      // Any set's best, for the worth rule may take a cheaper set once there is more room.
      expect(after!.bestBound).toBeGreaterThanOrEqual(before!.bestBound - TOLERANCE);
      if (after!.bestBound > before!.bestBound + TOLERANCE) better++;
    });
    expect(better).toBeGreaterThan(2);
  });
});
