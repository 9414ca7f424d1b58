/**
 * Rows above a contact's margin with what proves them: pairs of points, as a certificate writes them down.
 *
 * At each of the 8 ends of setback, offset and height the distance of a pair of points is looked at along
 * pitch alone: it stays under the line between its ends but for what its second derivative may bend, and an
 * affine function above all of these is above the gap (`src/verify/margin-row.ts` proves it afresh).
 */

import { cos, hypot, sin } from '../../model/trig.js';
import { createGap, gapBetween } from '../../geometry/gap.js';
import { support } from '../../geometry/reach.js';
import type { Four, InnerBody, Moment, PointPair, Reason } from '../../model/certificate.js';
import type { Vec3 } from '../../model/scenario.js';
import { dot, lengthOf, plus } from '../../model/vector.js';
import type { PositionBox } from '../box.js';
import { depthAt, grownBody } from './inner-body.js';
import type { Grown } from './inner-body.js';
import { chooseSlide, slideA, slideB } from '../bounding/slides.js';
import type { Contact } from '../measuring/contact.js';
import { alongAxis } from '../measuring/fixed.js';
import { chassisAt, engineAt } from '../measuring/motion.js';
import type { Probe } from '../measuring/probe.js';

/** A row with its proof, and the solids it is of. */
export interface ProvedRow {
  readonly value: number;
  readonly slopes: Four;
  readonly reason: Reason;
}

/**
 * Millimetres that a row is lifted by, so that whoever checks it may round outward and take points for as
 * good as in their solids.
 */
const LIFT = 1e-5;
const CORNERS = 8;

/** How a pair of points moves over a box: the engine's, from the datum and not yet pitched, and the chassis's. */
interface Moving {
  readonly engine: Vec3;
  readonly chassis: Vec3;
  /** Slides by setback, offset, height and pitch. */
  readonly engineBy: readonly Vec3[];
  readonly chassisBy: readonly Vec3[];
}

const NOWHERE: Vec3 = [0, 0, 0];
const STILL: readonly Vec3[] = [NOWHERE, NOWHERE, NOWHERE, NOWHERE];

/**
 * Rows from a contact measured in or near the box: by its witness, and by a pair for each end of the box, since
 * the points of one may pass each other in it.
 * @param solids which solid of either part the contact is of.
 */
export function provedRows(
  c: Contact,
  box: PositionBox,
  w: Probe,
  solids: readonly [number, number],
): ProvedRow[] {
  const one = (): ProvedRow =>
    rowFrom(c, box, w, solids, {
      pairs: [pairOf(c, box, w)],
      corners: Array<number>(CORNERS).fill(0),
    });
  if (c.axis >= 0) return [one()];
  const ended = cornerPairs(c, box, w);
  const each = ended ? [rowFrom(c, box, w, solids, ended)] : [];
  return w.overlap && ended ? each : [one(), ...each];
}

/** The greatest that a row is in its box. */
export function mostOf({ value, slopes }: Pick<ProvedRow, 'value' | 'slopes'>): number {
  return slopes.reduce((sum, slope) => sum + Math.abs(slope), value);
}

