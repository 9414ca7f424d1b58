import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lengthOf, scaledStance, stanceOfLengths } from '../../../src/geometry/adjusters/links.js';
import type { MeasuredReading } from '../../../src/model/measured.js';
import { readMeasured } from '../../../src/model/read-measured.js';
import { readScenario } from '../../../src/model/read.js';
import type { Scenario } from '../../../src/model/scenario.js';
import { stanceFrom } from '../../../src/model/stance.js';
import type { Stance } from '../../../src/model/stance.js';
import { COVERAGE, estimate } from '../../../src/solver/fitup/estimate.js';
import type { Observed } from '../../../src/solver/fitup/estimate.js';
import { observed, PairBook } from '../../../src/solver/fitup/observed.js';
import { turnsOf } from '../../../src/solver/fitup/set-up.js';

const { scenario: read } = readScenario(
  `
berth: 1
units: mm
driver: left
datums:
  chassis: { axle: { x: 0 }, centre: { y: 0 }, rail top: { z: 0 } }
  engine: { pulley: { x: -600, y: 0, z: 0 }, pad: { z: 400 } }
position: { setback: [-100, 100], offset: [-100, 100], height: [-100, 100], pitch: [-5, 5] }
engine:
  block: { kind: block, box: { x: [-600, 0], y: [-200, 200], z: [-100, 250] } }
  pump: { kind: water pump, cylinder: { axis: x, from: -700, to: -600, center: [0, 100], diameter: 150 } }
chassis:
  radiator: { kind: radiator, box: { x: [-900, -850], y: [-350, 350], z: [-150, 450] } }
  left rail: { kind: frame rail, mirror: right rail, box: { x: [-900, 900], y: [-450, -350], z: [-150, 0] } }
  firewall: { kind: firewall, panel: { corners: [[80, -500, -100], [80, 500, -100], [160, 500, 600], [160, -500, 600]], thick: 3 } }
  crossmember: { kind: crossmember, box: { x: [-450, -350], y: [-400, 400], z: [-320, -200] } }
rules:
  - { between: [engine, chassis], gap: 10 }
  - { between: [pump, radiator], gap: 20, measured: fore-aft, side: ahead }
mock-up:
  adjusters:
    left front: { frame: [-450, -400, -250], engine: [-450, -200, 0], thread: M16, hand: turnbuckle, range: [100, 600] }
    right front: { frame: [-450, 400, -250], engine: [-450, 200, 0], thread: M16, hand: turnbuckle, range: [100, 600] }
    left rear: { frame: [50, -250, -400], engine: [0, -200, 0], thread: M16, range: [100, 700] }
    right rear: { frame: [50, 250, -400], engine: [0, 200, 0], thread: M16, range: [100, 700] }
    tail bar: { frame: [500, -400, 0], engine: [500, 0, 0], thread: M12, hand: left, range: [100, 700] }
    drag link: { frame: [900, 0, 0], engine: [500, 0, 0], thread: M12, range: [100, 700] }
`,
  'yaml',
);
const scenario: Scenario = read!;

const SHEET = `
measured: 1
error: 1.5
gaps:
  - { between: [pump, radiator], measured: fore-aft, reads: 150 }
  - { between: [block, left rail], reads: 150 }
  - { between: [block, right rail], reads: 150 }
  - { between: [block, firewall], reads: 80 }
  - { between: [block, crossmember], reads: 100 }
  - { between: [pump, radiator], reads: 150 }
points:
  - { of: pulley, is: 600 ahead of axle }
  - { of: pulley, is: 0 right of centre }
  - { of: pulley, is: 0 above rail top }
  - { of: pad, at: [-100, 150, 400], is: 400 above rail top }
  - { of: pad, at: [-500, 150, 400], is: 400 above rail top }
  - { of: pad, at: [-500, -150, 400], is: 400 above rail top }
angles: { pitch: 0, roll: 0 }
adjusters: { left front: 400, tail bar: 400 }
`;
const { readings, problems } = readMeasured(SHEET, 'yaml', scenario);
const book = new PairBook(scenario, []);
const LEVEL = stanceFrom([0, 0, 0, 0, 0, 0]);

/** Even from -1 to 1: what is counted must not lean to edges and zeros. */
const unit = fc.noBias(fc.integer({ min: -1_000_000, max: 1_000_000 })).map((n) => n / 1_000_000);
const stances = fc
  .tuple(unit, unit, unit, unit, unit, unit)
  .map((u) => stanceFrom(u.map((value, k) => value * (k < 3 ? 25 : 0.03))));
const noises = fc.array(unit, { minLength: 16, maxLength: 16 });

/** What the sheet would read at a stance, each reading off by a share of its error. */
function readAt(stance: Stance, noise: readonly number[], which = readings!): Observed[] {
  return which.map((reading: MeasuredReading, k) => {
    const one = observed(reading, scenario, book)!;
    return { ...one, value: one.expected(stance).value + noise[k]! * reading.error };
  });
}

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
      { numRuns: 150 },
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
      { numRuns: 50 },
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
      { numRuns: 20 },
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
    const { adjusters } = scenario.mockup!;
    const worst = { way: 0 };
    fc.assert(
      fc.property(stances, stances, noises, (stance, meant, noise) => {
        const { stance: found, covariance } = estimate(readAt(stance, noise), LEVEL);
        const turns = adjusters.map((one) =>
          turnsOf(lengthOf(one, meant) - lengthOf(one, found), one),
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
      { numRuns: 50 },
    );
    expect(worst.way).toBeGreaterThan(0);
  });
});
