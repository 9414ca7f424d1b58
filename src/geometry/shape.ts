/**
 * A convex solid made ready for distance queries, and what can be asked of it on its own.
 *
 * The solid is hull(points) (+) disc of radius `disc` across `axis` (+) ball of radius `ball`, where
 * (+) is the Minkowski sum: a box or hull is points alone, a cylinder a segment and a disc, a tube a
 * segment and a ball. Millimetres, in whatever frame the solid was given in.
 */

import type { Box, Solid, Vec3 } from '../model/scenario.js';
import { buildShape } from './build.js';

export interface Shape {
  /** The hull's vertices, xyz triples; a sweep is already added in. */
  readonly points: Float64Array;
  readonly count: number;
  /** Unit axis the disc is perpendicular to; zeros when `disc` is 0. */
  readonly axis: Float64Array;
  readonly disc: number;
  readonly ball: number;
  /**
   * Unit outward normals with hull(points) = {p : normals . p <= offsets}, in every dimension: each
   * facet once; a flat hull has both sides and its edges' normals within the plane; a segment two
   * pairs across and both ends; a point both ways along each axis.
   */
  readonly normals: Float64Array;
  readonly offsets: Float64Array;
  /** Unit edge directions of hull(points), one per parallel class. */
  readonly edges: Float64Array;
  /** Middle of the bounding box of the points (of the unturned shape, for a `placed` one). */
  readonly center: Float64Array;
  /** All of the solid, disc and ball included, lies within this of `center`. */
  readonly radius: number;
  /**
   * Where hull(points) is center + [-1, 1] g1 + ... with at most three generators (boxes, segments,
   * their sweeps along axes), their count, 0 to 3; else -1. Normals then come in opposite pairs.
   */
  readonly generatorCount: number;
  /** The generators, half edges, three slots of xyz. */
  readonly generators: Float64Array;
}

/**
 * The shape of a solid of the model: tilted, spread, then mirrored (y negated), moved, and swept, in that
 * order. `move` and `sweep` are in the frame of the mirrored solid. Throws only on a solid the model
 * should have refused (no points, not finite).
 */
export function shapeOf(
  solid: Solid,
  how: { mirrored?: boolean; move?: Vec3; sweep?: Box } = {},
): Shape {
  return buildShape(solid, how.mirrored ?? false, how.move, how.sweep);
}

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

/**
 * The shape turned about the origin by a row-major 3 x 3 rotation. The buffers of `into`, an earlier
 * result for a shape of the same make, are reused where they fit.
 */
export function placed(shape: Shape, rotation: Float64Array, into?: Shape): Shape {
  const fits =
    into !== undefined &&
    into !== shape &&
    into.points.length === shape.points.length &&
    into.normals.length === shape.normals.length &&
    into.edges.length === shape.edges.length;
  const out: { -readonly [K in keyof Shape]: Shape[K] } = fits
    ? into
    : {
        points: new Float64Array(shape.points.length),
        count: 0,
        axis: new Float64Array(3),
        disc: 0,
        ball: 0,
        normals: new Float64Array(shape.normals.length),
        offsets: shape.offsets,
        edges: new Float64Array(shape.edges.length),
        center: new Float64Array(3),
        radius: 0,
        generatorCount: -1,
        generators: new Float64Array(9),
      };
  out.count = shape.count;
  out.disc = shape.disc;
  out.ball = shape.ball;
  out.offsets = shape.offsets;
  out.radius = shape.radius;
  out.generatorCount = shape.generatorCount;
  turn(shape.points, rotation, out.points);
  turn(shape.axis, rotation, out.axis);
  turn(shape.normals, rotation, out.normals);
  turn(shape.edges, rotation, out.edges);
  turn(shape.center, rotation, out.center);
  turn(shape.generators, rotation, out.generators);
  return out;
}

function turn(from: Float64Array, r: Float64Array, to: Float64Array): void {
  const r0 = r[0]!;
  const r1 = r[1]!;
  const r2 = r[2]!;
  const r3 = r[3]!;
  const r4 = r[4]!;
  const r5 = r[5]!;
  const r6 = r[6]!;
  const r7 = r[7]!;
  const r8 = r[8]!;
  for (let i = 0; i < from.length; i += 3) {
    const x = from[i]!;
    const y = from[i + 1]!;
    const z = from[i + 2]!;
    to[i] = r0 * x + r1 * y + r2 * z;
    to[i + 1] = r3 * x + r4 * y + r5 * z;
    to[i + 2] = r6 * x + r7 * y + r8 * z;
  }
}
