/** One question about a wish, and the searches that answer it: as the file has it, or with cuts made. */

import { optionSetByName } from '../../model/asked/options-by-name.js';
import { allDomains, workOf } from '../../model/options.js';
import type { Cut, OptionSet, PositionRanges, Scenario, Trim } from '../../model/scenario.js';
import { COORDINATES } from '../../model/scenario.js';
import { withTrims } from '../../model/trims.js';
import type { Wants } from '../../model/asked/wants.js';
import type { Placement, Verdict } from '../answer.js';
import { only, Searches } from '../answering/searches.js';
import type { Steps } from '../answering/searches.js';
import { gridOf } from '../answering/setting.js';
import type { Work } from '../measuring/work.js';
import { Decider } from './decider.js';
import type { Decision, Wish } from './decider.js';
import { cheapestDepths } from './depths.js';
import { smallestChanges } from './remedies.js';
import type { ChangeSet, SmallestChanges } from './remedies.js';

export interface WishRequest {
  readonly wants: Wants;
  /** Millimetres between margin and bound at which a place counts as proved. */
  readonly tolerance: number;
  /** Whose marks depths and settings stand on; the file's unless given. */
  readonly units?: 'in' | 'mm';
}

/** A smallest set of changes that makes the wish possible. */
export interface Remedy {
  /** Of the file's choices. */
  readonly options: OptionSet;
  readonly cuts: readonly Cut[];
  /** Whether no cheaper depths of these cuts would do, proved; true without a cut. */
  readonly shallowest: boolean;
  /** Of the changes alone, beyond what the bay as asked about takes. */
  readonly hours: number;
  readonly cost: number;
  /** The best place there within the wish. */
  readonly placement: Placement;
}

/** Sets of changes that may be decided before the remedies are left incomplete. */
const MOST_CHANGES = 2000;

export class Asking {
  readonly wish: Wish;
  readonly set: OptionSet;
  readonly searches: Searches;

  constructor(
    private readonly scenario: Scenario,
    private readonly request: WishRequest,
  ) {
    const { wants } = request;
    this.wish = { ranges: wants.ranges, margin: wants.margin ?? 0 };
    const found = optionSetByName(scenario, wants.options);
    if ('problems' in found) throw new RangeError(found.problems[0]!.message);
    this.set = [...found.set, ...scenario.trims.map(() => 0)];
    const deepest = withTrims(scenario);
    this.searches = this.searchesOf(deepest, allDomains(deepest));
  }

  get trims(): readonly Trim[] {
    return this.scenario.trims;
  }

  /** Millimetres between bound and margin at which a place counts as proved. */
  get tolerance(): number {
    return this.request.tolerance;
  }

  /** Whether the wish lies wholly outside the file's ranges, where nothing is searched. */
  get isBeyond(): boolean {
    return COORDINATES.some((coordinate) => {
      const [wanted, { min, max }] = [
        this.wish.ranges[coordinate],
        this.scenario.position[coordinate],
      ];
      return wanted !== undefined && (wanted.min > max || wanted.max < min);
    });
  }

  /** Millimetres between the marks of the tape. */
  get step(): number {
    return gridOf(this.request.units ?? this.scenario.units).length;
  }

  /** The file's own choices of a set. */
  options(set: OptionSet): OptionSet {
    return set.slice(0, this.scenario.choices.length);
  }

  /** What a set takes before any cut has a depth, beyond what the bay as asked about takes. */
  leastWork(set: OptionSet): Work {
    const shallow = withTrims(
      this.scenario,
      this.trims.map(() => Number.MIN_VALUE),
    );
    return this.workBeyond(shallow, set);
  }

  private workBeyond(scenario: Scenario, set: OptionSet): Work {
    const [before, after] = [workOf(scenario, this.set), workOf(scenario, set)];
    return { hours: after.hours - before.hours, cost: after.cost - before.cost };
  }

  /** A set, and the same with any of the trims besides; alone where there are more than `most`. */
  withMoreCuts(set: OptionSet, most: number): OptionSet[] {
    const before = this.scenario.choices.length;
    const open =
      this.trims.length > most
        ? []
        : this.trims.flatMap((_, t) => (set[before + t] === 0 ? [before + t] : []));
    return Array.from({ length: 1 << open.length }, (_, mask) =>
      set.map((option, c) => (open.includes(c) && mask & (1 << open.indexOf(c)) ? 1 : option)),
    );
  }

