import { describe, expect, it } from 'vitest';
import { scaledStance, unscaledStance } from '../../../src/geometry/adjusters/links.js';
import { readMeasured } from '../../../src/model/fitup/read-measured.js';
import { readScenario } from '../../../src/model/read.js';
import type { Scenario } from '../../../src/model/scenario.js';
import { stanceFrom } from '../../../src/model/stance.js';
import { asBuilt } from '../../../src/solver/fitup/as-built.js';
import type { AsBuilt } from '../../../src/solver/fitup/as-built.js';
import { measureAt } from '../../../src/solver/measuring/measure.js';

/** A block whose flat back stands before a flat wall, and what else is asked of it. */
function bay(gap: number, limits = '[]'): Scenario {
  const { scenario, problems } = readScenario(
    `
berth: 1
units: mm
driver: left
datums: { chassis: { axle: { x: 0 }, centre: { y: 0 }, rail top: { z: 0 } }, engine: { nose: { x: -600, y: 0, z: 0 }, tail: { x: 0, y: 0, z: 0 } } }
position: { setback: [-100, 100], offset: [-100, 100], height: [-100, 100], pitch: [-5, 5] }
engine: { block: { kind: block, box: { x: [-600, 0], y: [-250, 250], z: [-200, 300] } } }
chassis: { wall: { kind: firewall, box: { x: [100, 110], y: [-600, 600], z: [-500, 700] } } }
rules: [{ between: [block, wall], gap: ${gap} }]
limits: ${limits}
`,
    'yaml',
  );
  if (!scenario) throw new Error(problems.map(({ message }) => message).join('; '));
  return scenario;
}

const LEVEL = stanceFrom([0, 0, 0, 0, 0, 0]);
const SHEET = `
measured: 1
error: 1.5
angle error: 0.2
points:
  - { of: nose, is: 600 ahead of axle }
  - { of: nose, is: 0 right of centre }
  - { of: nose, is: 0 above rail top }
  - { of: tail, is: 0 behind axle }
  - { of: tail, is: 0 right of centre }
  - { of: tail, is: 0 above rail top }
angles: { pitch: 0, roll: 0 }
`;

function built(scenario: Scenario, sheet = SHEET): AsBuilt {
  const { readings, problems } = readMeasured(sheet, 'yaml', scenario);
  if (!readings) throw new Error(problems.map(({ message }) => message).join('; '));
  return asBuilt(scenario, [], LEVEL, readings);
}

/** Normal deviates from a seed of its own: sums of twelve even ones. */
function deviates(): () => number {
  let state = 7;
  const even = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  return () => {
    let sum = -6;
    for (let k = 0; k < 12; k++) sum += even();
    return sum;
  };
}

describe('how sure a margin is', () => {
  it('holds for corners that are not the nearest: 95 places in 100 that it may be at leave as much', () => {
    const scenario = bay(50);
    const { estimate, built: at } = built(scenario);
    const [rule] = at!.rules;
    expect(rule!.reading.margin).toBeCloseTo(50, 3);
    // A factor of the covariance, row by row (Cholesky), to draw places from it.
    const c = estimate.covariance;
    const l = c.map(() => [0, 0, 0, 0, 0, 0]);
    for (let i = 0; i < 6; i++) {
      for (let j = 0; j <= i; j++) {
        let sum = c[i]![j]!;
        for (let k = 0; k < j; k++) sum -= l[i]![k]! * l[j]![k]!;
        l[i]![j] = i === j ? Math.sqrt(sum) : sum / l[j]![j]!;
      }
    }
    const next = deviates();
    const x = scaledStance(estimate.stance);
    const margins = Array.from({ length: 400 }, () => {
      const z = x.map(() => next());
      const there = x.map(
        (value, i) => value + l[i]!.reduce((sum, one, k) => sum + one * z[k]!, 0),
      );
      return measureAt(scenario, [], unscaledStance(there)).margin;
    }).sort((a, b) => a - b);
    const least = rule!.reading.margin - rule!.within;
    const below = margins.filter((margin) => margin < least).length / margins.length;
    expect(below).toBeLessThan(0.05);
    // And it is not idle: the half of it is not enough.
    const half = rule!.reading.margin - rule!.within / 2;
    expect(margins.filter((margin) => margin < half).length / margins.length).toBeGreaterThan(0.05);
  });
});

describe('go on or not', () => {
  const { built: at } = built(bay(50));
  const { within } = at!.rules[0]!;

  it('turns on what a margin may be off', () => {
    expect(built(bay(100 - within - 0.1)).verdict).toBe('go on');
    expect(built(bay(100 - within + 0.1)).verdict).toBe('in doubt');
    expect(built(bay(100 + within - 0.1)).verdict).toBe('in doubt');
    expect(built(bay(100 + within + 0.1)).verdict).toBe('set again');
  });

  it('lets a limit pass that is missed by less than an engine is set, and no more', () => {
    const limited = (max: number) => bay(50, `[{ quantity: pitch, max: ${max} }]`);
    const at = (max: number, more = '') => {
      const found = built(limited(max), SHEET.replace('pitch: 0,', `pitch: 0,${more}`));
      return [found.verdict, found.built!.limits[0]!.kept];
    };
    expect(at(0.1)).toEqual(['go on', 'yes']);
    expect(at(-0.1)).toEqual(['go on', 'near']);
    expect(at(-0.4)).toEqual(['set again', 'no']);
    // Known to more than a degree, a miss of a degree is a doubt.
    const rough = SHEET.replace('error: 1.5', 'error: 12').replace(
      'angle error: 0.2',
      'angle error: 1.5',
    );
    const found = built(limited(-1), rough);
    expect([found.verdict, found.built!.limits[0]!.kept]).toEqual(['in doubt', 'perhaps']);
  });

  it('names the rule that makes the doubt first', () => {
    const found = built(bay(100 - within + 0.1));
    expect(found.built!.rules[0]!.reading.between).toEqual(['block', 'wall']);
    expect(found.next.length).toBeGreaterThan(0);
    // What has been read is not asked for again.
    const names = new Set(found.readings.map(({ name }) => name));
    expect(found.next.filter(({ name }) => names.has(name))).toEqual([]);
  });
});
