/**
 * Whether a row lies at or above the room left to a limit, at every position of a box and under every
 * option still open. Boxes in which that cannot be told are halved.
 */

import { norm } from '../model/trig.js';
import type { Four, LimitRow } from '../model/certificate.js';
import { choicesOfLoad, loadsUnder } from '../model/fitup/loads-under.js';
import { choicesTouching, narrow, partUnder } from '../model/options.js';
import type { OptionDomains } from '../model/options.js';
import { COORDINATES } from '../model/scenario.js';
import type { Limit, OptionSet, Scenario, Vec3 } from '../model/scenario.js';
import { bodyOf } from './bodies.js';
import type { Body } from './bodies.js';
import type { Range4 } from './box.js';
import {
  angle,
  constant,
  coordinate,
  cross,
  dot,
  known,
  leastOf,
  length,
  minus,
  pitchTurn,
  plus,
  product,
  rootOf,
  scaled,
} from './slopes.js';
import { div, exactly, hullOf, neg, sub, turnOf, vector } from './outward.js';
import type { Interval, Vector } from './outward.js';
import type { Sloped, Vector3 } from './slopes.js';

/** A limit, and the option that brings it, if one does. */
interface Brought {
  readonly limit: Limit;
  readonly when?: { readonly choice: number; readonly option: number };
}

/** The file's limits, then those that options bring, in the file's order. */
function limitsOf(s: Scenario): readonly Brought[] {
  return [
    ...s.limits.map((limit) => ({ limit })),
    ...s.choices.flatMap(({ options }, choice) =>
      options.flatMap(({ limits }, option) =>
        limits.map((limit) => ({ limit, when: { choice, option } })),
      ),
    ),
  ];
}

/** How often a box may be halved. */
const MOST_HALVINGS = 20;

/** Why the row is no row, or undefined where it is one. */
export function faultOfLimitRow(
  row: LimitRow,
  s: Scenario,
  domains: OptionDomains,
  box: Range4,
): string | undefined {
  const brought = limitsOf(s)[row.limit];
  if (!brought) return 'there is no such limit';
  if (!(row.scale > 0)) return 'a limit has no scale';
  const { when, limit } = brought;
  if (when) {
    const open = domains[when.choice]!;
    if (open.length !== 1 || open[0] !== when.option) return 'its limit does not hold there';
  }
  for (const set of setsFor(s, limit, domains)) {
    const sides = sidesOf(s.drawn ?? s, limit, set);
    if (!sides.some((side) => isAbove(row, side, box, box, MOST_HALVINGS))) {
      return 'the row dips below a limit';
    }
  }
  return undefined;
}

/** Millimetres, radians or kilograms by which a place may miss a limit and count as keeping it. */
const LIMIT_SLACK = 1e-7;

/** Why a place breaks a limit; undefined where it keeps all that hold under the set. */
export function faultOfLimits(s: Scenario, set: OptionSet, place: Four): string | undefined {
  const at = pointOf({ lo: place, hi: place });
  for (const [i, { limit, when }] of limitsOf(s).entries()) {
    if (when && set[when.choice] !== when.option) continue;
    const sides = sidesOf(s.drawn ?? s, limit, set);
    if (sides.some((side) => !(side(at).middle.lo >= -LIMIT_SLACK)))
      return `limit ${i + 1} is missed`;
  }
  return undefined;
}

/** Something that is 0 or more wherever the limit is kept, over a box. */
type Side = (at: Point) => Sloped;

/** A box with its middle, and what a position is there. */
interface Point {
  readonly lo: Four;
  readonly hi: Four;
  readonly middle: Four;
  readonly x: readonly [Sloped, Sloped, Sloped, Sloped];
  readonly cos: Sloped;
  readonly sin: Sloped;
}