  /** The best place within the wish with one trim so deep, the options as asked about. */
  *placementCut(t: number, depth: number): Steps<Placement> {
    const cut = depth > 0;
    const set = this.set.map((option, c) =>
      cut && c === this.scenario.choices.length + t ? 1 : option,
    );
    const depths = this.trims.map((_, u) => (u === t ? depth : 0));
    const searches = cut
      ? this.searchesOf(withTrims(this.scenario, depths), only(set))
      : this.searches;
    return yield* this.through(searches, searches.placement(set, [], 'remedies'));
  }

  /** The smallest sets of changes that make the wish possible; of cuts alone without options. */
  *smallestChanges(withOptions = true): Steps<SmallestChanges> {
    const { choices } = this.scenario;
    const named = new Set(this.request.wants.options.map(({ choice }) => choice));
    const mayChange = (c: number): boolean =>
      c >= choices.length || (withOptions && !named.has(choices[c]!.name));
    const decider = new Decider(this.searches, this.wish, 'remedies');
    return yield* smallestChanges(decider, { from: this.set, mayChange, most: MOST_CHANGES });
  }

  /** Changes with their cuts no deeper than they must be, and the best place that they give. */
  *remedy(change: ChangeSet): Steps<Remedy> {
    const { choices, trims } = this.scenario;
    const cut = trims.filter((trim, t) => change.set[choices.length + t] === 1);
    const options = this.options(change.set);
    const all = (depths: readonly number[]) =>
      trims.map((trim) => (cut.includes(trim) ? depths[cut.indexOf(trim)]! : 0));
    // Where it can be had with the cuts so deep: the best place is looked for from there.
    const places = new Map([[cut.map(({ upTo }) => upTo).join(), change.at]]);
    const oracle = function* (this: Asking, tried: readonly number[]): Steps<Verdict> {
      const decision = yield* this.decideAt(change.set, all(tried));
      if (decision.possible === 'yes') places.set(tried.join(), decision.at);
      return decision.possible;
    }.bind(this);
    const { depths, least } =
      cut.length === 0
        ? { depths: [], least: true }
        : yield* cheapestDepths(cut, this.step, oracle);
    const scenario = withTrims(this.scenario, all(depths));
    const searches = cut.length === 0 ? this.searches : this.searchesOf(scenario, only(change.set));
    const found = searches.inHand(change.set, places.get(depths.join())!);
    const placement = yield* this.through(
      searches,
      searches.placement(change.set, [found], 'remedies'),
    );
    return {
      options,
      cuts: cut.map((trim, i) => ({ trim, depth: depths[i]! })),
      shallowest: least,
      ...this.workBeyond(scenario, change.set),
      placement: { ...placement, options },
    };
  }

  private *decideAt(set: OptionSet, depths: readonly number[]): Steps<Decision> {
    const scenario = withTrims(this.scenario, depths);
    const searches = this.searchesOf(scenario, only(set));
    const decider = new Decider(searches, this.wish, 'remedies');
    const held = decider.members.under(set);
    return yield* this.through(searches, decider.decide(set, held));
  }

  /** Work of other searches, which stops when this one does, and counts with it. */
  private *through<T>(searches: Searches, steps: Steps<T>): Steps<T> {
    searches.stopped = this.searches.stopped;
    const result = yield* steps;
    if (searches !== this.searches) {
      this.searches.stopped = searches.stopped;
      const { effort } = this.searches.meter;
      const own = searches.meter.effort;
      for (const count of ['boxes', 'gaps', 'lps'] as const) effort[count] += own[count];
    }
    return result;
  }

  private searchesOf(scenario: Scenario, allowed: readonly (readonly number[])[]): Searches {
    const { tolerance, units } = this.request;
    return new Searches(scenario, {
      aim: 'margin',
      keep: 0,
      tolerance,
      ...(units && { units }),
      pins: this.pins(),
      allowed,
    });
  }

  /** The file's ranges as far as the wish goes; the file's own where it goes beyond. */
  private pins(): Partial<PositionRanges> {
    const { position } = this.scenario;
    const pins: Partial<Record<keyof PositionRanges, PositionRanges['pitch']>> = {};
    for (const coordinate of COORDINATES) {
      const wanted = this.wish.ranges[coordinate];
      if (!wanted) continue;
      const min = Math.max(wanted.min, position[coordinate].min);
      const max = Math.min(wanted.max, position[coordinate].max);
      if (min <= max) pins[coordinate] = { min, max };
    }
    return pins;
  }
}
