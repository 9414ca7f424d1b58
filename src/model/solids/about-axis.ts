/** How a part lies about an axis that it turns on: how far out it reaches, and whether a turn tells. */

import { maxOf } from '../extremes.js';
import { AXES } from '../scenario.js';
import type { Axis, Part, Vec3 } from '../scenario.js';
import { skeletonOf } from './skeleton.js';
import type { Skeleton } from './skeleton.js';
import * as trig from '../trig.js';

/** Millimetres off the axis, or of a unit vector off its direction, that are rounding. */
const ON_AXIS = 1e-6;
/** Directions round the axis in which the reach of a disc is sought, and the steps to refine it. */
const DIRECTIONS = 360;
const STEPS = 60;

/**
 * Greatest distance of the part as drawn from an axis through a point; millimetres, never more than
 * it is, and less by rounding alone.
 */
export function radiusAbout(part: Part, about: Axis, through: Vec3): number {
  return maxOf(
    part.solids.map((solid) => reachOf(skeletonOf(solid, part.mirrored), about, through)),
  );
}

/** Whether turning about the axis leaves the part where it is: it is round about that very axis. */
export function isRoundAbout(part: Part, about: Axis, through: Vec3): boolean {
  const axis = AXES.indexOf(about);
  return part.solids.every((solid) => {
    const { points, disc } = skeletonOf(solid, part.mirrored);
    const centred = points.every(
      (point) => trig.hypot(...acrossOf(point, axis, through)) < ON_AXIS,
    );
    return centred && (disc === undefined || 1 - Math.abs(disc.normal[axis]!) < ON_AXIS * ON_AXIS);
  });
}

function reachOf({ points, ball, disc }: Skeleton, about: Axis, through: Vec3): number {
  const axis = AXES.indexOf(about);
  const centres = points.map((point) => acrossOf(point, axis, through));
  if (disc === undefined) return maxOf(centres.map((c) => trig.hypot(...c))) + ball;
  const [nu, nv] = acrossOf(disc.normal, axis, [0, 0, 0]);
  // The greatest distance is the greatest reach in any direction across the axis.
  const reach = (angle: number): number => {
    const [cos, sin] = [trig.cos(angle), trig.sin(angle)];
    const along = cos * nu + sin * nv;
    const most = maxOf(centres.map(([u, v]) => cos * u + sin * v));
    return most + disc.radius * Math.sqrt(Math.max(0, 1 - along * along));
  };
  const step = (2 * Math.PI) / DIRECTIONS;
  let best = 0;
  for (let k = 1; k < DIRECTIONS; k++) if (reach(k * step) > reach(best)) best = k * step;
  for (let n = 0, width = step / 2; n < STEPS; n++, width /= 2) {
    for (const angle of [best - width, best + width]) if (reach(angle) > reach(best)) best = angle;
  }
  return reach(best);
}

/** The two coordinates across an axis (0 to 2), from a line along it. */
function acrossOf(point: Vec3, axis: number, through: Vec3): [number, number] {
  const [j, k] = [(axis + 1) % 3, (axis + 2) % 3];
  return [point[j]! - through[j]!, point[k]! - through[k]!];
}
