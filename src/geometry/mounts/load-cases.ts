/** What each support of the engine carries, case by case: weight, bump, torque, braking, a push from the side. */

import { GRAVITY } from '../../model/text/force.js';
import { loadsUnder } from '../../model/fitup/loads-under.js';
import type { Mounts } from '../../model/fitup/mounts.js';
import type { OptionSet, Scenario, Vec3 } from '../../model/scenario.js';
import { carried, stanceOf, turnedWith } from '../../model/stance.js';
import type { Seat } from '../../model/stance.js';
import { plus } from '../../model/vector.js';
import { shareLoad } from './loads.js';
import type { Applied } from './loads.js';
import { back } from './lie.js';

export type LoadName = 'weight' | 'bump' | 'torque' | 'braking' | 'side';

export interface LoadCase {
  readonly of: LoadName;
  /** In g; for torque, what the engine's is multiplied by: gear times load factor. */
  readonly times: number;
  readonly applied: Applied;
  /** Newtons that the engine puts on each support, in the order of `LoadStanding.supports`, vehicle frame. */
  readonly forces: readonly Vec3[];
  /** Newton millimetres on the engine that the supports cannot give; zeros where they can. */
  readonly left: Vec3;
}

export interface LoadStanding {
  /** Mounts, then other supports: where they hold the engine, vehicle frame. */
  readonly supports: readonly { readonly name: string; readonly at: Vec3 }[];
  /** Kilograms carried, and where, vehicle frame; absent where the file does not say. */
  readonly mass?: { readonly kilograms: number; readonly at: Vec3 };
  readonly cases: readonly LoadCase[];
}

const NONE: Vec3 = [0, 0, 0];

/** Kilograms that ride on the mounts, and their centre of gravity in the engine frame. */
export interface Supported {
  readonly mass: number;
  readonly at: Vec3;
}

/** What the mounts' own section says, or else what the file's weights put on the engine's side. */
export function supportedUnder(scenario: Scenario, set: OptionSet): Supported | undefined {
  const { mounts, weight } = scenario;
  if (mounts?.loads.supported) return mounts.loads.supported;
  const loads = weight ? loadsUnder(scenario, weight, set) : [];
  const own = loads.filter(({ side }) => side === 'engine');
  const mass = own.reduce((sum, load) => sum + load.mass, 0);
  if (mass === 0) return undefined;
  const at = own.reduce<Vec3>((sum, load) => plus(sum, load.at, load.mass / mass), NONE);
  return { mass, at };
}

/** What each support carries with the engine sitting so. */
export function loadsAt(
  { make, supports, loads }: Mounts,
  seat: Seat,
  mass: Supported | undefined,
): LoadStanding {
  const stance = stanceOf(seat);
  const points = [
    ...make.map(({ name, boss: { holes } }) => {
      const at = [0, 1, 2].map(
        (k) => holes.reduce((sum, hole) => sum + hole[k]!, 0) / holes.length,
      );
      return { name, at: carried(stance, at as unknown as Vec3) };
    }),
    ...supports.map(({ name, at }) => ({ name, at: carried(stance, at) })),
  ];
  const own = mass && { kilograms: mass.mass, at: carried(stance, mass.at) };
  const solve = (of: LoadName, times: number, applied: Applied): LoadCase => {
    const { forces, left } = shareLoad(
      points.map(({ at }) => at),
      applied,
    );
    return { of, times, applied, forces: forces.map(back), left };
  };
  const push = (of: LoadName, times: number, way: Vec3): LoadCase[] => {
    if (!own) return [];
    const newtons = own.kilograms * GRAVITY * times;
    const [x, y, z] = way;
    const force: Vec3 = [x * newtons, y * newtons, z * newtons];
    return [solve(of, times, { force, at: own.at, moment: NONE })];
  };
  const cases = [
    ...push('weight', 1, [0, 0, -1]),
    ...push('bump', loads.bump, [0, 0, -1]),
    ...torqueCase(loads.torque, turnedWith(stance, [1, 0, 0]), points[0]!.at, solve),
    // Slowing down, the engine pushes forward.
    ...push('braking', loads.braking, [-1, 0, 0]),
    ...push('side', loads.side, [0, 1, 0]),
  ];
  return { supports: points, ...(own && { mass: own }), cases };
}

/**
 * The torque that the driveshaft takes turns the engine the other way, about the crankshaft. In a forward
 * gear, with the crankshaft turning clockwise as seen from the front, the left side lifts.
 */
function torqueCase(
  torque: Mounts['loads']['torque'],
  axis: Vec3,
  at: Vec3,
  solve: (of: LoadName, times: number, applied: Applied) => LoadCase,
): LoadCase[] {
  if (!torque) return [];
  const times = torque.gear * torque.factor;
  const size = -torque.engine * 1000 * times;
  const moment: Vec3 = [axis[0] * size, axis[1] * size, axis[2] * size];
  return [solve('torque', times, { force: NONE, at, moment })];
}
