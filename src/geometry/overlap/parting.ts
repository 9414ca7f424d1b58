/** The best parting move known while the shortest is looked for, and the directions tried for it. */

import { coreExtent } from '../reach.js';
import type { Shape } from '../shape.js';

/** Sine between edges below which they count as parallel and span no plane. */
const PARALLEL = 1e-13;
/** Sine below which the cross product has lost digits and is squared up to the first edge again. */
const NEARLY_PARALLEL = 1e-4;

/** Best separation over the directions tried; `lower` and n are kept if none betters them. */
interface Overlap {
  lower: number;
  upper: number;
  nx: number;
  ny: number;
  nz: number;
}

/** Shared record, filled by the caller with the best direction known and bettered here. */
export const overlap: Overlap = { lower: -Infinity, upper: Infinity, nx: 1, ny: 0, nz: 0 };

/** Keeps a separation and its unit direction if none so far is as good. */
export function noteParting(separation: number, nx: number, ny: number, nz: number): void {
  if (!(separation > overlap.lower)) return;
  overlap.lower = separation;
  overlap.nx = nx;
  overlap.ny = ny;
  overlap.nz = nz;
}

/** Tries the unit vector n: the separation of A + s from B along it, cores only. */
export function trySeparation(
  a: Shape,
  b: Shape,
  sx: number,
  sy: number,
  sz: number,
  nx: number,
  ny: number,
  nz: number,
): void {
  const shift = nx * sx + ny * sy + nz * sz;
  const gap = shift - coreExtent(a, -nx, -ny, -nz) - coreExtent(b, nx, ny, nz);
  noteParting(gap, nx, ny, nz);
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

/** What `crossOf` found; arrays never allocate. */
export const across = new Float64Array(3);

/** The unit vector across two unit edges, into `across`; false when they are parallel. */
export function crossOf(ea: Float64Array, i: number, eb: Float64Array, j: number): boolean {
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