function pointOf({ lo, hi }: Range4): Point {
  const middle = lo.map((low, k) => low + (hi[k]! - low) / 2) as unknown as Four;
  const x = ([0, 1, 2, 3] as const).map((k) => coordinate(k, lo, hi, middle[k]));
  return {
    lo,
    hi,
    middle,
    x: x as unknown as Point['x'],
    ...pitchTurn(lo, hi, middle[3]),
  };
}

/** Whether the row stays above one side all over a piece of its box. */
function isAbove(row: LimitRow, side: Side, whole: Range4, piece: Range4, left: number): boolean {
  const at = pointOf(piece);
  const room = minus(rowAt(row, whole, at), scaled(side(at), row.scale));
  if (leastOf(room, piece.lo, piece.hi, at.middle) >= 0) return true;
  if (left === 0 || !(room.middle.lo >= 0)) return false;
  // Along the coordinate over which the slopes are known the least well.
  let widest = 0;
  let most = -1;
  for (const k of [0, 1, 2, 3] as const) {
    const slope = room.slopes[k] ?? { lo: 0, hi: 0 };
    const doubt = (slope.hi - slope.lo) * (piece.hi[k] - piece.lo[k]);
    if (doubt > most) [widest, most] = [k, doubt];
  }
  const cut = at.middle[widest]!;
  if (!(cut > piece.lo[widest]! && cut < piece.hi[widest]!)) return false;
  const half = (low: boolean): Range4 => ({
    lo: piece.lo.map((x, k) => (k === widest && !low ? cut : x)) as unknown as Four,
    hi: piece.hi.map((x, k) => (k === widest && low ? cut : x)) as unknown as Four,
  });
  return [true, false].every((low) => isAbove(row, side, whole, half(low), left - 1));
}

/** The row as a function of the position. */
function rowAt({ value, slopes }: LimitRow, { lo, hi }: Range4, at: Point): Sloped {
  let sum = constant(value);
  for (const k of [0, 1, 2, 3] as const) {
    const half = (hi[k] - lo[k]) / 2;
    if (half === 0 || slopes[k] === 0) continue;
    const along = minus(at.x[k], constant(lo[k] + half));
    // Less what rounding of the middle may come to, in half widths.
    const off = (4 * Number.EPSILON * Math.max(Math.abs(lo[k]), Math.abs(hi[k]))) / half + 1e-12;
    const hair = constant(-Math.abs(slopes[k]) * off);
    sum = plus(plus(sum, scaled(along, slopes[k] / half)), hair);
  }
  return sum;
}

/** Option sets that differ in what the limit turns on. */
function setsFor(s: Scenario, { quantity }: Limit, domains: OptionDomains): OptionSet[] {
  const choices =
    quantity.of === 'front axle load'
      ? (s.weight?.in.flatMap((load) => choicesOfLoad(s, load)) ?? [])
      : quantity.of === 'height above' && 'part' in quantity.what
        ? choicesTouching(s, quantity.what.part)
        : [];
  let all: OptionDomains[] = [domains];
  for (const c of new Set(choices)) {
    all = all.flatMap((open) =>
      open[c]!.flatMap((option) => {
        const next = narrow(
          s,
          open.map((domain, d) => (d === c ? [option] : domain)),
        );
        return next ? [next] : [];
      }),
    );
  }
  return all.map((open) => open.map((domain) => domain[0]!));
}

/** The room left to the limit at either of its ends: the row need be above only one of them. */
function sidesOf(s: Scenario, limit: Limit, set: OptionSet): Side[] {
  const { min, max, quantity } = limit;
  if (quantity.of === 'height above') return heightSides(s, limit, quantity, set);
  const value = valueOf(s, quantity, set);
  if (!value) return [];
  return [
    ...(min > -Infinity ? [(at: Point) => minus(value(at), constant(min))] : []),
    ...(max < Infinity ? [(at: Point) => minus(constant(max), value(at))] : []),
  ];
}

type Quantity = Limit['quantity'];

