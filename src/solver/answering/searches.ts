/**
 * The searches of one answer, run one after the other over one bay, with what each proved kept for the
 * next. Every search is a generator: the caller keeps the clock and may stop it between two nodes.
 */

import type { OptionDomains } from '../../model/options.js';
import { workOf } from '../../model/options.js';
import type { OptionSet, PositionRanges, Scenario } from '../../model/scenario.js';
import type { Placement, Progress, Stopped } from '../answer.js';
import type { PlaceRequest, Signal } from '../asked.js';
import { compileBay } from '../measuring/compile.js';
import type { Bay } from '../measuring/bay.js';
import { Meter } from '../measuring/meter.js';
import type { Objective } from '../searching/objective.js';
import { MARGIN } from '../searching/objective.js';
import { finishPlacement } from './placement.js';
import type { Asking } from './placement.js';
import type { Candidate, SearchRequest } from '../searching/request.js';
import { Search } from '../searching/search.js';
import type { SearchState } from '../searching/search.js';

/** Work that reports its progress and yields a result in the end. */
export type Steps<T> = Generator<Progress, T, Signal>;

/** One search, as an answer asks for it. */
export interface Asked extends Partial<
  Pick<SearchRequest, 'reach' | 'work' | 'ignoreFixed' | 'still'>
> {
  readonly doing: Progress['doing'];
  readonly domains?: OptionDomains;
  readonly ranges?: PositionRanges;
  readonly objective?: Objective;
  readonly start?: readonly Candidate[];
  /** Nodes after which the search is left as far as it came; none unless given. */
  readonly boxes?: number;
  /** Leave it at the first place in hand. */
  readonly first?: boolean;
}

/** Nodes between two progress reports: one can take some 20 ms in a large bay. */
const STRIDE = 1;
/** Part of the tolerance that a search may use; rounding the printed position takes the rest. */
const SEARCH_PART = 0.95;

export class Searches {
  readonly bay: Bay;
  readonly meter: Meter;
  readonly ranges: PositionRanges;
  /** Proved: no position within the ranges, under any set of options, exceeds this margin. */
  ceiling = Infinity;
  /** Why the caller stopped, once it has. */
  stopped: Stopped | undefined;
  /** Placements already proved, by option set: the three answers often coincide. */
  private readonly placements = new Map<string, Placement>();

  /** @param bay the scenario made ready for the options allowed, where that is done already. */
  constructor(
    readonly scenario: Scenario,
    readonly request: PlaceRequest,
    bay?: Bay,
  ) {
    this.bay = bay ?? compileBay(scenario, { allowed: request.allowed });
    this.meter = new Meter(this.bay);
    this.ranges = { ...scenario.position, ...request.pins };
  }

  /** Millimetres between what a search finds and its bound when it ends by itself. */
  get tolerance(): number {
    return this.request.tolerance * SEARCH_PART;
  }

  /** Run a search to its end, or until the caller stops it. */
  *run(asked: Asked): Steps<SearchState> {
    const { doing, boxes = Infinity, first = false, ...more } = asked;
    const search = new Search({
      meter: this.meter,
      domains: this.bay.domains,
      objective: MARGIN,
      ranges: this.ranges,
      tolerance: this.tolerance,
      start: [],
      ...more,
    });
    const end = this.meter.effort.boxes + boxes;
    while (!search.state.done && !this.stopped && this.meter.effort.boxes < end) {
      const { best, bound, done } = search.run(STRIDE);
      if (done || (first && best)) break;
      const effort = this.meter.counts();
      const isMargin = (asked.objective ?? MARGIN).kind === 'margin';
      const told = isMargin ? { best: best?.value ?? -Infinity, bound } : {};
      const signal = yield { doing, ...told, effort };
      if (signal !== 'go') this.stopped = signal;
    }
    return search.state;
  }

  /**
   * The best place under one option set, over the rules that a position can change.
   * @param asking the ranges of the request unless it says otherwise.
   */
  *placement(
    set: OptionSet,
    start: readonly Candidate[],
    doing: Progress['doing'],
    asking: Partial<Asking> = {},
  ): Steps<Placement> {
    const { ranges = this.ranges } = asking;
    const key = `${set.join()}@${JSON.stringify(ranges)}`;
    const known = this.placements.get(key);
    if (known) return known;
    const { fixedMost } = this.meter.contactsOf(set);
    const seeds = start.map((c) => ({ ...c, value: this.ownMargin(c) }));
    const proved = this.provedAlready(seeds, fixedMost);
    const state =
      proved ??
      (yield* this.run({ doing, domains: only(set), ranges, start: seeds, ignoreFixed: true }));
    const bound = Math.min(state.bound, this.ceiling, fixedMost);
    const placement = finishPlacement(this, set, state.best?.x, bound, { ...asking, ranges });
    if (state.done && state.best && !asking.brief) this.placements.set(key, placement);
    return placement;
  }

  /** A place that comes within the tolerance of what is proved of every set needs no search. */
  private provedAlready(seeds: readonly Candidate[], fixedMost: number): SearchState | undefined {
    // What options alone decide may be all that the ceiling tells of; then it bounds nothing else.
    if (fixedMost <= this.ceiling) return undefined;
    const best = seeds.find((seed) => seed.value >= this.ceiling - this.tolerance);
    return best && { best, bound: this.ceiling, done: true, stuck: [], open: [] };
  }

  /** Places already proved that reach a margin: a search for less work starts from them. */
  seeds(reach: number): Candidate[] {
    return [...this.placements.values()]
      .filter((p) => p.optimum.margin >= reach && p.optimum.limits.every((limit) => limit.met))
      .map((p) => this.candidate(p));
  }

  /** A placement's optimum as a place in hand. */
  candidate(p: Placement): Candidate {
    const { setback, offset, height, pitch } = p.optimum.position;
    const x = Float64Array.of(setback, offset, height, pitch);
    return { ...this.inHand(p.options, x), value: p.optimum.margin };
  }

  /** A place to begin a search of `placement` from. */
  inHand(set: OptionSet, x: Float64Array): Candidate {
    return { x, set, value: -Infinity, work: workOf(this.scenario, set) };
  }

  /** The margin of a place over the rules that its position can change. */
  ownMargin(c: Candidate): number {
    return this.meter.marginAt(this.meter.contactsOf(c.set), c.x, -Infinity);
  }
}

/** One option set as domains. */
export function only(set: OptionSet): OptionDomains {
  return set.map((option) => [option]);
}
