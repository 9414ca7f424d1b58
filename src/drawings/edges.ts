/** The outer edge of several convex outlines together. Millimetres, in any plane. */

import { maxOf, minOf } from '../model/extremes.js';
import * as trig from '../model/trig.js';
import type { Outline } from './outline.js';
import type { Point2 } from './view.js';

/** A run of points, not closed. */
export type Run = readonly Point2[];

/** Millimetres within which an edge on another outline's edge is the same edge. */
const ON_EDGE = 1e-6;

/** What is left of the outlines' edges once all that lies inside another of them is gone. */
export function outerEdges(outlines: readonly Outline[]): Run[] {
  const boxes = outlines.map(boxOf);
  const runs: Point2[][] = [];
  outlines.forEach((outline, i) => {
    const box = boxes[i]!;
    const others = outlines.flatMap((other, j) => {
      const near = j !== i && other.length > 2 && meet(box, boxes[j]!);
      // Of edges in one place the first outline keeps its own.
      return near ? [{ other, by: j < i ? ON_EDGE : -ON_EDGE }] : [];
    });
    outline.forEach((from, k) => {
      const to = outline[(k + 1) % outline.length]!;
      for (const [start, end] of outside(from, to, others)) add(runs, start, end);
    });
  });
  return runs;
}

/** The stretches of an edge that lie in none of the others. */
function outside(
  from: Point2,
  to: Point2,
  others: readonly { readonly other: Outline; readonly by: number }[],
): [Point2, Point2][] {
  const inside = others
    .map(({ other, by }) => within(from, to, other, by))
    .filter((span) => span !== undefined)
    .sort((a, b) => a[0] - b[0]);
  const left: [Point2, Point2][] = [];
  let at = 0;
  const at2 = (t: number): Point2 => [
    from[0] + (to[0] - from[0]) * t,
    from[1] + (to[1] - from[1]) * t,
  ];
  for (const [start, end] of inside) {
    if (start > at) left.push([at === 0 ? from : at2(at), at2(start)]);
    at = Math.max(at, end);
  }
  if (at < 1) left.push([at === 0 ? from : at2(at), to]);
  return left;
}

/** The share of an edge that a convex outline, grown by so much, holds. */
function within(
  from: Point2,
  to: Point2,
  outline: Outline,
  by: number,
): readonly [number, number] | undefined {
  let [start, end] = [0, 1];
  for (let i = 0; i < outline.length; i++) {
    const a = outline[i]!;
    const b = outline[(i + 1) % outline.length]!;
    const [du, dv] = [b[0] - a[0], b[1] - a[1]];
    const length = trig.hypot(du, dv);
    // How far inside this side of the outline, which is to the left of it.
    const depth = (p: Point2) => (du * (p[1] - a[1]) - dv * (p[0] - a[0])) / length + by;
    const [first, last] = [depth(from), depth(to)];
    if (first <= 0 && last <= 0) return undefined;
    if (first < 0) start = Math.max(start, first / (first - last));
    else if (last < 0) end = Math.min(end, first / (first - last));
    if (start >= end) return undefined;
  }
  return [start, end];
}

/** Goes on with the last run where it ended. */
function add(runs: Point2[][], start: Point2, end: Point2): void {
  const last = runs.at(-1);
  const tip = last?.at(-1);
  if (last && tip && tip[0] === start[0] && tip[1] === start[1]) last.push(end);
  else runs.push([start, end]);
}

type Bounds = readonly [number, number, number, number];

function boxOf(outline: Outline): Bounds {
  const us = outline.map(([u]) => u);
  const vs = outline.map(([, v]) => v);
  return [minOf(us), minOf(vs), maxOf(us), maxOf(vs)];
}

function meet(a: Bounds, b: Bounds): boolean {
  return a[0] <= b[2] && b[0] <= a[2] && a[1] <= b[3] && b[1] <= a[3];
}
