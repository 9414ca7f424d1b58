/**
 * The convex hull of points that span space. Every pair of points is judged on its own (do all the
 * others lie in one wedge about the line through the two?), so no topology is built up that rounding
 * could break.
 */

import * as trig from '../../model/trig.js';
import { addDirection, facetsOf, type Facets } from './facets.js';
import {
  cross,
  distance,
  dot,
  farthest,
  norm,
  opposite,
  pointOf,
  sub,
  unit,
  unitFrom,
  type Points,
  type V,
} from './vectors.js';
import { wedgeAbout } from './wedge.js';

/** Hull of points that are not in one plane, to a tolerance in their own unit. */
export function solidHull(p: Points, tolerance: number): Facets {
  const n = p.length / 3;
  const far = farthest(n, (k) => distance(p, 0, k));
  const size = distance(p, 0, far);
  const apart = (8 * tolerance) / size;
  const normals: number[] = [];
  const edges: number[] = [];
  const onEdge = new Uint8Array(n);
  const between = new Uint8Array(n);
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      const wedge = wedgeAbout(p, i, j, tolerance);
      if (wedge === undefined) continue;
      const right = facetNormal(p, i, wedge.right, tolerance);
      const left = facetNormal(p, i, wedge.left, tolerance);
      if (right !== undefined) addNormal(normals, right, apart);
      if (left !== undefined) addNormal(normals, left, apart);
      // A diagonal of a facet has that one facet on both sides; an edge has two.
      if (near(right ?? wedge.right, left ?? wedge.left, apart)) continue;
      addDirection(edges, unitFrom(p, i, j));
      onEdge[i] = 1;
      onEdge[j] = 1;
      if (wedge.before) between[i] = 1;
      if (wedge.beyond) between[j] = 1;
    }
  }
  const points: number[] = [];
  for (let k = 0; k < n; k++) {
    if (onEdge[k] === 1 && between[k] === 0) points.push(...pointOf(p, k));
  }
  if (points.length < 12 || normals.length < 12) {
    throw new Error('hullOf: a full-dimensional point set gave fewer than four vertices or facets');
  }
  return facetsOf(points, normals, edges);
}

/** The normal sharpened from the widest triangle of points on its plane; undefined if not a facet. */
function facetNormal(p: Points, i: number, rough: V, tolerance: number): V | undefined {
  const n = p.length / 3;
  const on: number[] = [];
  for (let k = 0; k < n; k++) {
    const above = dot(rough, sub(p, k, i));
    if (above > 4 * tolerance) return undefined;
    if (above >= -4 * tolerance) on.push(k);
  }
  const a = on[farthest(on.length, (k) => distance(p, i, on[k]!))]!;
  const b = on[farthest(on.length, (k) => distance(p, a, on[k]!))]!;
  const e = unitFrom(p, a, b);
  const wide = (k: number): number => norm(cross(e, sub(p, on[k]!, a)));
  const c = farthest(on.length, wide);
  if (wide(c) <= tolerance) return undefined;
  const sharp = unit(cross(e, sub(p, on[c]!, a)));
  const same = dot(sharp, rough) < 0 ? opposite(sharp) : sharp;
  for (let k = 0; k < n; k++) if (dot(same, sub(p, k, a)) > 4 * tolerance) return rough;
  return same;
}

/** Adds a unit normal unless one as good as equal to it is there. */
function addNormal(list: number[], n: V, apart: number): void {
  for (let k = 0; 3 * k < list.length; k++) {
    if (near(pointOf(list, k), n, apart)) return;
  }
  list.push(...n);
}

function near(a: V, b: V, apart: number): boolean {
  return trig.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]) <= apart;
}
