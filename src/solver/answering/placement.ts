/** A place found becomes a placement: polished, rounded to what is printed, set on the tape's marks. */

import { workOf } from '../../model/options.js';
import type { OptionSet, PositionRanges, Scenario } from '../../model/scenario.js';
import type { Placement, Verdict } from '../answer.js';
import type { PlaceRequest } from '../asked.js';
import { endsOf } from '../box.js';
import { DECISION_SLACK } from '../decision.js';
import { narrowByLimits, settled } from '../measuring/limits.js';
import { standingAt } from '../measuring/measure.js';
import type { Meter } from '../measuring/meter.js';
import { nearestToLimits } from '../measuring/nearest-to-limits.js';
import { polish } from './polish.js';
import { printedPosition } from './rounding.js';
import { gridOf, settingNear } from './setting.js';
import { withShares } from './shares.js';

/** What a placement needs to know of the answer it is for. */
export interface Finishing {
  readonly scenario: Scenario;
  readonly meter: Meter;
  readonly request: PlaceRequest;
  readonly stopped: unknown;
}

/** Where a placement may lie, and how much of it is told. */
export interface Asking {
  readonly ranges: PositionRanges;
  /** Where its setting may go, if elsewhere than the place itself. */
  readonly settings?: PositionRanges;
  /** Only the readings near the tightest: the rest are not measured. */
  readonly brief?: boolean;
}

/** Millimetres above the tightest margin of what a brief placement tells: all that binds or has a share. */
const BRIEF_DEPTH = 0.5;

/**
 * Polish a place, round it to what is printed, set it on the grid, and measure both there.
 * @param x a place that meets every limit; without one, the nearest to the limits is shown.
 * @param bound proved of every position within the ranges and limits under this set.
 */
export function finishPlacement(
  { scenario, meter, request, stopped }: Finishing,
  set: OptionSet,
  x: Float64Array | undefined,
  bound: number,
  { ranges, settings = ranges, brief = false }: Asking,
): Placement {
  const depth = brief ? BRIEF_DEPTH : Infinity;
  const of = meter.contactsOf(set);
  const { units = scenario.units } = request;
  const { lo, hi } = endsOf(ranges);
  const from = x ?? nearestToLimits(of.limits, set, lo, hi);
  if (x) narrowByLimits(of.limits, settled(set), lo, hi);
  // Once stopped, the place as found: polishing takes longer than a person who pressed stop waits.
  const fine = stopped || !x ? from : polish(meter, of, lo, hi, x);
  // An aim's place stands as near as it may to what it must keep: rounding may not take it past that.
  const floor = request.keep - DECISION_SLACK;
  const keeps = request.aim !== 'margin' && meter.marginAt(of, fine, floor) >= floor;
  const allowed = (at: Float64Array): boolean =>
    meter.withinLimits(of, at) && (!keeps || meter.marginAt(of, at, floor) >= floor);
  const printed = printedPosition(fine, lo, hi, units, allowed);
  const measured = standingAt(meter, set, printed, depth);
  const readings = withShares(measured.readings, roomAround(printed, lo, hi));
  const optimum = { ...measured, readings };
  const ends = endsOf(x ? settings : ranges);
  if (x) narrowByLimits(of.limits, settled(set), ends.lo, ends.hi);
  const grid = settingNear(meter, of, ends.lo, ends.hi, printed, gridOf(units));
  const setting = standingAt(meter, set, grid, depth);
  const { hours, cost } = workOf(scenario, set);
  const within = optimum.limits.every((limit) => limit.met);
  return {
    options: set,
    hours,
    cost,
    fits: within ? verdict(optimum.margin, bound) : verdict(-Infinity, bound),
    // Without a rule both are infinite.
    best: bound - optimum.margin > request.tolerance ? 'undecided' : 'proved',
    optimum,
    setting,
    bound: within ? Math.max(bound, optimum.margin) : bound,
  };
}

/** Whether a place fits, by the best margin found and the bound on every other. */
export function verdict(margin: number, bound: number): Verdict {
  if (margin >= -DECISION_SLACK) return 'yes';
  return bound < -DECISION_SLACK ? 'no' : 'undecided';
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
