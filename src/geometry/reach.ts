/** How far a shape reaches in a direction, and at which point. Nothing here allocates. */

import type { Shape } from './shape.js';

/** Squared tangent of the angle to a disc's axis below which a direction is squared up again. */
const NEAR_AXIS = 1e-6;
/** And below which it is along the axis, to rounding. */
const ON_AXIS = 1e-29;

const heading = new Float64Array(3);

/**
 * A point of the core (the solid without its ball) farthest along d, written to `out`. Returns its
 * dot product with d; d need not be a unit vector.
 */
export function support(
  shape: Shape,
  dx: number,
  dy: number,
  dz: number,
  out: Float64Array,
): number {
  heading[0] = dx;
  heading[1] = dy;
  heading[2] = dz;
  supportAlong(shape, heading, 1, out);
  return out[0]! * dx + out[1]! * dy + out[2]! * dz;
}

/**
 * The same along `sense` times d. It takes d in an array because numbers handed to a call this large
 * are put on the heap, and this is the innermost call of all.
 */
export function supportAlong(
  shape: Shape,
  d: Float64Array,
  sense: 1 | -1,
  out: Float64Array,
): void {
  const dx = sense * d[0]!;
  const dy = sense * d[1]!;
  const dz = sense * d[2]!;
  let x: number;
  let y: number;
  let z: number;
  const k = shape.generatorCount;
  if (k >= 0) {
    const c = shape.center;
    const g = shape.generators;
    x = c[0]!;
    y = c[1]!;
    z = c[2]!;
    for (let i = 0; i < 3 * k; i += 3) {
      const gx = g[i]!;
      const gy = g[i + 1]!;
      const gz = g[i + 2]!;
      if (gx * dx + gy * dy + gz * dz < 0) {
        x -= gx;
        y -= gy;
        z -= gz;
      } else {
        x += gx;
        y += gy;
        z += gz;
      }
    }
  } else {
    const p = shape.points;
    let at = 0;
    let best = -Infinity;
    for (let i = 0; i < p.length; i += 3) {
      const d = p[i]! * dx + p[i + 1]! * dy + p[i + 2]! * dz;
      if (d > best) {
        best = d;
        at = i;
      }
    }
    x = p[at]!;
    y = p[at + 1]!;
    z = p[at + 2]!;
  }
  if (shape.disc > 0) {
    const u = shape.axis;
    const ux = u[0]!;
    const uy = u[1]!;
    const uz = u[2]!;
    const along = dx * ux + dy * uy + dz * uz;
    let px = dx - along * ux;
    let py = dy - along * uy;
    let pz = dz - along * uz;
    let across = px * px + py * py + pz * pz;
    const near = along * along;
    if (across < NEAR_AXIS * near) {
      // Rounding has left a part along the axis, which would push the rim off its own plane.
      const left = px * ux + py * uy + pz * uz;
      px -= left * ux;
      py -= left * uy;
      pz -= left * uz;
      across = px * px + py * py + pz * pz;
    }
    // Straight along the axis every point of the disc is a support point; its centre will do.
    if (across > ON_AXIS * near) {
      const f = shape.disc / Math.sqrt(across);
      x += f * px;
      y += f * py;
      z += f * pz;
    }
  }
  out[0] = x;
  out[1] = y;
  out[2] = z;
}

/** How far the core (no ball) reaches along d: max of d . p over it. d need not be a unit vector. */
export function coreExtent(shape: Shape, dx: number, dy: number, dz: number): number {
  let best: number;
  const k = shape.generatorCount;
  if (k >= 0) {
    const c = shape.center;
    const g = shape.generators;
    best = c[0]! * dx + c[1]! * dy + c[2]! * dz;
    for (let i = 0; i < 3 * k; i += 3) {
      best += Math.abs(g[i]! * dx + g[i + 1]! * dy + g[i + 2]! * dz);
    }
  } else {
    const p = shape.points;
    best = -Infinity;
    for (let i = 0; i < p.length; i += 3) {
      const d = p[i]! * dx + p[i + 1]! * dy + p[i + 2]! * dz;
      if (d > best) best = d;
    }
  }
  return shape.disc > 0 ? best + shape.disc * acrossAxis(shape, dx, dy, dz) : best;
}

/** Length of the part of d that is perpendicular to the disc's axis. */
export function acrossAxis(shape: Shape, dx: number, dy: number, dz: number): number {
  const u = shape.axis;
  const along = dx * u[0]! + dy * u[1]! + dz * u[2]!;
  const px = dx - along * u[0]!;
  const py = dy - along * u[1]!;
  const pz = dz - along * u[2]!;
  return Math.sqrt(px * px + py * py + pz * pz);
}

/** How far the whole solid reaches along the unit vector d, ball included. */
export function extent(shape: Shape, dx: number, dy: number, dz: number): number {
  return coreExtent(shape, dx, dy, dz) + shape.ball;
}
