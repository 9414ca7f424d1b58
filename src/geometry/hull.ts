/**
 * Convex hull of a small point set in any dimension from 0 to 3, with coplanar facets merged.
 *
 * Made for tens of points, not thousands. Every pair of points is judged on its own (do all the
 * others lie in one wedge about the line through the two?), so no topology is built up that rounding
 * could break. Repeated, collinear and coplanar points are welcome.
 */

/** How flat counts as flat, as a share of the size of the set. */
export const FLATNESS = 1e-9;
/** Rounding of the coordinates themselves, as a share of the largest. */
const ROUNDING = 1e-14;

export interface Hull {
  readonly dimension: 0 | 1 | 2 | 3;
  /** The vertices, xyz triples. */
  readonly points: Float64Array;
  /**
   * Unit outward normals, each once, with the support of the hull along each: the hull is
   * {p : normal . p <= offset for all}, in every dimension. Full: one a facet. Flat: both sides,
   * then the edges' normals within the plane. Segment: two pairs across, then both ends. Point:
   * both ways along each axis.
   */
  readonly normals: Float64Array;
  readonly offsets: Float64Array;
  /** Unit edge directions, one per parallel class. */
  readonly edges: Float64Array;
}

/** Hull of xyz triples; at least one point, all finite. */
export function hullOf(xyz: ArrayLike<number>): Hull {
  const set = distinct(xyz);
  const { p, tolerance } = set;
  const n = p.length / 3;
  const far1 = farthest(n, (k) => distance(p, 0, k));
  if (n === 1 || distance(p, 0, far1) <= tolerance) return pointHull(p);
  const e = unitFrom(p, 0, far1);
  const offLine = (k: number): number => {
    const c = cross(e, sub(p, k, 0));
    return Math.hypot(c[0], c[1], c[2]);
  };
  const far2 = farthest(n, offLine);
  if (offLine(far2) <= tolerance) return segmentHull(p, e);
  const normal = unit(cross(e, sub(p, far2, 0)));
  const offPlane = (k: number): number => Math.abs(dot(normal, sub(p, k, 0)));
  const far3 = farthest(n, offPlane);
  return offPlane(far3) <= tolerance ? flatHull(p, e, normal, tolerance) : solidHull(p, tolerance);
}

type V = [number, number, number];

function distinct(xyz: ArrayLike<number>): { p: number[]; tolerance: number } {
  let size = 0;
  let largest = 0;
  for (let axis = 0; axis < 3; axis++) {
    let low = Infinity;
    let high = -Infinity;
    for (let i = axis; i < xyz.length; i += 3) {
      low = Math.min(low, xyz[i]!);
      high = Math.max(high, xyz[i]!);
    }
    size = Math.max(size, high - low);
    largest = Math.max(largest, Math.abs(low), Math.abs(high));
  }
  const tolerance = FLATNESS * size + ROUNDING * largest;
  const p: number[] = [];
  for (let i = 0; i + 2 < xyz.length; i += 3) {
    let known = false;
    for (let j = 0; j < p.length && !known; j += 3) {
      known =
        Math.hypot(xyz[i]! - p[j]!, xyz[i + 1]! - p[j + 1]!, xyz[i + 2]! - p[j + 2]!) <= tolerance;
    }
    if (!known) p.push(xyz[i]!, xyz[i + 1]!, xyz[i + 2]!);
  }
  return { p, tolerance };
}

function pointHull(p: number[]): Hull {
  const normals = [1, 0, 0, -1, 0, 0, 0, 1, 0, 0, -1, 0, 0, 0, 1, 0, 0, -1];
  return finish(0, p.slice(0, 3), normals, []);
}

function segmentHull(p: number[], e: V): Hull {
  const n = p.length / 3;
  const along = (k: number): number => dot(e, sub(p, k, 0));
  const last = farthest(n, along);
  const first = farthest(n, (k) => -along(k));
  const direction = unitFrom(p, first, last);
  const [u, v] = acrossOf(direction);
  const normals = [u, v, direction].flatMap((d) => [...d, -d[0], -d[1], -d[2]]);
  const ends = [...p.slice(3 * first, 3 * first + 3), ...p.slice(3 * last, 3 * last + 3)];
  return finish(1, ends, normals, direction);
}

