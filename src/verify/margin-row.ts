/**
 * Whether a row lies at or above what a pair of parts leaves, at every position of a box.
 *
 * At one pitch and one moment of the motions a signed gap is convex in setback, offset and height, and so
 * is the distance of two points that slide with them: a row above it at the 8 ends of those three is above
 * it between them. So each end is looked at by itself, as a function of pitch alone. Along pitch that
 * function is f(t) = |v| or n . v with v = R(t) e(t) + x - b(t), and v'' = -R q + 2 R' e', where q is what
 * turns and e' the slide. With f'' >= -k all over the box, f stays under the line between its ends by no
 * less than -k w^2 / 8, w the box's width in pitch.
 */

import type { MarginRow, Moment, PointPair, Reason } from '../model/certificate.js';
import type { OptionDomains } from '../model/options.js';
import type { Vec3 } from '../model/scenario.js';
import { CLOSE_ENOUGH, distanceTo } from './bodies.js';
import type { Body } from './bodies.js';
import { innerBodyHolds } from './inner-body.js';
import type { Corner, Range4 } from './box.js';
import {
  add,
  exactly,
  inner,
  lengthOf,
  minus,
  plus,
  scaled,
  sizeOf,
  sub,
  times,
  turnedAbout,
  turnOf,
  vector,
  ZERO,
} from './outward.js';
import type { Interval, Turned, Vector } from './outward.js';
import type { Pairs, Standing } from './pairs.js';
import type { CertifiedPair } from '../model/certificate.js';

/** Room for the rounding of the few plain sums that bound a bend. */
const ROOM = 1 + 1e-7;
/** A length that may come below this bends as it may, millimetres. */
const LEAST_LENGTH = 1e-3;

const STILL: Moment = { turns: [0, 0], rock: 0, lift: 0 };

/**
 * Why the row is no row, or undefined where it is one: above the pair's margin in every standing that the
 * open options allow.
 */
export function faultOfMarginRow(
  row: MarginRow,
  pairs: Pairs,
  pair: CertifiedPair,
  domains: OptionDomains,
  box: Range4,
  keepOn: () => boolean,
): string | undefined {
  for (const standing of pairs.under(pair, domains)) {
    if (!standing) return 'some open option leaves the pair without that rule';
    if (standing.oneSide && pair.out !== undefined) return 'room within one side is not counted';
    let fault = 'no reason is given';
    const isAbove = row.reasons.some((reason) => {
      const found = faultOfReason(row, reason, pairs, standing, box, keepOn);
      if (found !== undefined) fault = found;
      return found === undefined;
    });
    if (!isAbove) return fault;
  }
  return undefined;
}

function faultOfReason(
  row: MarginRow,
  reason: Reason,
  pairs: Pairs,
  standing: Standing,
  box: Range4,
  keepOn: () => boolean,
): string | undefined {
  const { solids, moment = STILL } = reason;
  const fault = faultOfMoment(moment, pairs, standing);
  if (fault !== undefined) return fault;
  const [a, b] = ([0, 1] as const).map((end) =>
    pairs.body(standing, end, solids[end], moment.turns[end]),
  );
  if (!a || !b) return 'there is no such solid';
  const balls = a.ball + b.ball;
  const base = add(exactly(row.value), add(exactly(balls), exactly(standing.needed)));
  const { pairs: points = [], corners = Array<number>(8).fill(0) } = reason;
  if (corners.length !== 8) return 'a row has 8 corners';
  const held = points.map((one) => faultOfPoints(one, [a, b], box));
  const slack = 2 * (CLOSE_ENOUGH + a.rounding + b.rounding);
  const all = cornersOf(row, base, box, corners);
  const overlapping = all.filter(({ index }) => corners[index] === -1);
  if (overlapping.length > 0) {
    const why = faultOfInner(reason, moment, standing, [a, b], box, overlapping, keepOn);
    if (why !== undefined) return why;
  }
  for (const corner of all) {
    const at = corners[corner.index]!;
    if (at === -1) continue;
    const one = points[at];
    if (!one) return 'a corner names no pair of points';
    if (held[at] !== undefined) return held[at];
    const most = standing.oneSide
      ? gapOfOneSide(one, standing)
      : greatestGap(one, moment, standing, box, corner);
    for (const [end, gap] of most.entries()) {
      const least = corner.row[end]!.lo;
      if (!(gap + slack <= least)) return 'the row dips below a gap';
    }
  }
  return undefined;
}

