/**
 * Guaranteed margins where the engine is placed, against bays as they might truly be, and against sizes
 * worked out by hand.
 */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import type { Position, Scenario } from '../../src/model/scenario.js';
import { worstCase } from '../../src/model/errors/worst.js';
import { measureAgain } from '../../src/solver/measuring/again.js';
import type { PlaceAnswer } from '../../src/solver/answer.js';
import { bothWays, guaranteedAt, heldTo } from '../../src/solver/measuring/guaranteed.js';
import { measureAt } from '../../src/solver/measuring/measure.js';
import { solve } from '../support/solve.js';

/** Writes a length that may be off. */
type Write = (value: number, error: number) => string;

const written: Write = (value, error) => `${value} +- ${error}`;

/** Every length off by the next share of its error. */
function truly(shares: readonly number[]): Write {
  let next = 0;
  return (value, error) => String(value + error * shares[next++ % shares.length]!);
}

/** A block between a core, a wall and a hood; the engine is set from the axle to the pulley face. */
function document(m: Write): object {
  return {
    berth: 1,
    units: 'mm',
    driver: 'left',
    datums: { chassis: { axle: { x: m(0, 2) } }, engine: { face: { x: m(-400, 3) } } },
    position: { setback: [400, 900], offset: [-20, 20], height: [0, 100], pitch: 0 },
    engine: { block: { box: { x: [m(-380, 1), m(0, 1)], y: [-100, 100], z: [-50, m(200, 4)] } } },
    chassis: {
      core: { box: { x: [-20, m(0, 2)], y: [-200, 200], z: [-100, 400] } },
      wall: { box: { x: [m(900, 20), 950], y: [-200, 200], z: [-100, 400] } },
      hood: { box: { x: [0, 900], y: [-200, 200], z: [m(700, 5), 720] } },
      tank: { box: { x: [1000, m(1100, 1)], y: [300, 400], z: [0, 10] } },
      pan: { box: { x: [m(1500, 3), 1600], y: [300, 400], z: [0, 10] } },
    },
    rules: [
      { between: ['engine', 'chassis'], gap: 0 },
      { between: ['tank', 'pan'], gap: 0 },
    ],
  };
}
const COUNT = 10;

function read(doc: object): Scenario {
  const { scenario, problems } = readScenario(JSON.stringify(doc), 'json');
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  return scenario!;
}

function placed(s: Scenario, what: 'drawn' | 'worst'): PlaceAnswer {
  const answer = solve(what === 'worst' ? worstCase(s) : s, { tolerance: 0.1 });
  return bothWays(answer, heldTo(s, {}), what);
}

const key = (one: { readonly between: readonly string[] }) => one.between.join();

/** Margins in a true bay, once the engine is set by the tape to what the position makes it read. */
function trueMargins(shares: readonly number[], p: Position): Map<string, number> {
  const truth = read(document(truly(shares)));
  const [axle, face] = [truth.datums.chassis[0]!.x!, truth.datums.engine[0]!.x!];
  const setback = p.setback + axle - (face + 400);
  return new Map(
    measureAt(truth, [], { ...p, setback }).readings.map((one) => [key(one), one.margin]),
  );
}

