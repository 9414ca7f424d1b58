/**
 * Limits: hard intervals on a quantity of the position. A limit on a coordinate narrows the box; a limit
 * on a height gives an exact slack at a position, and hard rows over a box.
 */

import { maxOf, minOf } from '../../model/extremes.js';
import { extent, support } from '../../geometry/reach.js';
import { shapeOf } from '../../geometry/shape.js';
import { choicesTouching, partUnder } from '../../model/options.js';
import type { OptionDomains } from '../../model/options.js';
import type { Limit, OptionSet, Scenario } from '../../model/scenario.js';
import { COORDINATES } from '../../model/scenario.js';
import { JointLimit } from './joint-limit.js';
import { WeightLimit } from './weight-limit.js';
import type { PositionBox } from '../box.js';
import { EngineSolid } from './pose.js';
import type { Rows } from '../rows.js';
import { stanceFrom } from '../../model/stance.js';
import * as trig from '../../model/trig.js';
import { Leaning } from './leaning.js';

/** Millimetres (radians of an angle, kilograms of a load) by which a limit may be missed and still count as met. */
export const LIMIT_SLACK = 1e-7;

const point = new Float64Array(3);

/** A height limit ready to measure: solids by option, and the datum's height. */
export interface HeightLimit {
  readonly kind: 'height';
  readonly limit: Limit;
  readonly choices: readonly number[];
  /** The solids whose lowest point is limited; none when the part is not there. */
  solids(set: OptionSet): readonly EngineSolid[];
  readonly above: number;
}
interface CoordinateLimit {
  readonly kind: 'coordinate';
  readonly limit: Limit;
  readonly coordinate: number;
}
export type ReadyLimit = HeightLimit | CoordinateLimit | JointLimit | WeightLimit;

const ready = new WeakMap<Limit, ReadyLimit>();

export function readyLimit(scenario: Scenario, limit: Limit): ReadyLimit {
  const drawn = scenario.drawn ?? scenario;
  let known = ready.get(limit);
  // A trim carried out is a choice more, of a part that may have a load.
  const isStale = known?.kind === 'weight' && known.scenario !== drawn;
  if (!known || isStale) ready.set(limit, (known = make(drawn, limit)));
  return known;
}

function make(scenario: Scenario, limit: Limit): ReadyLimit {
  const { quantity } = limit;
  if (quantity.of === 'joint angle' || quantity.of === 'joint difference') {
    if (!scenario.driveline) throw new Error('no driveline');
    return new JointLimit(limit, quantity, scenario.driveline);
  }
  if (quantity.of === 'front axle load') {
    if (!scenario.weight) throw new Error('no weights');
    return new WeightLimit(limit, scenario, scenario.weight);
  }
  if (quantity.of !== 'height above') {
    return { kind: 'coordinate', limit, coordinate: COORDINATES.indexOf(quantity.of) };
  }
  const datum = scenario.datums.chassis.find((d) => d.name === quantity.above);
  const above = datum?.z;
  if (above === undefined) throw new Error(`no height for datum '${quantity.above}'`);
  const { what } = quantity;
  if ('datum' in what) {
    const at = scenario.datums.engine.find((d) => d.name === what.datum);
    if (!at) throw new Error(`no engine datum '${what.datum}'`);
    const center = [at.x ?? 0, at.y ?? 0, at.z ?? 0] as const;
    const solid = new EngineSolid(shapeOf({ shape: 'ball', center, diameter: 0 }));
    return { kind: 'height', limit, choices: [], solids: () => [solid], above };
  }
  const byKey = new Map<string, readonly EngineSolid[]>();
  const choices = choicesTouching(scenario, what.part);
  const solids = (set: OptionSet): readonly EngineSolid[] => {
    const key = choices.map((c) => set[c]).join();
    let list = byKey.get(key);
    if (!list) {
      const place = partUnder(scenario, what.part, set);
      const how = place && { mirrored: place.part.mirrored, move: place.move };
      list = place ? place.part.solids.map((s) => new EngineSolid(shapeOf(s, how))) : [];
      byKey.set(key, list);
    }
    return list;
  };
  return { kind: 'height', limit, choices, solids, above };
}

