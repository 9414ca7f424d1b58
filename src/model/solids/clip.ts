/**
 * A convex solid cut by a plane, what is left of it convex again.
 *
 * Boxes, and cylinders and prisms across their own axis, stay what they are. Other flat-faced solids
 * become the hull of their corners. What is round becomes the hull of a polytope just around it, so
 * that there is never less metal than there is. A cylinder gets RING flats, a tube SIDES of them: its
 * radius grows by at most 1 / cos(pi / SIDES), 0.9 %. A round end, or a ball, gets flats along, across
 * and between, an eighth of a turn each; the corners between them stand out by 1 / cos(pi / 8) and 1 /
 * cos(pi / SIDES), 9.2 % together.
 */

import { cornersOf, pointAt } from './corners.js';
import { convexOutline } from './outline.js';
import { AXES } from '../scenario.js';
import type { Axis, Range, Solid, Vec3 } from '../scenario.js';
import { turnedAbout } from './skeleton.js';
import { cross, dot, lengthOf, minus, plus, unit } from '../vector.js';
import * as trig from '../trig.js';

/** Flats round a circle. */
const RING = 48;
/** Flats round a tube or ball, whose hull has rings of them. */
const SIDES = 24;
/** Millimetres within which a point counts as in the plane. */
export const IN_PLANE = 1e-9;

/** All points with `normal . p <= at`: what is kept. Unit normal, millimetres. */
export interface HalfSpace {
  readonly normal: Vec3;
  readonly at: number;
}

/** The half space on one side of a plane across an axis. */
export function across(axis: Axis, side: 'below' | 'above', at: number): HalfSpace {
  const sign = side === 'below' ? 1 : -1;
  const normal = AXES.map((one) => (one === axis ? sign : 0)) as [number, number, number];
  return { normal, at: sign * at };
}

/** Points whose hull is the solid as it stands, tilted and spread, or holds it closely where it is round. */
export function pointsOf({ tilt, spread, ...solid }: Solid): readonly Vec3[] {
  return pointsAround(solid as Solid)
    .map((point) => (tilt === undefined ? point : turnedAbout(point, tilt)))
    .flatMap((point) => spreadOver(point, spread));
}

/** What is left of a solid in a half space: itself, less, or undefined for nothing thick. */
export function clipped(solid: Solid, keep: HalfSpace): Solid | undefined {
  const axis = AXES.find((_, i) => Math.abs(keep.normal[i]!) === 1);
  if (axis === undefined || solid.tilt || solid.spread) return clippedHull(solid, keep);
  if (solid.shape === 'box') {
    const left = shortened(solid[axis], axis, keep);
    return left === solid[axis] ? solid : left && { ...solid, [axis]: left };
  }
  if ((solid.shape === 'cylinder' || solid.shape === 'prism') && solid.axis === axis) {
    const along = { min: solid.from, max: solid.to };
    const left = shortened(along, axis, keep);
    return left === along ? solid : left && { ...solid, from: left.min, to: left.max };
  }
  return clippedHull(solid, keep);
}

/** A range along an axis within a half space across it. */
function shortened(range: Range, axis: Axis, { normal, at }: HalfSpace): Range | undefined {
  const above = normal[AXES.indexOf(axis)]! < 0;
  const min = above ? Math.max(range.min, -at) : range.min;
  const max = above ? range.max : Math.min(range.max, at);
  if (min === range.min && max === range.max) return range;
  return max - min > IN_PLANE ? { min, max } : undefined;
}

function clippedHull(solid: Solid, { normal, at }: HalfSpace): Solid | undefined {
  const height = (point: Vec3): number => dot(normal, point) - at;
  const points = pointsOf(solid);
  const removed = points.filter((point) => height(point) > IN_PLANE);
  if (removed.length === 0) return solid;
  const kept = points.filter((point) => height(point) <= IN_PLANE);
  if (!kept.some((point) => height(point) < -IN_PLANE)) return undefined;
  // Every edge that the plane crosses joins a point kept to one removed; the others do no harm.
  const crossing = kept.flatMap((a) => removed.map((b) => between(a, b, height(a), height(b))));
  return { shape: 'hull', points: [...kept, ...outlineIn(crossing, normal)] };
}

/** The point of a segment at height 0, its ends at heights p <= 0 < q. */
function between(a: Vec3, b: Vec3, p: number, q: number): Vec3 {
  const share = Math.min(1, Math.max(0, -p) / (q - p));
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, a[2] + (b[2] - a[2]) * share];
}

/** Of points in one plane, those on their convex outline. */
function outlineIn(points: readonly Vec3[], normal: Vec3): readonly Vec3[] {
  const other: Vec3 = Math.abs(normal[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0];
  const u = unit(cross(normal, other));
  const v = cross(normal, u);
  const flat = points.map((point): readonly [number, number] => [dot(u, point), dot(v, point)]);
  const by = new Map(flat.map(([a, b], i) => [`${a} ${b}`, points[i]!]));
  return convexOutline(flat).map(([a, b]) => by.get(`${a} ${b}`)!);
}

/** Points whose hull is the solid before its tilt, or holds it closely where it is round. */
function pointsAround(solid: Solid): readonly Vec3[] {
  switch (solid.shape) {
    case 'cylinder':
      return circle(RING, solid.diameter / 2 / trig.cos(Math.PI / RING)).flatMap(([u, v]) =>
        [solid.from, solid.to].map((w) =>
          pointAt(solid.axis, w, solid.center[0] + u, solid.center[1] + v),
        ),
      );
    case 'ball':
      return capsule(solid.center, solid.center, solid.diameter / 2);
    case 'tube':
      return capsule(solid.from, solid.to, solid.diameter / 2);
    default:
      return cornersOf(solid);
  }
}

function circle(count: number, radius: number): (readonly [number, number])[] {
  return Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * (i + 0.5)) / count;
    return [radius * trig.cos(angle), radius * trig.sin(angle)] as const;
  });
}

/**
 * Points whose hull holds a round-ended solid: rings about its axis, two at each end, whose outline
 * along the axis has a flat along the side, one across the end and one between.
 */
function capsule(from: Vec3, to: Vec3, radius: number): Vec3[] {
  const run = minus(to, from);
  const length = lengthOf(run);
  const w: Vec3 = length > 0 ? unit(run) : [0, 0, 1];
  const u = unit(cross(w, Math.abs(w[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0]));
  const v = cross(w, u);
  const rings = [
    [radius, radius * trig.tan(Math.PI / 8)],
    [radius * trig.tan(Math.PI / 8), radius],
  ] as const;
  return rings.flatMap(([wide, far]) =>
    circle(SIDES, wide / trig.cos(Math.PI / SIDES)).flatMap(([a, b]) => [
      plus(plus(plus(from, u, a), v, b), w, -far),
      plus(plus(plus(to, u, a), v, b), w, far),
    ]),
  );
}

function spreadOver(point: Vec3, spread: Vec3 | undefined): Vec3[] {
  if (spread === undefined) return [point];
  return [-1, 1].flatMap((i) =>
    [-1, 1].flatMap((j) =>
      [-1, 1].map((k): Vec3 => [
        point[0] + i * spread[0],
        point[1] + j * spread[1],
        point[2] + k * spread[2],
      ]),
    ),
  );
}
