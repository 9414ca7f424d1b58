/** Pairs of points that follow a contact over a box, and the most that they leave at its ends. */

import { support } from '../../geometry/reach.js';
import type { Moment, PointPair } from '../../model/certificate.js';
import type { Vec3 } from '../../model/scenario.js';
import { cos, hypot, sin } from '../../model/trig.js';
import { dot, lengthOf, plus } from '../../model/vector.js';
import { chooseSlide, slideA, slideB } from '../bounding/slides.js';
import type { PositionBox } from '../box.js';
import type { Contact } from '../measuring/contact.js';
import { alongAxis } from '../measuring/fixed.js';
import { chassisAt } from '../measuring/motion.js';
import type { Probe } from '../measuring/probe.js';

/** How a pair of points moves over a box: the engine's, from the datum and not yet pitched, and the chassis's. */
export interface Moving {
  readonly engine: Vec3;
  readonly chassis: Vec3;
  /** Slides by setback, offset, height and pitch. */
  readonly engineBy: readonly Vec3[];
  readonly chassisBy: readonly Vec3[];
}

const NOWHERE: Vec3 = [0, 0, 0];

const STILL: readonly Vec3[] = [NOWHERE, NOWHERE, NOWHERE, NOWHERE];

/** The pair at the witness, sliding so that it stays across from each other. */
export function pairOf(c: Contact, box: PositionBox, w: Probe): Moving {
  const engine: Vec3 = [w.ex, w.ey, w.ez];
  if (c.axis >= 0) {
    const n = alongAxis(c.axis, c.sign);
    const b = new Float64Array(3);
    support(chassisAt(c, w), ...n, b);
    return {
      engine,
      chassis: [b[0]!, b[1]!, b[2]!],
      engineBy: STILL,
      chassisBy: STILL,
    };
  }
  return followed(c, box, w, engine, [w.bx, w.by, w.bz], box.half);
}

const columns = new Float64Array(12);

/** A pair of points with slides for the coordinates that have a width. */
export function followed(
  c: Contact,
  box: PositionBox,
  w: Probe,
  engine: Vec3,
  chassis: Vec3,
  half: ArrayLike<number>,
): Moving {
  const pitch = box.mid[3]!;
  const [px, py, pz] = pitched(engine, pitch);
  columns.fill(0);
  columns[0] = half[0]!;
  columns[4] = half[1]!;
  columns[8] = half[2]!;
  columns[9] = pz * half[3]!;
  columns[11] = -px * half[3]!;
  const at = { ...w, bx: chassis[0], by: chassis[1], bz: chassis[2] };
  if (!chooseSlide(c, box, at, columns, px, py, pz)) {
    return { engine, chassis, engineBy: STILL, chassisBy: STILL };
  }
  const of = (slide: Float64Array, k: number): Vec3 => [
    slide[3 * k]!,
    slide[3 * k + 1]!,
    slide[3 * k + 2]!,
  ];
  return {
    engine,
    chassis,
    engineBy: [0, 1, 2, 3].map((k) => pitched(of(slideA, k), -pitch)),
    chassisBy: [0, 1, 2, 3].map((k) => of(slideB, k)),
  };
}

export function endOf(corner: number, { mid, half }: PositionBox): Vec3 {
  const at = (k: number): number => mid[k]! + (corner & (1 << k) ? half[k]! : -half[k]!);
  return [at(0), at(1), at(2)];
}

/** The pair in the frames of a certificate: the engine's before it rocks and is lifted. */
export function written(
  { engine, chassis, engineBy, chassisBy }: Moving,
  moment: Moment | undefined,
): PointPair {
  const slides = [engineBy.map((v) => unrocked(v, moment)), chassisBy] as const;
  const some = slides.map((list) => (list.some((v) => v.some((x) => x !== 0)) ? list : null));
  return {
    points: [unmoved(engine, moment), chassis],
    ...(some.some((list) => list) && { slides: [some[0]!, some[1]!] as const }),
  };
}

/** An engine point as it was before the moment's rock and lift. */
export function unmoved([x, y, z]: Vec3, moment: Moment | undefined): Vec3 {
  return unrocked([x, y, z - (moment?.lift ?? 0)], moment);
}

function unrocked([x, y, z]: Vec3, moment: Moment | undefined): Vec3 {
  const rock = moment?.rock ?? 0;
  if (rock === 0) return [x, y, z];
  const [c, s] = [cos(rock), sin(rock)];
  return [x, y * c + z * s, z * c - y * s];
}

/** Turned about the pitch axis, tail down. */
export function pitched([x, y, z]: Vec3, pitch: number): Vec3 {
  const [c, s] = [cos(pitch), sin(pitch)];
  return [x * c + z * s, y, z * c - x * s];
}

/** The most that a pair leaves at one end of the box, balls left in, and what it may bend by in between. */
export function greatest(
  c: Contact,
  box: PositionBox,
  { engine, chassis, engineBy, chassisBy }: Moving,
  corner: number,
  way: -1 | 1,
): number {
  const { mid, half } = box;
  const sign = (k: number): number => (corner & (1 << k) ? 1 : -1);
  const x = endOf(corner, box);
  const moved = (p: Vec3, by: readonly Vec3[]): Vec3 =>
    [0, 1, 2].map(
      (i) => p[i]! + [0, 1, 2].reduce((sum, k) => sum + sign(k) * by[k]![i]!, 0),
    ) as unknown as Vec3;
  const e = moved(engine, engineBy);
  const b = moved(chassis, chassisBy);
  const [eBy, bBy] = [engineBy[3]!, chassisBy[3]!];
  const D = half[3]!;
  const apart = (turn: number, u: number): Vec3 => {
    const p = pitched(plus(e, eBy, u), mid[3]! + turn);
    return [
      p[0] + x[0] - b[0] - u * bBy[0],
      p[1] + x[1] - b[1] - u * bBy[1],
      p[2] + x[2] - b[2] - u * bBy[2],
    ];
  };
  const n = c.axis < 0 ? undefined : alongAxis(c.axis, c.sign);
  const gapOf = (v: Vec3): number => (n ? dot(n, v) : lengthOf(v));
  if (D === 0) return gapOf(apart(0, 0));
  const flat = (v: Vec3): Vec3 => [v[0], 0, v[2]];
  const q = pitched(flat(e), mid[3]!);
  const slide = hypot(eBy[0], eBy[2]);
  const reach = hypot(e[0], e[2]) + slide;
  const swerve = D * reach + slide;
  const middle = apart(0, 0);
  const travel = D * reach + lengthOf(eBy) + lengthOf(bBy);
  let bend = reach;
  if (n) bend = Math.max(0, dot(n, q) + swerve);
  else {
    const length = lengthOf(middle);
    const least = length - travel;
    if (least > 0.01) {
      const along = dot(middle, q) + travel * reach + length * swerve;
      bend = Math.min(reach, Math.max(0, along / least));
    }
  }
  return gapOf(apart(way * D, way)) + ((bend + (2 * slide) / D) * D * D) / 2;
}
