/**
 * Decides whether a wish can be had under some of the rules, limits and range ends of a bay, the rest
 * let go: exactly, by the search that places engines, stopped as soon as it knows.
 */

import { COORDINATES } from '../../model/scenario.js';
import type { Coordinate, OptionSet, PositionRanges, Range } from '../../model/scenario.js';
import type { Progress } from '../answer.js';
import { only } from '../answering/searches.js';
import type { Searches, Steps } from '../answering/searches.js';
import { DECISION_SLACK } from '../decision.js';
import type { Bay } from '../measuring/bay.js';
import { Meter } from '../measuring/meter.js';
import { MARGIN } from '../searching/objective.js';
import type { SearchRequest } from '../searching/request.js';
import { Search } from '../searching/search.js';
import type { SearchState } from '../searching/search.js';
import { fixedCombo, Members } from './members.js';
import type { Member } from './members.js';

/** How far a range end gives way when it is let go: 12 in, and 10 degrees. */
const LET_GO: Readonly<Record<Coordinate, number>> = {
  setback: 304.8,
  offset: 304.8,
  height: 304.8,
  pitch: (10 * Math.PI) / 180,
};

/** What a wish comes to for the solver. */
export interface Wish {
  /** Where the engine shall be; an end nobody asked for is infinite. */
  readonly ranges: Readonly<Partial<Record<Coordinate, Range>>>;
  /** Millimetres that every rule shall leave. */
  readonly margin: number;
}

export type Decision =
  | { readonly possible: 'yes'; readonly at: Float64Array }
  /** Those named, by number, are enough to prevent it; perhaps fewer are. */
  | { readonly possible: 'no'; readonly by: readonly number[] }
  | { readonly possible: 'undecided' };

/** Nodes that one decision may take before it is left undecided. */
const MOST_BOXES = 4000;

/** Members that are asked all at once, however few of them would tell. */
const MANY = 40;
/** Times that rules are added to the few asked before all are asked. */
const FEW_ROUNDS = 12;

type Held = readonly [id: number, member: Member];

export class Decider {
  readonly members: Members;
  readonly bay: Bay;
  /** Rules that an earlier refutation rested on. */
  private readonly telling = new Set<number>();

  /** @param searches those of the answer: gaps measured once are remembered by both. */
  constructor(
    private readonly searches: Searches,
    readonly wish: Wish,
    private readonly doing: Progress['doing'],
  ) {
    this.bay = searches.bay;
    this.members = new Members(this.bay);
  }

  /** Whether the caller has stopped the searches. */
  get stopped(): boolean {
    return this.searches.stopped !== undefined;
  }

  /**
   * Decides for one option set, with the members of these numbers kept.
   * @param boxes nodes after which it is left undecided.
   */
  *decide(set: OptionSet, kept: readonly number[], boxes = MOST_BOXES): Steps<Decision> {
    const held: Held[] = kept.map((id) => [id, this.members.all[id]!]);
    let isOpen = false;
    for (const [id, member] of held) {
      if (member.kind !== 'one side') continue;
      const combo = fixedCombo(member.group, set);
      if (!combo?.holds) continue;
      const enough = combo.needed + this.wish.margin - DECISION_SLACK;
      if (combo.most < enough) return { possible: 'no', by: [id] };
      // Between the two ends of a bracket nothing is proved.
      isOpen ||= combo.gap < enough;
    }
    const ranges = this.rangesKeeping(kept);
    const beyond = this.endBeyond(kept);
    if (beyond !== undefined) return { possible: 'no', by: [beyond] };
    const few = yield* this.decideByFew(set, held, ranges, boxes);
    const found = few ?? (yield* this.decideBy(set, kept, ranges, boxes));
    if (found.possible === 'yes' && isOpen) return { possible: 'undecided' };
    return found;
  }

  /**
   * A refutation rests on a few rules out of hundreds. So those that told before are asked first; where
   * they leave a place, the rules that it breaks are asked too, until it breaks none or none is left.
   * Undefined where all must be asked together.
   */
  private *decideByFew(
    set: OptionSet,
    held: readonly Held[],
    ranges: PositionRanges,
    boxes: number,
  ): Steps<Decision | undefined> {
    if (held.length <= MANY) return undefined;
    const asked = new Set(
      held.flatMap(([id, m]) => (m.kind !== 'rule' || this.telling.has(id) ? [id] : [])),
    );
    for (let round = 0; round < FEW_ROUNDS && asked.size < held.length; round++) {
      const decision = yield* this.decideBy(set, [...asked], ranges, boxes);
      if (decision.possible === 'undecided') return this.stopped ? decision : undefined;
      if (decision.possible === 'no') {
        for (const id of decision.by) this.telling.add(id);
        return decision;
      }
      const broken = this.brokenAt(
        set,
        held.filter(([id]) => !asked.has(id)),
        decision.at,
      );
      if (broken.length === 0) return decision;
      for (const id of broken) asked.add(id);
    }
    return undefined;
  }

