/**
 * A tube cut to the planes of its two plates.
 *
 * The centreline runs from the base plate's face to the upper plate's. Round it every line along the tube's
 * skin has a clock: the angle from the tube's front, anticlockwise as seen from the upper end. Measured along
 * the tube from where the centreline starts, the line at clock c is cut at
 * -r (e(c) . n) / (a . n) at a plane through the start with normal n: a sine over the circumference.
 */

import { MOUNT_ENDS } from '../../model/fitup/mounts.js';
import type { MountEnd, PlateMount } from '../../model/fitup/mounts.js';
import type { Vec3 } from '../../model/scenario.js';
import { cross, dot, lengthOf, minus, plus, unit } from '../../model/vector.js';
import * as trig from '../../model/trig.js';
import { between, within } from './lie.js';

/** How one end of the tube is cut. */
export interface TubeCut {
  /** Radians that the cut is off square. */
  readonly mitre: number;
  /** Millimetres that its long side is longer than its short one: OD tan(mitre). */
  readonly longer: number;
  /** The clock of its long side, radians; of no matter where the cut is square. */
  readonly long: number;
  /** Rise of the cut along the tube for a step of 1 across it, towards clock 0 and a quarter turn on. */
  readonly slope: readonly [number, number];
}

export interface CutTube {
  readonly radius: number;
  readonly wall: number;
  readonly from: Vec3;
  readonly to: Vec3;
  /** Along the centreline from base to upper plate, length 1. */
  readonly axis: Vec3;
  /** What clock 0 is on the tube: its front, or its top where it runs fore-and-aft. */
  readonly zero: 'front' | 'top';
  /** Out of the tube at clock 0, and at a quarter turn. */
  readonly front: Vec3;
  readonly quarter: Vec3;
  /** Millimetres along the centreline. */
  readonly length: number;
  /** Millimetres from tip to tip: what a blank must have. */
  readonly overall: number;
  /** Millimetres of the shortest line along the skin; less than 0 where the two cuts cross. */
  readonly shortest: number;
  readonly cuts: Readonly<Record<MountEnd, TubeCut>>;
  /** Radians from the base cut's long side to the upper one's, in (-pi, pi]. */
  readonly round: number;
}

/** A tube nearer to fore-and-aft than this has its clock 0 at its top instead of its front. */
const ALONG = 0.95;
/** Radians: a cut this near to square has no long side. */
const SQUARE = 1e-9;

/**
 * @param from, to on the faces of the two plates; not the same point.
 * @param normals of those faces, towards the tube, length 1; neither square to the tube.
 */
export function cutTube(
  { diameter, wall }: PlateMount['tube'],
  from: Vec3,
  to: Vec3,
  normals: Readonly<Record<MountEnd, Vec3>>,
): CutTube {
  const run = minus(to, from);
  const length = lengthOf(run);
  const axis = unit(run);
  const zero = Math.abs(axis[0]) < ALONG ? 'front' : 'top';
  const front = within(zero === 'front' ? [-1, 0, 0] : [0, 0, 1], axis);
  const quarter = cross(axis, front);
  const radius = diameter / 2;
  const cutAt = (end: MountEnd): TubeCut => {
    const normal = normals[end];
    const over = dot(axis, normal);
    const slope = [-dot(front, normal) / over, -dot(quarter, normal) / over] as const;
    const off = between(end === 'base' ? axis : minus([0, 0, 0], axis), normal);
    const mitre = off < SQUARE ? 0 : off;
    // The long side sticks out: where the base cut lies lowest, the upper one highest.
    const way = end === 'base' ? -1 : 1;
    const long = mitre === 0 ? 0 : trig.atan2(way * slope[1], way * slope[0]);
    return { mitre, longer: diameter * trig.hypot(...slope), long, slope };
  };
  const cuts = { base: cutAt('base'), upper: cutAt('upper') };
  const [b, u] = [cuts.base.slope, cuts.upper.slope];
  const shortest = length - radius * trig.hypot(u[0] - b[0], u[1] - b[1]);
  const overall = length + radius * (trig.hypot(...b) + trig.hypot(...u));
  const turned = cuts.upper.long - cuts.base.long;
  const isSquare = MOUNT_ENDS.some((end) => cuts[end].mitre === 0);
  const round = isSquare ? 0 : trig.atan2(trig.sin(turned), trig.cos(turned));
  return {
    radius,
    wall,
    from,
    to,
    axis,
    zero,
    front,
    quarter,
    length,
    overall,
    shortest,
    cuts,
    round,
  };
}

/** Out of the tube at a clock, length 1. */
export function outAt({ front, quarter }: CutTube, clock: number): Vec3 {
  const [c, s] = [trig.cos(clock), trig.sin(clock)];
  return plus([front[0] * c, front[1] * c, front[2] * c], quarter, s);
}

/** Where the line at a clock is cut, along the tube from where its centreline starts. */
export function cutAlong(tube: CutTube, end: MountEnd, clock: number): number {
  const [x, y] = tube.cuts[end].slope;
  const rise = tube.radius * (x * trig.cos(clock) + y * trig.sin(clock));
  return end === 'base' ? rise : tube.length + rise;
}

/** That point, vehicle frame. */
export function cutPoint(tube: CutTube, end: MountEnd, clock: number): Vec3 {
  const skin = plus(tube.from, outAt(tube, clock), tube.radius);
  return plus(skin, tube.axis, cutAlong(tube, end, clock));
}

/** Square millimetres of steel across the tube. */
export function steelArea({ radius, wall }: Pick<CutTube, 'radius' | 'wall'>): number {
  return Math.PI * wall * (2 * radius - wall);
}