/** Whether the pair may be in such a moment at all. */
function faultOfMoment(moment: Moment, pairs: Pairs, standing: Standing): string | undefined {
  const { turns, rock, lift } = moment;
  const ranges = pairs.turnsOf(standing);
  const turned = turns.every((angle, end) => {
    const { min, max } = ranges[end]!;
    return angle >= min && angle <= max;
  });
  if (!turned) return 'a part does not turn so far';
  if (!(Math.abs(rock) <= standing.rock)) return 'the engine does not rock so far';
  if (!(lift >= 0 && lift <= standing.lift)) return 'the engine does not lift so far';
  if (!standing.together) return undefined;
  // Parts that move together stand at the same share of their turns; their sweeps are not told apart here.
  const isStill = standing.places.every(({ part }) => !part.sweep);
  const shares = turns.map((angle, end) => {
    const { min, max } = ranges[end]!;
    return max > min ? (angle - min) / (max - min) : undefined;
  });
  const both = shares.every((share) => share !== undefined);
  if (!isStill || (both && shares[0] !== shares[1])) return 'the two move together';
  return undefined;
}

/** One end of setback, offset and height, with the row there at either end of pitch. */
function cornersOf(
  { slopes }: MarginRow,
  base: Interval,
  { lo, hi }: Range4,
  corners: readonly number[],
): Corner[] {
  return corners.map((_, index) => {
    const signs = [0, 1, 2].map((k) => (index & (1 << k) ? 1 : -1));
    const x = [0, 1, 2].map((k) => (signs[k]! > 0 ? hi[k]! : lo[k]!)) as unknown as Vec3;
    let value = base;
    for (const k of [0, 1, 2]) value = add(value, exactly(signs[k]! * slopes[k]!));
    const row = [sub(value, exactly(slopes[3])), add(value, exactly(slopes[3]))] as const;
    return { index, signs, x, row };
  });
}

/** Whether the points stay in their bodies wherever they slide to. */
function faultOfPoints(
  { points, slides }: PointPair,
  bodies: readonly [Body, Body],
  { lo, hi }: Range4,
): string | undefined {
  for (const end of [0, 1] as const) {
    const slide = slides?.[end];
    // A slide along a coordinate of no width goes nowhere.
    const columns = (slide ?? []).map((column, k) => (hi[k]! > lo[k]! ? column : NOWHERE));
    for (const signs of signsOf(columns)) {
      let p = points[end];
      for (const [k, sign] of signs.entries()) {
        const column = columns[k]!;
        p = [p[0] + sign * column[0], p[1] + sign * column[1], p[2] + sign * column[2]];
      }
      if (!(distanceTo(bodies[end], p) <= CLOSE_ENOUGH)) return 'a point is not in its solid';
    }
  }
  return undefined;
}

/** Why the inner body is not in the solids' difference, or not deep enough at these corners. */
function faultOfInner(
  { inner: body }: Reason,
  moment: Moment,
  standing: Standing,
  bodies: readonly [Body, Body],
  box: Range4,
  corners: readonly Corner[],
  keepOn: () => boolean,
): string | undefined {
  if (!body) return 'there is no inner body';
  if (standing.along || standing.oneSide) return 'an inner body tells of nearest gaps alone';
  const inside = body.pairs.every((pair) =>
    pair.every((p, end) => distanceTo(bodies[end as 0 | 1], p) <= CLOSE_ENOUGH),
  );
  if (!inside) return 'a point is not in its solid';
  return innerBodyHolds(body, moment, box, corners, keepOn)
    ? undefined
    : 'the inner body is not closed about the origin, or not deep enough';
}

const NOWHERE: Vec3 = [0, 0, 0];

