/**
 * The shortest parting move across one edge direction: C = A + shift - B seen along that edge is a
 * convex region of a plane, and the least distance from the origin to its outline is looked for.
 */

import { support } from '../reach.js';
import type { Shape } from '../shape.js';
import { cornersC, nearest, nearestOfSimplex } from '../simplex.js';
import { noteParting, overlap } from './parting.js';

/** How close the bounds are brought, mm. */
export const RULED_TOLERANCE = 1e-6;
/** Sine of the angle below which directions are parallel, and discs across them add to one disc. */
const PARALLEL = 1e-12;
/** Turn either way from a direction to find both ends of a straight stretch across it. */
const NUDGE = 1e-8;
const MOST_CHORDS = 96;
const MOST_STEPS = 64;

const pointA = new Float64Array(3);
const pointB = new Float64Array(3);
const cornerX = new Float64Array(MOST_CHORDS);
const cornerY = new Float64Array(MOST_CHORDS);
const next = new Int32Array(MOST_CHORDS);
/** Distance of each corner's chord to the next from the origin; Infinity once settled. */
const chord = new Float64Array(MOST_CHORDS);
/** The two unit axes of the plane, xyz each. Numbers that change live in arrays, which never allocate. */
const frame = new Float64Array(6);
/**
 * Radius of the discs where they are seen as circles, which is then added to everything exactly; 0
 * where they are seen askew and belong to the region like the rest.
 */
const rim = new Float64Array(1);
/** The last support taken, in the plane, and its distance along the direction asked for. */
const taken = new Float64Array(3);

/** Whether the unit vector at `i` of a list is parallel to the unit vector given, to rounding. */
export function parallel(list: Float64Array, i: number, x: number, y: number, z: number): boolean {
  const cx = list[i + 1]! * z - list[i + 2]! * y;
  const cy = list[i + 2]! * x - list[i]! * z;
  const cz = list[i]! * y - list[i + 1]! * x;
  return cx * cx + cy * cy + cz * cz <= PARALLEL * PARALLEL;
}

/**
 * Least distance from the origin, within C, to the outline of C as seen along the edge direction at
 * `at` of `edges`. Returns an inner bound on it (negative when the origin is outside), and betters
 * `overlap` by every direction taken.
 */
export function leastAcross(
  a: Shape,
  b: Shape,
  sx: number,
  sy: number,
  sz: number,
  edges: Float64Array,
  at: number,
  largest: number,
): number {
  const ex = edges[at]!;
  const ey = edges[at + 1]!;
  const ez = edges[at + 2]!;
  planeAcross(ex, ey, ez);
  const trifle = 1e-13 * largest;
  const circles =
    (a.disc === 0 || parallel(a.axis, 0, ex, ey, ez)) &&
    (b.disc === 0 || parallel(b.axis, 0, ex, ey, ez));
  rim[0] = circles ? a.disc + b.disc : 0;
  if (circles) {
    // From outside the region without its rim, what counts is how far outside.
    const outside = distanceOutside(a, b, sx, sy, sz, trifle);
    if (outside > trifle) return rim[0] - outside;
  }
  return leastWithin(a, b, sx, sy, sz, trifle);
}

/** Distance from the origin to the region, rim left out: to a point of it, so never too small. */
function distanceOutside(
  a: Shape,
  b: Shape,
  sx: number,
  sy: number,
  sz: number,
  trifle: number,
): number {
  let c = 1;
  let s = 0;
  let count = 0;
  let reached = Infinity;
  for (let step = 0; step < MOST_STEPS; step++) {
    sample(a, b, sx, sy, sz, c, s);
    if (reached + (taken[2]! - rim[0]!) <= trifle) return reached;
    for (let k = 0; k < count; k++) {
      if (cornersC[3 * k] === taken[0]! && cornersC[3 * k + 1] === taken[1]!) return reached;
    }
    cornersC[3 * count] = taken[0]!;
    cornersC[3 * count + 1] = taken[1]!;
    cornersC[3 * count + 2] = 0;
    count = nearestOfSimplex(count + 1);
    if (count >= 3) return 0;
    const length = Math.sqrt(nearest[0]! * nearest[0]! + nearest[1]! * nearest[1]!);
    if (length <= trifle) return 0;
    if (length >= reached) return reached;
    reached = length;
    c = -nearest[0]! / length;
    s = -nearest[1]! / length;
  }
  return reached;
}