/** The pair at the witness, sliding so that it stays across from each other. */
function pairOf(c: Contact, box: PositionBox, w: Probe): Moving {
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
function followed(
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

const gap = createGap();

/** What each end of setback, offset and height is bounded by: a pair of points, or the body (-1). */
interface Ended {
  readonly pairs: readonly Moving[];
  readonly corners: readonly number[];
  readonly inner?: Grown;
}

/** A pair for each end of setback, offset and height where the solids are apart, and one body for all others. */
function cornerPairs(c: Contact, box: PositionBox, w: Probe): Ended | undefined {
  const pitch = box.mid[3]!;
  const engine = engineAt(c, pitch, w);
  const chassis = chassisAt(c, w);
  const pairs: Moving[] = [];
  const corners: number[] = [];
  const deep: Vec3[] = [];
  for (let corner = 0; corner < CORNERS; corner++) {
    const twin = twinOf(corner, box);
    if (twin < corner) {
      corners.push(corners[twin]!);
      continue;
    }
    const x = endOf(corner, box);
    gap.nx = gap.ny = gap.nz = 0;
    gapBetween(engine, chassis, x[0], x[1], x[2], gap);
    if (gap.coresOverlap && gap.upper + c.engine.shape.ball + c.chassis.ball < -SHALLOW) {
      corners.push(-1);
      deep.push(x);
      continue;
    }
    let from = x;
    if (gap.coresOverlap) {
      // Touching, to speak of: the points nearest to each other once they are drawn apart a little.
      from = [x[0] + ASUNDER * gap.nx, x[1] + ASUNDER * gap.ny, x[2] + ASUNDER * gap.nz];
      gapBetween(engine, chassis, from[0], from[1], from[2], gap);
    }
    const a: Vec3 = [gap.ax, gap.ay, gap.az];
    const own = pitched([a[0] - from[0], a[1] - from[1], a[2] - from[2]], -pitch);
    const n = { nx: gap.nx, ny: gap.ny, nz: gap.nz };
    const b: Vec3 = [gap.bx, gap.by, gap.bz];
    corners.push(pairs.length);
    pairs.push(followed(c, box, { ...w, ...n }, own, b, [0, 0, 0, box.half[3]!]));
  }
  if (deep.length === 0) return { pairs, corners };
  const inner = bodyFor(c, box, w, deep);
  return inner && { pairs, corners, inner };
}

/**
 * A body that holds the places all over the box's pitch, its engine points turned to the middle of it. Where
 * edges of the two solids come to lie parallel in the box, one grown at that end has no triangle that goes flat.
 */
function bodyFor(
  c: Contact,
  box: PositionBox,
  w: Probe,
  places: readonly Vec3[],
): Grown | undefined {
  const D = box.half[3]!;
  for (const u of D === 0 ? [0] : [0, -1, 1]) {
    const grown = grownBody(engineAt(c, box.mid[3]! + u * D, w), chassisAt(c, w), places);
    if (!grown) continue;
    const pairs = grown.pairs.map(([a, b]) => [pitched(a, -u * D), b] as const);
    const body = { pairs, facets: grown.facets };
    if (places.every((x) => Math.max(...depths(body, box, x)) < NOT_IN_IT)) return body;
  }
  return undefined;
}

/** The lowest-numbered end with the same place: coordinates of no width have one. */
function twinOf(corner: number, { half }: PositionBox): number {
  let twin = corner;
  for (let k = 0; k < 3; k++) if (half[k] === 0) twin &= ~(1 << k);
  return twin;
}

function endOf(corner: number, { mid, half }: PositionBox): Vec3 {
  const at = (k: number): number => mid[k]! + (corner & (1 << k) ? half[k]! : -half[k]!);
  return [at(0), at(1), at(2)];
}

function rowFrom(
  c: Contact,
  box: PositionBox,
  w: Probe,
  solids: readonly [number, number],
  { pairs, corners, inner }: Ended,
): ProvedRow {
  const values: number[] = [];
  const deep = corners.map((at, corner) =>
    at === -1 ? depths(inner!, box, endOf(corner, box)) : [0, 0],
  );
  for (const way of [-1, 1] as const) {
    for (let corner = 0; corner < CORNERS; corner++) {
      const pair = pairs[corners[corner]!];
      values.push(pair ? greatest(c, box, pair, corner, way) : deep[corner]![way < 0 ? 0 : 1]);
    }
  }
  const balls = c.engine.shape.ball + c.chassis.ball;
  const { value, slopes } = affineAbove(values, box.half);
  const moment = momentOf(c, w);
  const isOne = corners.every((at) => at === 0);
  return {
    value: value + LIFT - balls - c.needed,
    slopes,
    reason: {
      solids,
      ...(moment && { moment }),
      pairs: pairs.map((pair) => written(pair, moment)),
      ...(!isOne && { corners }),
      ...(inner && { inner: writtenBody(inner, box.mid[3]!, moment) }),
    },
  };
}

/** Millimetres by which a row above a body is lifted, so that it need not be cut fine to be checked. */
const BODY_LIFT = 2e-4;
/** Millimetres: a place no deeper than this in a body may as well be on it. */
const SHALLOW = 1e-3;
/** By which solids that all but touch are drawn apart to find where, millimetres. */
const ASUNDER = 0.01;
/** A row above a place that a body does not hold says nothing. */
const NOT_IN_IT = 1e9;
/** Pitches at which a body is looked at between the ends of its box. */
const LOOKS = [-0.75, -0.5, -0.25, 0, 0.25, 0.5, 0.75];

/** The gap by the body at one end, at the least and the greatest pitch: the line between is above it, and lifted so. */
function depths(inner: Grown, { half }: PositionBox, x: Vec3): readonly [number, number] {
  const D = half[3]!;
  const at = (u: number): number => {
    const depth = depthAt(inner, x, (p) => pitched(p, u * D));
    return depth > SHALLOW / 2 ? -depth : NOT_IN_IT;
  };
  const [low, high] = [at(-1), at(1)];
  if (D === 0) return [low, high];
  let over = 0;
  for (const u of LOOKS) over = Math.max(over, at(u) - (low + ((high - low) * (u + 1)) / 2));
  const lift = 1.1 * over + BODY_LIFT;
  return [low + lift, high + lift];
}

function writtenBody(
  { pairs, facets }: Grown,
  pitch: number,
  moment: Moment | undefined,
): InnerBody {
  return {
    pairs: pairs.map(([a, b]) => [unmoved(pitched(a, -pitch), moment), b] as const),
    facets,
  };
}

/** The contact's moment where it is not still. */
function momentOf(c: Contact, w: Probe): Moment | undefined {
  const turns = c.motion ? ([w.turnA, w.turnB] as const) : ([0, 0] as const);
  const lift = c.motion ? w.lift : 0;
  if (turns[0] === 0 && turns[1] === 0 && w.rock === 0 && lift === 0) return undefined;
  return { turns, rock: w.rock, lift };
}

/** The pair in the frames of a certificate: the engine's before it rocks and is lifted. */
function written(
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
function unmoved([x, y, z]: Vec3, moment: Moment | undefined): Vec3 {
  return unrocked([x, y, z - (moment?.lift ?? 0)], moment);
}

function unrocked([x, y, z]: Vec3, moment: Moment | undefined): Vec3 {
  const rock = moment?.rock ?? 0;
  if (rock === 0) return [x, y, z];
  const [c, s] = [cos(rock), sin(rock)];
  return [x, y * c + z * s, z * c - y * s];
}

/** Turned about the pitch axis, tail down. */
function pitched([x, y, z]: Vec3, pitch: number): Vec3 {
  const [c, s] = [cos(pitch), sin(pitch)];
  return [x * c + z * s, y, z * c - x * s];
}

/** The most that a pair leaves at one end of the box, balls left in, and what it may bend by in between. */
function greatest(
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

/**
 * Mean slopes, then the value that puts the function above every one of 16: the 8 ends at the least pitch,
 * then at the greatest.
 */
function affineAbove(
  values: readonly number[],
  half: ArrayLike<number>,
): { value: number; slopes: Four } {
  const slopes = [0, 1, 2, 3].map((k) => {
    if (half[k] === 0) return 0;
    return values.reduce((sum, one, i) => sum + (i & (1 << k) ? one : -one), 0) / values.length;
  }) as unknown as Four;
  const at = (i: number): number =>
    slopes.reduce((sum, slope, k) => sum + (i & (1 << k) ? slope : -slope), 0);
  const value = values.reduce((top, one, i) => Math.max(top, one - at(i)), -Infinity);
  return { value, slopes };
}
