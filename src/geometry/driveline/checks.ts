/** What a driveline must keep, each held against one position: data, no words. */

import { jointBounds } from '../../model/fitup/driveline.js';
import type { Driveline, JointBound } from '../../model/fitup/driveline.js';
import type { DrivelineStanding } from './standing.js';

export type DrivelineCheck =
  /** Radians. */
  | (JointBound & { readonly value: number })
  /** Millimetres that the slip joint must go in, or out, from ride height. */
  | {
      readonly of: 'slip';
      readonly way: 'in' | 'out';
      readonly value: number;
      readonly max: number;
    }
  /** Revolutions a minute. */
  | { readonly of: 'speed'; readonly value: number; readonly max: number };

/** Radians by which an angle may be off and still be kept: no less than a search lets a limit be missed by. */
const SLACK = 1.5e-7;

/** Everything that is asked of a driveline, with what it comes to. */
export function drivelineChecks(
  driveline: Driveline,
  standing: DrivelineStanding,
): readonly DrivelineCheck[] {
  const { slip, speed } = driveline;
  const { states, critical, shortest, longest } = standing;
  const checks: DrivelineCheck[] = jointBounds(driveline).map((bound) => {
    const { front, rear } = states.find(({ state }) => state === bound.state)!;
    if (bound.of === 'joint angle')
      return { ...bound, value: (bound.joint === 'front' ? front : rear!).true };
    return { ...bound, value: Math.abs(front.true - rear!.true) };
  });
  const ride = states[0]!.length;
  if (slip) {
    checks.push(
      { of: 'slip', way: 'in', value: ride - shortest, max: slip.in },
      { of: 'slip', way: 'out', value: longest - ride, max: slip.out },
    );
  }
  if (critical) checks.push({ of: 'speed', value: speed, max: critical.usedTo });
  return checks;
}

export function isKept(check: DrivelineCheck): boolean {
  const isLow = 'min' in check && check.value < check.min - SLACK;
  return !isLow && check.value <= check.max + SLACK;
}
