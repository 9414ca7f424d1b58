/**
 * The gaps of one option set, measured as the engine is dragged. While it moves, only the rules that may be
 * among the worst are measured: what a rule left last time, less what the way since can take off it, is a
 * lower bound, and those whose bound is above the worst so far wait. At rest every rule is measured afresh,
 * to the same last digit as `measureAt`.
 */

import type { OptionSet, Position, Scenario } from '../model/scenario.js';
import { partUnder } from '../model/options.js';
import { withTrims } from '../model/trims.js';
import type { Reading, Standing } from '../solver/answer.js';
import { compileBay } from '../solver/measuring/compile.js';
import type { Group } from '../solver/measuring/bay.js';
import { standingAt, vectorOf } from '../solver/measuring/measure.js';
import { Meter } from '../solver/measuring/meter.js';
import type { Place } from './state.js';

/** One rule while the engine moves: its margin is measured at the very position, brackets of motions as they fall. */
export type Moving = Pick<
  Reading,
  'between' | 'measured' | 'comingOut' | 'withdrawn' | 'needed' | 'margin'
>;

/** What a scenario is with cuts made, and the set that makes them: the file's own where there are none. */
export function cutScenario(
  scenario: Scenario,
  { options, depths }: Pick<Place, 'options' | 'depths'>,
): { readonly scenario: Scenario; readonly set: OptionSet } {
  if (!depths.some((depth) => depth > 0)) return { scenario, set: options };
  const set = [...options, ...depths.map((depth) => (depth > 0 ? 1 : 0))];
  return { scenario: withTrims(scenario, depths), set };
}

export class Live {
  private readonly set: OptionSet;
  private readonly meter: Meter;
  /** The groups that the set has a rule for, with the contacts of it. */
  private readonly groups: readonly Group[];
  private readonly bounds: Float64Array;
  private readonly order: Int32Array;

  constructor(scenario: Scenario, place: Pick<Place, 'options' | 'depths'>) {
    const made = cutScenario(scenario, place);
    this.set = made.set;
    const bay = compileBay(made.scenario, { allowed: this.set.map((option) => [option]) });
    this.meter = new Meter(bay);
    this.groups = bay.groups.filter((group) => {
      const combo = group.combos[group.comboOf(this.set)];
      return combo?.rule !== undefined && combo.contacts.length > 0;
    });
    this.bounds = new Float64Array(this.groups.length);
    this.order = Int32Array.from(this.groups.keys());
  }

  /** How many rules a position changes. */
  get count(): number {
    return this.groups.length;
  }

  /** Gaps measured so far. */
  get measured(): number {
    return this.meter.effort.gaps;
  }

  /** The `most` rules of least margin at a position, the worst first; rules that no position changes left out. */
  worst(position: Position, most: number): Moving[] {
    const { groups, meter, set, bounds, order } = this;
    const x = vectorOf(position);
    groups.forEach((group, g) => (bounds[g] = this.bound(group, x)));
    order.sort((a, b) => bounds[a]! - bounds[b]!);
    const found: { group: Group; margin: number }[] = [];
    for (const g of order) {
      const floor = found.length < most ? Infinity : found[found.length - 1]!.margin;
      if (bounds[g]! >= floor) break;
      const group = groups[g]!;
      const margin = meter.leastAt(group, set, x, floor);
      if (margin >= floor) continue;
      const at = found.findIndex((one) => one.margin > margin);
      found.splice(at < 0 ? found.length : at, 0, { group, margin });
      if (found.length > most) found.pop();
    }
    return found.map(({ group, margin }) => this.told(group, margin));
  }

  /** Every rule and limit at a position, exactly. */
  rest(position: Position): Standing {
    return standingAt(this.meter, this.set, vectorOf(position));
  }

  private told(group: Group, margin: number): Moving {
    const { between, measured, comingOut, withdrawn } = group;
    const { scenario } = this.meter.bay;
    const room = withdrawn && partUnder(scenario, withdrawn, this.set)?.part.comesOut;
    return {
      between,
      measured,
      comingOut,
      ...(room && { withdrawn: { part: withdrawn, room } }),
      needed: group.combos[group.comboOf(this.set)]!.needed,
      margin,
    };
  }

  private bound(group: Group, x: Float64Array): number {
    const { meter, set } = this;
    let least = Infinity;
    for (const id of group.combos[group.comboOf(set)]!.contacts) {
      const contact = meter.bay.contacts[id]!;
      least = Math.min(least, meter.rememberedAt(contact, x) - contact.needed);
    }
    return least;
  }
}
