/**
 * A gusset: a triangle that stands on a plate and against the tube's skin, in the plane of the tube's axis.
 *
 * Its corner lies where the line of the tube's skin at its clock meets the plate. One leg runs from there along
 * that line, the other along the plate's face, away from the tube in the same plane: with e out of the
 * tube and n the plate's normal, along e - a (e . n) / (a . n). The angle between the two is square only where the
 * tube is, or where it leans across the gusset.
 */

import type { Gussets, MountEnd } from '../../model/fitup/mounts.js';
import type { Vec3 } from '../../model/scenario.js';
import { cross, lengthOf, minus, plus, unit } from '../../model/vector.js';
import * as trig from '../../model/trig.js';
import { back, between } from './lie.js';
import { cutPoint, outAt } from './tube.js';
import type { CutTube } from './tube.js';

export interface Gusset {
  readonly end: MountEnd;
  /** Counted from 1 at each end. */
  readonly number: number;
  /** Radians round the tube. */
  readonly clock: number;
  readonly corner: Vec3;
  /** The other end of the leg on the plate, and of the one on the tube. */
  readonly onPlate: Vec3;
  readonly onTube: Vec3;
  /** Square to its plane, length 1. */
  readonly square: Vec3;
  readonly thick: number;
  /** Radians at the corner. */
  readonly angle: number;
  /** Millimetres of the third edge. */
  readonly slant: number;
}

/** The gussets of both ends, base first. */
export function gussetsOf(tube: CutTube, given: Gussets | undefined): readonly Gusset[] {
  if (!given) return [];
  return given.ends.flatMap((end) =>
    Array.from({ length: given.count }, (_, i) => gussetAt(tube, given, end, i)),
  );
}

function gussetAt(tube: CutTube, given: Gussets, end: MountEnd, i: number): Gusset {
  const clock = given.first + (2 * Math.PI * i) / given.count;
  const out = outAt(tube, clock);
  const corner = cutPoint(tube, end, clock);
  // The plate's face in the plane of axis and e: a step of 1 out goes with the cut's slope along.
  const [x, y] = tube.cuts[end].slope;
  const rise = x * trig.cos(clock) + y * trig.sin(clock);
  const alongPlate = unit(plus(out, tube.axis, rise));
  const alongTube = end === 'base' ? tube.axis : back(tube.axis);
  const onPlate = plus(corner, alongPlate, given.onPlate);
  const onTube = plus(corner, alongTube, given.onTube);
  return {
    end,
    number: i + 1,
    clock,
    corner,
    onPlate,
    onTube,
    square: unit(cross(tube.axis, out)),
    thick: given.thick,
    angle: between(alongPlate, alongTube),
    slant: lengthOf(minus(onPlate, onTube)),
  };
}
