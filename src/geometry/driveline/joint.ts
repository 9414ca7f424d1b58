/** Angles of a universal joint, and the ripple that joints leave in a shaft's speed. */

import type { Vec3 } from '../../model/scenario.js';
import { cross, dot, lengthOf } from '../../model/vector.js';
import * as trig from '../../model/trig.js';

/** One joint's angle, as three people would measure it. Radians. */
export interface JointAngle {
  /** As a side view shows it: positive where the shaft behind points further down than the one before. */
  readonly side: number;
  /** As a plan view shows it: positive where it points further to the right. */
  readonly plan: number;
  /** In space; 0 or more. */
  readonly true: number;
}

/**
 * The angle between two shafts that meet.
 * @param before, after directions rearward, vehicle frame, of any length but 0; neither may be upright or
 * across the vehicle.
 */
export function jointAngle(before: Vec3, after: Vec3): JointAngle {
  const down = (d: Vec3): number => trig.atan2(-d[2], d[0]);
  const right = (d: Vec3): number => trig.atan2(d[1], d[0]);
  return {
    side: down(after) - down(before),
    plan: right(after) - right(before),
    true: angleBetween(before, after),
  };
}

/** Radians from 0 to pi. Half the digits of a small angle would be lost by its cosine alone. */
export function angleBetween(a: Vec3, b: Vec3): number {
  return trig.atan2(lengthOf(cross(a, b)), dot(a, b));
}

/** How unevenly a shaft turns: its least and greatest speed as a share of the speed put in. */
export interface Ripple {
  readonly least: number;
  readonly greatest: number;
}

/**
 * The ripple behind one joint: cos b / (1 - sin^2 b cos^2 t) from least to greatest over a turn.
 * @param angle true angle of the joint, less than a right angle.
 */
export function rippleOfOne(angle: number): Ripple {
  const least = trig.cos(angle);
  return { least, greatest: 1 / least };
}

/**
 * The ripple behind two joints whose inner yokes lie in line.
 *
 * A joint maps the line at angle t across one shaft to the line at t' across the next: tan t' =
 * tan t / cos b, which is the linear map diag(cos b, 1) of the plane, t measured from the joint's own
 * plane. The two joints are then one 2 x 2 matrix A, and the speeds' ratio at a unit vector v is
 * det A / |A v|^2: between the ratios of its singular values, either way up.
 * @param before, shaft, after directions rearward, vehicle frame, of any length but 0.
 */
export function rippleOfTwo(before: Vec3, shaft: Vec3, after: Vec3): Ripple {
  const [first, second] = [angleBetween(before, shaft), angleBetween(shaft, after)];
  // Between the planes of the joints, about the shaft; of no matter where a joint is straight.
  const [m, n] = [cross(before, shaft), cross(shaft, after)];
  const turned =
    lengthOf(m) * lengthOf(n) > 0
      ? trig.atan2(dot(cross(m, n), shaft) / lengthOf(shaft), dot(m, n))
      : 0;
  // The yokes in line: what lies in the plane of the first joint stands across that of the second.
  const [c, s] = [trig.cos(turned + Math.PI / 2), trig.sin(turned + Math.PI / 2)];
  const [p, q] = [trig.cos(first), trig.cos(second)];
  const [a, b, d, e] = [q * c * p, -q * s, s * p, c];
  // The sum and the difference of the singular values, neither by way of what cancels.
  const [sum, difference] = [trig.hypot(a + e, b - d), trig.hypot(a - e, b + d)];
  const greatest = (sum + difference) / (sum - difference);
  return { least: 1 / greatest, greatest };
}
