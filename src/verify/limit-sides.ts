/** The room left to a limit at either of its ends, with its slopes, over a box of positions. */

import { choicesOfLoad, loadsUnder } from '../model/fitup/loads-under.js';
import { choicesTouching, narrow } from '../model/options.js';
import type { OptionDomains } from '../model/options.js';
import { COORDINATES } from '../model/scenario.js';
import type { Limit, OptionSet, Scenario } from '../model/scenario.js';
import { heightSides } from './height-sides.js';
import { div, exactly, neg, sub, turnOf, vector } from './outward.js';
import type { Interval, Vector } from './outward.js';
import { pitched } from './position-point.js';
import type { Point, Side } from './position-point.js';
import {
  angle,
  constant,
  cross,
  dot,
  known,
  length,
  minus,
  plus,
  product,
  rootOf,
  scaled,
} from './slopes.js';
import type { Sloped, Vector3 } from './slopes.js';

/** A limit, and the option that brings it, if one does. */
interface Brought {
  readonly limit: Limit;
  readonly when?: { readonly choice: number; readonly option: number };
}

/** The file's limits, then those that options bring, in the file's order. */
export function limitsOf(s: Scenario): readonly Brought[] {
  return [
    ...s.limits.map((limit) => ({ limit })),
    ...s.choices.flatMap(({ options }, choice) =>
      options.flatMap(({ limits }, option) =>
        limits.map((limit) => ({ limit, when: { choice, option } })),
      ),
    ),
  ];
}

/** Option sets that differ in what the limit turns on. */
export function setsFor(s: Scenario, { quantity }: Limit, domains: OptionDomains): OptionSet[] {
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
export function sidesOf(s: Scenario, limit: Limit, set: OptionSet): Side[] {
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
