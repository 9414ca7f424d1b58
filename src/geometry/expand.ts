/**
 * Overlap of any two convex cores by an expanding polytope: a polytope within C = A + shift - B is
 * grown at its facet nearest the origin. Its nearest facet bounds the parting move from within, the
 * supports taken bound it from without.
 */

import { overlap } from './parting.js';
import { support, type Shape } from './shape.js';

/** Facets at which the growth stops and the honest bracket is returned. */
const MOST_FACETS = 2000;
const MOST_CORNERS = 1200;
const ROOM = MOST_FACETS + 600;

const pointA = new Float64Array(3);
const pointB = new Float64Array(3);
const corner = new Float64Array(3 * MOST_CORNERS);
let corners = 0;
/** Corner numbers of each facet, counter-clockwise from outside; its unit normal and distance. */
const facet = new Int32Array(3 * ROOM);
const normal = new Float64Array(3 * ROOM);
const away = new Float64Array(ROOM);
const settled = new Uint8Array(ROOM);
let facets = 0;
const rim = new Int32Array(2 * 3 * ROOM);
let rims = 0;

/**
 * Betters `overlap.lower` and sets `overlap.upper`, to within `tolerance` mm unless the facets run
 * out first; `largest` is the largest coordinate, mm.
 */
export function expandOverlap(
  a: Shape,
  b: Shape,
  sx: number,
  sy: number,
  sz: number,
  largest: number,
  tolerance: number,
): void {
  const trifle = 1e-12 * largest;
  corners = 0;
  facets = 0;
  if (!begin(a, b, sx, sy, sz, trifle)) {
    // C has no thickness, so it has no inside: parting takes no more than a trifle.
    overlap.upper = Math.max(overlap.lower, 0);
    return;
  }
  let inner = -Infinity;
  for (;;) {
    let nearest = -1;
    inner = Infinity;
    for (let f = 0; f < facets; f++) {
      if (away[f]! >= inner) continue;
      inner = away[f]!;
      nearest = f;
    }
    if (-overlap.lower - inner <= tolerance) break;
    if (settled[nearest] === 1 || facets >= MOST_FACETS || corners >= MOST_CORNERS) break;
    const nx = normal[3 * nearest]!;
    const ny = normal[3 * nearest + 1]!;
    const nz = normal[3 * nearest + 2]!;
    const reach = take(a, b, sx, sy, sz, nx, ny, nz);
    if (reach < 0) break;
    if (reach - inner <= trifle || !grow(corners - 1, trifle)) settled[nearest] = 1;
  }
  overlap.upper = Math.max(overlap.lower, -(inner - trifle));
}

/** Adds the support of C along a unit direction as a corner; returns its reach. */
function take(
  a: Shape,
  b: Shape,
  sx: number,
  sy: number,
  sz: number,
  dx: number,
  dy: number,
  dz: number,
): number {
  support(a, dx, dy, dz, pointA);
  support(b, -dx, -dy, -dz, pointB);
  const x = pointA[0]! + sx - pointB[0]!;
  const y = pointA[1]! + sy - pointB[1]!;
  const z = pointA[2]! + sz - pointB[2]!;
  corner[3 * corners] = x;
  corner[3 * corners + 1] = y;
  corner[3 * corners + 2] = z;
  corners++;
  const reach = x * dx + y * dy + z * dz;
  if (-reach > overlap.lower) {
    overlap.lower = -reach;
    overlap.nx = -dx;
    overlap.ny = -dy;
    overlap.nz = -dz;
  }
  return reach;
}

const SEEDS = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
  [1, 1, 1],
  [-1, -1, -1],
  [1, 1, -1],
  [-1, -1, 1],
  [1, -1, 1],
  [-1, 1, -1],
  [-1, 1, 1],
  [1, -1, -1],
].map((d) => {
  const length = Math.hypot(d[0]!, d[1]!, d[2]!);
  return [d[0]! / length, d[1]! / length, d[2]! / length] as const;
});

/** A first tetrahedron from supports all round, then the rest of them; false if C is flat. */
function begin(a: Shape, b: Shape, sx: number, sy: number, sz: number, trifle: number): boolean {
  for (const [x, y, z] of SEEDS) take(a, b, sx, sy, sz, x, y, z);
  take(a, b, sx, sy, sz, -overlap.nx, -overlap.ny, -overlap.nz);
  const i = 0;
  const j = farthest((k) =>
    Math.hypot(at(k, 0) - at(i, 0), at(k, 1) - at(i, 1), at(k, 2) - at(i, 2)),
  );
  const k = farthest((q) => areaOf(i, j, q));
  const l = farthest((q) => Math.abs(volumeOf(i, j, k, q)));
  const area = areaOf(i, j, k);
  if (!(area > 0) || Math.abs(volumeOf(i, j, k, l)) / area <= 8 * trifle) return false;
  const [p, q] = volumeOf(i, j, k, l) < 0 ? [j, k] : [k, j];
  add(i, p, q);
  add(i, q, l);
  add(q, p, l);
  add(p, i, l);
  for (let c = 0; c < SEEDS.length + 1; c++) grow(c, trifle);
  return true;
}

function at(k: number, axis: number): number {
  return corner[3 * k + axis]!;
}

function farthest(of: (k: number) => number): number {
  let best = 0;
  for (let k = 1; k < corners; k++) if (of(k) > of(best)) best = k;
  return best;
}

const spanned = new Float64Array(3);

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
  return Math.hypot(spanned[0]!, spanned[1]!, spanned[2]!);
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

function add(i: number, j: number, k: number): void {
  crossOf(i, j, k);
  const length = Math.hypot(spanned[0]!, spanned[1]!, spanned[2]!);
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

/** Replaces the facets that corner c can see by facets to it; false when it sees none. */
function grow(c: number, trifle: number): boolean {
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
