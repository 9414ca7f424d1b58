/**
 * The main job: where the engine sits. Runs the searches that an answer needs, one after the other, as
 * a generator, so that the caller keeps the clock, shows progress and may stop it at any time.
 */

import { firstOptions, isCompatible, workOf } from '../model/options.js';
import type { Coordinate, OptionSet, PositionRanges, Range, Scenario } from '../model/scenario.js';
import type { Aim, PlaceAnswer, Placement, Progress, Verdict, Wish } from './answer.js';
import { compileBay } from './bay.js';
import type { Bay } from './bay.js';
import { endsOf } from './box.js';
import { DECISION_SLACK } from './decision.js';
import { narrowByLimits } from './limits.js';
import { standingAt } from './measure.js';
import { Meter } from './meter.js';
import type { Objective } from './objective.js';
import { MARGIN } from './objective.js';
import { polish } from './polish.js';
import { printedPosition } from './rounding.js';
import { Search } from './search.js';
import type { Candidate, SearchRequest, SearchState } from './search.js';
import { gridOf, settingNear } from './setting.js';
import { withShares } from './shares.js';
import { compareWork } from './view.js';

export interface PlaceRequest {
  readonly aim: Aim;
  /** Millimetres of margin that an aim other than `margin` must keep. */
  readonly keep: number;
  /** Millimetres between margin and bound at which the answer counts as proved. */
  readonly tolerance: number;
  /** Narrower ranges for some coordinates, inside the file's. */
  readonly pins: Partial<Readonly<Record<Coordinate, Range>>>;
  /** Option indexes allowed per choice. */
  readonly allowed: readonly (readonly number[])[];
  /** Leave out the other two answers and the wishes. */
  readonly only?: 'main';
}

/** What the caller answers to each progress report. */
export type Signal = 'go' | 'time' | 'asked';

/** Nodes between two progress reports: one can take some 20 ms in a large bay. */
const STRIDE = 1;
/**
 * Boxes that one wish may cost. A wish is an aside: where its place lies on a knife's edge the proof
 * would take longer than the answer, so its bound is left as far as it came.
 */
const WISH_BOXES = 300;
/** Part of the tolerance that the search may use; rounding the printed position takes the rest. */
const SEARCH_PART = 0.95;

/**
 * Place the engine. Yields after every few nodes; answer `'go'` to go on, anything else to stop with
 * the best so far, undecided. The answer is data: nothing that fits is an answer too.
 */
export function* place(
  scenario: Scenario,
  request: PlaceRequest,
): Generator<Progress, PlaceAnswer, Signal> {
  return yield* new Placer(scenario, request).answer();
}

type Steps<T> = Generator<Progress, T, Signal>;

class Placer {
  private readonly bay: Bay;
  private readonly meter: Meter;
  private readonly ranges: PositionRanges;
  /** Proved over all options: it bounds every option set's own best too. */
  private ceiling = Infinity;
  private stopped: 'time' | 'asked' | undefined;
  /** Placements already proved, by option set: the three answers often coincide. */
  private readonly placements = new Map<string, Placement>();

  constructor(
    private readonly scenario: Scenario,
    private readonly request: PlaceRequest,
  ) {
    this.bay = compileBay(scenario, { allowed: request.allowed });
    this.meter = new Meter(this.bay);
    this.ranges = { ...scenario.position, ...request.pins };
  }

  *answer(): Steps<PlaceAnswer> {
    const { request } = this;
    const best = yield* this.best(this.bay.domains, this.ranges, MARGIN, [], 'all options');
    const found = best.best;
    this.ceiling = best.bound;
    if (!found) return yield* this.nowhere(best);
    const aimed = request.aim === 'margin' ? undefined : yield* this.aimed(request.aim, found);
    const main = aimed ?? (yield* this.worthwhile(found));
    const answer = {
      aim: aimed ? request.aim : ('margin' as const),
      ...(request.aim !== 'margin' && !aimed && { aimMissed: this.keepVerdict() }),
      tolerance: request.tolerance,
      main: main.placement,
      bestBound: Math.max(best.bound, found.value, main.placement.optimum.margin),
      cheaperUndecided: main.undecided,
      anyFits: verdict(found.value, best.bound),
    };
    if (request.only === 'main') return this.finish({ ...answer, wishes: [] });
    const asItStands = yield* this.asItStands();
    const leastWork = yield* this.leastWork(found);
    const wishes = yield* this.wishes(main.placement);
    return this.finish({
      ...answer,
      wishes,
      ...(asItStands && { asItStands }),
      ...(leastWork && { leastWork }),
    });
  }

