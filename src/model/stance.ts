/**
 * How the engine really sits: its position, and the roll and yaw that a drawing leaves at zero.
 *
 * Vehicle frame: X rearward, Y to the right, Z up. Millimetres and radians. The engine turns about its
 * datum, roll first, then pitch, then yaw: p' = Rz(yaw) Ry(pitch) Rx(roll) p + (setback, offset, height).
 */

import { COORDINATES } from './scenario.js';
import type { Position, Vec3 } from './scenario.js';
import * as trig from './trig.js';

export interface Stance extends Position {
  /** About the crankshaft line, positive with the right side up. */
  readonly roll: number;
  /** About the vertical, positive with the tail to the right. */
  readonly yaw: number;
}

/** Where an engine sits: a position as it is meant, level from side to side, or a stance as it really is. */
export type Seat = Position | Stance;

/** The roll and yaw of a seat. */
export function leanOf(seat: Seat): Pick<Stance, 'roll' | 'yaw'> {
  return 'roll' in seat ? { roll: seat.roll, yaw: seat.yaw } : { roll: 0, yaw: 0 };
}

/** Whether it leans: rolls or yaws at all. */
export function leans(seat: Seat): seat is Stance {
  const { roll, yaw } = leanOf(seat);
  return roll !== 0 || yaw !== 0;
}

export type StanceMotion = keyof Stance;
export const STANCE_MOTIONS: readonly StanceMotion[] = [...COORDINATES, 'roll', 'yaw'];

/** A seat with its roll and yaw: a position is meant level from side to side and in line, unless they are given. */
export function stanceOf(seat: Seat, roll = leanOf(seat).roll, yaw = leanOf(seat).yaw): Stance {
  const { setback, offset, height, pitch } = seat;
  return { setback, offset, height, pitch, roll, yaw };
}

/** The six as a vector, in the order of `STANCE_MOTIONS`. */
export function stanceVector(stance: Stance): Float64Array {
  return Float64Array.from(STANCE_MOTIONS, (motion) => stance[motion]);
}

/** The stance of such a vector. */
export function stanceFrom(vector: ArrayLike<number>): Stance {
  const [setback, offset, height, pitch, roll, yaw] = Array.from(vector) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  return { setback, offset, height, pitch, roll, yaw };
}

/** The turn as a row-major 3 x 3 matrix; writes and returns `out`. */
export function stanceRotation(
  { roll, pitch, yaw }: Pick<Stance, 'roll' | 'pitch' | 'yaw'>,
  out: Float64Array = new Float64Array(9),
): Float64Array {
  const [cr, sr] = [trig.cos(roll), trig.sin(roll)];
  const [cp, sp] = [trig.cos(pitch), trig.sin(pitch)];
  const [cy, sy] = [trig.cos(yaw), trig.sin(yaw)];
  out[0] = cy * cp;
  out[1] = cy * sp * sr - sy * cr;
  out[2] = cy * sp * cr + sy * sr;
  out[3] = sy * cp;
  out[4] = sy * sp * sr + cy * cr;
  out[5] = sy * sp * cr - cy * sr;
  out[6] = -sp;
  out[7] = cp * sr;
  out[8] = cp * cr;
  return out;
}

/** Where a point of the engine, given from its datum, is in the vehicle frame. */
export function carried(stance: Stance, [x, y, z]: Vec3): Vec3 {
  const r = stanceRotation(stance);
  return [
    r[0]! * x + r[1]! * y + r[2]! * z + stance.setback,
    r[3]! * x + r[4]! * y + r[5]! * z + stance.offset,
    r[6]! * x + r[7]! * y + r[8]! * z + stance.height,
  ];
}

/** A direction of the engine, given at zero pitch, in the vehicle frame. */
export function turnedWith(stance: Stance, [x, y, z]: Vec3): Vec3 {
  const r = stanceRotation(stance);
  return [
    r[0]! * x + r[1]! * y + r[2]! * z,
    r[3]! * x + r[4]! * y + r[5]! * z,
    r[6]! * x + r[7]! * y + r[8]! * z,
  ];
}

/**
 * What a step of each motion, in the order of `STANCE_MOTIONS`, does along a unit direction to a point that
 * rides with the engine: mm per mm for the first three, mm per radian for the turns.
 * @param at where the point is now, in the vehicle frame.
 */
export function slopesAlong(stance: Stance, at: Vec3, direction: Vec3): Float64Array {
  const arm: Vec3 = [at[0] - stance.setback, at[1] - stance.offset, at[2] - stance.height];
  // A turn about a unit axis w moves the point by w x arm; n . (w x arm) = w . (arm x n).
  const moment: Vec3 = [
    arm[1] * direction[2] - arm[2] * direction[1],
    arm[2] * direction[0] - arm[0] * direction[2],
    arm[0] * direction[1] - arm[1] * direction[0],
  ];
  const r = stanceRotation(stance);
  const [cy, sy] = [trig.cos(stance.yaw), trig.sin(stance.yaw)];
  return Float64Array.of(
    direction[0],
    direction[1],
    direction[2],
    cy * moment[1] - sy * moment[0],
    r[0]! * moment[0] + r[3]! * moment[1] + r[6]! * moment[2],
    moment[2],
  );
}
