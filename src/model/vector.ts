/** Vectors of three, as small arithmetic. */

import type { Vec3 } from './scenario.js';
import * as trig from './trig.js';

export function minus(a: Vec3, b: Vec3): Vec3 {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

/** a moved by so many of b. */
export function plus(a: Vec3, b: Vec3, times = 1): Vec3 {
  return [a[0] + b[0] * times, a[1] + b[1] * times, a[2] + b[2] * times];
}

export function dot(a: Vec3, b: Vec3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

export function cross(a: Vec3, b: Vec3): Vec3 {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

export function lengthOf(v: Vec3): number {
  return trig.hypot(v[0], v[1], v[2]);
}

/** The vector divided by its length, which must not be 0. */
export function unit(v: Vec3): Vec3 {
  const length = lengthOf(v);
  return [v[0] / length, v[1] / length, v[2] / length];
}