function valueOf(s: Scenario, quantity: Quantity, set: OptionSet): Side | undefined {
  switch (quantity.of) {
    case 'joint angle':
      return (at) => jointAngle(s, quantity.joint, quantity.state, at);
    case 'joint difference':
      return (at) => {
        const [front, rear] = (['front', 'rear'] as const).map((joint) =>
          jointAngle(s, joint, quantity.state, at),
        );
        return sizeOf(minus(front!, rear!));
      };
    case 'front axle load':
      return s.weight && ((at) => frontLoad(s, set, at));
    case 'height above':
      return undefined;
    default:
      return (at) => at.x[COORDINATES.indexOf(quantity.of)]!;
  }
}

/** The size of a number; its slopes are either way where its sign is not known. */
function sizeOf(a: Sloped): Sloped {
  const squared = product(a, a);
  return a.over.lo >= 0 ? a : a.over.hi <= 0 ? scaled(a, -1) : rootOf(squared);
}

/** A vector of the engine's frame in the vehicle's. */
function pitched(v: Vector, { cos, sin }: Point): Vector3 {
  const [x, y, z] = [known(v[0]), known(v[1]), known(v[2])];
  return [plus(product(cos, x), product(sin, z)), y, minus(product(cos, z), product(sin, x))];
}

/** Numbers that may each be off by so much. */
function about(v: Vec3, off: number): Vector {
  const one = (x: number): Interval => ({
    lo: sub(exactly(x), exactly(off)).lo,
    hi: sub(exactly(x), exactly(-off)).hi,
  });
  return [one(v[0]), one(v[1]), one(v[2])];
}

/** Rearward, by the slopes of its angles down and to the right. */
function pointing(down: number, right: number): Vector {
  const tangent = (by: number): Interval => {
    const { cos, sin } = turnOf(by);
    return div(sin, cos);
  };
  return [exactly(1), tangent(right), neg(tangent(down))];
}

/** The angle in space between the shafts that meet at a joint, radians. */
function jointAngle(
  { driveline }: Scenario,
  joint: 'front' | 'rear',
  state: 'ride' | 'bump' | 'droop',
  at: Point,
): Sloped {
  const pinion = driveline?.pinion[state];
  if (!driveline || !pinion) throw new RangeError('the limit speaks of a joint that is not there');
  const { output, aim } = driveline;
  const from = pitched(vector(output), at);
  const shaft = [0, 1, 2].map((k) =>
    minus(constant(pinion.at[k]!), plus(from[k]!, at.x[k]!)),
  ) as unknown as Vector3;
  const after = pointing(pinion.up, -pinion.right);
  const other: Vector3 =
    joint === 'front'
      ? pitched(pointing(aim.down, aim.right), at)
      : [known(after[0]), known(after[1]), known(after[2])];
  return angle(dot(shaft, other), length(cross(shaft, other)));
}

/** What the front axle carries, by moments about the rear one, kilograms. */
function frontLoad(s: Scenario, set: OptionSet, at: Point): Sloped {
  const { axles, before, out } = s.weight!;
  const between = sub(exactly(axles.rear), exactly(axles.front));
  const carried = (mass: number, x: Sloped): Sloped =>
    product(minus(constant(axles.rear), x), known(div(exactly(mass), between)));
  let sum = constant(before.front);
  for (const { mass, at: place } of out) sum = minus(sum, carried(mass, constant(place[0])));
  for (const { side, mass, at: place } of loadsUnder(s, s.weight!, set)) {
    const isStill = side === 'chassis';
    const x = isStill ? constant(place[0]) : plus(pitched(vector(place), at)[0], at.x[0]);
    sum = plus(sum, carried(mass, x));
  }
  return sum;
}

