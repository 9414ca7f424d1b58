/**
 * Signed gap between two convex solids, with a certificate on either side.
 *
 * With C = A + shift - B (cores, without balls) the signed gap is max over unit n of
 * min_A n.(p + shift) - max_B n.q, less the two balls: the distance when apart, minus the shortest
 * parting move when overlapping. Any n gives a lower bound; a pair of points (apart) or an inner body
 * (overlapping) gives the upper one. Both are computed from supports and points actually taken, to
 * floating-point rounding (about 1e-15 of the largest coordinate, times a few), never from what an
 * algorithm believes. Millimetres throughout; nothing is allocated, but for a few closures where an
 * expanding polytope is begun (overlapping many-faced hulls, and cylinders on different axes).
 */

import { coreContains } from './contains.js';
import { best, descend, descent } from './descent.js';
import { flatOverlap } from './overlap/flat.js';
import { overlap } from './overlap/parting.js';
import { roundOverlap } from './overlap/round.js';
import { support } from './reach.js';
import type { Shape } from './shape.js';
import { cornersA, cornersB, weights } from './simplex.js';

/** How close the two bounds are brought for solids without discs, mm, beyond rounding. */
export const GAP_TOLERANCE = 1e-9;
/** The same where a disc is involved and the cores are apart, mm. */
export const ROUND_TOLERANCE = 1e-6;
/** Rounding allowed for, as a share of the largest coordinate. */
const ROUNDING = 2e-14;

export interface Gap {
  /** Certified: signed gap >= lower, by the separating direction n. */
  lower: number;
  /** Certified: signed gap <= upper, by the point pair (apart) or an inner body (overlapping). */
  upper: number;
  /**
   * Points on the two cores, world frame. Apart: upper = |a - b| less both balls. Overlapping: the
   * points deepest along n; they bound nothing.
   */
  ax: number;
  ay: number;
  az: number;
  bx: number;
  by: number;
  bz: number;
  /**
   * Unit direction from B's solid to A's: moving A along n opens the gap, and
   * lower = min_A n.p - max_B n.p. On entry a unit vector here is tried first as the answer; it
   * saves time and never changes the result by more than the tolerance.
   */
  nx: number;
  ny: number;
  nz: number;
  /** Whether the cores overlap or touch, to rounding. The solids may overlap by their balls alone. */
  coresOverlap: boolean;
}

/** A gap record to be reused from call to call. */
export function createGap(): Gap {
  return {
    lower: 0,
    upper: 0,
    ax: 0,
    ay: 0,
    az: 0,
    bx: 0,
    by: 0,
    bz: 0,
    nx: 0,
    ny: 0,
    nz: 0,
    coresOverlap: false,
  };
}

const pointA = new Float64Array(3);
const pointB = new Float64Array(3);

/** Signed gap between A moved by (sx, sy, sz) and B; all three in one frame. Writes `out`. */
export function gapBetween(a: Shape, b: Shape, sx: number, sy: number, sz: number, out: Gap): void {
  const round = a.disc > 0 || b.disc > 0;
  const ca = a.center;
  const cb = b.center;
  const largest =
    Math.abs(ca[0]! + sx) +
    Math.abs(ca[1]! + sy) +
    Math.abs(ca[2]! + sz) +
    Math.abs(cb[0]!) +
    Math.abs(cb[1]!) +
    Math.abs(cb[2]!) +
    a.radius +
    b.radius;
  const tolerance = (round ? ROUND_TOLERANCE : GAP_TOLERANCE) + ROUNDING * largest;
  if (round || a.generatorCount < 0 || b.generatorCount < 0) {
    descend(a, b, sx, sy, sz, out, tolerance, false);
  } else if (!descend(a, b, sx, sy, sz, out, tolerance, true)) {
    // Boxes whose centres' line does not part them mostly overlap, and their few directions are soon
    // tried; if one of those parts them after all, the descent starts from it.
    overlap.lower = -Infinity;
    flatOverlap(a, b, sx, sy, sz, largest);
    if (overlap.lower <= 0) return writeOverlap(a, b, sx, sy, sz, out);
    out.nx = overlap.nx;
    out.ny = overlap.ny;
    out.nz = overlap.nz;
    descend(a, b, sx, sy, sz, out, tolerance, false);
  }
  const apart = pair(out);
  const balls = a.ball + b.ball;
  if (!descent.inside && apart - best[0]! <= 2 * tolerance) {
    out.coresOverlap = best[0]! <= 0 && apart <= 2 * tolerance;
    write(out, best[0]!, Math.max(apart, best[0]!), balls);
    return;
  }
  overlap.lower = best[0]!;
  overlap.nx = best[1]!;
  overlap.ny = best[2]!;
  overlap.nz = best[3]!;
  if (round) roundOverlap(a, b, sx, sy, sz, largest);
  else flatOverlap(a, b, sx, sy, sz, largest);
  if (overlap.lower > 0 || (!descent.inside && overlap.upper > -tolerance)) {
    // Apart, by so little or at so poor an angle that the descent did not settle.
    best[1] = overlap.nx;
    best[2] = overlap.ny;
    best[3] = overlap.nz;
    out.coresOverlap = overlap.lower <= 0;
    const settled = apart - overlap.lower <= 2 * tolerance;
    const rounding = ROUNDING * largest;
    const faced = !settled && standsOver(a, b, sx, sy, sz, rounding, out);
    const least = faced ? Math.max(0, overlap.lower) + rounding : apart;
    write(out, overlap.lower, Math.max(least, overlap.lower), balls);
    return;
  }
  writeOverlap(a, b, sx, sy, sz, out);
}

