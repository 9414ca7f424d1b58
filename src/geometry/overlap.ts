/**
 * Overlap of two solids without discs, exactly: the shortest parting move is along a facet normal of
 * either or across an edge of each, so all of those directions are tried.
 */

import { expandOverlap } from './expand.js';
import { overlap } from './parting.js';
import { coreExtent, type Shape } from './shape.js';

/** Sine between edges below which they count as parallel and span no plane. */
const PARALLEL = 1e-13;
/** Sine below which the cross product has lost digits and is squared up to the first edge again. */
const NEARLY_PARALLEL = 1e-4;

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

/** From B's centre to A's, and the direction across two edges; arrays never allocate. */
const offset = new Float64Array(3);
const across = new Float64Array(3);

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
  if (gap <= overlap.lower) return;
  const sign = along < 0 ? -1 : 1;
  overlap.lower = gap;
  overlap.nx = sign * nx;
  overlap.ny = sign * ny;
  overlap.nz = sign * nz;
}

/** Separation of A + s from B along the unit vector n, cores only. Betters `overlap`. */
export function trySeparation(
  a: Shape,
  b: Shape,
  sx: number,
  sy: number,
  sz: number,
  nx: number,
  ny: number,
  nz: number,
): number {
  const shift = nx * sx + ny * sy + nz * sz;
  const gap = shift - coreExtent(a, -nx, -ny, -nz) - coreExtent(b, nx, ny, nz);
  if (gap > overlap.lower) {
    overlap.lower = gap;
    overlap.nx = nx;
    overlap.ny = ny;
    overlap.nz = nz;
  }
  return gap;
}

/** Tries the facet normals of both. */
export function tryNormals(a: Shape, b: Shape, sx: number, sy: number, sz: number): void {
  const na = a.normals;
  for (let i = 0; i < na.length; i += 3) {
    trySeparation(a, b, sx, sy, sz, -na[i]!, -na[i + 1]!, -na[i + 2]!);
  }
  const nb = b.normals;
  for (let i = 0; i < nb.length; i += 3) {
    trySeparation(a, b, sx, sy, sz, nb[i]!, nb[i + 1]!, nb[i + 2]!);
  }
}

/** Tries both directions across each edge of A and each of B. */
export function tryCrosses(a: Shape, b: Shape, sx: number, sy: number, sz: number): void {
  const ea = a.edges;
  const eb = b.edges;
  for (let i = 0; i < ea.length; i += 3) {
    for (let j = 0; j < eb.length; j += 3) {
      if (!crossOf(ea, i, eb, j)) continue;
      const x = across[0]!;
      const y = across[1]!;
      const z = across[2]!;
      trySeparation(a, b, sx, sy, sz, x, y, z);
      trySeparation(a, b, sx, sy, sz, -x, -y, -z);
    }
  }
}

/** The unit vector across two unit edges, into scratch; false when they are parallel. */
function crossOf(ea: Float64Array, i: number, eb: Float64Array, j: number): boolean {
  const ux = ea[i]!;
  const uy = ea[i + 1]!;
  const uz = ea[i + 2]!;
  const vx = eb[j]!;
  const vy = eb[j + 1]!;
  const vz = eb[j + 2]!;
  let nx = uy * vz - uz * vy;
  let ny = uz * vx - ux * vz;
  let nz = ux * vy - uy * vx;
  let length = Math.sqrt(nx * nx + ny * ny + nz * nz);
  if (length < PARALLEL) return false;
  if (length < NEARLY_PARALLEL) {
    // Square it up to the first edge: what is left to err is a turn about that edge.
    const along = (nx * ux + ny * uy + nz * uz) / (ux * ux + uy * uy + uz * uz);
    nx -= along * ux;
    ny -= along * uy;
    nz -= along * uz;
    length = Math.sqrt(nx * nx + ny * ny + nz * nz);
  }
  across[0] = nx / length;
  across[1] = ny / length;
  across[2] = nz / length;
  return true;
}