/**
 * The quantity's value at a position, or at a stance of six numbers: radians of an angle, kilograms of a
 * load, else millimetres; undefined when idle.
 */
export function limitValue(
  limit: ReadyLimit,
  set: OptionSet,
  x: ArrayLike<number>,
): number | undefined {
  if (limit.kind === 'coordinate') return x[limit.coordinate]!;
  if (limit.kind === 'joint') return limit.value(x);
  if (limit.kind === 'weight') return limit.value(set, x);
  const solids = limit.solids(set);
  if (solids.length === 0) return undefined;
  if (x.length === 6) return lowestLeaning(solids, x) - limit.above;
  return lowestAt(solids, x[3]!) + x[2]! - limit.above;
}

/** Height of the lowest point of any solid, with the engine leaning. */
function lowestLeaning(solids: readonly EngineSolid[], at: ArrayLike<number>): number {
  const leaning = new Leaning(stanceFrom(at));
  const down = leaning.amongTurned([0, 0, -1]);
  const pitch = leaning.x[3]!;
  return minOf(solids.map((solid) => -extent(solid.at(pitch, 0), ...down))) + at[2]!;
}

/** Height of the lowest point of any solid at a pitch, with the engine datum at height 0. */
function lowestAt(solids: readonly EngineSolid[], pitch: number): number {
  return minOf(solids.map((solid) => -extent(solid.at(pitch, 0), 0, 0, -1)));
}

/** How far inside the limit the position is: negative when it is broken. */
export function limitSlack(limit: ReadyLimit, set: OptionSet, x: ArrayLike<number>): number {
  const value = limitValue(limit, set, x);
  if (value === undefined) return Infinity;
  return Math.min(value - limit.limit.min, limit.limit.max - value);
}

/** Parts that a range of pitch is cut into where a height is bounded over it. */
const PITCH_PARTS = 16;

/**
 * A lower bound on the slack of a limit anywhere between two positions; Infinity where idle. The
 * height of a point under pitch bends by at most its distance from the pitch axis.
 */
export function slackOver(
  limit: HeightLimit | JointLimit | WeightLimit,
  set: OptionSet,
  lo: ArrayLike<number>,
  hi: ArrayLike<number>,
): number {
  if (limit.kind === 'joint') return limit.slackOver(lo, hi).least;
  if (limit.kind === 'weight') return limit.slackOver(settled(set), lo, hi).least;
  const solids = limit.solids(set);
  if (solids.length === 0) return Infinity;
  const { min, max } = limit.limit;
  const wide = hi[3]! - lo[3]!;
  const parts = wide > 0 ? PITCH_PARTS : 1;
  const bends = maxOf(solids.map((solid) => solid.reach(0)));
  const sag = (bends * trig.squared(wide / parts / 2)) / 2;
  let least = Infinity;
  for (let i = 0; i < parts; i++) {
    const from = lo[3]! + (wide * i) / parts;
    const to = lo[3]! + (wide * (i + 1)) / parts;
    const low = Math.min(lowestAt(solids, from), lowestAt(solids, to)) - sag;
    const high = Math.min(lowPointOver(solids, from, to), lowPointOver(solids, to, from)) + sag;
    least = Math.min(least, low + lo[2]! - limit.above - min, max - high - hi[2]! + limit.above);
  }
  return least;
}

/** The greater of the heights, at two pitches, of the point that is lowest at the first. */
function lowPointOver(solids: readonly EngineSolid[], at: number, other: number): number {
  let least = Infinity;
  for (const solid of solids) {
    const turned = solid.at(at, 0);
    support(turned, 0, 0, -1, point);
    const turn = other - at;
    const there = -point[0]! * trig.sin(turn) + point[2]! * trig.cos(turn);
    least = Math.min(least, Math.max(point[2]!, there) - turned.ball);
  }
  return least;
}

