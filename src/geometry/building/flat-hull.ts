/** The convex hull of points that lie in one plane. */

import * as trig from '../../model/trig.js';
import { addDirection, facetsOf, type Facets } from './facets.js';
import {
  cross,
  dot,
  opposite,
  pointOf,
  sub,
  unit,
  unitFrom,
  type Points,
  type V,
} from './vectors.js';

/** Hull of points in the plane of the unit vectors e and normal x e, through the first of them. */
export function flatHull(p: Points, e: V, normal: V, tolerance: number): Facets {
  const g = cross(normal, e);
  const seen = Array.from({ length: p.length / 3 }, (_, k) => sub(p, k, 0));
  const ring = ringOf(
    seen.map((v) => dot(e, v)),
    seen.map((v) => dot(g, v)),
    tolerance,
  );
  const normals: number[] = [...normal, ...opposite(normal)];
  const edges: number[] = [];
  for (let i = 0; i < ring.length; i++) {
    const direction = unitFrom(p, ring[i]!, ring[(i + 1) % ring.length]!);
    normals.push(...unit(cross(direction, normal)));
    addDirection(edges, direction);
  }
  const points = ring.flatMap((k) => pointOf(p, k));
  return facetsOf(points, normals, edges);
}

/** The corners of the outline of points in a plane, counter-clockwise, by their numbers. */
function ringOf(x: readonly number[], y: readonly number[], tolerance: number): number[] {
  const standsOut = (a: number, b: number, c: number): number => {
    const length = trig.hypot(x[c]! - x[a]!, y[c]! - y[a]!);
    const area = (x[b]! - x[a]!) * (y[c]! - y[a]!) - (y[b]! - y[a]!) * (x[c]! - x[a]!);
    return length > 0 ? area / length : 0;
  };
  const chain = (order: readonly number[]): number[] => {
    const out: number[] = [];
    for (const k of order) {
      // Drop the middle of three when it stands out from the line of its neighbours by nothing.
      while (out.length > 1 && standsOut(out.at(-2)!, out.at(-1)!, k) <= tolerance) out.pop();
      out.push(k);
    }
    out.pop();
    return out;
  };
  const order = [...x.keys()].sort((a, b) => x[a]! - x[b]! || y[a]! - y[b]!);
  return [...chain(order), ...chain([...order].reverse())];
}
