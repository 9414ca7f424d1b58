/**
 * Gilbert, Johnson and Keerthi's descent to the point of C = A + shift - B (cores) nearest the origin.
 *
 * What it finds stays in module-level scratch: the best separation and its direction in `best`, the
 * simplex in that of `simplex.ts`. Numbers that change live in arrays, which never allocate.
 */

import { supportAlong } from './reach.js';
import type { Shape } from './shape.js';
import { cornersA, cornersB, cornersC, nearest, nearestOfSimplex } from './simplex.js';

/** A direction from B to A; a unit vector to be of any use as a start. */
interface Direction {
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
}

const MOST_STEPS = 128;
/** Steps that may leave the length as it is, but for this share of it. */
const MOST_STALLED = 8;
const STALL = 1e-7;

/** Best separation found and the unit direction from B to A that has it. */
export const best = new Float64Array(4);
/** Corners left in the simplex, and whether it holds the origin. */
export const descent = { count: 0, inside: false };

const pointA = new Float64Array(3);
const pointB = new Float64Array(3);
const heading = new Float64Array(3);

/** The first direction: n of `start` if that is a unit vector, else from B's centre to A's. True if the latter. */
function begin(a: Shape, b: Shape, sx: number, sy: number, sz: number, start: Direction): boolean {
  const { nx, ny, nz } = start;
  best[0] = -Infinity;
  descent.count = 0;
  descent.inside = false;
  if (Math.abs(nx * nx + ny * ny + nz * nz - 1) < 1e-6) {
    heading[0] = nx;
    heading[1] = ny;
    heading[2] = nz;
    return false;
  }
  heading[0] = a.center[0]! + sx - b.center[0]!;
  heading[1] = a.center[1]! + sy - b.center[1]!;
  heading[2] = a.center[2]! + sz - b.center[2]!;
  if (heading[0] === 0 && heading[1] === 0 && heading[2] === 0) heading[0] = 1;
  return true;
}

/**
 * The descent, from n of `start` if that is a unit vector. Returns false, with nothing found, if `wary`
 * and the first direction does not part the cores.
 *
 * It is long because it is the innermost loop of all: what is called here beside `nearestOfSimplex`
 * keeps that from being compiled in place, and costs boxes a fifth of their speed.
 */
export function descend(
  a: Shape,
  b: Shape,
  sx: number,
  sy: number,
  sz: number,
  start: Direction,
  tolerance: number,
  wary: boolean,
): boolean {
  const cold = begin(a, b, sx, sy, sz, start);
  const boxes = a.generatorCount >= 0 && b.generatorCount >= 0 && a.disc === 0 && b.disc === 0;
  let vx = heading[0]!;
  let vy = heading[1]!;
  let vz = heading[2]!;
  const ga = a.generators;
  const gb = b.generators;
  if (boxes && cold) {
    // Parts are mostly near square to the axes, so what parts their upright bounds is a good guess.
    let ex = 0;
    let ey = 0;
    let ez = 0;
    for (let i = 0; i < 9; i += 3) {
      ex += Math.abs(ga[i]!) + Math.abs(gb[i]!);
      ey += Math.abs(ga[i + 1]!) + Math.abs(gb[i + 1]!);
      ez += Math.abs(ga[i + 2]!) + Math.abs(gb[i + 2]!);
    }
    const dx = vx > ex ? vx - ex : vx < -ex ? vx + ex : 0;
    const dy = vy > ey ? vy - ey : vy < -ey ? vy + ey : 0;
    const dz = vz > ez ? vz - ez : vz < -ez ? vz + ez : 0;
    if (dx !== 0 || dy !== 0 || dz !== 0) {
      vx = dx;
      vy = dy;
      vz = dz;
    }
  }
  let length = Math.sqrt(vx * vx + vy * vy + vz * vz);
  let reached = Infinity;
  let lower = -Infinity;
  let stalled = 0;
  const alongA = 3 * a.generatorCount;
  const alongB = 3 * b.generatorCount;
  const ax = a.center[0]! + sx;
  const ay = a.center[1]! + sy;
  const az = a.center[2]! + sz;
  const bx = b.center[0]!;
  const by = b.center[1]!;
  const bz = b.center[2]!;
  for (let step = 0; step < MOST_STEPS; step++) {
    let px: number;
    let py: number;
    let pz: number;
    let qx: number;
    let qy: number;
    let qz: number;
    if (boxes) {
      // Boxes are most of all calls, so their supports are written out in place.
      px = ax;
      py = ay;
      pz = az;
      for (let i = 0; i < alongA; i += 3) {
        const x = ga[i]!;
        const y = ga[i + 1]!;
        const z = ga[i + 2]!;
        const sign = x * vx + y * vy + z * vz > 0 ? -1 : 1;
        px += sign * x;
        py += sign * y;
        pz += sign * z;
      }
      qx = bx;
      qy = by;
      qz = bz;
      for (let i = 0; i < alongB; i += 3) {
        const x = gb[i]!;
        const y = gb[i + 1]!;
        const z = gb[i + 2]!;
        const sign = x * vx + y * vy + z * vz < 0 ? -1 : 1;
        qx += sign * x;
        qy += sign * y;
        qz += sign * z;
      }
    } else {
      heading[0] = vx;
      heading[1] = vy;
      heading[2] = vz;
      supportAlong(a, heading, -1, pointA);
      supportAlong(b, heading, 1, pointB);
      px = pointA[0]! + sx;
      py = pointA[1]! + sy;
      pz = pointA[2]! + sz;
      qx = pointB[0]!;
      qy = pointB[1]!;
      qz = pointB[2]!;
    }
    const wx = px - qx;
    const wy = py - qy;
    const wz = pz - qz;
    const separation = (vx * wx + vy * wy + vz * wz) / length;
    if (separation > lower) {
      lower = separation;
      best[0] = separation;
      best[1] = vx / length;
      best[2] = vy / length;
      best[3] = vz / length;
    }
    if (wary && step === 0 && !(separation > 0)) return false;
    if (reached - lower <= tolerance) return true;
    const count = descent.count;
    for (let k = 0; k < 3 * count; k += 3) {
      if (cornersC[k] === wx && cornersC[k + 1] === wy && cornersC[k + 2] === wz) return true;
    }
    const at = 3 * count;
    cornersC[at] = wx;
    cornersC[at + 1] = wy;
    cornersC[at + 2] = wz;
    cornersA[at] = px;
    cornersA[at + 1] = py;
    cornersA[at + 2] = pz;
    cornersB[at] = qx;
    cornersB[at + 1] = qy;
    cornersB[at + 2] = qz;
    descent.count = nearestOfSimplex(count + 1);
    if (descent.count === 4) {
      descent.inside = true;
      return true;
    }
    vx = nearest[0]!;
    vy = nearest[1]!;
    vz = nearest[2]!;
    length = Math.sqrt(vx * vx + vy * vy + vz * vz);
    // The digits of the length are used up. Before all but level faces its direction may go on to better ones.
    if (!(length < reached)) {
      if (!(length <= reached * (1 + STALL)) || ++stalled > MOST_STALLED) return true;
    } else reached = length;
    if (length === 0) return true;
  }
  return true;
}