/** Every way round of signs for columns that are not nothing. */
function signsOf(columns: readonly Vec3[]): number[][] {
  let all: number[][] = [[]];
  for (const column of columns) {
    const ways = column.some((x) => x !== 0) ? [-1, 1] : [0];
    all = all.flatMap((signs) => ways.map((way) => [...signs, way]));
  }
  return all;
}

/** What two points of parts of one side leave between them, at both ends alike. */
function gapOfOneSide({ points, slides }: PointPair, { along }: Standing): readonly number[] {
  if (slides?.some((slide) => slide !== null)) return [Infinity, Infinity];
  const v = minus(vector(points[0]), vector(points[1]));
  const gap = (along ? inner(vector(along), v) : lengthOf(v)).hi;
  return [gap, gap];
}

/**
 * What the pair of points leaves between them at one end of setback, offset and height, balls left in: at
 * most the first at the least pitch, the second at the greatest, and the line between them between.
 */
function greatestGap(
  { points, slides }: PointPair,
  moment: Moment,
  { along }: Standing,
  { lo, hi }: Range4,
  { signs, x }: Corner,
): readonly number[] {
  const rocked = turnOf(moment.rock);
  const slid = (end: 0 | 1): Vector => {
    let p = vector(points[end]);
    for (const k of [0, 1, 2] as const) {
      const column = slides?.[end]?.[k];
      if (column && hi[k] > lo[k]) p = plus(p, scaled(vector(column), signs[k]!));
    }
    return p;
  };
  const pitched = hi[3] > lo[3];
  const columnOf = (end: 0 | 1): Vector =>
    vector((pitched ? slides?.[end]?.[3] : undefined) ?? NOWHERE);
  const e = plus(turnedAbout(0, rocked, slid(0)), [ZERO, ZERO, exactly(moment.lift)]);
  const eBy = turnedAbout(0, rocked, columnOf(0));
  const b = slid(1);
  const bBy = columnOf(1);
  const n = along && vector(along);
  const gapOf = (v: Vector): number => (n ? inner(n, v) : lengthOf(v)).hi;
  const at = (turned: Turned, way: number): Vector =>
    minus(
      plus(turnedAbout(1, turned, plus(e, scaled(eBy, way))), vector(x)),
      plus(b, scaled(bBy, way)),
    );
  if (!pitched) {
    const gap = gapOf(at(turnOf(lo[3]), 0));
    return [gap, gap];
  }
  const wide = sub(exactly(hi[3]), exactly(lo[3])).hi;
  const half = wide / 2;
  const turned = turnOf((lo[3] + hi[3]) / 2);
  // What turns, square to the pitch axis, at the middle; and by how much that may be off over the box.
  const flat = ([px, , pz]: Vector): Vector => [px, ZERO, pz];
  const q = turnedAbout(1, turned, flat(e));
  const reach = lengthOf(flat(e)).hi + lengthOf(flat(eBy)).hi;
  const slideLength = lengthOf(flat(eBy)).hi;
  const swerve = half * reach + slideLength;
  const middle = at(turned, 0);
  const moved = half * reach + lengthOf(eBy).hi + lengthOf(bBy).hi;
  const bends = n
    ? Math.max(0, inner(n, q).hi + swerve)
    : bendOfLength(middle, q, reach, swerve, moved);
  const bend = add(exactly(bends), times(exactly(2 * slideLength), 1 / half)).hi * ROOM;
  const over = times(exactly(bend), (half * half) / 2).hi * ROOM;
  return [-1, 1].map((way) => gapOf(at(turnOf(way < 0 ? lo[3] : hi[3]), way)) + over);
}

/**
 * How far -f'' of a length can get over the box: v . q / |v| at the most, where q is what turns. Its part
 * that bends the other way is left out.
 */
function bendOfLength(v: Vector, q: Vector, reach: number, swerve: number, moved: number): number {
  const length = lengthOf(v);
  const least = length.lo - moved * ROOM;
  if (!(least > LEAST_LENGTH)) return reach;
  const most = inner(v, q).hi + moved * reach + sizeOf(length) * swerve;
  return Math.min(reach, Math.max(0, most / least));
}