  private finish(answer: Omit<PlaceAnswer, 'effort' | 'stopped'>): PlaceAnswer {
    const { stopped } = this;
    return { ...answer, ...(stopped && { stopped }), effort: this.meter.counts() };
  }

  /** Run a search to its end, or until the caller stops it. */
  private *run(search: Search, doing: Progress['doing']): Steps<SearchState> {
    const from = this.meter.effort.boxes;
    while (!search.state.done && !this.stopped) {
      if (doing === 'wishes' && this.meter.effort.boxes - from >= WISH_BOXES) break;
      const { best, bound } = search.run(STRIDE);
      if (search.state.done) break;
      const signal = yield {
        doing,
        best: best?.value ?? -Infinity,
        bound,
        effort: this.meter.counts(),
      };
      if (signal !== 'go') this.stopped = signal;
    }
    return search.state;
  }

  private *best(
    domains: readonly (readonly number[])[],
    ranges: PositionRanges,
    objective: Objective,
    start: readonly Candidate[],
    doing: Progress['doing'],
    more: Partial<SearchRequest> = {},
  ): Steps<SearchState> {
    const search = new Search({
      meter: this.meter,
      domains,
      objective,
      ranges,
      tolerance: this.request.tolerance * SEARCH_PART,
      start,
      ...more,
    });
    return yield* this.run(search, doing);
  }

  /** The option set that the answer takes: the least work within `worth` of the best, proved. */
  private *worthwhile(
    found: Candidate,
  ): Steps<{ placement: Placement; undecided: readonly OptionSet[] }> {
    const reach = found.value - this.scenario.worth;
    const { set, undecided } = yield* this.cheapest(reach, found, 'least work');
    const start = sameSet(set, found.set) ? [found] : [];
    return { placement: yield* this.placement(set, start, 'all options'), undecided };
  }

  /**
   * The least work whose value reaches `reach`; among sets of equal work, the greatest value.
   * @param known a candidate that reaches it.
   */
  private *cheapest(
    reach: number,
    known: Candidate,
    doing: Progress['doing'],
  ): Steps<{ set: OptionSet; undecided: readonly OptionSet[] }> {
    const start = [known, ...this.seeds(reach)];
    const { domains } = this.bay;
    const state = yield* this.best(domains, this.ranges, MARGIN, start, doing, { reach });
    const least = state.best ?? known;
    const undecided = state.done
      ? state.stuck
          .filter((node) => compareWork(node.view.leastWork, least.work) < 0)
          .map((node) => node.view.domains.map((domain) => domain[0]!))
      : [];
    // Among the sets of that very work, the greatest margin.
    const equals = yield* this.best(domains, this.ranges, MARGIN, [least], doing, {
      work: least.work,
    });
    const top = equals.best ?? least;
    return { set: top.set, undecided };
  }

  /** Places already in hand that reach a value: a search for less work starts from them. */
  private seeds(reach: number): Candidate[] {
    return [...this.placements.values()]
      .filter((p) => p.optimum.margin >= reach && p.optimum.limits.every((limit) => limit.met))
      .map((p) => this.candidate(p));
  }

  private candidate(p: Placement): Candidate {
    const { setback, offset, height, pitch } = p.optimum.position;
    return {
      x: Float64Array.of(setback, offset, height, pitch),
      set: p.options,
      value: p.optimum.margin,
      work: { hours: p.hours, cost: p.cost },
    };
  }

