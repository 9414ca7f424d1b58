/**
 * What a convex solid covers in a view: its silhouette as a convex outline, counter-clockwise, corners
 * only. Straight sides are exact; where the solid is round the outline is inscribed, and lies no further
 * than CURVE inside the true one. Millimetres.
 */

import type { Shape } from '../geometry/shape.js';
import { convexOutline } from '../model/solids/outline.js';
import * as trig from '../model/trig.js';
import { onPaper } from './view.js';
import type { Point2, View } from './view.js';

/** A closed outline, its first corner not repeated. One or two corners where nothing is thick. */
export type Outline = readonly Point2[];

/** Millimetres that a round side may lie inside the true one. */
export const CURVE = 0.02;

/** Millimetres within which two corners are one. */
const SAME = 1e-9;

/** The silhouette of a solid that stands in the vehicle frame. */
export function outlineOf(shape: Shape, view: View): Outline {
  const points: Point2[] = [];
  for (let i = 0; i < shape.points.length; i += 3) {
    points.push(onPaper(view, shape.points.subarray(i, i + 3)));
  }
  let outline = corners(points);
  if (shape.disc > 0) outline = summed(outline, discOutline(shape, view));
  if (shape.ball > 0) outline = summed(outline, ellipse([shape.ball, 0], [0, shape.ball]));
  return outline;
}

/** The convex outline about several: what a solid passes over between them, to first order. */
export function aroundAll(outlines: readonly Outline[]): Outline {
  return outlines.length === 1 ? outlines[0]! : corners(outlines.flat());
}

/** The box that holds outlines: least and greatest u and v; Infinity to -Infinity where there is none. */
export function boundsOf(outlines: readonly Outline[]): {
  readonly low: Point2;
  readonly high: Point2;
} {
  let [lowU, lowV, highU, highV] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const outline of outlines) {
    for (const [u, v] of outline) {
      lowU = Math.min(lowU, u);
      lowV = Math.min(lowV, v);
      highU = Math.max(highU, u);
      highV = Math.max(highV, v);
    }
  }
  return { low: [lowU, lowV], high: [highU, highV] };
}

/** The convex outline of at least one point, with no two corners in the same place. */
function corners(points: readonly Point2[]): Outline {
  const outline = convexOutline(points);
  const apart = outline.filter((point, i) => {
    const before = outline.at(i - 1)!;
    return trig.hypot(point[0] - before[0], point[1] - before[1]) > SAME;
  });
  return apart.length > 0 ? apart : points.slice(0, 1);
}

/** A disc across its axis: an ellipse, as flat as the view looks along the disc. */
function discOutline({ axis, disc }: Shape, view: View): Outline {
  const [u, v] = onPaper(view, axis);
  const across = trig.hypot(u, v);
  const away = Math.sqrt(Math.max(0, 1 - across * across));
  // The axis' shadow is where the ellipse is thin; seen along the axis it is a circle.
  const [cos, sin] = across > 0 ? [u / across, v / across] : [1, 0];
  return ellipse([-disc * sin, disc * cos], [-disc * away * cos, -disc * away * sin]);
}

/** An ellipse about the origin by two half axes, the second a quarter turn after the first. */
function ellipse([pu, pv]: Point2, [qu, qv]: Point2): Outline {
  const radius = trig.hypot(pu, pv);
  // An inscribed polygon of n sides leaves r (1 - cos(pi / n)); an ellipse is a circle pressed flat.
  // Both ends of each half axis are among the corners: a disc seen edge on is exactly as wide as it is.
  const quarter = Math.PI / trig.acos(Math.max(0, 1 - CURVE / radius)) / 4;
  const sides = 4 * Math.max(3, Math.ceil(quarter));
  const points = Array.from({ length: sides }, (_, k): Point2 => {
    const angle = (2 * Math.PI * k) / sides;
    const [cos, sin] = [trig.cos(angle), trig.sin(angle)];
    return [pu * cos + qu * sin, pv * cos + qv * sin];
  });
  return corners(points);
}

/** The Minkowski sum of two convex outlines: their edges, merged by direction. */
function summed(a: Outline, b: Outline): Outline {
  if (a.length === 1) return b.map((point) => plus(a[0]!, point));
  if (b.length === 1) return a.map((point) => plus(b[0]!, point));
  const [startA, startB] = [lowest(a), lowest(b)];
  const points: Point2[] = [];
  for (let i = 0, j = 0; i < a.length || j < b.length;) {
    const [fromA, fromB] = [at(a, startA + i), at(b, startB + j)];
    points.push(plus(fromA, fromB));
    const turn =
      i === a.length
        ? -1
        : j === b.length
          ? 1
          : cross(minus(at(a, startA + i + 1), fromA), minus(at(b, startB + j + 1), fromB));
    if (turn >= 0) i++;
    if (turn <= 0) j++;
  }
  return corners(points);
}

/** Where the outline is lowest, and leftmost of those: its edges turn from there by a whole turn. */
function lowest(outline: Outline): number {
  let best = 0;
  outline.forEach(([u, v], i) => {
    const [bu, bv] = outline[best]!;
    if (v < bv || (v === bv && u < bu)) best = i;
  });
  return best;
}

function at(outline: Outline, index: number): Point2 {
  return outline[index % outline.length]!;
}

function plus(a: Point2, b: Point2): Point2 {
  return [a[0] + b[0], a[1] + b[1]];
}

function minus(a: Point2, b: Point2): Point2 {
  return [a[0] - b[0], a[1] - b[1]];
}

function cross(a: Point2, b: Point2): number {
  return a[0] * b[1] - a[1] * b[0];
}
