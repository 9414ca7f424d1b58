/**
 * Limits: hard intervals on a quantity of the position. A limit on a coordinate narrows the box; a limit
 * on a height gives an exact slack at a position, and hard rows over a box.
 */

import { LIMIT_SLACK } from '../decision.js';
import * as trig from '../../model/trig.js';
import { shapeOf } from '../../geometry/shape.js';
import { maxOf } from '../../model/extremes.js';
import { choicesTouching, partUnder } from '../../model/options.js';
import type { OptionDomains } from '../../model/options.js';
import { COORDINATES } from '../../model/scenario.js';
import type { Limit, OptionSet, Scenario } from '../../model/scenario.js';
import { lowPointOver, lowestAt, lowestLeaning } from './height-limit.js';
import type { HeightLimit } from './height-limit.js';
import { JointLimit } from './joint-limit.js';
import { EngineSolid } from './pose.js';
import { WeightLimit } from './weight-limit.js';

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
