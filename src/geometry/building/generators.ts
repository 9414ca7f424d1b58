/**
 * Boxes, parallelograms, segments and points, as a centre and up to three generators (half edges):
 * their corners and facets, without looking for a hull.
 */

import { facetsOf, type Facets } from './facets.js';
import {
  acrossOf,
  along,
  cross,
  dot,
  norm,
  opposite,
  unit,
  type Points,
  type V,
} from './vectors.js';

/** Least volume of three unit generators that is still handled as a box. */
const SLENDER = 1e-6;

/** Whether at most three generators span a box, parallelogram or segment without being near flat. */
export function isPlain(generators: readonly V[]): boolean {
  if (generators.length > 3) return false;
  const [a, b, c] = generators.map(unit);
  if (a === undefined || b === undefined) return true;
  const area = cross(a, b);
  return c === undefined ? norm(area) > SLENDER : Math.abs(dot(area, c)) > SLENDER;
}

/** Every point carried to both ends of each generator. */
export function spread(points: Points, generators: readonly V[]): Points {
  let all = points;
  for (const g of generators) {
    all = [...all.map((v, i) => v - g[i % 3]!), ...all.map((v, i) => v + g[i % 3]!)];
  }
  return all;
}

/** Facets of plain generators and the corners they spread to; the normals come in opposite pairs. */
export function plainFacets(corners: Points, generators: readonly V[]): Facets {
  const directions = generators.map(unit);
  const normals = acrossAll(directions).flatMap((v) => {
    const n = unit(v);
    return [...n, ...opposite(n)];
  });
  return facetsOf(corners, normals, directions.flat());
}

/** A normal of each pair of sides, of any length. */
function acrossAll(directions: readonly V[]): V[] {
  const [a, b, c] = directions;
  if (a === undefined) return [along(0, 1), along(1, 1), along(2, 1)];
  if (b === undefined) return [...acrossOf(a), a];
  if (c !== undefined) return [cross(a, b), cross(b, c), cross(c, a)];
  const n = cross(a, b);
  return [n, cross(a, n), cross(b, n)];
}
