/** Whether a point is in a shape. */

import { acrossAxis } from './reach.js';
import type { Shape } from './shape.js';

/**
 * Whether a point is in the core, every face moved out by `slack` (mm). Right for all shapes without
 * a disc and for cylinders, swept along or across their axis or not at all; any other shape with a
 * disc may answer false for a point that is in it, never true for one that is not.
 */
export function coreContains(
  shape: Shape,
  x: number,
  y: number,
  z: number,
  slack: number,
): boolean {
  if (shape.disc > 0) {
    const rounded = roundContains(shape, x, y, z, slack);
    if (rounded !== undefined) return rounded;
  }
  const n = shape.normals;
  const h = shape.offsets;
  for (let f = 0; f < h.length; f++) {
    if (n[3 * f]! * x + n[3 * f + 1]! * y + n[3 * f + 2]! * z > h[f]! + slack) return false;
  }
  return true;
}

/**
 * Whether the core, every face moved out by `slack`, holds the point wherever in [-1, 1]^4 it is moved by
 * `slide`, four columns of xyz. A face is nearest where every column goes towards it, so one look a face
 * answers for all corners; a shape with a disc is asked at each.
 */
export function coreContainsAll(
  shape: Shape,
  x: number,
  y: number,
  z: number,
  slide: Float64Array,
  slack: number,
): boolean {
  if (shape.disc > 0) return holdsCorners(shape, x, y, z, slide, slack);
  const n = shape.normals;
  const h = shape.offsets;
  for (let f = 0; f < h.length; f++) {
    const nx = n[3 * f]!;
    const ny = n[3 * f + 1]!;
    const nz = n[3 * f + 2]!;
    let out = nx * x + ny * y + nz * z;
    for (let k = 0; k < 12; k += 3) {
      out += Math.abs(nx * slide[k]! + ny * slide[k + 1]! + nz * slide[k + 2]!);
    }
    if (out > h[f]! + slack) return false;
  }
  return true;
}

function holdsCorners(
  shape: Shape,
  x: number,
  y: number,
  z: number,
  slide: Float64Array,
  slack: number,
): boolean {
  for (let corner = 0; corner < 16; corner++) {
    let sx = x;
    let sy = y;
    let sz = z;
    for (let k = 0; k < 4; k++) {
      const s = corner & (1 << k) ? 1 : -1;
      sx += s * slide[3 * k]!;
      sy += s * slide[3 * k + 1]!;
      sz += s * slide[3 * k + 2]!;
    }
    if (!coreContains(shape, sx, sy, sz, slack)) return false;
  }
  return true;
}

/** How far a generator may lean and still count as along or across the axis, mm. */
const LEAN = 1e-10;

/** Containment where generators lie along the axis or, at most two of them, across it. */
function roundContains(
  shape: Shape,
  x: number,
  y: number,
  z: number,
  slack: number,
): boolean | undefined {
  const u = shape.axis;
  const g = shape.generators;
  let half = 0;
  let first = -1;
  let second = -1;
  for (let i = 0; i < 3 * shape.generatorCount; i += 3) {
    const along = g[i]! * u[0]! + g[i + 1]! * u[1]! + g[i + 2]! * u[2]!;
    const across = acrossAxis(shape, g[i]!, g[i + 1]!, g[i + 2]!);
    if (across <= LEAN) half += Math.abs(along);
    else if (Math.abs(along) > LEAN) return undefined;
    else if (first < 0) first = i;
    else second = i;
  }
  if (shape.generatorCount < 0) return undefined;
  let dx = x - shape.center[0]!;
  let dy = y - shape.center[1]!;
  let dz = z - shape.center[2]!;
  const along = dx * u[0]! + dy * u[1]! + dz * u[2]!;
  if (Math.abs(along) > half + slack) return false;
  dx -= along * u[0]!;
  dy -= along * u[1]!;
  dz -= along * u[2]!;
  const reach = shape.disc + slack;
  if (first < 0) return dx * dx + dy * dy + dz * dz <= reach * reach;
  // Least distance to the rectangle of the generators across, one clamp each as they are square.
  if (second >= 0) {
    const skew =
      g[first]! * g[second]! + g[first + 1]! * g[second + 1]! + g[first + 2]! * g[second + 2]!;
    if (Math.abs(skew) > LEAN) return undefined;
  }
  for (const i of second < 0 ? [first] : [first, second]) {
    const gg = g[i]! * g[i]! + g[i + 1]! * g[i + 1]! + g[i + 2]! * g[i + 2]!;
    const t = (dx * g[i]! + dy * g[i + 1]! + dz * g[i + 2]!) / gg;
    const clamped = Math.max(-1, Math.min(1, t));
    dx -= clamped * g[i]!;
    dy -= clamped * g[i + 1]!;
    dz -= clamped * g[i + 2]!;
  }
  return dx * dx + dy * dy + dz * dz <= reach * reach;
}
