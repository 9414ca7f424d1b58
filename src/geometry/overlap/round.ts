/**
 * Overlap of two solids of which one or both have a disc (cylinders).
 *
 * With C = A + shift - B = P (+) discs, P a polytope, the largest ball about the origin within C
 * touches its boundary where the boundary is smooth: on a facet of P carried by the discs, on a flat
 * cap across a disc's axis, or on a ruled piece, an edge of P carried along a disc's rim, whose normals
 * lie on the great circle across that edge. So the shortest parting move is the least over the facet
 * normals, the axes, and one search in a plane for each edge direction. Two discs with different axes
 * also make a doubly curved piece, which is left to `expandOverlap`.
 */

import { expandOverlap } from './expand.js';
import { overlap, tryCrosses, tryNormals, trySeparation } from './parting.js';
import { leastAcross, parallel } from './plane.js';
import type { Shape } from '../shape.js';

/** How close the bounds are brought for two discs on axes that are not parallel, mm. */
export const CURVED_TOLERANCE = 1e-3;

/** Betters `overlap.lower` and sets `overlap.upper`; `largest` is the largest coordinate, mm. */
export function roundOverlap(
  a: Shape,
  b: Shape,
  sx: number,
  sy: number,
  sz: number,
  largest: number,
): void {
  overlap.upper = Infinity;
  tryNormals(a, b, sx, sy, sz);
  tryCrosses(a, b, sx, sy, sz);
  tryAxis(a, b, sx, sy, sz, a.axis);
  tryAxis(a, b, sx, sy, sz, b.axis);
  tryRimCrosses(a, b, sx, sy, sz, a);
  tryRimCrosses(a, b, sx, sy, sz, b);
  if (a.disc > 0 && b.disc > 0 && !parallel(a.axis, 0, b.axis[0]!, b.axis[1]!, b.axis[2]!)) {
    expandOverlap(a, b, sx, sy, sz, largest, CURVED_TOLERANCE);
    return;
  }
  let inner = Infinity;
  for (let i = 0; i < a.edges.length && inner > 0; i += 3) {
    inner = Math.min(inner, leastAcross(a, b, sx, sy, sz, a.edges, i, largest));
  }
  for (let i = 0; i < b.edges.length && inner > 0; i += 3) {
    if (!hasParallel(a.edges, b.edges, i)) {
      inner = Math.min(inner, leastAcross(a, b, sx, sy, sz, b.edges, i, largest));
    }
  }
  overlap.upper = Math.max(overlap.lower, -inner);
}

function tryAxis(a: Shape, b: Shape, sx: number, sy: number, sz: number, u: Float64Array): void {
  if (u[0] === 0 && u[1] === 0 && u[2] === 0) return;
  trySeparation(a, b, sx, sy, sz, u[0]!, u[1]!, u[2]!);
  trySeparation(a, b, sx, sy, sz, -u[0]!, -u[1]!, -u[2]!);
}

/** Directions across the axis and across an edge of either: a rim's side against a long edge. */
function tryRimCrosses(a: Shape, b: Shape, sx: number, sy: number, sz: number, rim: Shape): void {
  if (rim.disc === 0) return;
  const u = rim.axis;
  for (let side = 0; side < 2; side++) {
    const e = side === 0 ? a.edges : b.edges;
    for (let i = 0; i < e.length; i += 3) {
      let nx = u[1]! * e[i + 2]! - u[2]! * e[i + 1]!;
      let ny = u[2]! * e[i]! - u[0]! * e[i + 2]!;
      let nz = u[0]! * e[i + 1]! - u[1]! * e[i]!;
      const length = Math.sqrt(nx * nx + ny * ny + nz * nz);
      if (length < 1e-9) continue;
      nx /= length;
      ny /= length;
      nz /= length;
      trySeparation(a, b, sx, sy, sz, nx, ny, nz);
      trySeparation(a, b, sx, sy, sz, -nx, -ny, -nz);
    }
  }
}

function hasParallel(list: Float64Array, of: Float64Array, i: number): boolean {
  for (let j = 0; j < list.length; j += 3) {
    if (parallel(list, j, of[i]!, of[i + 1]!, of[i + 2]!)) return true;
  }
  return false;
}
