/** The directions in which a face is measured and drawn. */

import type { Vec3 } from '../../model/scenario.js';
import { cross, dot, plus, unit } from '../../model/vector.js';
import * as trig from '../../model/trig.js';

/** Unit vectors in a face, square to each other and to its normal. */
export interface Lie {
  /** Along the face: rearward; to the right on a face that looks ahead or back. */
  readonly along: Vec3;
  /** Across it: upward; to the right on a face that looks more up or down than to a side. */
  readonly across: Vec3;
  /** The same two as a drawing has them that is seen from where the normal points: x right, y up. */
  readonly u: Vec3;
  readonly v: Vec3;
  /** What `v` is on the drawing. */
  readonly up: 'up' | 'right' | 'left';
}

/** A face looks more up or down than to a side where its normal's Z is more than this. */
const FLAT = Math.SQRT1_2;

/** @param normal length 1. */
export function lieOf(normal: Vec3): Lie {
  const isFlat = Math.abs(normal[2]) > FLAT;
  if (isFlat) {
    const along = within([1, 0, 0], normal);
    const v = cross(normal, along);
    const isRight = v[1] >= 0;
    return { along, across: isRight ? v : back(v), u: along, v, up: isRight ? 'right' : 'left' };
  }
  const across = within([0, 0, 1], normal);
  const u = cross(across, normal);
  const leading = Math.abs(u[0]) >= Math.abs(u[1]) ? u[0] : u[1];
  return { along: leading >= 0 ? u : back(u), across, u, v: across, up: 'up' };
}

/** A direction laid into the face of a normal, length 1; the two must not be in line. */
export function within(direction: Vec3, normal: Vec3): Vec3 {
  return unit(plus(direction, normal, -dot(direction, normal)));
}

export function back([x, y, z]: Vec3): Vec3 {
  return [0 - x, 0 - y, 0 - z];
}

/** The angle between two vectors of any length but 0, radians. */
export function between(a: Vec3, b: Vec3): number {
  const [x, y, z] = cross(a, b);
  return trig.atan2(trig.hypot(x, y, z), dot(a, b));
}