function flatHull(p: number[], e: V, normal: V, tolerance: number): Hull {
  const g = cross(normal, e);
  const n = p.length / 3;
  const x = Array.from({ length: n }, (_, k) => dot(e, sub(p, k, 0)));
  const y = Array.from({ length: n }, (_, k) => dot(g, sub(p, k, 0)));
  const order = Array.from({ length: n }, (_, k) => k).sort(
    (a, b) => x[a]! - x[b]! || y[a]! - y[b]!,
  );
  const chain = (ids: number[]): number[] => {
    const out: number[] = [];
    for (const k of ids) {
      // Drop the middle of three when it stands out from the line of its neighbours by nothing.
      while (
        out.length > 1 &&
        standsOut(out[out.length - 2]!, out[out.length - 1]!, k) <= tolerance
      ) {
        out.pop();
      }
      out.push(k);
    }
    out.pop();
    return out;
  };
  const standsOut = (a: number, b: number, c: number): number => {
    const length = Math.hypot(x[c]! - x[a]!, y[c]! - y[a]!);
    const area = (x[b]! - x[a]!) * (y[c]! - y[a]!) - (y[b]! - y[a]!) * (x[c]! - x[a]!);
    return length > 0 ? area / length : 0;
  };
  const ring = [...chain(order), ...chain([...order].reverse())];
  const normals: number[] = [...normal, -normal[0], -normal[1], -normal[2]];
  const edges: number[] = [];
  for (let i = 0; i < ring.length; i++) {
    const direction = unitFrom(p, ring[i]!, ring[(i + 1) % ring.length]!);
    normals.push(...unit(cross(direction, normal)));
    addDirection(edges, direction);
  }
  return finish(
    2,
    ring.flatMap((k) => p.slice(3 * k, 3 * k + 3)),
    normals,
    edges,
  );
}

function solidHull(p: number[], tolerance: number): Hull {
  const n = p.length / 3;
  const size = distance(
    p,
    0,
    farthest(n, (k) => distance(p, 0, k)),
  );
  const apart = (8 * tolerance) / size;
  const normals: number[] = [];
  const edges: number[] = [];
  const onEdge = new Uint8Array(n);
  const between = new Uint8Array(n);
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      const wedge = wedgeAbout(p, i, j, tolerance);
      if (wedge === undefined) continue;
      const right = facetNormal(p, i, wedge.right, tolerance);
      const left = facetNormal(p, i, wedge.left, tolerance);
      if (right !== undefined) addNormal(normals, right, apart);
      if (left !== undefined) addNormal(normals, left, apart);
      // A diagonal of a facet has that one facet on both sides; an edge has two.
      if (near(right ?? wedge.right, left ?? wedge.left, apart)) continue;
      addDirection(edges, unitFrom(p, i, j));
      onEdge[i] = 1;
      onEdge[j] = 1;
      if (wedge.before) between[i] = 1;
      if (wedge.beyond) between[j] = 1;
    }
  }
  const points: number[] = [];
  for (let k = 0; k < n; k++) {
    if (onEdge[k] === 1 && between[k] === 0) points.push(p[3 * k]!, p[3 * k + 1]!, p[3 * k + 2]!);
  }
  if (points.length < 12 || normals.length < 12) {
    throw new Error('hullOf: a full-dimensional point set gave fewer than four vertices or facets');
  }
  return finish(3, points, normals, edges);
}

interface Wedge {
  /** Outward normals of the two planes through the pair that hold all other points between them. */
  readonly right: V;
  readonly left: V;
  /** True when another point lies on the same line before the first or beyond the second. */
  readonly before: boolean;
  readonly beyond: boolean;
}

/** The wedge about the line through points i and j that holds all the rest; undefined if none does. */
function wedgeAbout(p: number[], i: number, j: number, tolerance: number): Wedge | undefined {
  const e = unitFrom(p, i, j);
  const length = distance(p, i, j);
  const [u, v] = acrossOf(e);
  const n = p.length / 3;
  let started = false;
  let flat = false;
  let before = false;
  let beyond = false;
  let rx = 0;
  let ry = 0;
  let lx = 0;
  let ly = 0;
  for (let k = 0; k < n; k++) {
    if (k === i || k === j) continue;
    const q = sub(p, k, i);
    const x = dot(u, q);
    const y = dot(v, q);
    const r = Math.hypot(x, y);
    if (r <= tolerance) {
      const t = dot(e, q);
      before ||= t < -tolerance;
      beyond ||= t > length + tolerance;
      continue;
    }
    if (!started) {
      started = true;
      rx = lx = x / r;
      ry = ly = y / r;
      continue;
    }
    const fromRight = rx * y - ry * x;
    const fromLeft = lx * y - ly * x;
    if (flat && Math.abs(fromRight) > tolerance) {
      // The first two rays were opposite, so the side was open until now.
      flat = false;
      if (fromRight < 0) [rx, ry, lx, ly] = [lx, ly, rx, ry];
      continue;
    }
    if (fromRight < -tolerance && fromLeft > tolerance) return undefined;
    if (fromRight < -tolerance) {
      rx = x / r;
      ry = y / r;
    } else if (fromLeft > tolerance) {
      lx = x / r;
      ly = y / r;
    } else if (!flat && rx * x + ry * y < 0 && lx * x + ly * y < 0) {
      flat = true;
      lx = x / r;
      ly = y / r;
    }
  }
  const lift = (a: number, b: number): V => [
    a * u[0] + b * v[0],
    a * u[1] + b * v[1],
    a * u[2] + b * v[2],
  ];
  return { right: lift(ry, -rx), left: lift(-ly, lx), before, beyond };
}

