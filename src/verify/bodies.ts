/**
 * The solids of a part as a certificate speaks of them: from the scenario alone, each at one moment of its
 * own turn, with its sweep. A body is the hull of its points, each with a disc and a ball about it.
 */

import { maxOf } from '../model/extremes.js';
import { norm } from '../model/trig.js';
import type { PartInPlace } from '../model/options.js';
import { AXES } from '../model/scenario.js';
import type { Axis, Box, Part, Solid, Vec3 } from '../model/scenario.js';
import { dot, lengthOf, minus, plus } from '../model/vector.js';
import { skeletonOf, turnedAbout } from '../model/solids/skeleton.js';

/** Rounding allowed for where a body's points are worked out, as a share of the largest number on the way there. */
const ROUNDING = 1e-13;

export interface Body {
  readonly points: readonly Vec3[];
  readonly ball: number;
  readonly disc?: { readonly radius: number; readonly normal: Vec3 } | undefined;
  /** Millimetres by which its points may be off by rounding. */
  readonly rounding: number;
}

/** How a part is taken: as it is in use, at rest, or on its way out. */
export type Use = 'in use' | 'at rest' | 'on its way out';

/** One solid of a part. @param angle of its own turn, radians; of no matter at rest and on the way out. */
export function bodyOf({ part, move }: PartInPlace, solid: Solid, use: Use, angle: number): Body {
  const { points, ball, disc } = skeletonOf(solid, part.mirrored);
  const { turn } = part;
  const isTurned = use === 'in use' && turn !== undefined && angle !== 0;
  const at: Vec3 = turn ? plus(turn.at, move) : [0, 0, 0];
  const turned = (v: Vec3, about: Vec3): Vec3 =>
    isTurned ? turnedAbout(v, { about: turn.about, by: angle, at: about }) : v;
  const sweep =
    use === 'in use' ? part.sweep : use === 'on its way out' ? part.comesOut : undefined;
  // Half widths are the same mirrored or not, and come before the turn.
  const spread = solid.spread && cornersOf(halves(solid.spread));
  const core = (spread ? points.flatMap((p) => spread.map((by) => plus(p, by))) : points).map((p) =>
    turned(plus(p, move), at),
  );
  const all = sweep ? core.flatMap((p) => cornersOf(sweep).map((by) => plus(p, by))) : core;
  // What was turned about a place far away was as far away on the way, and rounded so.
  const through = [...all, move, ...(isTurned ? [at] : []), ...(solid.tilt ? [solid.tilt.at] : [])];
  const size = Math.max(disc?.radius ?? 0, ball, maxOf(through.flat().map(Math.abs)));
  return {
    points: all,
    ball,
    ...(disc && { disc: { radius: disc.radius, normal: turned(disc.normal, [0, 0, 0]) } }),
    rounding: ROUNDING * size,
  };
}

/** How far a part turns by itself in use; nothing where it does not. */
export function turnRange(part: Part): { readonly min: number; readonly max: number } {
  return part.turn?.by ?? { min: 0, max: 0 };
}

function halves([x, y, z]: Vec3): Box {
  return { x: { min: -x, max: x }, y: { min: -y, max: y }, z: { min: -z, max: z } };
}

function cornersOf(box: Box): Vec3[] {
  const ends = (axis: Axis): number[] => {
    const { min, max } = box[axis];
    return min === max ? [min] : [min, max];
  };
  const [xs, ys, zs] = AXES.map(ends);
  return xs!.flatMap((x) => ys!.flatMap((y) => zs!.map((z): Vec3 => [x, y, z])));
}

/** How close a point must be proved to a body to count as in it, millimetres. */
export const CLOSE_ENOUGH = 1e-6;
/** Support points after which a point that is not yet near counts as outside. */
const MOST_STEPS = 200;

/**
 * How far a point lies from a body without its ball, at the most: the distance to a point that is put
 * together of the body's own, found by Wolfe's method for the nearest point of a hull (Mathematical
 * Programming 11, 1976), and measured afresh. Stops once it is `CLOSE_ENOUGH`, so more than that means
 * outside, or not proved in.
 */
export function distanceTo(body: Body, p: Vec3): number {
  if (!body.disc) return distanceToHull(body, p);
  // What a disc takes up of the way to the points alone: all of it where they run along its axis.
  const across = aside(body, p);
  const plain = distanceToHull({ ...body, disc: undefined }, minus(p, across));
  return plain <= CLOSE_ENOUGH ? plain : distanceToHull(body, p);
}

/** The part of the way from the nearest of the bare points to `p` that the disc about it reaches. */
function aside(body: Body, p: Vec3): Vec3 {
  const { radius, normal } = body.disc!;
  const { nearest } = nearestOf({ ...body, disc: undefined }, p);
  const way = minus(p, nearest);
  const along = dot(way, normal);
  const across: Vec3 = [
    way[0] - along * normal[0],
    way[1] - along * normal[1],
    way[2] - along * normal[2],
  ];
  const size = norm(across);
  const share = size > radius ? radius / size : 1;
  return [share * across[0], share * across[1], share * across[2]];
}

function distanceToHull(body: Body, p: Vec3): number {
  return nearestOf(body, p).distance + body.rounding;
}

function nearestOf(body: Body, p: Vec3): { nearest: Vec3; distance: number } {
  return nearestAmong(body.points[0]!, (d) => farthest(body, d), p);
}

