/** What mounts carry: equilibrium to rounding, and cases that can be worked out by hand. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loadsAt } from '../../../src/geometry/mounts/load-cases.js';
import type { LoadCase, LoadStanding } from '../../../src/geometry/mounts/load-cases.js';
import { shareLoad } from '../../../src/geometry/mounts/loads.js';
import { parseTorque } from '../../../src/model/text/force.js';
import { parseMass } from '../../../src/model/text/mass.js';
import type { Mounts } from '../../../src/model/fitup/mounts.js';
import type { Vec3 } from '../../../src/model/scenario.js';
import { cross, plus } from '../../../src/model/vector.js';
import { AT_HOME, mounts, positions, UPRIGHT } from './random-mounts.js';

const LBF = 4.4482216152605;
const LB = 0.45359237;
const G = 9.80665;

/** A mount whose boss lies about a point. */
function at(name: string, [x, y, z]: Vec3) {
  const holes: Vec3[] = [
    [x - 50, y, z],
    [x + 50, y, z],
  ];
  return { ...UPRIGHT, name, boss: { ...UPRIGHT.boss, holes } };
}

function job(change: Partial<Mounts>): Mounts {
  const loads = { braking: 1, bump: 3, side: 1.33, given: new Set<never>() };
  return { make: [], supports: [], gap: 0, loads, ...change };
}

const caseOf = ({ cases }: LoadStanding, of: LoadCase['of']): LoadCase =>
  cases.find((one) => one.of === of)!;

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const point = fc.tuple(number(-900, 900), number(-400, 400), number(-200, 200));

/** What is wrong with a balance, as a share of the largest force or moment in it. */
function imbalance(points: readonly Vec3[], one: LoadCase): number {
  const { applied, forces, left } = one;
  const onEngine = forces.map(([x, y, z]): Vec3 => [-x, -y, -z]);
  const force = onEngine.reduce<Vec3>((sum, own) => plus(sum, own), applied.force);
  const moments = [
    applied.moment,
    cross(applied.at, applied.force),
    left,
    ...points.map((at, i) => cross(at, onEngine[i]!)),
  ];
  const moment = moments.reduce<Vec3>((sum, own) => plus(sum, own), [0, 0, 0]);
  const most = Math.max(...onEngine.flat().map(Math.abs), ...applied.force.map(Math.abs));
  // Against the largest moment, or the largest force a hand's width off: one of them is never next to nothing.
  const turning = Math.max(...moments.flat().map(Math.abs), 100 * most);
  return Math.max(Math.hypot(...force) / (most || 1), Math.hypot(...moment) / (turning || 1));
}

describe('equilibrium', () => {
  it('holds in every case, for any mounts, mass and place', () => {
    let tipped = 0;
    fc.assert(
      fc.property(
        fc.array(mounts, { minLength: 1, maxLength: 4 }),
        fc.array(point, { maxLength: 2 }),
        positions,
        fc.record({ mass: number(50, 900), at: point }),
        fc.record({ engine: number(50, 900), gear: number(1, 5), factor: number(1, 3) }),
        (make, other, position, mass, torque) => {
          const supports = other.map((own, i) => ({ name: `support ${i}`, at: own }));
          const loads = { ...job({}).loads, torque: { ...torque, factorBy: 'file' as const } };
          const standing = loadsAt(job({ make, supports, loads }), position, mass);
          expect(standing.cases.map(({ of }) => of)).toEqual([
            'weight',
            'bump',
            'torque',
            'braking',
            'side',
          ]);
          const points = standing.supports.map((support) => support.at);
          for (const one of standing.cases) {
            expect(imbalance(points, one)).toBeLessThan(1e-9);
            if (one.left.some((moment) => moment !== 0)) tipped++;
          }
        },
      ),
      { numRuns: 100, seed: 4417 },
    );
    expect(tipped).toBeGreaterThan(20);
  });

  it('leaves nothing over where three supports stand well apart', () => {
    const spread = (near: Vec3) =>
      fc.tuple(number(-80, 80), number(-80, 80), number(-200, 200)).map((off) => plus(near, off));
    const points = fc.tuple(spread([0, -300, 0]), spread([0, 300, 0]), spread([800, 0, 0]));
    fc.assert(
      fc.property(points, point, point, point, (supports, where, force, moment) => {
        const { left } = shareLoad(supports, { force, at: where, moment });
        expect(left).toEqual([0, 0, 0]);
      }),
      { numRuns: 200, seed: 99 },
    );
  });
});

