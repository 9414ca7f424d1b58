/**
 * A polytope of triangles, grown corner by corner: the facets that a new corner can see give way to
 * facets from their rim to it. There is one, in module-level scratch; growing allocates nothing.
 */

import * as trig from '../../model/trig.js';
import { farthest } from '../building/vectors.js';

/** Facets and corners beyond which it should not be grown further. */
const MOST_FACETS = 2000;
const MOST_CORNERS = 1200;
const ROOM = MOST_FACETS + 600;

const corner = new Float64Array(3 * MOST_CORNERS);
let corners = 0;
/** Corner numbers of each facet, counter-clockwise from outside; its unit normal and distance. */
const facet = new Int32Array(3 * ROOM);
export const normal = new Float64Array(3 * ROOM);
export const away = new Float64Array(ROOM);
/** Facets that are known to be on the boundary of what is being filled. */
export const settled = new Uint8Array(ROOM);
let facets = 0;
const rim = new Int32Array(2 * 3 * ROOM);
let rims = 0;

/** Begins anew, without corners. */
export function clear(): void {
  corners = 0;
  facets = 0;
}

/** Sets a corner aside for `start` or `grow`, and returns its number. */
export function addCorner(x: number, y: number, z: number): number {
  corner[3 * corners] = x;
  corner[3 * corners + 1] = y;
  corner[3 * corners + 2] = z;
  return corners++;
}

/** Whether it has all the facets or corners it should have. */
export function isFull(): boolean {
  return facets >= MOST_FACETS || corners >= MOST_CORNERS;
}

/** The facet nearest the origin. */
export function nearestFacet(): number {
  let nearest = -1;
  let least = Infinity;
  for (let f = 0; f < facets; f++) {
    if (away[f]! >= least) continue;
    least = away[f]!;
    nearest = f;
  }
  return nearest;
}

/**
 * Spans the corners added so far: a first tetrahedron of them, then the rest. False, with nothing
 * made, if they are flat; `trifle` is what rounding may amount to, mm.
 */
export function start(trifle: number): boolean {
  const i = 0;
  const j = farthest(corners, (k) =>
    trig.hypot(at(k, 0) - at(i, 0), at(k, 1) - at(i, 1), at(k, 2) - at(i, 2)),
  );
  const k = farthest(corners, (q) => areaOf(i, j, q));
  const l = farthest(corners, (q) => Math.abs(volumeOf(i, j, k, q)));
  const area = areaOf(i, j, k);
  if (!(area > 0) || Math.abs(volumeOf(i, j, k, l)) / area <= 8 * trifle) return false;
  const [p, q] = volumeOf(i, j, k, l) < 0 ? [j, k] : [k, j];
  add(i, p, q);
  add(i, q, l);
  add(q, p, l);
  add(p, i, l);
  for (let c = 0; c < corners; c++) grow(c, trifle);
  return true;
}

/** Replaces the facets that corner c can see by facets to it; false when it sees none. */
export function grow(c: number, trifle: number): boolean {
  rims = 0;
  let kept = 0;
  const before = facets;
  for (let f = 0; f < before; f++) {
    const above =
      normal[3 * f]! * at(c, 0) + normal[3 * f + 1]! * at(c, 1) + normal[3 * f + 2]! * at(c, 2);
    if (above > away[f]! + trifle) {
      edge(facet[3 * f]!, facet[3 * f + 1]!);
      edge(facet[3 * f + 1]!, facet[3 * f + 2]!);
      edge(facet[3 * f + 2]!, facet[3 * f]!);
      continue;
    }
    if (kept !== f) move(f, kept);
    kept++;
  }
  facets = kept;
  if (kept === before) return false;
  for (let r = 0; r < rims; r++) add(rim[2 * r]!, rim[2 * r + 1]!, c);
  return true;
}

/** An edge met from both sides is inside the hole and cancels; what remains is its rim. */
function edge(i: number, j: number): void {
  for (let r = 0; r < rims; r++) {
    if (rim[2 * r] !== j || rim[2 * r + 1] !== i) continue;
    rims--;
    rim[2 * r] = rim[2 * rims]!;
    rim[2 * r + 1] = rim[2 * rims + 1]!;
    return;
  }
  rim[2 * rims] = i;
  rim[2 * rims + 1] = j;
  rims++;
}

function move(from: number, to: number): void {
  for (let k = 0; k < 3; k++) {
    facet[3 * to + k] = facet[3 * from + k]!;
    normal[3 * to + k] = normal[3 * from + k]!;
  }
  away[to] = away[from]!;
  settled[to] = settled[from]!;
}

function at(k: number, axis: number): number {
  return corner[3 * k + axis]!;
}

/** What `crossOf` found; arrays never allocate. */
const spanned = new Float64Array(3);

/** Square to the triangle, and twice its area long. */
function crossOf(i: number, j: number, k: number): void {
  const ux = at(j, 0) - at(i, 0);
  const uy = at(j, 1) - at(i, 1);
  const uz = at(j, 2) - at(i, 2);
  const vx = at(k, 0) - at(i, 0);
  const vy = at(k, 1) - at(i, 1);
  const vz = at(k, 2) - at(i, 2);
  spanned[0] = uy * vz - uz * vy;
  spanned[1] = uz * vx - ux * vz;
  spanned[2] = ux * vy - uy * vx;
}

function areaOf(i: number, j: number, k: number): number {
  crossOf(i, j, k);
  return trig.hypot(spanned[0]!, spanned[1]!, spanned[2]!);
}

/** Positive when q is on the side that triangle i, j, k is counter-clockwise from. */
function volumeOf(i: number, j: number, k: number, q: number): number {
  crossOf(i, j, k);
  return (
    spanned[0]! * (at(q, 0) - at(i, 0)) +
    spanned[1]! * (at(q, 1) - at(i, 1)) +
    spanned[2]! * (at(q, 2) - at(i, 2))
  );
}

/** Adds the triangle i, j, k, counter-clockwise from outside. */
function add(i: number, j: number, k: number): void {
  crossOf(i, j, k);
  const length = trig.hypot(spanned[0]!, spanned[1]!, spanned[2]!);
  const f = facets++;
  facet[3 * f] = i;
  facet[3 * f + 1] = j;
  facet[3 * f + 2] = k;
  settled[f] = 0;
  if (!(length > 0)) {
    // A facet of no area bounds nothing; its neighbours hold the polytope.
    normal[3 * f] = normal[3 * f + 1] = normal[3 * f + 2] = 0;
    away[f] = Infinity;
    return;
  }
  const x = spanned[0]! / length;
  const y = spanned[1]! / length;
  const z = spanned[2]! / length;
  normal[3 * f] = x;
  normal[3 * f + 1] = y;
  normal[3 * f + 2] = z;
  away[f] = Math.max(
    x * at(i, 0) + y * at(i, 1) + z * at(i, 2),
    x * at(j, 0) + y * at(j, 1) + z * at(j, 2),
    x * at(k, 0) + y * at(k, 1) + z * at(k, 2),
  );
}
