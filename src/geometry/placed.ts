/** A shape turned or moved, with its points, normals and edges. */

import type { Shape } from './shape.js';

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

/** The shape moved, in buffers of its own where they differ. */
export function shifted(shape: Shape, x: number, y: number, z: number): Shape {
  const points = Float64Array.from(shape.points, (v, i) => v + [x, y, z][i % 3]!);
  const center = Float64Array.from(shape.center, (v, i) => v + [x, y, z][i]!);
  const n = shape.normals;
  const offsets = shape.offsets.map(
    (h, f) => h + n[3 * f]! * x + n[3 * f + 1]! * y + n[3 * f + 2]! * z,
  );
  return { ...shape, points, center, offsets };
}