describe('guaranteed margins', () => {
  const drawn = read(document(written));
  const answers = { drawn: placed(drawn, 'drawn'), worst: placed(drawn, 'worst') };

  it.each(['drawn', 'worst'] as const)(
    'are never beaten where the engine is placed, and reached at a corner: %s',
    (what) => {
      expect(drawn.measurements).toHaveLength(COUNT);
      const { setting } = answers[what].main;
      const least = new Map<string, number>();
      const check = (shares: readonly number[]) => {
        const margins = trueMargins(shares, setting.position);
        for (const reading of setting.readings) {
          const margin = margins.get(key(reading))!;
          expect(margin, key(reading)).toBeGreaterThan(reading.guaranteed! - 1e-6);
          least.set(key(reading), Math.min(margin, least.get(key(reading)) ?? Infinity));
        }
      };
      for (let corner = 0; corner < 2 ** COUNT; corner++) {
        check(Array.from({ length: COUNT }, (_, i) => ((corner >> i) & 1 ? 1 : -1)));
      }
      const share = fc.integer({ min: -100, max: 100 }).map((n) => n / 100);
      fc.assert(fc.property(fc.array(share, { minLength: COUNT, maxLength: COUNT }), check), {
        numRuns: 200,
        seed: 91,
        endOnFailure: true,
      });
      for (const pair of ['block,core', 'block,wall', 'block,hood', 'tank,pan']) {
        const reading = setting.readings.find((one) => key(one) === pair)!;
        expect(least.get(pair), pair).toBeCloseTo(reading.guaranteed!, 4);
      }
      expect(Math.min(...least.values())).toBeCloseTo(setting.guaranteed!, 4);
    },
    120_000,
  );

  it('are as large as can be where they are what was asked for, and as drawn told beside', () => {
    const [plain, sure] = [answers.drawn.main.optimum, answers.worst.main.optimum];
    // 900 - 380 leaves 260 at either end, less 1 + 2 ahead, 1 + 20 behind, and 2 + 3 at both.
    expect(plain.margin).toBeCloseTo(260, 0);
    expect(plain.guaranteed).toBeCloseTo(234, 0);
    expect(sure.margin).toBeCloseTo(243, 0);
    expect(sure.guaranteed!).toBeGreaterThan(plain.guaranteed! + 8);
    expect(answers.worst.main.bound).toBeLessThan(243.2);
    const gaps = new Map(sure.readings.map((one) => [key(one), one]));
    expect(sure.guaranteed).toBe(sure.margin);
    for (const one of sure.readings) {
      expect(one.drawn!.margin).toBeCloseTo(one.drawn!.gap, 9);
      expect(one.margin).toBe(one.guaranteed);
    }
    const again = measureAt(drawn, [], sure.position);
    expect(sure.drawn!.margin).toBeCloseTo(again.margin, 9);
    for (const one of again.readings) {
      expect(gaps.get(key(one))!.drawn!.margin).toBeCloseTo(one.margin, 9);
    }
  });

  it('leave parts of one side to their own errors: no tape sets them', () => {
    const fixed = answers.drawn.main.optimum.readings.find(({ fixed }) => fixed)!;
    // 1500 - 1100, less 1 + 3; the axle's error moves both.
    expect(fixed.guaranteed).toBeCloseTo(396, 9);
  });

  it('hold at one pitch, in or out of the ranges, and are not there without errors', () => {
    const at = { setback: 640, offset: 0, height: 0, pitch: 0.3 };
    const standing = guaranteedAt(drawn, [], measureAt(drawn, [], at));
    expect(standing.guaranteed!).toBeLessThan(standing.margin);
    const exact = read(document((value) => String(value)));
    const plain = measureAt(exact, [], at);
    expect(guaranteedAt(exact, [], plain)).toBe(plain);
    expect(plain.readings[0]).not.toHaveProperty('guaranteed');
  });
});

describe('what to measure again first', () => {
  const drawn = read(document(written));
  const named = drawn.measurements.map(({ path }) => path.join(' '));

  it('is what the tightest guaranteed margin would gain by, other rules heeded', () => {
    const at = { setback: 640, offset: 0, height: 0, pitch: 0 };
    const again = measureAgain(drawn, [], at);
    expect(again).toHaveLength(COUNT);
    // Guaranteed are 260 - 26 behind and 260 - 8 ahead: of the wall's 20, 18 count.
    const told = again.slice(0, 5).map(({ measurement, gain, ofTightest }) => {
      return [named[measurement], Math.round(gain * 1e4) / 1e4, Math.round(ofTightest * 1e4) / 1e4];
    });
    expect(told).toEqual([
      ['chassis wall box x 0', 18, 20],
      ['datums engine face x', 3, 3],
      ['datums chassis axle x', 2, 2],
      ['engine block box x 1', 1, 1],
      [named[again[4]!.measurement], 0, 0],
    ]);
    expect(again.slice(4).every(({ gain, ofTightest }) => gain === 0 && ofTightest === 0)).toBe(
      true,
    );
  });

  it('is what the tightest rule would gain by where others are as tight', () => {
    const at = { setback: 631, offset: 0, height: 0, pitch: 0 };
    const again = measureAgain(drawn, [], at);
    const gaining = again
      .filter(({ gain }) => gain > 0)
      .map(({ measurement }) => named[measurement]);
    expect(gaining).toEqual(['datums engine face x', 'datums chassis axle x']);
    expect(again[2]!.gain).toBe(0);
    expect(again[2]!.ofTightest).toBeGreaterThan(0.9);
  });
});
