/** What the engine does to its mounts: mass, torque, and the accelerations that count. */

import type { Driveline } from '../fitup/driveline.js';
import { parseTorque, TORQUE_EXPECTED } from '../text/force.js';
import type { MountLoads } from '../fitup/mounts.js';
import type { Path } from '../scenario.js';
import type { RawMounts } from '../schema.js';
import { Frame } from './frame.js';
import type { Reading } from './reading.js';
import { readMass } from './weight.js';

/** In g. Side: 14 CFR 25.363 (aircraft). The other two are ours: no source was found for either. */
const UNLESS_GIVEN = { braking: 1, bump: 3, side: 1.33 } as const;

/**
 * The load factor on the mean torque by the number of cylinders: 14 CFR 27.361 (aircraft). Five or more
 * have the last.
 */
const FACTORS: Readonly<Record<number, number>> = { 3: 3, 4: 2, 5: 1.33 };

export function readMountLoads(
  c: Reading,
  raw: RawMounts,
  path: Path,
  driveline: Driveline | undefined,
): MountLoads {
  const { loads } = raw;
  const at = (...keys: string[]): Path => [...path, 'loads', ...keys];
  const supported = readSupported(c, raw.supported, [...path, 'supported']);
  const torque = readTorque(c, loads, at, driveline);
  const given = new Set<keyof typeof UNLESS_GIVEN>();
  const inG = (key: keyof typeof UNLESS_GIVEN): number => {
    const own = loads?.[key];
    if (own === undefined) return UNLESS_GIVEN[key];
    sayPositive(c, own, at(key));
    given.add(key);
    return own;
  };
  const [braking, bump, side] = [inG('braking'), inG('bump'), inG('side')];
  return { ...(supported && { supported }), ...(torque && { torque }), braking, bump, side, given };
}

function readSupported(
  c: Reading,
  raw: RawMounts['supported'],
  path: Path,
): MountLoads['supported'] {
  if (raw === undefined) return undefined;
  const mass = readMass(c, raw.weight, [...path, 'weight']);
  const at = new Frame(c, 'engine', 'chosen').point(raw.at, [...path, 'at']);
  return mass !== undefined && at ? { mass, at } : undefined;
}

function readTorque(
  c: Reading,
  loads: RawMounts['loads'],
  at: (...keys: string[]) => Path,
  driveline: Driveline | undefined,
): MountLoads['torque'] {
  if (loads?.torque === undefined) return undefined;
  const torque = parseTorque(loads.torque, c.units);
  if ('problem' in torque) {
    c.say('bad number', at('torque'), torque.problem, { expected: TORQUE_EXPECTED });
  }
  const gear = loads.gear ?? driveline?.gears.transmission[0];
  if (gear === undefined) {
    c.say('missing', at('torque'), 'the torque at the mounts is that of the lowest gear', {
      expected: 'gear: ..., or the gears of the driveline',
    });
  } else sayPositive(c, gear, at('gear'));
  const factor = readFactor(c, loads, at);
  if (!('newtonMetres' in torque) || gear === undefined || factor === undefined) return undefined;
  const factorBy = loads['load factor'] === undefined ? 'cylinders' : 'file';
  return { engine: torque.newtonMetres, gear, factor, factorBy };
}

function readFactor(
  c: Reading,
  loads: NonNullable<RawMounts['loads']>,
  at: (...keys: string[]) => Path,
): number | undefined {
  const { cylinders, 'load factor': own } = loads;
  if (cylinders !== undefined && !(Number.isInteger(cylinders) && cylinders > 0)) {
    c.say('bad number', at('cylinders'), 'this is no number of cylinders', {
      expected: 'a whole number',
    });
    return undefined;
  }
  if (own !== undefined) {
    sayPositive(c, own, at('load factor'));
    return own;
  }
  const found = cylinders === undefined ? undefined : FACTORS[Math.min(cylinders, 5)];
  if (found !== undefined) return found;
  const message =
    cylinders === undefined
      ? 'the load factor goes by the number of cylinders, which is not given'
      : 'no load factor is known for so few cylinders';
  c.say('missing', at('torque'), message, { expected: 'cylinders: 8, or load factor: 1.33' });
  return undefined;
}

function sayPositive(c: Reading, value: number, path: Path): void {
  if (value > 0 && Number.isFinite(value)) return;
  c.say('bad number', path, 'this must be more than 0', { expected: 'a number, more than 0' });
}
