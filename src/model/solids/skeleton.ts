/**
 * What a solid is made of once it is tilted and mirrored: points, thickened by a disc or a ball. The
 * solid is the hull of its points, each with the disc or the ball about it. Millimetres.
 */

import { cornersOf, pointAt } from './corners.js';
import { AXES } from '../scenario.js';
import type { Solid, Tilt, Vec3 } from '../scenario.js';
import * as trig from '../trig.js';

export interface Skeleton {
  readonly points: readonly Vec3[];
  /** Radius of the ball about each point; 0 for a solid with corners. */
  readonly ball: number;
  /** The disc about each point: its radius, and a unit vector across it. */
  readonly disc?: { readonly radius: number; readonly normal: Vec3 };
}

/** The skeleton of a solid, without its spread. */
export function skeletonOf(solid: Solid, mirrored: boolean): Skeleton {
  const placed = (point: Vec3): Vec3 => mirror(tiltedBy(solid.tilt, point), mirrored);
  switch (solid.shape) {
    case 'ball':
      return { points: [placed(solid.center)], ball: solid.diameter / 2 };
    case 'tube':
      return { points: [solid.from, solid.to].map(placed), ball: solid.diameter / 2 };
    case 'cylinder': {
      const { axis, center, from, to, tilt } = solid;
      const along = tiltedBy(tilt && { ...tilt, at: [0, 0, 0] }, pointAt(axis, 1, 0, 0));
      return {
        points: [from, to].map((w) => placed(pointAt(axis, w, ...center))),
        ball: 0,
        disc: { radius: solid.diameter / 2, normal: mirror(along, mirrored) },
      };
    }
    default:
      return { points: cornersOf(solid).map(placed), ball: 0 };
  }
}

function mirror([x, y, z]: Vec3, mirrored: boolean): Vec3 {
  return mirrored ? [x, -y, z] : [x, y, z];
}

function tiltedBy(tilt: Tilt | undefined, point: Vec3): Vec3 {
  return tilt === undefined ? point : turnedAbout(point, tilt);
}

/** A point turned in place. */
export function turnedAbout(point: Vec3, tilt: Tilt): Vec3 {
  const i = AXES.indexOf(tilt.about);
  const [j, k] = [(i + 1) % 3, (i + 2) % 3];
  const [u, v] = [point[j]! - tilt.at[j]!, point[k]! - tilt.at[k]!];
  const [cos, sin] = [trig.cos(tilt.by), trig.sin(tilt.by)];
  const moved: [number, number, number] = [...point];
  moved[j] = tilt.at[j]! + u * cos - v * sin;
  moved[k] = tilt.at[k]! + u * sin + v * cos;
  return moved;
}
