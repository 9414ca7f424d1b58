/**
 * Why a wish cannot be had: every smallest set of chassis parts and limits that together prevent it,
 * with the rules that do, or the place that has it. Data alone, no words.
 */

import { COORDINATES } from '../../model/scenario.js';
import type { Coordinate, Limit, OptionSet, Position, Range } from '../../model/scenario.js';
import type { Placement, Reading, Verdict } from '../answer.js';
import type { Searches, Steps } from '../answering/searches.js';
import { positionOf, standingAt } from '../measuring/measure.js';
import type { Decider } from './decider.js';
import { Obstacles } from './obstacles.js';
import type { Squeeze } from './obstacles.js';

/** A range end of the file that stands in the way. */
export interface RangeEnd {
  readonly coordinate: Coordinate;
  readonly end: keyof Range;
  /** Millimetres or radians. */
  readonly at: number;
}

/** One smallest set that prevents the wish: without any one of its parts or limits it can be had. */
export interface Reason {
  /** The chassis parts in the way. */
  readonly parts: readonly string[];
  /**
   * Rules against these parts that prevent it together, none of which can be left out; there may be
   * others that would do as well. Measured at `at`, tightest first.
   */
  readonly rules: readonly Reading[];
  readonly limits: readonly Limit[];
  /** The range ends that these rules and limits rest on. */
  readonly ends: readonly RangeEnd[];
  /**
   * Millimetres by which every place misses the margin wished for, with all the rules against these
   * parts: at least what is proved, at most what the best place found misses. Absent without a rule.
   */
  readonly short?: { readonly least: number; readonly most: number };
  /** The best place that all the rules against these parts leave within the wish. */
  readonly at?: Position;
  /** Where ends and limits alone contradict the wish: by how much, along this coordinate. */
  readonly beyond?: { readonly coordinate: Coordinate; readonly by: number };
  /** False where leaving something out could not be decided. */
  readonly smallest: boolean;
}

export interface Blockers {
  /** Whether the wish can be had under these options. */
  readonly possible: Verdict;
  /** The best place that has it. */
  readonly placement?: Placement;
  /** Most to the point first: the fewest parts and limits, then the most missing. */
  readonly reasons: readonly Reason[];
  /** Whether there are no other reasons, proved. */
  readonly complete: boolean;
}

/** Whether a wish can be had under one option set, and every reason why not. */
export function* blockersOf(searches: Searches, decider: Decider, set: OptionSet): Steps<Blockers> {
  const first = yield* decider.decide(set, decider.members.under(set));
  if (first.possible === 'undecided')
    return { possible: 'undecided', reasons: [], complete: false };
  if (first.possible === 'yes') {
    const found = searches.inHand(set, first.at);
    const placement = yield* searches.placement(set, [found], 'reasons');
    return { possible: 'yes', placement, reasons: [], complete: true };
  }
  const obstacles = new Obstacles(decider, set);
  const atEnds = yield* decider.decide(set, obstacles.ends);
  if (atEnds.possible === 'no') {
    const reasons = [contradictionOf(decider, [], atEnds.by, true)];
    return { possible: 'no', reasons, complete: true };
  }
  const { squeezes, complete } = yield* obstacles.squeezes();
  const reasons: Reason[] = [];
  for (const one of squeezes) reasons.push(yield* reasonOf(searches, decider, obstacles, set, one));
  return { possible: 'no', reasons: reasons.sort(toThePoint), complete };
}

function* reasonOf(
  searches: Searches,
  decider: Decider,
  obstacles: Obstacles,
  set: OptionSet,
  { parts, members, proved }: Squeeze,
): Steps<Reason> {
  const { all } = decider.members;
  const state = yield* decider.most(set, [...members, ...obstacles.ends], searches.tolerance);
  const x = state?.best?.x;
  const standing = x && standingAt(decider.meterKeeping(set, members), set, x);
  const order = tightestFirst(decider, members, standing?.readings ?? []);
  const least = yield* obstacles.rulesOf(order);
  const kept = least.members.map((id) => all[id]!);
  if (!kept.some(({ kind }) => kind === 'rule' || kind === 'one side'))
    return contradictionOf(decider, parts, least.members, proved && least.proved);
  const found = {
    parts,
    ...limitsAndEnds(decider, least.members),
    smallest: proved && least.proved,
  };
  if (!state || !x || !standing) return { ...found, rules: [] };
  const most = decider.wish.margin - standing.margin;
  const fixed = standing.readings.some((reading) => reading.fixed);
  return {
    ...found,
    rules: standingAt(decider.meterKeeping(set, least.members), set, x).readings,
    short: { least: fixed ? most : Math.min(most, decider.wish.margin - state.bound), most },
    at: positionOf(x),
  };
}

/** The members by the order in which their rules stand at the best place: the telling ones first. */
function tightestFirst(
  decider: Decider,
  members: readonly number[],
  readings: readonly Reading[],
): readonly number[] {
  const rank = new Map(
    readings.map(({ between, measured }, i) => [[...between, measured].join('\0'), i]),
  );
  const rankOf = (id: number): number => {
    const member = decider.members.all[id]!;
    if (member.kind !== 'rule') return Infinity;
    return rank.get([...member.group.between, member.group.measured].join('\0')) ?? Infinity;
  };
  return [...members].sort((a, b) => rankOf(a) - rankOf(b) || a - b);
}

function limitsAndEnds(
  decider: Decider,
  members: readonly number[],
): Pick<Reason, 'limits' | 'ends'> {
  const { position } = decider.bay.scenario;
  const of = members.map((id) => decider.members.all[id]!);
  return {
    limits: of.flatMap((m) => (m.kind === 'limit' ? [m.of.limit] : [])),
    ends: of.flatMap((m) =>
      m.kind === 'end'
        ? [{ coordinate: m.coordinate, end: m.end, at: position[m.coordinate][m.end] }]
        : [],
    ),
  };
}

/** A reason without rules: ends and limits that leave no value of a coordinate. */
function contradictionOf(
  decider: Decider,
  parts: readonly string[],
  members: readonly number[],
  smallest: boolean,
): Reason {
  const found = { parts, rules: [], ...limitsAndEnds(decider, members), smallest };
  const ranges = decider.rangesKeeping(members);
  for (const coordinate of COORDINATES) {
    let { min, max } = ranges[coordinate];
    for (const limit of found.limits) {
      if (limit.quantity.of !== coordinate) continue;
      min = Math.max(min, limit.min);
      max = Math.min(max, limit.max);
    }
    if (min > max) return { ...found, beyond: { coordinate, by: min - max } };
  }
  return found;
}

function toThePoint(a: Reason, b: Reason): number {
  const size = (reason: Reason) => reason.parts.length + reason.limits.length;
  return size(a) - size(b) || (b.short?.most ?? Infinity) - (a.short?.most ?? Infinity);
}
