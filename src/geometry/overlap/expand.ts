/**
 * Overlap of any two convex cores by an expanding polytope: a polytope within C = A + shift - B is
 * grown at its facet nearest the origin. Its nearest facet bounds the parting move from within, the
 * supports reached bound it from without.
 */

import * as trig from '../../model/trig.js';
import { support } from '../reach.js';
import type { Shape } from '../shape.js';
import { noteParting, overlap } from './parting.js';
import {
  addCorner,
  away,
  clear,
  grow,
  isFull,
  nearestFacet,
  normal,
  settled,
  start,
} from './polytope.js';

/** Directions all round, for a first polytope. */
const SEEDS = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
  [1, 1, 1],
  [-1, -1, -1],
  [1, 1, -1],
  [-1, -1, 1],
  [1, -1, 1],
  [-1, 1, -1],
  [-1, 1, 1],
  [1, -1, -1],
].map((d) => {
  const length = trig.hypot(d[0]!, d[1]!, d[2]!);
  return [d[0]! / length, d[1]! / length, d[2]! / length] as const;
});

const pointA = new Float64Array(3);
const pointB = new Float64Array(3);
/** How far the support last taken reaches along the direction asked for. */
const reached = new Float64Array(1);

/**
 * Betters `overlap.lower` and sets `overlap.upper`, to within `tolerance` mm unless the facets run
 * out first; `largest` is the largest coordinate, mm.
 */
export function expandOverlap(
  a: Shape,
  b: Shape,
  sx: number,
  sy: number,
  sz: number,
  largest: number,
  tolerance: number,
): void {
  const trifle = 1e-12 * largest;
  clear();
  for (const [x, y, z] of SEEDS) take(a, b, sx, sy, sz, x, y, z);
  take(a, b, sx, sy, sz, -overlap.nx, -overlap.ny, -overlap.nz);
  if (!start(trifle)) {
    // C has no thickness, so it has no inside: parting takes no more than a trifle.
    overlap.upper = Math.max(overlap.lower, 0);
    return;
  }
  let inner: number;
  for (;;) {
    const nearest = nearestFacet();
    inner = nearest < 0 ? Infinity : away[nearest]!;
    if (-overlap.lower - inner <= tolerance) break;
    if (settled[nearest] === 1 || isFull()) break;
    const nx = normal[3 * nearest]!;
    const ny = normal[3 * nearest + 1]!;
    const nz = normal[3 * nearest + 2]!;
    const c = take(a, b, sx, sy, sz, nx, ny, nz);
    const reach = reached[0]!;
    if (reach < 0) break;
    if (reach - inner <= trifle || !grow(c, trifle)) settled[nearest] = 1;
  }
  overlap.upper = Math.max(overlap.lower, -(inner - trifle));
}

/** Adds the support of C along a unit direction as a corner and returns its number. */
function take(
  a: Shape,
  b: Shape,
  sx: number,
  sy: number,
  sz: number,
  dx: number,
  dy: number,
  dz: number,
): number {
  support(a, dx, dy, dz, pointA);
  support(b, -dx, -dy, -dz, pointB);
  const x = pointA[0]! + sx - pointB[0]!;
  const y = pointA[1]! + sy - pointB[1]!;
  const z = pointA[2]! + sz - pointB[2]!;
  const reach = x * dx + y * dy + z * dz;
  noteParting(-reach, -dx, -dy, -dz);
  reached[0] = reach;
  return addCorner(x, y, z);
}