  /** The best place under one option set, over the rules that a position can change. */
  private *placement(
    set: OptionSet,
    start: readonly Candidate[],
    doing: Progress['doing'],
    ranges = this.ranges,
    settings = ranges,
  ): Steps<Placement> {
    const key = `${set.join()}@${JSON.stringify(ranges)}`;
    const known = this.placements.get(key);
    if (known) return known;
    const one = set.map((option) => [option]);
    const seeds = start.map((c) => ({ ...c, value: this.ownMargin(c) }));
    const state = yield* this.best(one, ranges, MARGIN, seeds, doing, { ignoreFixed: true });
    const { fixed } = this.meter.contactsOf(set);
    const bound = Math.min(state.bound, this.ceiling, fixed);
    const best = state.best;
    const placement = best
      ? this.finished(set, best.x, bound, ranges, settings)
      : this.finished(set, this.middle(ranges), bound, ranges);
    if (state.done && best) this.placements.set(key, placement);
    return placement;
  }

  private ownMargin(c: Candidate): number {
    return this.meter.marginAt(this.meter.contactsOf(c.set), c.x, -Infinity);
  }

  private middle(ranges: PositionRanges): Float64Array {
    const { lo, hi } = endsOf(ranges);
    return lo.map((low, k) => (low + hi[k]!) / 2);
  }

  /** Polish a place, round it to what is printed, set it on the grid, and measure both. */
  private finished(
    set: OptionSet,
    x: Float64Array,
    bound: number,
    ranges: PositionRanges,
    settings = ranges,
  ): Placement {
    const { meter, scenario } = this;
    const of = meter.contactsOf(set);
    const { lo, hi } = endsOf(ranges);
    narrowByLimits(of.limits, lo, hi);
    // Once stopped, the place as found: polishing takes longer than a person who pressed stop waits.
    const fine = this.stopped ? x : polish(meter, of, lo, hi, x);
    const rounded = printedPosition(fine, lo, hi, scenario.units);
    const printed = meter.withinLimits(of, rounded) ? rounded : fine;
    const measured = standingAt(meter, set, printed);
    const readings = withShares(measured.readings, roomAround(printed, lo, hi));
    const optimum = { ...measured, readings };
    const ends = endsOf(settings);
    narrowByLimits(of.limits, ends.lo, ends.hi);
    const grid = settingNear(meter, of, ends.lo, ends.hi, printed, gridOf(scenario.units));
    const setting = standingAt(meter, set, grid);
    const { hours, cost } = workOf(scenario, set);
    return {
      options: set,
      hours,
      cost,
      fits: optimum.limits.every((limit) => limit.met)
        ? verdict(optimum.margin, bound)
        : bound < -DECISION_SLACK
          ? 'no'
          : 'undecided',
      best: bound - optimum.margin <= this.request.tolerance ? 'proved' : 'undecided',
      optimum,
      setting,
      bound: Math.max(bound, optimum.margin),
    };
  }

  private *asItStands(): Steps<Placement | undefined> {
    const first = this.bay.domains.map((domain) => domain[0]!);
    const set = isCompatible(this.scenario, first) ? first : firstOptions(this.scenario);
    const allowed = set.every((option, c) => this.bay.domains[c]!.includes(option));
    if (!allowed || !isCompatible(this.scenario, set) || this.stopped) return undefined;
    const placement = yield* this.placement(set, [], 'as it stands');
    return placement;
  }

  private *leastWork(found: Candidate): Steps<Placement | undefined> {
    if (found.value < -DECISION_SLACK || this.stopped) return undefined;
    const { set } = yield* this.cheapest(0, found, 'least work');
    if (this.stopped) return undefined;
    return yield* this.placement(set, [], 'least work');
  }

  /** Centred, lowest and rearmost under the main answer's options. */
  private *wishes(main: Placement): Steps<Wish[]> {
    if (main.optimum.margin < -DECISION_SLACK) return [];
    const wishes: Wish[] = [];
    for (const aim of ['centre', 'low', 'back'] as const) {
      if (this.stopped) break;
      const wish = yield* this.wish(aim, main.options, this.candidate(main));
      if (wish) wishes.push(wish);
    }
    return wishes;
  }

