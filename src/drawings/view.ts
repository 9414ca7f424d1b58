/**
 * The three views, as projections from the vehicle frame to a plane seen square on: u to the right of
 * the paper, v up it, depth towards the eye. Millimetres.
 *
 * Side: from the left of the vehicle, its front to the left, up is up. Top: from above, its front to the
 * left, its right side up. Front: from ahead, so that the vehicle's right is on the left of the paper.
 */

import type { Vec3 } from '../model/scenario.js';

export type ViewName = 'side' | 'top' | 'front';
export const VIEWS: readonly ViewName[] = ['side', 'top', 'front'];

/** A place on the paper's plane. */
export type Point2 = readonly [number, number];

export interface View {
  readonly name: ViewName;
  /** Unit vectors of the vehicle frame: right, up, and towards the eye. */
  readonly u: Vec3;
  readonly v: Vec3;
  readonly depth: Vec3;
}

const KNOWN: Readonly<Record<ViewName, View>> = {
  side: { name: 'side', u: [1, 0, 0], v: [0, 0, 1], depth: [0, -1, 0] },
  top: { name: 'top', u: [1, 0, 0], v: [0, 1, 0], depth: [0, 0, 1] },
  front: { name: 'front', u: [0, -1, 0], v: [0, 0, 1], depth: [-1, 0, 0] },
};

/** The view of that name. */
export function viewOf(name: ViewName): View {
  return KNOWN[name];
}

/** A point of the vehicle frame on the paper, or a vector's shadow there. */
export function onPaper({ u, v }: View, point: ArrayLike<number>): Point2 {
  return [along(u, point), along(v, point)];
}

/** How far a point lies towards the eye. */
export function depthOf({ depth }: View, point: ArrayLike<number>): number {
  return along(depth, point);
}

function along(direction: Vec3, point: ArrayLike<number>): number {
  return direction[0] * point[0]! + direction[1] * point[1]! + direction[2] * point[2]!;
}
