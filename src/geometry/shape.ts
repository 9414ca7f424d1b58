/**
 * A convex solid made ready for distance queries.
 *
 * The solid is hull(points) (+) disc of radius `disc` across `axis` (+) ball of radius `ball`, where
 * (+) is the Minkowski sum: a box or hull is points alone, a cylinder a segment and a disc, a tube a
 * segment and a ball. Millimetres, in whatever frame the solid was given in.
 */

import type { Solid } from '../model/scenario.js';
import * as trig from '../model/trig.js';
import { draftOf, type Handling } from './building/draft.js';
import type { Facets } from './building/facets.js';
import { isPlain, plainFacets, spread } from './building/generators.js';
import { hullOf } from './building/hull.js';
import { norm, rangeAlong, type V } from './building/vectors.js';

/** The facets are those of hull(points), a sweep already added in. */
export interface Shape extends Facets {
  /** How many points. */
  readonly count: number;
  /** Unit axis the disc is perpendicular to; zeros when `disc` is 0. */
  readonly axis: Float64Array;
  readonly disc: number;
  readonly ball: number;
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
 * The shape of a solid of the model: tilted, spread, then mirrored (y negated), moved, turned, and
 * swept, in that order. `move`, `turn` and `sweep` are in the frame of the mirrored solid. Throws only on a solid the model
 * should have refused (no points, not finite).
 */
export function shapeOf(solid: Solid, how: Handling = {}): Shape {
  const draft = draftOf(solid, how);
  const generators = draft.generators.filter((g) => norm(g) > 0);
  const loose = draft.points.length > 0;
  const corners = spread(loose ? draft.points.flat() : draft.center, generators);
  if (![...corners, ...draft.center].every(Number.isFinite)) {
    throw new RangeError('shapeOf: a coordinate is not finite');
  }
  const plain = !loose && isPlain(generators);
  const { points, normals, offsets, edges } = plain
    ? plainFacets(corners, generators)
    : hullOf(corners);
  const center = plain ? draft.center : middle(points);
  const slots = new Float64Array(9);
  if (plain) generators.forEach((g, i) => slots.set(g, 3 * i));
  return {
    points,
    count: points.length / 3,
    axis: Float64Array.from(draft.axis),
    disc: draft.disc,
    ball: draft.ball,
    normals,
    offsets,
    edges,
    center: Float64Array.from(center),
    radius: reachFrom(center, points) + draft.disc + draft.ball,
    generatorCount: plain ? generators.length : -1,
    generators: slots,
  };
}

/** Middle of the bounding box. */
function middle(points: Float64Array): V {
  return [0, 1, 2].map((axis) => {
    const [low, high] = rangeAlong(points, axis);
    return (low + high) / 2;
  }) as V;
}

/** Distance of the farthest point from a centre. */
function reachFrom(center: V, points: Float64Array): number {
  let reach = 0;
  for (let i = 0; i < points.length; i += 3) {
    const [x, y, z] = center;
    reach = Math.max(reach, trig.hypot(points[i]! - x, points[i + 1]! - y, points[i + 2]! - z));
  }
  return reach;
}