/**
 * Narrow a box by the coordinate limits; false when nothing is left, or no joint may keep its limit there, nor
 * the front axle's load under any open option.
 */
export function narrowByLimits(
  limits: readonly ReadyLimit[],
  domains: OptionDomains,
  lo: Float64Array,
  hi: Float64Array,
): boolean {
  for (const limit of limits) {
    if (limit.kind === 'height') continue;
    if (limit.kind === 'joint') {
      if (limit.slackOver(lo, hi).most < -LIMIT_SLACK) return false;
      continue;
    }
    if (limit.kind === 'weight') {
      if (limit.slackOver(domains, lo, hi).most < -LIMIT_SLACK) return false;
      continue;
    }
    const k = limit.coordinate;
    lo[k] = Math.max(lo[k]!, limit.limit.min);
    hi[k] = Math.min(hi[k]!, limit.limit.max);
    if (lo[k] > hi[k]) {
      if (lo[k] > hi[k] + LIMIT_SLACK) return false;
      hi[k] = lo[k]!;
    }
  }
  return true;
}

/** The domains that leave one option set. */
export function settled(set: OptionSet): OptionDomains {
  return set.map((option) => [option]);
}

/** True when the choices that a height limit turns on are all decided. */
export function isSettled(limit: HeightLimit, domains: OptionDomains): boolean {
  return limit.choices.every((c) => domains[c]!.length === 1);
}

/** Hard rows of a height limit over a box; the part must be settled. */
export function heightRows(limit: HeightLimit, set: OptionSet, box: PositionBox, rows: Rows): void {
  const solids = limit.solids(set);
  if (solids.length === 0) return;
  const D = box.half[3]!;
  if (limit.limit.min > -Infinity) {
    for (const solid of solids) {
      for (const at of [-1, 0, 1]) {
        if (at !== 0 && D === 0) continue;
        const turned = solid.at(box.mid[3]! + at * D, 0);
        support(turned, 0, 0, -1, point);
        lowPointRow(box, at * D, point[0]!, point[2]! - turned.ball, limit, rows);
      }
    }
  }
  if (limit.limit.max < Infinity) {
    // The height of a point under pitch bends by at most its distance from the pitch axis, so the
    // lowest of them lies above its chord less this.
    const sag = (maxOf(solids.map((s) => s.reach(0))) * D * D) / 2;
    const front = lowestAt(solids, box.mid[3]! - D);
    const rear = lowestAt(solids, box.mid[3]! + D);
    const low = (front + rear) / 2 - sag;
    const row = rows.add(-1, true);
    rows.values[row] = limit.limit.max - (box.mid[2]! + low - limit.above) + LIMIT_SLACK;
    rows.slopes[4 * row + 2] = -box.half[2]!;
    rows.slopes[4 * row + 3] = -(rear - front) / 2;
    rows.blame[4 * row + 3] = sag;
    rows.tightAtEnds[row] = 1;
  }
}

/** One point's height over the box from above, by the cosine's tangent or chord. */
function lowPointRow(
  box: PositionBox,
  turned: number,
  x: number,
  z: number,
  limit: HeightLimit,
  rows: Rows,
): void {
  const D = box.half[3]!;
  const px = x * trig.cos(-turned) + z * trig.sin(-turned);
  const pz = -x * trig.sin(-turned) + z * trig.cos(-turned);
  const row = rows.add(-1, true);
  const level = pz > 0 ? pz : pz * trig.cos(D);
  rows.values[row] =
    box.mid[2]! +
    level +
    Math.abs(px) * (D - trig.sin(D)) -
    limit.above -
    limit.limit.min +
    LIMIT_SLACK;
  rows.slopes[4 * row + 2] = box.half[2]!;
  rows.slopes[4 * row + 3] = -px * D;
}