/** The normal sharpened from the widest triangle of points on its plane; undefined if not a facet. */
function facetNormal(p: number[], i: number, rough: V, tolerance: number): V | undefined {
  const n = p.length / 3;
  const on: number[] = [];
  for (let k = 0; k < n; k++) {
    const above = dot(rough, sub(p, k, i));
    if (above > 4 * tolerance) return undefined;
    if (above >= -4 * tolerance) on.push(k);
  }
  const a = on[farthest(on.length, (k) => distance(p, i, on[k]!))]!;
  const b = on[farthest(on.length, (k) => distance(p, a, on[k]!))]!;
  const e = unitFrom(p, a, b);
  const wide = (k: number): number => {
    const c = cross(e, sub(p, on[k]!, a));
    return Math.hypot(c[0], c[1], c[2]);
  };
  const c = farthest(on.length, wide);
  if (wide(c) <= tolerance) return undefined;
  const sharp = unit(cross(e, sub(p, on[c]!, a)));
  const same = dot(sharp, rough) < 0 ? ([-sharp[0], -sharp[1], -sharp[2]] as V) : sharp;
  for (let k = 0; k < n; k++) if (dot(same, sub(p, k, a)) > 4 * tolerance) return rough;
  return same;
}

function finish(
  dimension: 0 | 1 | 2 | 3,
  points: number[],
  normals: number[],
  edges: number[],
): Hull {
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
    dimension,
    points: Float64Array.from(points),
    normals: Float64Array.from(normals),
    offsets,
    edges: Float64Array.from(edges),
  };
}

function addNormal(list: number[], n: V, apart: number): void {
  for (let k = 0; k < list.length; k += 3) {
    if (near([list[k]!, list[k + 1]!, list[k + 2]!], n, apart)) return;
  }
  list.push(...n);
}

function near(a: V, b: V, apart: number): boolean {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]) <= apart;
}

/** Adds a unit direction unless one parallel to it, to rounding, is there. */
function addDirection(list: number[], d: V): void {
  for (let k = 0; k < list.length; k += 3) {
    const c = cross([list[k]!, list[k + 1]!, list[k + 2]!], d);
    if (Math.hypot(c[0], c[1], c[2]) <= 1e-12) return;
  }
  list.push(...d);
}

/** Two unit vectors across a unit vector and each other, with u x v = d. */
export function acrossOf(d: V): [V, V] {
  const ax = Math.abs(d[0]);
  const ay = Math.abs(d[1]);
  const az = Math.abs(d[2]);
  const seed: V = ax <= ay && ax <= az ? [1, 0, 0] : ay <= az ? [0, 1, 0] : [0, 0, 1];
  const u = unit(cross(d, seed));
  return [u, cross(d, u)];
}

function farthest(n: number, of: (k: number) => number): number {
  let best = 0;
  for (let k = 1; k < n; k++) if (of(k) > of(best)) best = k;
  return best;
}

function sub(p: number[], a: number, b: number): V {
  return [p[3 * a]! - p[3 * b]!, p[3 * a + 1]! - p[3 * b + 1]!, p[3 * a + 2]! - p[3 * b + 2]!];
}

function distance(p: number[], a: number, b: number): number {
  const d = sub(p, a, b);
  return Math.hypot(d[0], d[1], d[2]);
}

function unitFrom(p: number[], a: number, b: number): V {
  return unit(sub(p, b, a));
}

function unit(d: V): V {
  const length = Math.hypot(d[0], d[1], d[2]);
  return [d[0] / length, d[1] / length, d[2] / length];
}

function dot(a: V, b: V): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function cross(a: V, b: V): V {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}
