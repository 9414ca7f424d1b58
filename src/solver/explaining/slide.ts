/**
 * One coordinate moved along, the others following to the best place there: how the margin falls off to
 * either side of the best, and which rules are in charge on each stretch. Every point is a proved answer of
 * its own, its search begun from its neighbour's place.
 */

import { maxOf, minOf } from '../../model/extremes.js';
import { COORDINATES } from '../../model/scenario.js';
import type { Coordinate, OptionSet, Range, Scenario } from '../../model/scenario.js';
import type { Effort, Placement, Progress, Reading, Stopped } from '../answer.js';
import type { PlaceRequest, Signal } from '../asked.js';
import { Searches } from '../answering/searches.js';
import type { Steps } from '../answering/searches.js';
import { keyOf } from '../measuring/reading-key.js';
import { mainPlacement } from '../place.js';
import type { Candidate } from '../searching/request.js';
import { meetsLimits } from './compare.js';

export interface SlideRequest extends Pick<PlaceRequest, 'tolerance' | 'units' | 'allowed'> {
  readonly along: Coordinate;
  /** From where to where, inside the file's range: millimetres, or radians of pitch. */
  readonly range: Range;
  /** Points over the range, both ends among them: 2 or more. */
  readonly steps: number;
}

export interface SlidePoint {
  /** Where along the slide: millimetres or radians. */
  readonly at: number;
  /** The best place there; only what binds is told of the readings. */
  readonly placement: Placement;
}

/** A stretch on which the same rules carry the margin. */
export interface Stretch {
  readonly range: Range;
  /** What carries it, the most first; none where no place meets the limits. */
  readonly rules: readonly Reading[];
}

export interface Slide {
  readonly along: Coordinate;
  readonly options: OptionSet;
  readonly hours: number;
  readonly cost: number;
  /** The best of the range, proved over all of it. */
  readonly best: SlidePoint;
  /** In order: the steps asked for, and the best. */
  readonly points: readonly SlidePoint[];
  readonly stretches: readonly Stretch[];
  /** How far either way of the best it still fits; absent where the best does not. */
  readonly fits?: Range;
  readonly proved: boolean;
  readonly tolerance: number;
  readonly stopped?: Stopped;
  readonly effort: Effort;
}

/** How closely an end of a stretch is found: 1/64 in, or 0.02 degrees. */
const CLOSE = { length: 25.4 / 64, pitch: (0.02 * Math.PI) / 180 };
/** A rule that carries less of the margin than this comes and goes with rounding. */
const LEAST_SHARE = 0.02;
/** Ends cost at most so many points, and so many more a step asked for. */
const ENDS = { all: 64, step: 4 };

/** Slides the engine along one coordinate, with the options of the best answer allowed. */
export function* slide(
  scenario: Scenario,
  request: SlideRequest,
): Generator<Progress, Slide, Signal> {
  const { tolerance, units, allowed } = request;
  const asked = { tolerance, allowed, aim: 'margin', keep: 0, pins: {}, only: 'place' } as const;
  const searches = new Searches(scenario, { ...asked, ...(units && { units }) });
  const main = yield* mainPlacement(searches);
  const found = yield* new Slider(searches, main, request).answer();
  const { stopped, meter } = searches;
  return { ...found, tolerance, ...(stopped && { stopped }), effort: meter.counts() };
}

/** A point, and what tells its stretch from others. */
interface Known extends SlidePoint {
  readonly key: string;
  readonly rules: readonly Reading[];
}

class Slider {
  private readonly index: number;
  private readonly close: number;
  private left: number;

  constructor(
    private readonly searches: Searches,
    private readonly main: Placement,
    private readonly request: SlideRequest,
  ) {
    this.index = COORDINATES.indexOf(request.along);
    this.close = request.along === 'pitch' ? CLOSE.pitch : CLOSE.length;
    this.left = ENDS.all + ENDS.step * request.steps;
  }

  *answer(): Steps<Omit<Slide, 'tolerance' | 'stopped' | 'effort'>> {
    const { along, range, steps } = this.request;
    const { options, hours, cost } = this.main;
    const top = yield* this.placement(range, this.main);
    const best = known(top.optimum.position[along], top);
    const ticks = Array.from(
      { length: steps },
      (_, n) => range.min + ((range.max - range.min) * n) / (steps - 1),
    );
    const right = yield* this.outwards(
      best,
      ticks.filter((at) => at > best.at),
    );
    const left = yield* this.outwards(best, ticks.filter((at) => at <= best.at).reverse());
    const sampled = [...left.reverse(), best, ...right];
    const all: Known[] = [];
    for (const point of sampled) {
      const before = all.at(-1);
      if (before) all.push(...(yield* this.ends(before, point, sameRules)));
      all.push(point);
    }
    const fits = yield* this.fitting(all, all.indexOf(best));
    return {
      along,
      options,
      hours,
      cost,
      best: told(best),
      points: sampled.map(told),
      stretches: stretchesOf(all, this.close),
      ...(fits && { fits }),
      proved: !this.searches.stopped && sampled.every(isProved),
    };
  }

