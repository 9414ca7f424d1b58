/**
 * The bay as it stands on the floor: the solids of every pair at rest, and their gaps wherever the engine
 * really sits, roll and yaw included. No sweep, turn or rock: that is what a tape meets.
 */

import { createGap, gapBetween } from '../../geometry/gap.js';
import { placed } from '../../geometry/placed.js';
import { extent, support } from '../../geometry/reach.js';
import type { Shape } from '../../geometry/shape.js';
import { absence } from '../../model/absence.js';
import type { Measure, OptionSet, Rule, RuleEnd, Scenario, Vec3 } from '../../model/scenario.js';
import { stanceRotation } from '../../model/stance.js';
import type { Stance } from '../../model/stance.js';
import * as trig from '../../model/trig.js';
import { compileBay } from '../measuring/compile.js';
import type { Group } from '../measuring/bay.js';
import type { Contact } from '../measuring/contact.js';
import { alongAxis } from '../measuring/fixed.js';
import { LAST } from '../measuring/unruled.js';

/** A solid of the engine, turned once for all that is measured against it. */
export class TurnedSolid {
  /** No point is farther than this from the engine datum. */
  readonly reach: number;
  private turned: Shape | undefined;
  private readonly rotation = new Float64Array(9);
  private of = [NaN, NaN, NaN];

  constructor(private readonly shape: Shape) {
    let reach = 0;
    const { points, disc, ball } = shape;
    for (let i = 0; i < points.length; i += 3) {
      reach = Math.max(reach, trig.hypot(points[i]!, points[i + 1]!, points[i + 2]!));
    }
    this.reach = reach + disc + ball;
  }

  at({ pitch, roll, yaw }: Stance): Shape {
    const [p, r, y] = this.of;
    if (this.turned === undefined || p !== pitch || r !== roll || y !== yaw) {
      this.turned = placed(
        this.shape,
        stanceRotation({ pitch, roll, yaw }, this.rotation),
        this.turned,
      );
      this.of = [pitch, roll, yaw];
    }
    return this.turned;
  }
}

/** Two solids, one of either side. */
export interface RestingSolids {
  readonly between: readonly [string, string];
  readonly engine: TurnedSolid;
  readonly chassis: Shape;
  /** Vehicle axis of an axis rule, or -1 for the nearest gap; `sign` as in `Contact`. */
  readonly axis: Contact['axis'];
  readonly sign: Contact['sign'];
}

/** A pair of parts under a rule, as taped. */
export interface RestingPair {
  /** Engine part first. */
  readonly between: readonly [string, string];
  readonly measured: Measure;
  readonly rule: Rule;
  readonly needed: number;
  readonly solids: readonly RestingSolids[];
}

/** A gap at rest. */
export interface RestingGap {
  /** Certified: the gap lies from `lower` to `upper`. */
  readonly lower: number;
  readonly upper: number;
  /** A point of the engine, vehicle frame, and the unit direction in which its moving opens the gap. */
  readonly point: Vec3;
  readonly opens: Vec3;
}

/** Every pair with a rule, the room to come out left aside. */
export function restingPairs(scenario: Scenario, set: OptionSet): readonly RestingPair[] {
  const solids = new Solids();
  const bay = compileBay(scenario, { allowed: set.map((option) => [option]) });
  return bay.groups.flatMap((group): RestingPair[] => {
    if (group.comingOut) return [];
    return group.combos.flatMap(({ rule, needed, contacts }) => {
      if (!rule || contacts.length === 0) return [];
      const { between, measured } = group;
      const own = contacts.map((id) => solids.of(group, bay.contacts[id]!));
      return [{ between, measured, rule, needed, solids: own }];
    });
  });
}

/**
 * Every two solids across the sides that may not meet, whether a rule speaks of them or not, without
 * what is not there yet.
 */
export function restingMeetings(
  scenario: Scenario,
  set: OptionSet,
  absent: readonly RuleEnd[],
): readonly RestingSolids[] {
  const solids = new Solids();
  const everyPair = { ...scenario, rules: [...scenario.rules, LAST] };
  const bay = compileBay(everyPair, { allowed: set.map((option) => [option]) });
  const isAbsent = absence(scenario, set, absent);
  return bay.groups
    .filter(({ measured, comingOut, between }) => {
      return measured === 'nearest' && !comingOut && !between.some(isAbsent);
    })
    .flatMap((group) =>
      group.combos.flatMap(({ contacts }) =>
        contacts.map((id) => solids.of(group, bay.contacts[id]!)),
      ),
    );
}

/** One turned solid for each of the engine's. */
class Solids {
  private readonly known = new Map<Shape, TurnedSolid>();

  of({ between }: Group, { engineStill, chassisStill, axis, sign }: Contact): RestingSolids {
    let engine = this.known.get(engineStill.shape);
    if (!engine) this.known.set(engineStill.shape, (engine = new TurnedSolid(engineStill.shape)));
    return { between, engine, chassis: chassisStill, axis, sign };
  }
}

const gap = createGap();
const point = new Float64Array(3);

/** The gap of two solids at a stance. */
export function restingGap(solids: RestingSolids, stance: Stance): RestingGap {
  const { engine, chassis, axis, sign } = solids;
  const shape = engine.at(stance);
  const { setback, offset, height } = stance;
  if (axis < 0) {
    // Before flat faces many points are nearest: which of them is told must not hang on what was measured before.
    gap.nx = gap.ny = gap.nz = 0;
    gapBetween(shape, chassis, setback, offset, height, gap);
    const { ax, ay, az, nx, ny, nz, lower, upper } = gap;
    return { lower, upper, point: [ax, ay, az], opens: [nx, ny, nz] };
  }
  const [nx, ny, nz] = alongAxis(axis, sign);
  support(shape, -nx, -ny, -nz, point);
  const moved = nx * setback + ny * offset + nz * height;
  const value = moved - extent(shape, -nx, -ny, -nz) - extent(chassis, nx, ny, nz);
  return {
    lower: value,
    upper: value,
    point: [point[0]! + setback, point[1]! + offset, point[2]! + height],
    opens: [nx, ny, nz],
  };
}

/** The gap of a pair of parts: that of its two nearest solids. */
export function restingGapOf(pair: Pick<RestingPair, 'solids'>, stance: Stance): RestingGap {
  let least: RestingGap | undefined;
  for (const solids of pair.solids) {
    const found = restingGap(solids, stance);
    if (least === undefined || found.lower < least.lower) least = found;
  }
  return least!;
}

/** No point of the solid moves farther than this between two stances, straight or turning. */
export function travelBetween({ reach }: TurnedSolid, a: Stance, b: Stance): number {
  const way = trig.hypot(b.setback - a.setback, b.offset - a.offset, b.height - a.height);
  const turn = Math.abs(b.pitch - a.pitch) + Math.abs(b.roll - a.roll) + Math.abs(b.yaw - a.yaw);
  return way + reach * turn;
}