describe('by hand', () => {
  it('torque through the lowest gear: T r / s a side', () => {
    // 400 lbf ft x 2.48 over 20 in is 595.2 lbf: derived.
    const torque = parseTorque('400 lbf ft', 'in');
    if (!('newtonMetres' in torque)) throw new Error(torque.problem);
    const make = [at('left', [0, -254, 0]), at('right', [0, 254, 0])];
    const loads = {
      ...job({}).loads,
      torque: { engine: torque.newtonMetres, gear: 2.48, factor: 1, factorBy: 'file' as const },
    };
    const weightless = loadsAt(job({ make, loads }), AT_HOME, undefined);
    expect(weightless).not.toHaveProperty('mass');
    const { forces, left } = caseOf(weightless, 'torque');
    // The crankshaft turns clockwise as seen from the front: the left side lifts.
    expect(forces[0]![2] / LBF).toBeCloseTo(595.2, 9);
    expect(forces[1]![2] / LBF).toBeCloseTo(-595.2, 9);
    expect([...forces.flatMap(([x, y]) => [x, y]), ...left].every((one) => one === 0)).toBe(true);
    const factored = { ...loads, torque: { ...loads.torque, factor: 1.33 } };
    const more = caseOf(loadsAt(job({ make, loads: factored }), AT_HOME, undefined), 'torque');
    expect(more.forces[0]![2] / LBF).toBeCloseTo(595.2 * 1.33, 9);
  });

  it('weight by the lever: 600 lb, a third of the way back from the side mounts', () => {
    const mass = parseMass('600 lb', 'lb');
    if (!('kg' in mass)) throw new Error(mass.problem);
    expect(mass.kg).toBeCloseTo(600 * LB, 9);
    const make = [at('left', [0, -250, 60]), at('right', [0, 250, 60])];
    const supports = [{ name: 'rear', at: [900, 0, -60] as Vec3 }];
    const standing = loadsAt(job({ make, supports }), AT_HOME, {
      mass: mass.kg,
      at: [300, 0, 200],
    });
    const down = (of: LoadCase['of']) =>
      caseOf(standing, of).forces.map(([, , z]) => Number((-z / LBF).toFixed(9)));
    expect(down('weight')).toEqual([200, 200, 200]);
    expect(down('bump')).toEqual([600, 600, 600]);
    // 1 g forward at 200 mm: the level forces are shared evenly, 200 lbf each, and act at 60, 60 and -60 mm, so
    // that 600 x 200 - 200 x (60 + 60 - 60) lbf mm tips the engine forward over 900 mm.
    const braking = caseOf(standing, 'braking').forces;
    expect(braking.map(([x]) => Number((-x / LBF).toFixed(9)))).toEqual([200, 200, 200]);
    const tip = (600 * 200 - 200 * 60) / 900;
    expect(down('braking')[2]).toBeCloseTo(-tip, 8);
    expect(down('braking')[0]).toBeCloseTo(tip / 2, 8);
    // To the right with 1.33 g: the right one is pressed down.
    const [left, right] = caseOf(standing, 'side').forces;
    expect(right![2]).toBeLessThan(left![2]);
  });

  it('four supports share as equal springs do', () => {
    const make = [
      at('a', [0, -200, 0]),
      at('b', [0, 200, 0]),
      at('c', [600, -200, 0]),
      at('d', [600, 200, 0]),
    ];
    const standing = loadsAt(job({ make }), AT_HOME, { mass: 100, at: [300, 0, 0] });
    for (const [, , z] of caseOf(standing, 'weight').forces) {
      expect(-z).toBeCloseTo((100 * G) / 4, 9);
    }
    // Off the middle: planes of force, a + b x + c y, and nothing twisted.
    const off = loadsAt(job({ make }), AT_HOME, { mass: 100, at: [200, 50, 0] });
    const [a, b, c, d] = caseOf(off, 'weight').forces.map(([, , z]) => z);
    expect(a! + d!).toBeCloseTo(b! + c!, 9);
  });

  it('two side mounts alone leave the moment of what hangs behind them', () => {
    const make = [at('left', [0, -250, 0]), at('right', [0, 250, 0])];
    const standing = loadsAt(job({ make }), AT_HOME, { mass: 100, at: [400, 0, 0] });
    const { forces, left } = caseOf(standing, 'weight');
    expect(forces.map(([, , z]) => -z)).toEqual([expect.closeTo(50 * G), expect.closeTo(50 * G)]);
    // The weight behind lifts the nose: what else holds the engine must push it nose-down (about -Y).
    expect(left[1]).toBeCloseTo(-100 * G * 400, 6);
    expect([left[0], left[2]]).toEqual([0, 0]);
  });

  it('no mass, no torque: no loads', () => {
    expect(loadsAt(job({ make: [at('left', [0, 0, 0])] }), AT_HOME, undefined).cases).toEqual([]);
  });
});

describe('a torque', () => {
  it('is read with or without a unit', () => {
    // NIST SP 811: 1 lbf ft = 1.3558179483314004 N m.
    const lbfFt = { newtonMetres: 400 * 1.3558179483314004 };
    expect(parseTorque('540 N m', 'in')).toEqual({ newtonMetres: 540 });
    expect(parseTorque('540 Nm', 'in')).toEqual({ newtonMetres: 540 });
    expect(parseTorque(400, 'mm')).toEqual({ newtonMetres: 400 });
    expect(parseTorque(400, 'in')).toEqual(lbfFt);
    expect(parseTorque('400 lb-ft', 'mm')).toEqual(lbfFt);
  });

  it.each(['', 'much', '780 stone', '0 N m', '-5', '1e9', '1e999', 'NaN', '7 lb 3 ft'])(
    'refuses %j',
    (text) => {
      expect(parseTorque(text, 'in')).toHaveProperty('problem');
    },
  );
});