  private *wish(aim: Wish['aim'], set: OptionSet, from: Candidate): Steps<Wish | undefined> {
    if (aim === 'centre') return yield* this.centred(set);
    const objective = OBJECTIVES[aim](this.request.keep);
    const range = this.ranges[aim === 'low' ? 'height' : 'setback'];
    if (range.max - range.min <= 1e-9) return undefined;
    const one = set.map((option) => [option]);
    const { coordinate, sign } = objective;
    const keeps = from.value >= this.request.keep - DECISION_SLACK;
    const start = keeps ? [{ ...from, value: sign * from.x[coordinate]! }] : [];
    const state = yield* this.best(one, this.ranges, objective, start, 'wishes', {
      ignoreFixed: true,
    });
    const bound = sign * state.bound;
    const none = state.done ? 'no' : 'undecided';
    const best = this.provedOr(state);
    if (!state.best) return { aim, fits: none, best, bound };
    const standing = standingAt(this.meter, set, state.best.x);
    return { aim, standing, fits: standing.fits ? 'yes' : 'undecided', best, bound };
  }

  /** Whether the margin to keep is proved to be more than any place has. */
  private keepVerdict(): 'no' | 'undecided' {
    return this.ceiling < this.request.keep - DECISION_SLACK ? 'no' : 'undecided';
  }

  /** Whether a search came within the tolerance of its own bound. */
  private provedOr({ best, bound }: SearchState): 'proved' | 'undecided' {
    const proved = bound - (best?.value ?? -Infinity) <= this.request.tolerance;
    return proved || bound === -Infinity ? 'proved' : 'undecided';
  }

  private *centred(set: OptionSet): Steps<Wish | undefined> {
    const { min, max } = this.ranges.offset;
    if (max - min <= 1e-9 || min > 0 || max < 0) return undefined;
    const ranges = { ...this.ranges, offset: { min: 0, max: 0 } };
    const one = set.map((option) => [option]);
    const state = yield* this.best(one, ranges, MARGIN, [], 'wishes');
    const best = this.provedOr(state);
    const none = state.done ? 'no' : 'undecided';
    if (!state.best) return { aim: 'centre', fits: none, best, bound: state.bound };
    const standing = standingAt(this.meter, set, state.best.x);
    return {
      aim: 'centre',
      standing,
      fits: verdict(state.best.value, state.bound),
      best,
      bound: state.bound,
    };
  }

  /** The answer for an aim: its coordinate at the best it can be, then the best margin there. */
  private *aimed(
    aim: Exclude<Aim, 'margin'>,
    found: Candidate,
  ): Steps<{ placement: Placement; undecided: readonly OptionSet[] } | undefined> {
    if (found.value < this.request.keep - DECISION_SLACK) return undefined;
    const target = yield* this.extreme(aim, found);
    if (!target) return undefined;
    const coordinate = COORDINATE_OF[aim];
    const { candidate, best } = target;
    const at = candidate.x[COORDINATE_INDEX[aim]]!;
    const ranges = { ...this.ranges, [coordinate]: { min: at, max: at } };
    const seed = { ...candidate, value: this.ownMargin(candidate) };
    const mark = tickBeyond(aim, at, gridOf(this.scenario.units).length, this.ranges[coordinate]);
    const set = { ...this.ranges, [coordinate]: { min: mark, max: mark } };
    const placement = yield* this.placement(candidate.set, [seed], 'all options', ranges, set);
    // Proved only if the coordinate is, and the margin there.
    const proved = best === 'proved' ? placement.best : best;
    return { placement: { ...placement, best: proved }, undecided: [] };
  }

