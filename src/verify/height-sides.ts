/** The room left to a limit on how high a part stands: by its lowest point, or by all that may be the lowest. */

import { partUnder } from '../model/options.js';
import type { Limit, OptionSet, Scenario, Vec3 } from '../model/scenario.js';
import { norm } from '../model/trig.js';
import { bodyOf } from './bodies.js';
import type { Body } from './bodies.js';
import { pitched } from './position-point.js';
import type { Point, Side } from './position-point.js';
import { exactly, hullOf, sub } from './outward.js';
import type { Interval, Vector } from './outward.js';
import { constant, length, minus, plus, scaled } from './slopes.js';
import type { Sloped } from './slopes.js';

/** Numbers that may each be off by so much. */
function about(v: Vec3, off: number): Vector {
  const one = (x: number): Interval => ({
    lo: sub(exactly(x), exactly(off)).lo,
    hi: sub(exactly(x), exactly(-off)).hi,
  });
  return [one(v[0]), one(v[1]), one(v[2])];
}

/** Room above the least height, by one low point; under the greatest, by all of them at once. */
export function heightSides(
  s: Scenario,
  { min, max }: Limit,
  { what, above }: Extract<Limit['quantity'], { of: 'height above' }>,
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
  what: Extract<Limit['quantity'], { of: 'height above' }>['what'],
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
