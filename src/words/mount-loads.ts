/** What each mount carries: forces only. */

import type { LoadCase, LoadName, LoadStanding } from '../geometry/mounts/load-cases.js';
import { inForceUnits, inTorqueUnits } from '../model/text/force.js';
import { inMassUnit, massUnit } from '../model/text/mass.js';
import type { Mounts } from '../model/fitup/mounts.js';
import type { Vec3 } from '../model/scenario.js';
import type { Units } from '../model/text/tape.js';
import { name } from './text.js';
import { number, sides } from './words.js';
import type { Telling } from './words.js';

/** Newtons: less than half of what is printed is none. */
const NONE = { in: 2.2, mm: 0.5 } as const;

/** The loads of a file's mounts where the engine sits. */
export interface Carried {
  readonly loads: LoadStanding;
  readonly mounts: Mounts;
}

/** What is missing where nothing can be said of loads. */
export const NO_LOADS = 'not in the file: weight or supported, and loads (torque, cylinders)';

/** Heads, the ways of the forces under them, then a row a support; undefined where the file does not say enough. */
export function loadCells({ loads }: Carried, telling: Telling): string[][] | undefined {
  const { units, look } = telling;
  const { cases, supports } = loads;
  if (cases.length === 0) return undefined;
  const rows = supports.map(({ name: called }, i) => [
    name(called, look, 14),
    ...cases.map((one) => cellOf(one, one.forces[i]!, telling)),
  ]);
  return [
    ['Loads', ...cases.map((one) => headOf(one))],
    [forceUnit(units), ...cases.map(({ of }) => WAYS[of])],
    ...rows,
  ];
}

/** What the loads are of, who says so, and what the supports cannot take. */
export function loadNotes(carried: Carried, telling: Telling): string[] {
  if (carried.loads.cases.length === 0) return [];
  return [...sourceWords(carried, telling), ...leftWords(carried.loads.cases, telling)];
}

function headOf({ of, times }: LoadCase): string {
  return of === 'torque' ? 'torque' : `${of} ${number(times)} g`;
}

const WAYS: Readonly<Record<LoadName, string>> = {
  weight: 'down',
  bump: 'down',
  torque: 'up or down',
  braking: 'forward, down',
  side: 'across, up or down',
};

function forceUnit(units: Units): string {
  return units === 'in' ? 'lbf' : 'N';
}

/** A force in the directions of its column; the other ones are in the answer for programs. */
function cellOf({ of }: LoadCase, [x, y, z]: Vec3, telling: Telling): string {
  const { units } = telling;
  const force = (newtons: number): string => {
    return Math.abs(newtons) < NONE[units] ? '0' : String(Math.round(inForceUnits(newtons, units)));
  };
  const upright = (newtons: number): string => {
    const words = force(Math.abs(newtons));
    return words === '0' ? '0' : `${words} ${newtons > 0 ? 'up' : 'down'}`;
  };
  const either = (newtons: number): string => {
    const words = force(Math.abs(newtons));
    return words === '0' ? words : `+-${words}`;
  };
  switch (of) {
    case 'weight':
    case 'bump':
      return z > 0 ? upright(z) : force(-z);
    case 'torque':
      return either(z);
    case 'braking':
      return `${force(-x)}, ${z > 0 ? upright(z) : force(-z)}`;
    case 'side':
      return `${either(y)}, ${either(z)}`;
  }
}

/** What the loads are of, and who says so. */
function sourceWords(
  { loads: standing, mounts: { loads } }: Carried,
  { units }: Telling,
): string[] {
  const { mass } = standing;
  const { torque, given } = loads;
  const said: string[] = [];
  if (mass) {
    const size = Math.round(inMassUnit(mass.kilograms, massUnit(units)));
    said.push(`${size} ${massUnit(units)}`);
  }
  if (standing.supports.length > 3) said.push('shared as by equal springs');
  if (torque) {
    const size = number(inTorqueUnits(torque.engine, units));
    const by = torque.factorBy === 'file' ? 'the file' : '14 CFR 27.361, aircraft';
    said.push(
      `torque ${size} ${units === 'in' ? 'lbf ft' : 'N m'} x ${number(torque.gear)} x ${number(torque.factor)} (${by})`,
    );
  }
  if (mass) {
    said.push(`side ${given.has('side') ? "the file's" : '14 CFR 25.363, aircraft'}`);
    const own = (['bump', 'braking'] as const).filter((one) => !given.has(one));
    if (own.length > 0) said.push(`${own.join(' and ')} ours, no source`);
  }
  return said;
}

/** Newton millimetres: a moment this small is none. */
const NO_MOMENT = 1000;

/** What the supports cannot take, by the vehicle axis that it turns about. */
function leftWords(cases: readonly LoadCase[], telling: Telling): string[] {
  const { units, scenario } = telling;
  const [right, left] = sides(scenario);
  // The moment that is not taken is that on the engine, the other way from what it would need.
  const turns = [
    [`${left} side up`, `${right} side up`],
    ['nose-down', 'tail-down'],
    [`tail to ${left}`, `tail to ${right}`],
  ] as const;
  return cases.flatMap(({ of, left: needs }) =>
    needs.flatMap((moment, k) => {
      if (Math.abs(moment) < NO_MOMENT) return [];
      const size = Math.round(inTorqueUnits(Math.abs(moment) / 1000, units));
      const way = turns[k]![moment > 0 ? 0 : 1];
      const what = units === 'in' ? 'lbf ft' : 'N m';
      return [`${of} leaves ${size} ${what}, ${way}, to what else holds the engine`];
    }),
  );
}