  /** The best value of an aim over all options, at the least work within `worth` of it. */
  private *extreme(
    aim: Exclude<Aim, 'margin'>,
    found: Candidate,
  ): Steps<{ candidate: Candidate; best: 'proved' | 'undecided' } | undefined> {
    let best: Candidate | undefined;
    let proved = true;
    for (const [objective, ranges] of this.targets(aim)) {
      const { coordinate, sign } = objective;
      const within = inside(found.x[coordinate]!, ranges[COORDINATE_OF[aim]]);
      const start = within ? [{ ...found, value: sign * found.x[coordinate]! }] : [];
      const { domains } = this.bay;
      const state = yield* this.best(domains, ranges, objective, start, 'all options');
      proved = proved && this.provedOr(state) === 'proved';
      if (!state.best) continue;
      const reach = state.best.value - this.scenario.worth;
      const cheap = yield* this.best(domains, ranges, objective, [state.best], 'least work', {
        reach,
      });
      const one = (cheap.best ?? state.best).set.map((option) => [option]);
      const seed = [cheap.best ?? state.best];
      const own = yield* this.best(one, ranges, objective, seed, 'all options');
      const candidate = own.best ?? seed[0]!;
      proved = proved && this.provedOr(own) === 'proved';
      const better =
        !best || (aim === 'centre' ? Math.abs(candidate.x[1]!) < Math.abs(best.x[1]!) : true);
      if (better) best = candidate;
    }
    return best && { candidate: best, best: proved ? 'proved' : 'undecided' };
  }

  private targets(
    aim: Exclude<Aim, 'margin'>,
  ): [Extract<Objective, { kind: 'coordinate' }>, PositionRanges][] {
    const { keep } = this.request;
    if (aim !== 'centre') return [[OBJECTIVES[aim](keep), this.ranges]];
    const { min, max } = this.ranges.offset;
    const towards = (sign: 1 | -1) => ({ kind: 'coordinate', coordinate: 1, sign, keep }) as const;
    const found: [Extract<Objective, { kind: 'coordinate' }>, PositionRanges][] = [];
    if (max >= 0) {
      found.push([towards(-1), { ...this.ranges, offset: { min: Math.max(0, min), max } }]);
    }
    if (min <= 0) {
      found.push([towards(1), { ...this.ranges, offset: { min, max: Math.min(0, max) } }]);
    }
    return found;
  }

  /** No position meets the limits: the best place without them, so that the answer says something. */
  private *nowhere(state: SearchState): Steps<PlaceAnswer> {
    const set = this.bay.domains.map((domain) => domain[0] ?? 0);
    const placement = this.finished(
      set,
      this.middle(this.ranges),
      state.done ? -Infinity : state.bound,
      this.ranges,
    );
    return this.finish({
      aim: this.request.aim,
      tolerance: this.request.tolerance,
      main: { ...placement, fits: state.done ? 'no' : 'undecided' },
      bestBound: state.done ? placement.bound : state.bound,
      cheaperUndecided: [],
      anyFits: state.done ? 'no' : 'undecided',
      wishes: [],
    });
  }
}

const OBJECTIVES = {
  low: (keep: number) => ({ kind: 'coordinate', coordinate: 2, sign: -1, keep }) as const,
  back: (keep: number) => ({ kind: 'coordinate', coordinate: 0, sign: 1, keep }) as const,
};
const COORDINATE_OF = { centre: 'offset', low: 'height', back: 'setback' } as const;
const COORDINATE_INDEX = { centre: 1, low: 2, back: 0 } as const;

/** The first mark at or beyond the aimed coordinate, on the side that gives room; itself if none is. */
function tickBeyond(aim: Exclude<Aim, 'margin'>, at: number, step: number, range: Range): number {
  const up = aim === 'low' || (aim === 'centre' && at > 0);
  // A coordinate on a mark stays there: rounding must not cost it a step.
  const steps = at / step;
  const mark = step * (up ? Math.ceil(steps - 1e-9) : Math.floor(steps + 1e-9));
  return inside(mark, range) ? mark : at;
}

function verdict(margin: number, bound: number): Verdict {
  if (margin >= -DECISION_SLACK) return 'yes';
  return bound < -DECISION_SLACK ? 'no' : 'undecided';
}

function sameSet(a: OptionSet, b: OptionSet): boolean {
  return a.every((option, c) => option === b[c]);
}

function inside(value: number, range: Range): boolean {
  return value >= range.min && value <= range.max;
}

function roomAround(x: Float64Array, lo: Float64Array, hi: Float64Array) {
  const at = (k: number, up: boolean): number => Math.max(0, up ? hi[k]! - x[k]! : x[k]! - lo[k]!);
  const side = (up: boolean) => ({
    setback: at(0, up),
    offset: at(1, up),
    height: at(2, up),
    pitch: at(3, up),
  });
  return { down: side(false), up: side(true) };
}
