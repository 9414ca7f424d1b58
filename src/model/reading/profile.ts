/** Whether an outline, of a prism or a panel, is one that a convex solid can have. */

import * as trig from '../trig.js';

type Point = readonly [number, number];

/** Millimetres: anything thinner than a micron is flat. */
export const FLAT_MM = 1e-3;

/** Sine of an angle between two sides, below which they count as one straight line. */
const STRAIGHT = 1e-9;

/** No outline that a tape can measure has more; the test for crossings compares every two sides. */
const MAX_CORNERS = 500;

/**
 * What is wrong with a closed outline: too few corners, flat, crossing itself, or not convex.
 * Either winding is right, and so are corners along a straight side. Undefined when nothing is.
 * @param flat the least width that is one, in the units of the points.
 * @param what what the outline is of, for the words.
 */
export function profileFault(
  corners: readonly Point[],
  flat: number,
  what = 'profile',
): string | undefined {
  if (corners.length < 3) return `a ${what} needs three corners or more`;
  if (corners.length > MAX_CORNERS) return `a ${what} has at most ${MAX_CORNERS} corners`;
  if (sides(corners).some(([a, b]) => distance(a, b) <= flat)) {
    return `two corners of the ${what} in a row are the same`;
  }
  if (isFlat(corners, flat)) return `the ${what} is flat`;
  if (crossesItself(corners)) return `the ${what} crosses itself`;
  const turns = sides(corners).map(([a, b], i, all) => turn(a, b, all[(i + 1) % all.length]![1]));
  if (turns.some((t) => t > STRAIGHT) && turns.some((t) => t < -STRAIGHT)) {
    return `the ${what} is not convex`;
  }
  return undefined;
}

function sides(corners: readonly Point[]): (readonly [Point, Point])[] {
  return corners.map((corner, i) => [corner, corners[(i + 1) % corners.length]!] as const);
}

function isFlat(corners: readonly Point[], flat: number): boolean {
  const from = corners[0]!;
  const far = corners.reduce((best, p) => (distance(from, p) > distance(from, best) ? p : best));
  const long = distance(from, far);
  return corners.every((p) => Math.abs(area(from, far, p)) / long <= flat);
}

function crossesItself(corners: readonly Point[]): boolean {
  const all = sides(corners);
  return all.some(([a, b], i) =>
    all.some(([c, d], j) => {
      if (j <= i) return false;
      const next = j === i + 1;
      const around = i === 0 && j === all.length - 1;
      // Neighbours share a corner: they cross only by running back along each other.
      if (next) return runsBack(a, b, d);
      if (around) return runsBack(c, d, b);
      return meet(a, b, c, d);
    }),
  );
}

/** Whether the way on from b to c lies back along the way from a to b. */
function runsBack(a: Point, b: Point, c: Point): boolean {
  const forward = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]);
  return forward < 0 && Math.abs(turn(a, b, c)) <= STRAIGHT;
}

/** Whether two segments have a point in common. */
function meet(a: Point, b: Point, c: Point, d: Point): boolean {
  const apart = (p: number, q: number, r: number, s: number) =>
    Math.max(p, q) < Math.min(r, s) || Math.max(r, s) < Math.min(p, q);
  if (apart(a[0], b[0], c[0], d[0]) || apart(a[1], b[1], c[1], d[1])) return false;
  return area(a, b, c) * area(a, b, d) <= 0 && area(c, d, a) * area(c, d, b) <= 0;
}

/** Sine of the turn from a-b to b-c. */
function turn(a: Point, b: Point, c: Point): number {
  return area(a, b, c) / (distance(a, b) * distance(b, c));
}

/** Twice the signed area of a triangle. */
function area(a: Point, b: Point, c: Point): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

function distance(a: Point, b: Point): number {
  return trig.hypot(b[0] - a[0], b[1] - a[1]);
}
