/**
 * What cutting would gain: the cheapest cuts that make a wish possible, and for every face that may be
 * cut the margin against the depth.
 */

import type { OptionSet, Scenario, Trim } from '../../model/scenario.js';
import { trimWork } from '../../model/trims.js';
import type { Effort, Placement, Progress, Reading, Verdict } from '../answer.js';
import type { Signal } from '../asked.js';
import type { Steps } from '../answering/searches.js';
import { DECISION_SLACK } from '../decision.js';
import { compareWork } from '../measuring/work.js';
import { Asking } from './asking.js';
import type { Remedy, WishRequest } from './asking.js';
import { Decider } from './decider.js';
import type { Wish } from './decider.js';

export interface TrimRequest extends WishRequest {
  /** Let the cheapest way change options too, not only cut. */
  readonly withOptions: boolean;
}

/** The best margin with one trim so deep and no other cut made. */
export interface CurvePoint {
  /** Millimetres. */
  readonly depth: number;
  /** Of the best place within the wish; -Infinity where there is none. */
  readonly margin: number;
  /** Proved: no place leaves more. */
  readonly bound: number;
  readonly hours: number;
  readonly cost: number;
  /** The rules in charge there. */
  readonly binding: readonly Reading[];
}

export interface TrimCurve {
  readonly trim: Trim;
  /** From no cut to the deepest: every depth where other rules take over, to a tape mark, between. */
  readonly points: readonly CurvePoint[];
  /** The least depth on a mark that gains all there is to gain. */
  readonly enough: number;
  /** Where most is gained an hour: millimetres of margin; absent where nothing is gained. */
  readonly best?: { readonly depth: number; readonly perHour: number };
}

export interface TrimAnswer {
  readonly set: OptionSet;
  readonly wish: Wish;
  /** Whether the wish can be had without a cut. */
  readonly uncut: Verdict;
  /** The cheapest way found, and whether it is proved that none is cheaper. */
  readonly cheapest?: Remedy;
  readonly cheapestProved: boolean;
  readonly curves: readonly TrimCurve[];
  readonly stopped?: 'time' | 'asked';
  readonly effort: Effort;
}

/** Trims of which every combination is tried; of more, only the smallest sets that do. */
const MOST_TOGETHER = 6;

/** What cutting would gain, as a generator like `place`. */
export function* trimming(
  scenario: Scenario,
  request: TrimRequest,
): Generator<Progress, TrimAnswer, Signal> {
  const asking = new Asking(scenario, request);
  const { searches, set, wish } = asking;
  const decider = new Decider(searches, wish, 'remedies');
  const uncut = yield* decider.decide(set, decider.members.under(set));
  const way =
    uncut.possible === 'yes'
      ? { proved: true }
      : yield* cheapestWay(asking, decider, request.withOptions);
  const curves: TrimCurve[] = [];
  for (const t of scenario.trims.keys()) curves.push(yield* curveOf(asking, t));
  const { stopped } = searches;
  return {
    set: asking.options(set),
    wish,
    uncut: uncut.possible,
    ...('remedy' in way && way.remedy && { cheapest: way.remedy }),
    cheapestProved: way.proved && stopped === undefined,
    curves,
    ...(stopped && { stopped }),
    effort: searches.meter.counts(),
  };
}

interface Way {
  readonly remedy?: Remedy;
  readonly proved: boolean;
}

/**
 * The least work that makes the wish possible. More cuts, each less deep, may cost less than one deep
 * one: so beside the smallest sets of changes, every set of trims that holds one of them is tried.
 */
function* cheapestWay(asking: Asking, decider: Decider, withOptions: boolean): Steps<Way> {
  const { cures, complete } = yield* asking.cures(withOptions);
  let best: Remedy | undefined;
  let proved = complete;
  const seen = new Set<string>();
  for (const cure of cures) {
    for (const set of asking.withMoreCuts(cure.set, MOST_TOGETHER)) {
      if (seen.has(set.join())) continue;
      seen.add(set.join());
      if (best && compareWork(asking.leastWork(set), best) >= 0) continue;
      const decision = yield* decider.decide(set, decider.members.under(set));
      proved &&= decision.possible !== 'undecided';
      if (decision.possible !== 'yes') continue;
      const remedy = yield* asking.remedy({ set, at: decision.at });
      proved &&= remedy.shallowest;
      if (!best || compareWork(remedy, best) < 0) best = remedy;
    }
  }
  const tried = asking.trims.length <= MOST_TOGETHER;
  return { ...(best && { remedy: best }), proved: proved && tried };
}

/** Margin against depth: halved until the rules in charge agree, or the marks are next to each other. */
function* curveOf(asking: Asking, t: number): Steps<TrimCurve> {
  const trim = asking.trims[t]!;
  const { step } = asking;
  const at = function* (depth: number): Steps<CurvePoint> {
    return pointOf(trim, depth, yield* asking.placementCut(t, depth));
  };
  const marks = Math.max(1, Math.ceil(trim.upTo / step - 1e-9));
  const depthOf = (i: number): number => (i === marks ? trim.upTo : i * step);
  const points = new Map<number, CurvePoint>();
  points.set(0, yield* at(0));
  points.set(marks, yield* at(trim.upTo));
  const spans: (readonly [number, number])[] = [[0, marks]];
  for (let span = spans.pop(); span; span = spans.pop()) {
    const [from, to] = span;
    const [low, high] = [points.get(from)!, points.get(to)!];
    if (to - from <= 1 || isStraight(low, high, asking.tolerance)) continue;
    const middle = (from + to) >> 1;
    points.set(middle, yield* at(depthOf(middle)));
    spans.push([from, middle], [middle, to]);
  }
  const all = [...points.entries()].sort(([a], [b]) => a - b).map(([, point]) => point);
  return summary(trim, all, asking.tolerance);
}

/** Nothing gained between two depths, or the same rules in charge at both. */
function isStraight(low: CurvePoint, high: CurvePoint, tolerance: number): boolean {
  if (high.margin - low.margin <= tolerance / 4) return true;
  const names = ({ binding }: CurvePoint): string =>
    binding
      .map(({ between, measured }) => [...between, measured].join('\0'))
      .sort()
      .join('\n');
  return low.margin > -Infinity && names(low) === names(high);
}

function summary(trim: Trim, points: readonly CurvePoint[], tolerance: number): TrimCurve {
  const [first, last] = [points[0]!, points.at(-1)!];
  const enough = points.find((point) => point.margin >= last.margin - tolerance / 4)!;
  let best: { depth: number; perHour: number } | undefined;
  for (const { depth, margin, hours } of points) {
    const gain = margin - first.margin;
    if (!(gain > tolerance) || !Number.isFinite(gain) || hours <= 0) continue;
    if (!best || gain / hours > best.perHour) best = { depth, perHour: gain / hours };
  }
  return { trim, points, enough: enough.depth, ...(best && { best }) };
}

function pointOf(trim: Trim, depth: number, placement: Placement): CurvePoint {
  const { optimum, bound } = placement;
  const met = optimum.limits.every((limit) => limit.met);
  const margin = met ? optimum.margin : -Infinity;
  const binding = optimum.readings.filter(
    (reading) => reading.binding || reading.margin <= margin + DECISION_SLACK,
  );
  return { depth, margin, bound, ...trimWork(trim, depth), binding };
}
