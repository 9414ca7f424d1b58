/**
 * Overlap of two solids without discs, exactly: the shortest parting move is along a facet normal of
 * either or across an edge of each, so all of those directions are tried.
 */

import { expandOverlap } from './expand.js';
import { across, crossOf, noteParting, overlap, tryCrosses, tryNormals } from './parting.js';
import type { Shape } from '../shape.js';

/** Pairs of edges beyond which an expanding polytope is quicker than trying every pair. */
const MANY_PAIRS = 300;
/** How close the expanding polytope must come to be taken as exact, as a share of the coordinates. */
const EXACT = 1e-11;

/** Tries every direction that can be the shortest way out; `overlap.upper` is then exact. */
export function flatOverlap(
  a: Shape,
  b: Shape,
  sx: number,
  sy: number,
  sz: number,
  largest: number,
): void {
  if (a.generatorCount >= 0 && b.generatorCount >= 0) boxOverlap(a, b, sx, sy, sz);
  else {
    tryNormals(a, b, sx, sy, sz);
    if (a.edges.length * b.edges.length > 9 * MANY_PAIRS) {
      expandOverlap(a, b, sx, sy, sz, largest, EXACT * largest);
      if (overlap.upper - overlap.lower <= 2 * EXACT * largest) return;
    }
    tryCrosses(a, b, sx, sy, sz);
  }
  overlap.upper = overlap.lower;
}

/** From B's centre to A's; arrays never allocate. */
const offset = new Float64Array(3);

/** The same for two boxes, segments or points, whose two reaches along any line are equal. */
function boxOverlap(a: Shape, b: Shape, sx: number, sy: number, sz: number): void {
  offset[0] = a.center[0]! + sx - b.center[0]!;
  offset[1] = a.center[1]! + sy - b.center[1]!;
  offset[2] = a.center[2]! + sz - b.center[2]!;
  const na = a.normals;
  for (let i = 0; i < na.length; i += 6) tryLine(a, b, na[i]!, na[i + 1]!, na[i + 2]!);
  const nb = b.normals;
  for (let i = 0; i < nb.length; i += 6) tryLine(a, b, nb[i]!, nb[i + 1]!, nb[i + 2]!);
  const ea = a.edges;
  const eb = b.edges;
  for (let i = 0; i < ea.length; i += 3) {
    for (let j = 0; j < eb.length; j += 3) {
      if (crossOf(ea, i, eb, j)) tryLine(a, b, across[0]!, across[1]!, across[2]!);
    }
  }
}

/** Tries a unit direction and its opposite at once. */
function tryLine(a: Shape, b: Shape, nx: number, ny: number, nz: number): void {
  const along = nx * offset[0]! + ny * offset[1]! + nz * offset[2]!;
  let gap = Math.abs(along);
  const ga = a.generators;
  for (let i = 0; i < 3 * a.generatorCount; i += 3) {
    gap -= Math.abs(ga[i]! * nx + ga[i + 1]! * ny + ga[i + 2]! * nz);
  }
  const gb = b.generators;
  for (let i = 0; i < 3 * b.generatorCount; i += 3) {
    gap -= Math.abs(gb[i]! * nx + gb[i + 1]! * ny + gb[i + 2]! * nz);
  }
  const sign = along < 0 ? -1 : 1;
  noteParting(gap, sign * nx, sign * ny, sign * nz);
}
