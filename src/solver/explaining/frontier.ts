/**
 * The trade between work and margin: every option set that no other beats in both. Work is hours, then
 * cost, compared in that order as everywhere, so the trade is a line and not a surface: a set of more hours
 * and less cost is dearer.
 *
 * Upwards from the least work of all: the best margin among sets of that very work; then the least work
 * whose margin exceeds it by more than the tolerance; and so on up to the best of all sets. Either
 * search proves that what it passes over is beaten, to within the tolerance.
 */

import type { Scenario } from '../../model/scenario.js';
import type { Effort, Placement, Progress, Stopped } from '../answer.js';
import type { PlaceRequest, Signal } from '../asked.js';
import { Searches } from '../answering/searches.js';
import type { Steps } from '../answering/searches.js';
import { compareWork } from '../measuring/work.js';
import type { Candidate } from '../searching/request.js';

export type FrontierRequest = Pick<PlaceRequest, 'tolerance' | 'units' | 'allowed' | 'pins'>;

export interface Frontier {
  /** Least work first; each has more margin than the one before, by over the tolerance. */
  readonly points: readonly Placement[];
  /**
   * `proved`: no set of at most a point's work has more margin than the point, nor any set of all more
   * than the last, both to within the tolerance.
   */
  readonly best: 'proved' | 'undecided';
  /** No position under any combination of options exceeds this margin. */
  readonly bound: number;
  readonly tolerance: number;
  readonly stopped?: Stopped;
  readonly effort: Effort;
}

/** Millimetres that any place at all reaches: a search for the least work that has one. */
const ANYWHERE = -1e6;

/** The trade over all option sets allowed. */
export function* frontier(
  scenario: Scenario,
  request: FrontierRequest,
): Generator<Progress, Frontier, Signal> {
  const searches = new Searches(scenario, { ...request, aim: 'margin', keep: 0 });
  const all = yield* searches.run({ doing: 'all options' });
  searches.ceiling = all.bound;
  const line = all.best ? yield* upwards(searches, all.best) : { points: [], proved: all.done };
  const { stopped, meter } = searches;
  const isProved = line.proved && stopped === undefined && all.stuck.length === 0;
  return {
    points: line.points,
    best: isProved ? 'proved' : 'undecided',
    bound: all.bound,
    tolerance: request.tolerance,
    ...(stopped && { stopped }),
    effort: meter.counts(),
  };
}

function* upwards(
  searches: Searches,
  top: Candidate,
): Steps<{ points: readonly Placement[]; proved: boolean }> {
  const points: Placement[] = [];
  let proved = true;
  let reach = ANYWHERE;
  for (;;) {
    const start = top.value >= reach ? [top] : [];
    const least = yield* searches.run({ doing: 'least work', start, reach });
    const first = least.best;
    if (searches.stopped) return { points, proved: false };
    // Nothing that could be less work, or be there at all, may be left open.
    const open = [...least.stuck, ...least.open];
    proved &&= open.every(({ view }) => first && compareWork(view.leastWork, first.work) >= 0);
    if (!first) return { points, proved };
    const { work } = first;
    const alike = [first, ...(compareWork(top.work, work) === 0 ? [top] : [])];
    const equals = yield* searches.run({ doing: 'least work', start: alike, work });
    const best = equals.best ?? first;
    const placement = yield* searches.placement(best.set, [best], 'least work');
    points.push(placement);
    proved &&= equals.done && placement.best === 'proved';
    if (searches.stopped) return { points, proved: false };
    const margin = Math.max(best.value, placement.optimum.margin);
    reach = margin + searches.request.tolerance;
    if (reach > searches.ceiling) return { points, proved };
  }
}
