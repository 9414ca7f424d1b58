/**
 * The overlap of two solids without discs at several displacements: the directions that can be the
 * shortest way out do not depend on the displacement, so how far the solids reach along each is found once.
 */

import { coreExtent } from '../reach.js';
import type { Shape } from '../shape.js';
import { across, crossOf } from './parting.js';

/** Pairs of edges beyond which trying every pair takes longer than each displacement by itself. */
const MANY_PAIRS = 300;

/** What is being filled; numbers that change live in arrays, which never allocate. */
const count = new Int32Array(1);
let shifts: Float64Array = new Float64Array(0);
let values: Float64Array = new Float64Array(0);

/**
 * For each of `many` displacements of A (xyz in `at`) the greatest separation of the cores over every
 * facet normal of either and every cross of their edges, to `out`: where it is not above 0 the cores
 * overlap and it is their signed gap, exactly; above 0 it only tells that they are apart. False, with
 * nothing written, where the solids have discs or too many edges.
 */
export function overlapsAt(
  a: Shape,
  b: Shape,
  at: Float64Array,
  many: number,
  out: Float64Array,
): boolean {
  if (a.disc > 0 || b.disc > 0) return false;
  if (a.edges.length * b.edges.length > 9 * MANY_PAIRS) return false;
  shifts = at;
  values = out;
  count[0] = many;
  values.fill(-Infinity, 0, many);
  // Boxes, segments and points have their normals in opposite pairs, which one line covers.
  normals(a, b, a.normals, a.generatorCount >= 0 ? 6 : 3);
  normals(a, b, b.normals, b.generatorCount >= 0 ? 6 : 3);
  const ea = a.edges;
  const eb = b.edges;
  for (let i = 0; i < ea.length; i += 3) {
    for (let j = 0; j < eb.length; j += 3) if (crossOf(ea, i, eb, j)) line(a, b, across, 0);
  }
  return true;
}

function normals(a: Shape, b: Shape, from: Float64Array, stride: number): void {
  for (let i = 0; i < from.length; i += stride) line(a, b, from, i);
}

/** Tries a unit direction and its opposite at every displacement. */
function line(a: Shape, b: Shape, n: Float64Array, i: number): void {
  const x = n[i]!;
  const y = n[i + 1]!;
  const z = n[i + 2]!;
  // Separation along n is s - up, against it -s - down, with s the displacement along n.
  const up = coreExtent(a, -x, -y, -z) + coreExtent(b, x, y, z);
  const down = coreExtent(a, x, y, z) + coreExtent(b, -x, -y, -z);
  const many = count[0]!;
  for (let k = 0; k < many; k++) {
    const s = x * shifts[3 * k]! + y * shifts[3 * k + 1]! + z * shifts[3 * k + 2]!;
    const gap = Math.max(s - up, -s - down);
    if (gap > values[k]!) values[k] = gap;
  }
}
