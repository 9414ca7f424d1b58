/**
 * Convex hull of a small point set in any dimension from 0 to 3, with coplanar facets merged.
 *
 * Made for tens of points, not thousands. Repeated, collinear and coplanar points are welcome.
 */

import * as trig from '../../model/trig.js';
import { facetsOf, type Facets } from './facets.js';
import { flatHull } from './flat-hull.js';
import { solidHull } from './solid-hull.js';
import {
  acrossOf,
  cross,
  distance,
  dot,
  farthest,
  norm,
  opposite,
  pointOf,
  rangeAlong,
  sub,
  unit,
  unitFrom,
  type Points,
  type V,
} from './vectors.js';

/** How flat counts as flat, as a share of the size of the set. */
export const FLATNESS = 1e-9;
/** Rounding of the coordinates themselves, as a share of the largest. */
const ROUNDING = 1e-14;

interface Hull extends Facets {
  readonly dimension: 0 | 1 | 2 | 3;
}

/** Hull of xyz triples; at least one point, all finite. */
export function hullOf(xyz: ArrayLike<number>): Hull {
  const { p, tolerance } = distinct(xyz);
  const n = p.length / 3;
  const far1 = farthest(n, (k) => distance(p, 0, k));
  if (n === 1 || distance(p, 0, far1) <= tolerance) return { dimension: 0, ...pointHull(p) };
  const e = unitFrom(p, 0, far1);
  const offLine = (k: number): number => norm(cross(e, sub(p, k, 0)));
  const far2 = farthest(n, offLine);
  if (offLine(far2) <= tolerance) return { dimension: 1, ...segmentHull(p, e) };
  const normal = unit(cross(e, sub(p, far2, 0)));
  const offPlane = (k: number): number => Math.abs(dot(normal, sub(p, k, 0)));
  const far3 = farthest(n, offPlane);
  if (offPlane(far3) <= tolerance) return { dimension: 2, ...flatHull(p, e, normal, tolerance) };
  return { dimension: 3, ...solidHull(p, tolerance) };
}

/** The points without repeats, and how near counts as the same. */
function distinct(xyz: ArrayLike<number>): { p: number[]; tolerance: number } {
  let size = 0;
  let largest = 0;
  for (let axis = 0; axis < 3; axis++) {
    const [low, high] = rangeAlong(xyz, axis);
    size = Math.max(size, high - low);
    largest = Math.max(largest, Math.abs(low), Math.abs(high));
  }
  const tolerance = FLATNESS * size + ROUNDING * largest;
  const p: number[] = [];
  for (let i = 0; i + 2 < xyz.length; i += 3) {
    let known = false;
    for (let j = 0; j < p.length && !known; j += 3) {
      known =
        trig.hypot(xyz[i]! - p[j]!, xyz[i + 1]! - p[j + 1]!, xyz[i + 2]! - p[j + 2]!) <= tolerance;
    }
    if (!known) p.push(xyz[i]!, xyz[i + 1]!, xyz[i + 2]!);
  }
  return { p, tolerance };
}

function pointHull(p: Points): Facets {
  const normals = [1, 0, 0, -1, 0, 0, 0, 1, 0, 0, -1, 0, 0, 0, 1, 0, 0, -1];
  return facetsOf(p.slice(0, 3), normals, []);
}

function segmentHull(p: Points, e: V): Facets {
  const n = p.length / 3;
  const along = (k: number): number => dot(e, sub(p, k, 0));
  const last = farthest(n, along);
  const first = farthest(n, (k) => -along(k));
  const direction = unitFrom(p, first, last);
  const [u, v] = acrossOf(direction);
  const normals = [u, v, direction].flatMap((d) => [...d, ...opposite(d)]);
  const ends = [...pointOf(p, first), ...pointOf(p, last)];
  return facetsOf(ends, normals, direction);
}