  /** Rules that a position breaks, or is not proved to keep. */
  private brokenAt(set: OptionSet, held: readonly Held[], x: Float64Array): number[] {
    const { meter } = this.searches;
    const enough = this.wish.margin - DECISION_SLACK;
    return held.flatMap(([id, member]) =>
      member.kind === 'rule' && meter.leastAt(member.group, set, x, enough) < enough ? [id] : [],
    );
  }

  private *decideBy(
    set: OptionSet,
    kept: readonly number[],
    ranges: PositionRanges,
    boxes: number,
  ): Steps<Decision> {
    const rests = new Set<number>();
    const state = yield* this.search(set, kept, ranges, {
      reach: this.wish.margin,
      decides: true,
      rests,
      boxes,
    });
    if (state === undefined) return { possible: 'undecided' };
    if (state.best) return { possible: 'yes', at: state.best.x };
    if (!state.done || state.stuck.length > 0) return { possible: 'undecided' };
    const groups = new Set([...rests].map((contact) => this.bay.contacts[contact]!.group));
    const by = kept.filter((id) => {
      const m = this.members.all[id]!;
      return m.kind === 'rule' ? groups.has(m.group.id) : m.kind !== 'one side';
    });
    return { possible: 'no', by };
  }

  /**
   * The best margin that the kept members leave within the wish: a place, and a proved bound.
   * @param tolerance millimetres between the two.
   */
  *most(
    set: OptionSet,
    kept: readonly number[],
    tolerance: number,
  ): Steps<SearchState | undefined> {
    return yield* this.search(set, kept, this.rangesKeeping(kept), { tolerance });
  }

  /** Where the wish and the range ends kept leave the engine to be. */
  rangesKeeping(kept: readonly number[]): PositionRanges {
    const ends = new Set(
      kept.flatMap((id) => {
        const member = this.members.all[id]!;
        return member.kind === 'end' ? [`${member.coordinate} ${member.end}`] : [];
      }),
    );
    const range = (coordinate: Coordinate): Range => {
      const { min, max } = this.bay.scenario.position[coordinate];
      const far = LET_GO[coordinate];
      const low = ends.has(`${coordinate} min`) ? min : min - far;
      const high = ends.has(`${coordinate} max`) ? max : max + far;
      const wanted = this.wish.ranges[coordinate] ?? { min: -Infinity, max: Infinity };
      return { min: Math.max(low, wanted.min), max: Math.min(high, wanted.max) };
    };
    return Object.fromEntries(COORDINATES.map((c) => [c, range(c)])) as unknown as PositionRanges;
  }

  /** A kept range end that the wish lies wholly beyond. */
  private endBeyond(kept: readonly number[]): number | undefined {
    return kept.find((id) => {
      const member = this.members.all[id]!;
      if (member.kind !== 'end') return false;
      const { coordinate, end } = member;
      const at = this.bay.scenario.position[coordinate][end];
      const wanted = this.wish.ranges[coordinate] ?? { min: -Infinity, max: Infinity };
      return end === 'min' ? wanted.max < at : wanted.min > at;
    });
  }

  private *search(
    set: OptionSet,
    kept: readonly number[],
    ranges: PositionRanges,
    how: Partial<Pick<SearchRequest, 'reach' | 'decides' | 'rests' | 'tolerance'>> & {
      readonly boxes?: number;
    },
  ): Steps<SearchState | undefined> {
    if (this.searches.stopped) return undefined;
    const { boxes = MOST_BOXES, ...asked } = how;
    const meter = this.meterKeeping(set, kept);
    const search = new Search({
      meter,
      domains: only(set),
      objective: MARGIN,
      ranges,
      tolerance: 0,
      start: [],
      ...asked,
      ignoreFixed: true,
    });
    const end = meter.effort.boxes + boxes;
    while (!search.state.done && meter.effort.boxes < end) {
      search.run(1);
      const signal = yield { doing: this.doing, effort: meter.counts() };
      if (signal === 'go') continue;
      this.searches.stopped = signal;
      return undefined;
    }
    return search.state;
  }

  /** Measures the kept rules and limits alone; contacts keep their numbers. */
  meterKeeping(set: OptionSet, kept: readonly number[]): Meter {
    const members = kept.map((id) => this.members.all[id]!);
    const bay: Bay = {
      ...this.bay,
      domains: only(set),
      groups: members.flatMap((m) => (m.kind === 'rule' ? [m.group] : [])),
      fixed: members.flatMap((m) => (m.kind === 'one side' ? [m.group] : [])),
      limits: members.flatMap((m) => (m.kind === 'limit' ? [m.of] : [])),
    };
    return new Meter(bay, this.searches.meter);
  }
}
