/** What a convex set of points is bounded by. */

import { cross, norm, pointOf, type Points, type V } from './vectors.js';

export interface Facets {
  /** The vertices, xyz triples. */
  readonly points: Float64Array;
  /**
   * Unit outward normals, each once, with the reach of the points along each: the hull is
   * {p : normal . p <= offset for all}, in every dimension. Full: one a facet. Flat: both sides,
   * then the edges' normals within the plane. Segment: two pairs across, then both ends. Point:
   * both ways along each axis.
   */
  readonly normals: Float64Array;
  readonly offsets: Float64Array;
  /** Unit edge directions, one per parallel class. */
  readonly edges: Float64Array;
}

/** Facets from vertices, normals and edges as lists of xyz; the offsets are measured. */
export function facetsOf(points: Points, normals: Points, edges: Points): Facets {
  const offsets = new Float64Array(normals.length / 3);
  for (let f = 0; f < offsets.length; f++) {
    let best = -Infinity;
    for (let k = 0; k < points.length; k += 3) {
      const d =
        normals[3 * f]! * points[k]! +
        normals[3 * f + 1]! * points[k + 1]! +
        normals[3 * f + 2]! * points[k + 2]!;
      if (d > best) best = d;
    }
    offsets[f] = best;
  }
  return {
    points: Float64Array.from(points),
    normals: Float64Array.from(normals),
    offsets,
    edges: Float64Array.from(edges),
  };
}

/** Sine between directions at or below which they count as parallel. */
const PARALLEL = 1e-12;

/** Adds a unit direction unless one parallel to it, to rounding, is there. */
export function addDirection(list: number[], d: V): void {
  for (let k = 0; 3 * k < list.length; k++) {
    if (norm(cross(pointOf(list, k), d)) <= PARALLEL) return;
  }
  list.push(...d);
}
