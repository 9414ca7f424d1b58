/**
 * Whether a row lies above the gap of two solids that overlap, by pairs of their points.
 *
 * The differences of the pairs span a surface of triangles. Closed, turning left as seen from outside, with
 * a place on the inner side of every triangle, it is met by every ray from that place, and never nearer
 * than the nearest of its planes. The difference of the two convex solids holds it, so the place lies in
 * that at least so deep: no shorter move parts them, and the signed gap is at most minus that.
 */

import type { InnerBody, Moment } from '../model/certificate.js';
import type { Corner, Range4 } from './box.js';
import { exactly, plus as plusExact, turnedAbout, turnOf, vector, ZERO } from './outward.js';
import type { Interval, Vector } from './outward.js';
import {
  constant,
  coordinate,
  cross,
  dot,
  known,
  leastOf,
  length,
  minus,
  pitchTurn,
  plus,
  product,
  scaled,
} from './slopes.js';
import type { Sloped, Vector3 } from './slopes.js';

/** Halvings of the pitch range before the body counts as not deep enough. */
const MOST_HALVINGS = 14;
/** Millimetres taken off a depth for points that are only as good as in their solids. */
const POINT_SLACK = 4e-6;

/** @param keepOn once false, it is not gone through, and holds nothing. */
export function innerBodyHolds(
  body: InnerBody,
  moment: Moment,
  box: Range4,
  corners: readonly Corner[],
  keepOn: () => boolean,
): boolean {
  if (!isClosed(body)) return false;
  const rocked = turnOf(moment.rock);
  const lifted: Vector = [ZERO, ZERO, exactly(moment.lift)];
  const engine = body.pairs.map(([a]) => plusExact(turnedAbout(0, rocked, vector(a)), lifted));
  const chassis = body.pairs.map(([, b]) => vector(b));
  const pieces = new Map<string, Seen>();
  const seen = (from: number, to: number): Seen => {
    const key = `${from} ${to}`;
    let found = pieces.get(key);
    if (!found) {
      const piece = pieceOf(box, from, to);
      found = { piece, points: engine.map((e, i) => difference(chassis[i]!, e, piece)) };
      pieces.set(key, found);
    }
    return found;
  };
  return body.facets.every((facet) =>
    corners.every((corner) => {
      const over = (from: number, to: number, left: number): boolean => {
        if (facetHolds(facet, corner, box, seen(from, to), seen)) return true;
        if (left === 0 || from === to || !keepOn()) return false;
        const middle = from + (to - from) / 2;
        return over(from, middle, left - 1) && over(middle, to, left - 1);
      };
      return over(box.lo[3], box.hi[3], MOST_HALVINGS);
    }),
  );
}

/** Every edge of the surface belongs to two triangles that run along it opposite ways. */
function isClosed({ pairs, facets }: InnerBody): boolean {
  const edges = new Set<string>();
  for (const facet of facets) {
    for (const i of [0, 1, 2] as const) {
      const [from, to] = [facet[i], facet[((i + 1) % 3) as 0 | 1 | 2]];
      if (!(from in pairs) || !(to in pairs) || from === to) return false;
      if (edges.has(`${from} ${to}`)) return false;
      edges.add(`${from} ${to}`);
    }
  }
  return (
    edges.size > 0 && [...edges].every((edge) => edges.has(edge.split(' ').reverse().join(' ')))
  );
}

/** A piece of the pitch range, as a box of that width alone. */
interface Piece {
  readonly range: Range4;
  readonly middle: readonly [number, number, number, number];
  readonly pitch: Sloped;
  readonly cos: Sloped;
  readonly sin: Sloped;
}

function pieceOf({ lo }: Range4, from: number, to: number): Piece {
  const middle = from + (to - from) / 2;
  const range: Range4 = { lo: [lo[0], lo[1], lo[2], from], hi: [lo[0], lo[1], lo[2], to] };
  return {
    range,
    middle: [lo[0], lo[1], lo[2], middle],
    pitch: coordinate(3, range.lo, range.hi, middle),
    ...pitchTurn(range.lo, range.hi, middle),
  };
}

/** The chassis's point less the engine's as pitch turns it. */
function difference(b: Vector, e: Vector, { cos, sin }: Piece): Vector3 {
  const [x, y, z] = e.map(known) as [Sloped, Sloped, Sloped];
  const [bx, by, bz] = b.map(known) as [Sloped, Sloped, Sloped];
  return [
    minus(bx, plus(product(x, cos), product(z, sin))),
    minus(by, y),
    minus(bz, minus(product(z, cos), product(x, sin))),
  ];
}

/** The body over a piece of the pitch range. */
interface Seen {
  readonly piece: Piece;
  readonly points: readonly Vector3[];
}

/**
 * Whether one triangle's plane lies far enough out over a piece of the pitch range, at one corner. What rises
 * or falls all over the piece is least at an end of it.
 */
function facetHolds(
  facet: readonly [number, number, number],
  corner: Corner,
  box: Range4,
  all: Seen,
  seen: (from: number, to: number) => Seen,
): boolean {
  const here = roomOf(facet, corner, box, all);
  const { lo: from, hi: to } = all.piece.range;
  return ([0, 1] as const).every((which) => {
    const one = here[which];
    const isOver = (x: number): boolean => (which === 0 ? x > 0 : x >= 0);
    if (isOver(leastIn(one, all))) return true;
    const { lo, hi } = one.slopes[3] ?? ZERO;
    if (lo >= 0) return isOver(roomOf(facet, corner, box, seen(from[3], from[3]))[which].middle.lo);
    if (hi <= 0) return isOver(roomOf(facet, corner, box, seen(to[3], to[3]))[which].middle.lo);
    return false;
  });
}

function leastIn(one: Sloped, { piece: { range, middle } }: Seen): number {
  return leastOf(one, range.lo, range.hi, middle);
}

/** The plane's depth, and that with the row added, both times the triangle's doubled area. */
function roomOf(
  facet: readonly [number, number, number],
  { x, row }: Corner,
  box: Range4,
  { piece, points }: Seen,
): readonly [Sloped, Sloped] {
  const [a, b, c] = facet.map((i) => points[i]!) as [Vector3, Vector3, Vector3];
  const less = (p: Vector3, q: Vector3): Vector3 => [
    minus(p[0], q[0]),
    minus(p[1], q[1]),
    minus(p[2], q[2]),
  ];
  const normal = cross(less(b, a), less(c, a));
  const from: Vector3 = [constant(x[0]), constant(x[1]), constant(x[2])];
  const depth = dot(normal, less(a, from));
  const room = minus(rowOver(row, box, piece), constant(POINT_SLACK));
  return [depth, plus(depth, product(room, length(normal)))];
}

/** The row along pitch at one corner. */
function rowOver(
  [low, high]: readonly [Interval, Interval],
  { lo, hi }: Range4,
  { pitch }: Piece,
): Sloped {
  const wide = hi[3] - lo[3];
  if (!(wide > 0)) return known({ lo: Math.min(low.lo, high.lo), hi: Infinity });
  const share = scaled(minus(pitch, constant(lo[3])), 1 / wide);
  // To rounding, which the slack takes in.
  return plus(constant(low.lo), scaled(share, high.lo - low.lo));
}