/** The same from within: a growing inner polygon, split at its nearest chord. */
function leastWithin(
  a: Shape,
  b: Shape,
  sx: number,
  sy: number,
  sz: number,
  trifle: number,
): number {
  let used = 0;
  for (let k = 0; k < 6; k++) {
    const c = k < 2 ? 1 : k === 3 || k === 4 ? -1 : 0;
    const s = k === 2 ? 1 : k === 5 ? -1 : k === 0 || k === 4 ? -NUDGE : NUDGE;
    sample(a, b, sx, sy, sz, c, s);
    cornerX[used] = taken[0]!;
    cornerY[used] = taken[1]!;
    used++;
  }
  for (let k = 0; k < used; k++) {
    next[k] = (k + 1) % used;
    measure(k, trifle);
  }
  let settled = Infinity;
  for (;;) {
    let closest = 0;
    for (let k = 1; k < used; k++) if (chord[k]! < chord[closest]!) closest = k;
    const inner = chord[closest]!;
    // The shortest move found so far is shorter than any that this polygon can still hide.
    if (inner >= -overlap.lower - RULED_TOLERANCE || used === MOST_CHORDS) {
      return Math.min(settled, inner);
    }
    const j = next[closest]!;
    const ex = cornerX[j]! - cornerX[closest]!;
    const ey = cornerY[j]! - cornerY[closest]!;
    const length = Math.sqrt(ex * ex + ey * ey);
    sample(a, b, sx, sy, sz, ey / length, -ex / length);
    if (taken[2]! < 0) return taken[2]!;
    if (taken[2]! - inner <= trifle) {
      settled = Math.min(settled, inner);
      chord[closest] = Infinity;
      continue;
    }
    cornerX[used] = taken[0]!;
    cornerY[used] = taken[1]!;
    next[used] = j;
    next[closest] = used;
    measure(closest, trifle);
    measure(used, trifle);
    used++;
  }
}

/** Unit axes of the plane across e, the first toward the best direction known if that is across e. */
function planeAcross(ex: number, ey: number, ez: number): void {
  const along = overlap.nx * ex + overlap.ny * ey + overlap.nz * ez;
  let px = overlap.nx - along * ex;
  let py = overlap.ny - along * ey;
  let pz = overlap.nz - along * ez;
  let length = Math.sqrt(px * px + py * py + pz * pz);
  if (length < 0.1) {
    const mx = Math.abs(ex);
    const my = Math.abs(ey);
    const mz = Math.abs(ez);
    const x = mx <= my && mx <= mz ? 1 : 0;
    const y = x === 0 && my <= mz ? 1 : 0;
    const z = x === 0 && y === 0 ? 1 : 0;
    px = ey * z - ez * y;
    py = ez * x - ex * z;
    pz = ex * y - ey * x;
    length = Math.sqrt(px * px + py * py + pz * pz);
  }
  frame[0] = px / length;
  frame[1] = py / length;
  frame[2] = pz / length;
  frame[3] = ey * frame[2] - ez * frame[1];
  frame[4] = ez * frame[0] - ex * frame[2];
  frame[5] = ex * frame[1] - ey * frame[0];
}

/**
 * Support of C along the unit direction (c, s) in the plane, less the rim, and its reach with it; the
 * parting direction is the opposite one.
 */
function sample(
  a: Shape,
  b: Shape,
  sx: number,
  sy: number,
  sz: number,
  c: number,
  s: number,
): void {
  const dx = c * frame[0]! + s * frame[3]!;
  const dy = c * frame[1]! + s * frame[4]!;
  const dz = c * frame[2]! + s * frame[5]!;
  support(a, dx, dy, dz, pointA);
  support(b, -dx, -dy, -dz, pointB);
  const wx = pointA[0]! + sx - pointB[0]!;
  const wy = pointA[1]! + sy - pointB[1]!;
  const wz = pointA[2]! + sz - pointB[2]!;
  taken[0] = wx * frame[0]! + wy * frame[1]! + wz * frame[2]!;
  taken[1] = wx * frame[3]! + wy * frame[4]! + wz * frame[5]!;
  taken[2] = wx * dx + wy * dy + wz * dz;
  taken[0] -= rim[0]! * c;
  taken[1] -= rim[0]! * s;
  noteParting(-taken[2], -dx, -dy, -dz);
}

function measure(k: number, trifle: number): void {
  const x = cornerX[k]!;
  const y = cornerY[k]!;
  const ex = cornerX[next[k]!]! - x;
  const ey = cornerY[next[k]!]! - y;
  const length = Math.sqrt(ex * ex + ey * ey);
  // A chord of no length is a corner, and a corner is never nearest from within.
  chord[k] = length <= trifle ? Infinity : (ey * x - ex * y) / length + rim[0]!;
}
