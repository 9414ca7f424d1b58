/**
 * Why not? Whether a wish can be had as the bay stands, and if not, what prevents it and the smallest
 * changes that make it possible.
 */

import type { OptionSet, Scenario } from '../../model/scenario.js';
import type { Effort, Progress, Stopped } from '../answer.js';
import type { Signal } from '../asked.js';
import { Asking } from './asking.js';
import type { Remedy, WishRequest } from './asking.js';
import { blockersOf } from './blockers.js';
import type { Blockers } from './blockers.js';
import { Decider } from './decider.js';
import type { Wish } from './decider.js';

export interface WhyAnswer extends Blockers {
  /** The options asked about: those wished for, the others as the bay stands. */
  readonly set: OptionSet;
  readonly wish: Wish;
  /** Relocations before cuts, then the least hours, then the least cost. */
  readonly remedies: readonly Remedy[];
  /** Whether there are no other smallest remedies, proved. */
  readonly remediesComplete: boolean;
  readonly stopped?: Stopped;
  readonly effort: Effort;
}

/**
 * Why a wish cannot be had, as a generator like `place`: answer `'go'` to go on, anything else to stop.
 * @throws RangeError where the options wished for are none of the scenario's: check them first.
 */
export function* why(
  scenario: Scenario,
  request: WishRequest,
): Generator<Progress, WhyAnswer, Signal> {
  const asking = new Asking(scenario, request);
  const { searches, wish } = asking;
  const blockers = yield* blockersOf(searches, new Decider(searches, wish, 'reasons'), asking.set);
  const changes = blockers.possible === 'yes' ? NONE : yield* asking.smallestChanges();
  const remedies: Remedy[] = [];
  for (const change of changes.found) remedies.push(yield* asking.remedy(change));
  const { stopped } = searches;
  return {
    ...blockers,
    set: asking.options(asking.set),
    wish,
    remedies: remedies.sort(relocationsFirst),
    remediesComplete: changes.complete && stopped === undefined,
    ...(stopped && { stopped }),
    effort: searches.meter.counts(),
  };
}

const NONE = { found: [], complete: true };

function relocationsFirst(a: Remedy, b: Remedy): number {
  const cuts = (r: Remedy): number => (r.cuts.length > 0 ? 1 : 0);
  return cuts(a) - cuts(b) || a.hours - b.hours || a.cost - b.cost;
}