  /** Points one after another away from the best, each begun from the one before. */
  private *outwards(from: Known, ticks: readonly number[]): Steps<Known[]> {
    const points: Known[] = [];
    let before = from;
    for (const at of ticks) {
      if (this.searches.stopped) break;
      before = yield* this.point(at, before);
      points.push(before);
    }
    return points;
  }

  private *point(at: number, ...near: readonly Known[]): Steps<Known> {
    const placement = yield* this.placement({ min: at, max: at }, ...near.map((n) => n.placement));
    return known(at, placement);
  }

  private *placement(range: Range, ...near: readonly Placement[]): Steps<Placement> {
    const { searches, main, request } = this;
    const ranges = { ...searches.ranges, [request.along]: range };
    const seeds = near.flatMap((placement) => this.seed(placement, range));
    return yield* searches.placement(main.options, seeds, 'slide', { ranges, brief: true });
  }

  /** A neighbour's place carried over into a range, where it meets the limits there. */
  private seed(near: Placement, { min, max }: Range): Candidate[] {
    const { searches, index } = this;
    if (!meetsLimits(near)) return [];
    const candidate = searches.candidate(near);
    const x = Float64Array.from(candidate.x);
    x[index] = Math.min(max, Math.max(min, x[index]!));
    const of = searches.meter.contactsOf(near.options);
    return searches.meter.withinLimits(of, x) ? [{ ...candidate, x }] : [];
  }

  /** Points between two that differ, until what differs lies within reach of a tape. */
  private *ends(a: Known, b: Known, alike: (a: Known, b: Known) => boolean): Steps<Known[]> {
    if (alike(a, b) || b.at - a.at <= this.close) return [];
    if (this.searches.stopped || this.left-- <= 0) return [];
    const middle = yield* this.point((a.at + b.at) / 2, a, b);
    const before = yield* this.ends(a, middle, alike);
    return [...before, middle, ...(yield* this.ends(middle, b, alike))];
  }

  /** From the best out to the last point that fits, either way. */
  private *fitting(all: readonly Known[], best: number): Steps<Range | undefined> {
    if (!doesFit(all[best]!)) return undefined;
    let [min, max] = [best, best];
    while (min > 0 && doesFit(all[min - 1]!)) min--;
    while (max < all.length - 1 && doesFit(all[max + 1]!)) max++;
    const [low, high] = [all[min]!, all[max]!];
    const under = min > 0 ? yield* this.ends(all[min - 1]!, low, fitAlike) : [];
    const over = max < all.length - 1 ? yield* this.ends(high, all[max + 1]!, fitAlike) : [];
    return {
      min: Math.min(low.at, minOf(under.filter(doesFit).map(({ at }) => at))),
      max: Math.max(high.at, maxOf(over.filter(doesFit).map(({ at }) => at))),
    };
  }
}

function known(at: number, placement: Placement): Known {
  const carrying = placement.optimum.readings
    .filter(({ share }) => share !== undefined && share >= LEAST_SHARE)
    .sort((a, b) => b.share! - a.share!);
  const rules = meetsLimits(placement) ? carrying : [];
  const key = rules.map(keyOf).sort().join('\n');
  return { at, placement, rules, key };
}

function sameRules(a: Known, b: Known): boolean {
  return a.key === b.key;
}

function doesFit({ placement }: Known): boolean {
  return placement.fits === 'yes';
}

function fitAlike(a: Known, b: Known): boolean {
  return doesFit(a) === doesFit(b);
}

function isProved({ placement }: Known): boolean {
  return !meetsLimits(placement) ? placement.fits === 'no' : placement.best === 'proved';
}

/**
 * Neighbours under the same rules, joined; one stretch ends halfway to where the next one begins. Where
 * one set of rules hands over to the next, others may bind for less than an end is found to: no stretch.
 */
function stretchesOf(all: readonly Known[], close: number): Stretch[] {
  const runs: { first: number; last: number }[] = [];
  all.forEach((point, n) => {
    const open = runs.at(-1);
    if (open && sameRules(all[open.first]!, point)) open.last = n;
    else runs.push({ first: n, last: n });
  });
  const isEnd = ({ first, last }: { first: number; last: number }) => {
    return first === 0 || last === all.length - 1;
  };
  const long = runs.filter((run) => isEnd(run) || all[run.last]!.at - all[run.first]!.at > close);
  const joined: typeof runs = [];
  for (const run of long) {
    const before = joined.at(-1);
    if (before && sameRules(all[before.first]!, all[run.first]!)) before.last = run.last;
    else joined.push({ ...run });
  }
  return joined.map(({ first, last }, n) => {
    const [before, after] = [joined[n - 1], joined[n + 1]];
    return {
      range: {
        min: (all[before?.last ?? first]!.at + all[first]!.at) / 2,
        max: (all[last]!.at + all[after?.first ?? last]!.at) / 2,
      },
      rules: all[first]!.rules.length > 0 ? all[Math.floor((first + last) / 2)]!.rules : [],
    };
  });
}

function told({ at, placement }: Known): SlidePoint {
  const { optimum, setting, ...rest } = placement;
  const readings = optimum.readings.filter(({ binding }) => binding);
  const spared = { ...setting, readings: [] };
  return { at, placement: { ...rest, optimum: { ...optimum, readings }, setting: spared } };
}
