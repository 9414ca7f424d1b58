/** The driveline at one position of the engine: joints, length, ripple, at ride height, full bump and droop. */

import { maxOf, minOf } from '../../model/extremes.js';
import { AXLE_STATES } from '../../model/fitup/driveline.js';
import type { AxleState, Driveline, Pinion } from '../../model/fitup/driveline.js';
import type { Vec3 } from '../../model/scenario.js';
import { carried, stanceOf } from '../../model/stance.js';
import type { Seat } from '../../model/stance.js';
import { lengthOf, minus, unit } from '../../model/vector.js';
import * as trig from '../../model/trig.js';
import { jointAngle, rippleOfOne, rippleOfTwo } from './joint.js';
import type { JointAngle, Ripple } from './joint.js';
import { criticalSpeed } from './shaft.js';

/** The driveline with the axle in one state. */
export interface StateStanding {
  readonly state: AxleState;
  readonly front: JointAngle;
  /** Absent where the tube is one with the pinion. */
  readonly rear?: JointAngle;
  /** Millimetres from joint to joint. */
  readonly length: number;
  /** What is left of the unevenness at the pinion. */
  readonly ripple: Ripple;
}

export interface DrivelineStanding {
  /** Ride height first. */
  readonly states: readonly StateStanding[];
  /** Millimetres. */
  readonly shortest: number;
  readonly longest: number;
  /** Revolutions a minute at the longest, where the tube is given: where it whips, and what it is used to. */
  readonly critical?: { readonly at: number; readonly usedTo: number };
}

export function drivelineAt(driveline: Driveline, position: Seat): DrivelineStanding {
  const { tube, share } = driveline;
  const states = AXLE_STATES.flatMap((state) => {
    const pinion = driveline.pinion[state];
    return pinion === undefined ? [] : [{ state, ...jointsAt(driveline, position, pinion) }];
  });
  const lengths = states.map(({ length }) => length);
  const longest = maxOf(lengths);
  const whips = tube && criticalSpeed(tube, longest);
  return {
    states,
    shortest: minOf(lengths),
    longest,
    ...(whips !== undefined && { critical: { at: whips, usedTo: whips * share } }),
  };
}

/** The joints with the pinion there. */
export function jointsAt(
  driveline: Driveline,
  position: Seat,
  pinion: Pinion,
): Omit<StateStanding, 'state'> {
  const before = outputDirection(driveline, position);
  const shaft = minus(pinion.at, outputCentre(driveline, position));
  const length = lengthOf(shaft);
  const after = pinionDirection(pinion);
  const front = jointAngle(before, shaft);
  switch (driveline.joints) {
    case 'one':
      return { front, length, ripple: rippleOfOne(front.true) };
    case 'two': {
      const rear = jointAngle(shaft, after);
      return { front, rear, length, ripple: rippleOfTwo(before, shaft, after) };
    }
    case 'constant velocity': {
      const rear = jointAngle(shaft, after);
      return { front, rear, length, ripple: rippleOfOne(rear.true) };
    }
  }
}

/** The centre of the front joint, millimetres in the vehicle frame. */
function outputCentre({ output }: Driveline, seat: Seat): Vec3 {
  return carried(stanceOf(seat), output);
}

/** Rearward along the output shaft, length 1, vehicle frame: it turns with the engine. */
export function outputDirection({ aim }: Driveline, seat: Seat): Vec3 {
  return carried({ ...stanceOf(seat), ...ORIGIN }, pointing(aim.down, aim.right));
}

const ORIGIN = { setback: 0, offset: 0, height: 0 };

/** Rearward into the axle along its pinion, length 1, vehicle frame. */
export function pinionDirection({ up, right }: Pick<Pinion, 'up' | 'right'>): Vec3 {
  // A nose that points up and to the right leaves a shaft behind it that runs down and to the left.
  return pointing(up, -right);
}

/** A direction rearward by its slopes: down by one angle in side view, to the right by one in plan. */
function pointing(down: number, right: number): Vec3 {
  return unit([1, trig.tan(right), -trig.tan(down)]);
}