/** Room above the least height, by one low point; under the greatest, by all of them at once. */
function heightSides(
  s: Scenario,
  { min, max }: Limit,
  { what, above }: Extract<Quantity, { of: 'height above' }>,
  set: OptionSet,
): Side[] {
  const datum = s.datums.chassis.find(({ name }) => name === above)?.z;
  if (datum === undefined) return [];
  const bodies = bodiesOf(s, what, set);
  // A part that is not there keeps every limit.
  if (bodies.length === 0) return [];
  const lowest = bodies.flatMap((body) => body.points.map((point) => heightOf(body, point)));
  const low = [...lowest, ...bodies.flatMap((body) => rimsOf(body).map((p) => heightOf(p, p.at)))];
  const from =
    (height: Side): Side =>
    (at) =>
      minus(plus(height(at), at.x[2]), constant(datum));
  return [
    ...(min > -Infinity
      ? low.map((height) => (at: Point) => minus(from(height)(at), constant(min)))
      : []),
    ...(max < Infinity
      ? [(at: Point) => minus(constant(max), leastAmong(lowest.map((height) => from(height)(at))))]
      : []),
  ];
}

function bodiesOf(
  s: Scenario,
  what: Extract<Quantity, { of: 'height above' }>['what'],
  set: OptionSet,
): Body[] {
  if ('datum' in what) {
    const at = s.datums.engine.find(({ name }) => name === what.datum);
    if (!at) return [];
    return [{ points: [[at.x ?? 0, at.y ?? 0, at.z ?? 0]], ball: 0, rounding: 0 }];
  }
  const place = partUnder(s, what.part, set);
  return place ? place.part.solids.map((solid) => bodyOf(place, solid, 'at rest', 0)) : [];
}

/**
 * Fixed places on the rims of a body's discs, fore and aft and below: where a disc lies level its lowest place
 * jumps from one side to the other, and no slope of it is known.
 */
function rimsOf({ points, ball, disc, rounding }: Body): (Body & { readonly at: Vec3 })[] {
  if (!disc) return [];
  const { normal, radius } = disc;
  const ways: Vec3[] = [
    [1, 0, 0],
    [-1, 0, 0],
    [0, 0, -1],
  ];
  return ways.flatMap((way) => {
    const along = way[0] * normal[0] + way[1] * normal[1] + way[2] * normal[2];
    const across = way.map((x, k) => x - along * normal[k]!);
    const size = norm(across);
    if (!(size > 0.1)) return [];
    // A hair inside the rim, for rounding.
    const by = (radius * (1 - 1e-12)) / size;
    const rim = (p: Vec3): Vec3 => [
      p[0] + by * across[0]!,
      p[1] + by * across[1]!,
      p[2] + by * across[2]!,
    ];
    return points.map((p) => ({ points: [], ball, rounding, at: rim(p) }));
  });
}

/** By which each number of a unit vector may be off by rounding. */
const UNIT_ROUNDING = 1e-15;

/** How high the lowest place of the disc and ball about a point is, from the engine datum. */
function heightOf({ ball, disc, rounding }: Body, point: Vec3): Side {
  return (at) => {
    const height = plus(pitched(about(point, rounding), at)[2], constant(-ball));
    if (!disc) return height;
    const [x, y] = pitched(about(disc.normal, UNIT_ROUNDING), at);
    return minus(height, scaled(length([x, y, constant(0)]), disc.radius));
  };
}

/** The least of several: no less than the least of what each may be. */
function leastAmong(all: readonly Sloped[]): Sloped {
  return all.reduce((a, b) => {
    const lower = (x: Sloped['over'], y: Sloped['over']) => ({
      lo: Math.min(x.lo, y.lo),
      hi: Math.min(x.hi, y.hi),
    });
    const flat = { lo: 0, hi: 0 };
    const slopes = [0, 1, 2, 3].map((k) => hullOf(a.slopes[k] ?? flat, b.slopes[k] ?? flat));
    return { middle: lower(a.middle, b.middle), over: lower(a.over, b.over), slopes };
  });
}