/**
 * Whether the point of one core that is deepest along n of `best` stands over the other core, to `slack`, so that
 * what parts them along n is their distance. Writes those two points then, and else nothing.
 */
function standsOver(
  a: Shape,
  b: Shape,
  sx: number,
  sy: number,
  sz: number,
  slack: number,
  out: Gap,
): boolean {
  const nx = best[1]!;
  const ny = best[2]!;
  const nz = best[3]!;
  support(a, -nx, -ny, -nz, pointA);
  support(b, nx, ny, nz, pointB);
  const ax = pointA[0]! + sx;
  const ay = pointA[1]! + sy;
  const az = pointA[2]! + sz;
  const bx = pointB[0]!;
  const by = pointB[1]!;
  const bz = pointB[2]!;
  const apart = nx * (ax - bx) + ny * (ay - by) + nz * (az - bz);
  const dx = apart * nx;
  const dy = apart * ny;
  const dz = apart * nz;
  const overB = coreContains(b, ax - dx, ay - dy, az - dz, slack);
  if (!overB && !coreContains(a, bx + dx - sx, by + dy - sy, bz + dz - sz, slack)) return false;
  out.ax = overB ? ax : bx + dx;
  out.ay = overB ? ay : by + dy;
  out.az = overB ? az : bz + dz;
  out.bx = overB ? ax - dx : bx;
  out.by = overB ? ay - dy : by;
  out.bz = overB ? az - dz : bz;
  return true;
}

/** The overlap found, with the points of the two cores that are deepest along n. */
function writeOverlap(a: Shape, b: Shape, sx: number, sy: number, sz: number, out: Gap): void {
  best[1] = overlap.nx;
  best[2] = overlap.ny;
  best[3] = overlap.nz;
  out.coresOverlap = true;
  write(out, overlap.lower, Math.max(overlap.upper, overlap.lower), a.ball + b.ball);
  support(a, -best[1], -best[2], -best[3], pointA);
  support(b, best[1], best[2], best[3], pointB);
  out.ax = pointA[0]! + sx;
  out.ay = pointA[1]! + sy;
  out.az = pointA[2]! + sz;
  out.bx = pointB[0]!;
  out.by = pointB[1]!;
  out.bz = pointB[2]!;
}

function write(out: Gap, lower: number, upper: number, balls: number): void {
  out.lower = lower - balls;
  out.upper = upper - balls;
  out.nx = best[1]!;
  out.ny = best[2]!;
  out.nz = best[3]!;
}

/** The point pair of the simplex into `out`; returns its distance, from the points themselves. */
function pair(out: Gap): number {
  let ax = 0;
  let ay = 0;
  let az = 0;
  let bx = 0;
  let by = 0;
  let bz = 0;
  for (let k = 0; k < descent.count; k++) {
    const w = weights[k]!;
    ax += w * cornersA[3 * k]!;
    ay += w * cornersA[3 * k + 1]!;
    az += w * cornersA[3 * k + 2]!;
    bx += w * cornersB[3 * k]!;
    by += w * cornersB[3 * k + 1]!;
    bz += w * cornersB[3 * k + 2]!;
  }
  out.ax = ax;
  out.ay = ay;
  out.az = az;
  out.bx = bx;
  out.by = by;
  out.bz = bz;
  const x = ax - bx;
  const y = ay - by;
  const z = az - bz;
  return Math.sqrt(x * x + y * y + z * z);
}
