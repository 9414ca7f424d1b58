/** What a driveline must keep, each held against one position: data, no words. */

import type { AxleState, Driveline } from '../../model/driveline.js';
import type { DrivelineStanding } from './standing.js';

export type DrivelineCheck =
  /** Radians: a joint's true angle. */
  | {
      readonly of: 'joint';
      readonly state: AxleState;
      readonly joint: 'front' | 'rear';
      readonly value: number;
      readonly least: number;
      readonly most: number;
    }
  /** Radians: by how much the two joints' true angles differ. */
  | {
      readonly of: 'difference';
      readonly state: AxleState;
      readonly value: number;
      readonly most: number;
    }
  /** Millimetres that the slip joint must go in, or out, from ride height. */
  | {
      readonly of: 'slip';
      readonly way: 'in' | 'out';
      readonly value: number;
      readonly most: number;
    }
  /** Revolutions a minute. */
  | { readonly of: 'speed'; readonly value: number; readonly most: number };

/** Radians by which an angle may be off and still be kept. */
const SLACK = 1e-9;

/** Radians: printed for a constant-velocity joint as 'under 10 degrees'. */
const CONSTANT_VELOCITY_MOST = (10 * Math.PI) / 180;

/**
 * Everything that is asked of a driveline. A joint's least angle and the difference of the two hold where
 * the vehicle runs, at ride height; full bump and droop are passed through, and held to the greatest angle.
 */
export function drivelineChecks(
  driveline: Driveline,
  standing: DrivelineStanding,
): readonly DrivelineCheck[] {
  const { joints, angles, slip, speed } = driveline;
  const { allowed, states, critical } = standing;
  const isEven = joints === 'constant velocity';
  const checks: DrivelineCheck[] = states.flatMap((one): DrivelineCheck[] => {
    const { state, front, rear } = one;
    const least = state === 'ride' ? allowed.least : 0;
    const most = isEven && angles.most === undefined ? CONSTANT_VELOCITY_MOST : allowed.most;
    const ends: DrivelineCheck[] = [
      { of: 'joint', state, joint: 'front', value: front.true, least, most },
    ];
    if (rear === undefined) return ends;
    const own = { least: isEven ? 0 : least, most: allowed.most };
    ends.push({ of: 'joint', state, joint: 'rear', value: rear.true, ...own });
    if (state !== 'ride') return ends;
    // Beside a joint of constant velocity the other one is the whole of the ripple.
    const value = isEven ? rear.true : Math.abs(front.true - rear.true);
    return [...ends, { of: 'difference', state, value, most: angles.within }];
  });
  const ride = states[0]!.length;
  if (slip) {
    checks.push(
      { of: 'slip', way: 'in', value: ride - standing.shortest, most: slip.in },
      { of: 'slip', way: 'out', value: standing.longest - ride, most: slip.out },
    );
  }
  if (critical) checks.push({ of: 'speed', value: speed, most: critical.usedTo });
  return checks;
}

export function isKept(check: DrivelineCheck): boolean {
  const isLow = check.of === 'joint' && check.value < check.least - SLACK;
  return !isLow && check.value <= check.most + SLACK;
}
