/**
 * What cutting would gain: the cheapest cuts that make a wish possible, and for every face that may be
 * cut the margin against the depth.
 */

import type { OptionSet, Scenario, Trim } from '../../model/scenario.js';
import { trimWork } from '../../model/trims.js';
import type { Effort, Placement, Progress, Reading, Verdict, Stopped } from '../answer.js';
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
  /** From no cut to the deepest: every depth where the slope changes, to a tape mark, between. */
  readonly points: readonly CurvePoint[];
  /** The least depth on a mark that gains all there is to gain, within the tolerance. */
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
  /** By trim of the file; those not worked out when the search was stopped are left out. */
  readonly curves: readonly TrimCurve[];
  readonly stopped?: Stopped;
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
  for (const t of scenario.trims.keys()) {
    const curve = yield* curveOf(asking, t);
    if (curve) curves.push(curve);
  }
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
  const { found, complete } = yield* asking.smallestChanges(withOptions);
  let best: Remedy | undefined;
  let proved = complete;
  const seen = new Set<string>();
  for (const change of found) {
    for (const set of asking.withMoreCuts(change.set, MOST_TOGETHER)) {
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

/**
 * Margin against depth, halved wherever it is not seen to be straight; undefined once stopped, for a point
 * that is not proved would draw a curve that is not there.
 */
function* curveOf(asking: Asking, t: number): Steps<TrimCurve | undefined> {
  const trim = asking.trims[t]!;
  const { step, tolerance } = asking;
  const marks = Math.max(1, Math.ceil(trim.upTo / step - 1e-9));
  const depthOf = (i: number): number => (i === marks ? trim.upTo : i * step);
  const points = new Map<number, CurvePoint>();
  const at = function* (i: number): Steps<CurvePoint> {
    const known = points.get(i);
    if (known) return known;
    const depth = depthOf(i);
    const point = asking.isBeyond
      ? nowhere(trim, depth)
      : pointOf(trim, depth, yield* asking.placementCut(t, depth));
    points.set(i, point);
    return point;
  };
  const spans: (readonly [number, number])[] = [[0, marks]];
  for (let span = spans.pop(); span; span = spans.pop()) {
    const [from, to] = span;
    const [low, high] = [yield* at(from), yield* at(to)];
    if (asking.searches.stopped) return undefined;
    if (to - from <= 1 || !gains(low, high, tolerance)) continue;
    const middle = (from + to) >> 1;
    if (isAlike(low, high) && isBetween(low, yield* at(middle), high, tolerance)) continue;
    spans.push([from, middle], [middle, to]);
  }
  const all = [...points.entries()].sort(([a], [b]) => a - b).map(([, point]) => point);
  return summary(trim, neverFalling(all), tolerance);
}

function gains(low: CurvePoint, high: CurvePoint, tolerance: number): boolean {
  return high.margin > -Infinity && high.margin - low.margin > tolerance;
}

/** The same rules in charge at both depths. */
function isAlike(low: CurvePoint, high: CurvePoint): boolean {
  const names = ({ binding }: CurvePoint): string =>
    binding
      .map(({ between, measured }) => [...between, measured].join('\0'))
      .sort()
      .join('\n');
  return low.margin > -Infinity && names(low) === names(high);
}

/** Whether the middle lies on the line from one to the other: one pair may have several faces in charge. */
function isBetween(
  low: CurvePoint,
  middle: CurvePoint,
  high: CurvePoint,
  tolerance: number,
): boolean {
  const part = (middle.depth - low.depth) / (high.depth - low.depth);
  const line = low.margin + part * (high.margin - low.margin);
  return Math.abs(middle.margin - line) <= tolerance / 2;
}

/** A place found with a shallower cut is there with a deeper one too. */
function neverFalling(points: readonly CurvePoint[]): CurvePoint[] {
  let best = points[0]!;
  return points.map((point) => {
    if (point.margin >= best.margin) return (best = point);
    const { margin, binding } = best;
    return { ...point, margin, bound: Math.max(point.bound, margin), binding };
  });
}

function summary(trim: Trim, points: readonly CurvePoint[], tolerance: number): TrimCurve {
  const [first, last] = [points[0]!, points.at(-1)!];
  const enough = points.find((point) => point.margin >= last.margin - tolerance)!;
  let best: { depth: number; perHour: number } | undefined;
  for (const { depth, margin, hours } of points) {
    const gain = margin - first.margin;
    if (!(gain > tolerance) || !Number.isFinite(gain) || hours <= 0) continue;
    if (!best || gain / hours > best.perHour) best = { depth, perHour: gain / hours };
  }
  return { trim, points, enough: enough.depth, ...(best && { best }) };
}

/** No place at all within the wish. */
function nowhere(trim: Trim, depth: number): CurvePoint {
  return { depth, margin: -Infinity, bound: -Infinity, ...trimWork(trim, depth), binding: [] };
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
