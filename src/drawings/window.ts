/** What part of the bay a view shows, how large, and where on the paper. */

import type { Box, Place } from './labels.js';
import { boundsOf } from './outline.js';
import type { Outline } from './outline.js';
import { usualScale } from './scale.js';
import type { Point2 } from './view.js';

/** A view's window: from its plane, in millimetres of the vehicle, to paper. */
export interface Window {
  /** How many times smaller than life. */
  readonly scale: number;
  /** What is seen, in the view's plane. */
  readonly low: Point2;
  readonly high: Point2;
  /** Where on the paper it is. */
  readonly frame: Box;
  readonly toPaper: (point: Point2) => Place;
}

/** Millimetres of the vehicle left about what must be seen, as a share of its size. */
const ABOUT = 0.06;

/**
 * The window that shows all of some outlines and places at the largest usual scale, in the middle of a
 * frame that it fills.
 */
export function windowOn(
  outlines: readonly Outline[],
  places: readonly Point2[],
  frame: Box,
): Window {
  const { low, high } = boundsOf([...outlines, places]);
  const isEmpty = !(low[0] <= high[0]);
  const [from, to]: [Point2, Point2] = isEmpty
    ? [
        [-1, -1],
        [1, 1],
      ]
    : [low, high];
  const about = Math.max(ABOUT * Math.max(to[0] - from[0], to[1] - from[1]), 1);
  const size = [to[0] - from[0] + 2 * about, to[1] - from[1] + 2 * about] as const;
  const scale = usualScale(size, [frame.w, frame.h]);
  const middle: Point2 = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const half: Point2 = [(frame.w * scale) / 2, (frame.h * scale) / 2];
  return {
    scale,
    low: [middle[0] - half[0], middle[1] - half[1]],
    high: [middle[0] + half[0], middle[1] + half[1]],
    frame,
    toPaper: ([u, v]) => [
      frame.x + frame.w / 2 + (u - middle[0]) / scale,
      frame.y + frame.h / 2 - (v - middle[1]) / scale,
    ],
  };
}

/** A convex outline cut to the window; empty where none of it is seen. */
export function seenIn({ low, high }: Window, outline: Outline): Outline {
  let left: readonly Point2[] = outline;
  for (const [axis, at, sign] of [
    [0, low[0], 1],
    [0, high[0], -1],
    [1, low[1], 1],
    [1, high[1], -1],
  ] as const) {
    const depth = (p: Point2) => sign * (p[axis] - at);
    left = left.flatMap((point, i) => {
      const before = left.at(i - 1)!;
      const [d0, d1] = [depth(before), depth(point)];
      const cut: Point2[] = [];
      if (d0 < 0 !== d1 < 0) {
        const t = d0 / (d0 - d1);
        cut.push([before[0] + (point[0] - before[0]) * t, before[1] + (point[1] - before[1]) * t]);
      }
      return d1 < 0 ? cut : [...cut, point];
    });
  }
  return left;
}

/** The area of a convex outline. */
export function areaOf(outline: Outline): number {
  return Math.abs(
    outline.reduce((sum, [u, v], i) => {
      const [pu, pv] = outline.at(i - 1)!;
      return sum + (pu * v - u * pv) / 2;
    }, 0),
  );
}