/** The point nearest to `p` of a convex body that is known by its farthest point along any direction. */
export function nearestAmong(
  first: Vec3,
  farthestAlong: (d: Vec3) => Vec3,
  p: Vec3,
): { nearest: Vec3; distance: number } {
  const held: Held[] = [];
  let weights: number[] = [];
  let nearest: Vec3 = first;
  let distance = Infinity;
  let towards: Vec3 = minus(p, nearest);
  for (let step = 0; step < MOST_STEPS; step++) {
    const next = farthestAlong(towards);
    if (held.some((one) => same(one, next))) break;
    held.push(next);
    weights.push(held.length === 1 ? 1 : 0);
    weights = settle(held, weights, p);
    for (let i = held.length - 1; i >= 0; i--) {
      if (weights[i]! > 0) continue;
      held.splice(i, 1);
      weights.splice(i, 1);
    }
    nearest = mixed(held, weights);
    towards = minus(p, nearest);
    const now = lengthOf(towards);
    if (now >= distance) break;
    distance = now;
    if (distance <= CLOSE_ENOUGH / 4) break;
  }
  return { nearest, distance };
}

type Held = Vec3;

function same(a: Vec3, b: Vec3): boolean {
  return a[0] === b[0] && a[1] === b[1] && a[2] === b[2];
}

/** The body's own point farthest along a direction. */
export function farthest({ points, disc }: Body, d: Vec3): Vec3 {
  let best = points[0]!;
  let far = -Infinity;
  for (const one of points) {
    const along = one[0] * d[0] + one[1] * d[1] + one[2] * d[2];
    if (along <= far) continue;
    far = along;
    best = one;
  }
  if (!disc) return best;
  const { normal, radius } = disc;
  const along = d[0] * normal[0] + d[1] * normal[1] + d[2] * normal[2];
  const aside: Vec3 = [
    d[0] - along * normal[0],
    d[1] - along * normal[1],
    d[2] - along * normal[2],
  ];
  const size = lengthOf(aside);
  if (!(size > 1e-12 * lengthOf(d))) return best;
  const by = radius / size;
  return [best[0] + by * aside[0], best[1] + by * aside[1], best[2] + by * aside[2]];
}

/** Weights >= 0 summing to 1 that bring the held points nearest to `p`, from weights that do so less well. */
function settle(held: readonly Held[], from: readonly number[], p: Vec3): number[] {
  let weights = [...from];
  let active = held.map((_, i) => i);
  for (;;) {
    const best = affine(active.map((i) => minus(held[i]!, p)));
    if (!best) return weights;
    if (best.every((w) => w > 1e-14)) {
      weights = weights.map(() => 0);
      active.forEach((i, k) => (weights[i] = best[k]!));
      return weights;
    }
    // As far that way as no weight falls below 0; what reaches it is let go.
    let step = 1;
    active.forEach((i, k) => {
      if (best[k]! <= 1e-14 && weights[i]! - best[k]! > 0) {
        step = Math.min(step, weights[i]! / (weights[i]! - best[k]!));
      }
    });
    active.forEach((i, k) => (weights[i] = weights[i]! + step * (best[k]! - weights[i]!)));
    const left = active.filter((i) => weights[i]! > 1e-14);
    if (left.length === active.length || left.length === 0) return clean(weights);
    active = left;
    weights = clean(weights.map((w, i) => (active.includes(i) ? w : 0)));
  }
}

function clean(weights: readonly number[]): number[] {
  const kept = weights.map((w) => (w > 1e-14 ? w : 0));
  const all = kept.reduce((sum, w) => sum + w, 0);
  return all > 0 ? kept.map((w) => w / all) : kept.map((_, i) => (i === 0 ? 1 : 0));
}

/** Weights summing to 1 that bring these vectors' sum nearest to 0; undefined where they are dependent. */
function affine(vectors: readonly Vec3[]): number[] | undefined {
  const n = vectors.length;
  if (n === 1) return [1];
  if (n > 4) return undefined;
  // From the first: least squares for the others' weights, by the normal equations.
  const [first, ...others] = vectors;
  const edges = others.map((v) => minus(v, first!));
  const m = edges.map((a) => [...edges.map((b) => dot(a, b)), -dot(a, first!)]);
  for (let i = 0; i < m.length; i++) {
    let top = i;
    for (let r = i + 1; r < m.length; r++) if (Math.abs(m[r]![i]!) > Math.abs(m[top]![i]!)) top = r;
    [m[i], m[top]] = [m[top]!, m[i]!];
    if (!(Math.abs(m[i]![i]!) > 1e-18)) return undefined;
    for (let r = 0; r < m.length; r++) {
      if (r === i) continue;
      const f = m[r]![i]! / m[i]![i]!;
      for (let c = i; c <= m.length; c++) m[r]![c]! -= f * m[i]![c]!;
    }
  }
  const rest = m.map((row, i) => row[m.length]! / row[i]!);
  return [1 - rest.reduce((sum, w) => sum + w, 0), ...rest];
}

function mixed(held: readonly Vec3[], weights: readonly number[]): Vec3 {
  const out: [number, number, number] = [0, 0, 0];
  held.forEach((v, i) => {
    for (const k of [0, 1, 2] as const) out[k] += weights[i]! * v[k];
  });
  return out;
}
