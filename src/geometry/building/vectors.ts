/** Vectors and lists of points for building shapes, where a few small arrays do no harm. */

import * as trig from '../../model/trig.js';

export type V = [number, number, number];

export function cross(a: V, b: V): V {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

export function dot(a: V, b: V): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

export function norm(v: V): number {
  return trig.hypot(v[0], v[1], v[2]);
}

/** v at length 1; v must have a length. */
export function unit(v: V): V {
  const length = norm(v);
  return [v[0] / length, v[1] / length, v[2] / length];
}

export function opposite(v: V): V {
  return [-v[0], -v[1], -v[2]];
}

/** A vector of that length along axis 0, 1 or 2. */
export function along(axis: number, length: number): V {
  const v: V = [0, 0, 0];
  v[axis] = length;
  return v;
}

/** Two unit vectors across a unit vector and each other, with u x v = d. */
export function acrossOf(d: V): [V, V] {
  const ax = Math.abs(d[0]);
  const ay = Math.abs(d[1]);
  const az = Math.abs(d[2]);
  const seed: V = ax <= ay && ax <= az ? [1, 0, 0] : ay <= az ? [0, 1, 0] : [0, 0, 1];
  const u = unit(cross(d, seed));
  return [u, cross(d, u)];
}

/** Points as xyz triples in one list. */
export type Points = readonly number[];

export function pointOf(p: Points, k: number): V {
  return [p[3 * k]!, p[3 * k + 1]!, p[3 * k + 2]!];
}

/** Point a as seen from point b. */
export function sub(p: Points, a: number, b: number): V {
  return [p[3 * a]! - p[3 * b]!, p[3 * a + 1]! - p[3 * b + 1]!, p[3 * a + 2]! - p[3 * b + 2]!];
}

export function distance(p: Points, a: number, b: number): number {
  return norm(sub(p, a, b));
}

/** The unit direction from point a to point b. */
export function unitFrom(p: Points, a: number, b: number): V {
  return unit(sub(p, b, a));
}

/** The number from 0 to n - 1 that has the most of something; the first of equals. */
export function farthest(n: number, of: (k: number) => number): number {
  let best = 0;
  for (let k = 1; k < n; k++) if (of(k) > of(best)) best = k;
  return best;
}

/** Least and greatest coordinate along axis 0, 1 or 2; Infinity, -Infinity for no points. */
export function rangeAlong(p: ArrayLike<number>, axis: number): [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (let i = axis; i < p.length; i += 3) {
    low = Math.min(low, p[i]!);
    high = Math.max(high, p[i]!);
  }
  return [low, high];
}
