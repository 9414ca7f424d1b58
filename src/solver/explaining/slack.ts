/**
 * Room to set it: the largest ranges about a setting within which every rule and limit is kept.
 *
 * 'Largest' is grown evenly: all sides go out by the same number of steps, lengths by 1/64 in and pitch by
 * 0.05 degree, as far as the whole box is proved; then each side is tried alone, those that have no
 * step to give stay for good, and the others go on. A box that only grows never gives room back, so
 * in the end no side has another step.
 */

import type { OptionSet } from '../../model/scenario.js';
import type { Slack, SlackSide, Standing, Stop } from '../answer.js';
import type { Searches, Steps } from '../answering/searches.js';
import { endsOf } from '../box.js';
import { narrowByLimits, settled } from '../measuring/limits.js';
import { positionOf, vectorOf } from '../measuring/measure.js';
import { conditionsAt } from './conditions.js';
import type { Condition, Corners } from './conditions.js';

/** What one step of a side is: 1/64 in, and 0.05 degree, which moves a part 18 in away as far. */
export const LENGTH_STEP = 25.4 / 64;
export const PITCH_STEP = Math.PI / 3600;

/** Of what the searches before it measured, the part that the slack may measure, and the least. */
const EFFORT_PART = 1 / 5;
const LEAST_EFFORT = 12_000;

/** Pieces of a box looked at before a rule is left unsettled: for one step, and for several at once. */
const MOST_PIECES = 3000;
const FEW_PIECES = 40;

/** Gaps measured between two progress reports. */
const STRIDE = 100;

/** One side of the box: a coordinate, and which way. */
interface Side {
  readonly k: number;
  readonly up: boolean;
}

const SIDES: readonly Side[] = [0, 1, 2, 3].flatMap((k) => [
  { k, up: false },
  { k, up: true },
]);

/** The slack about a setting; undefined where the setting itself does not fit. */
export function* slackAbout(
  searches: Searches,
  set: OptionSet,
  setting: Standing,
): Steps<Slack | undefined> {
  if (!setting.fits || searches.stopped) return undefined;
  const { meter } = searches;
  const signal = yield { doing: 'room to set it', effort: meter.counts() };
  if (signal !== 'go') searches.stopped = signal;
  const growth = new Growth(searches, set, vectorOf(setting.position));
  yield* growth.run();
  return growth.slack();
}

class Growth {
  private readonly box: Corners;
  private readonly ends: Corners;
  private readonly rangeEnds: Corners;
  private readonly conditions: Condition[];
  private readonly stops = new Map<Side, Pick<SlackSide, 'stop' | 'missedAt'>>();
  private readonly most: number;
  private reported: number;

  constructor(
    private readonly searches: Searches,
    private readonly set: OptionSet,
    private readonly x: Float64Array,
  ) {
    const { meter, ranges } = searches;
    const of = meter.contactsOf(set);
    this.box = { lo: Float64Array.from(x), hi: Float64Array.from(x) };
    this.rangeEnds = endsOf(ranges);
    this.ends = endsOf(ranges);
    narrowByLimits(of.limits, settled(of.set), this.ends.lo, this.ends.hi);
    const spent = meter.effort.gaps;
    this.most = spent + Math.max(LEAST_EFFORT, spent * EFFORT_PART);
    this.reported = spent;
    this.conditions = conditionsAt(meter, of, x);
  }

  /** Grow until every side is stopped, or the effort or the caller's patience is spent. */
  *run(): Steps<void> {
    for (;;) {
      const free = this.freeSides();
      if (free.length === 0 || this.isSpent()) return;
      let steps = 1;
      while (yield* this.grows(free, steps)) steps *= 2;
      while (steps > 1) {
        steps /= 2;
        if (steps >= 1) yield* this.grows(free, steps);
      }
      for (const side of free) if (!this.isSpent()) yield* this.growsAlone(side);
    }
  }

  slack(): Slack {
    const side = (k: number, up: boolean): SlackSide => {
      const at = SIDES.find((s) => s.k === k && s.up === up)!;
      const room = up ? this.box.hi[k]! - this.x[k]! : this.x[k]! - this.box.lo[k]!;
      const by = this.isAtEnd(at) ? { stop: this.endStop(at) } : this.stops.get(at);
      return { room, ...(by ?? { stop: { by: 'effort' } }) };
    };
    const all = (up: boolean) => ({
      setback: side(0, up),
      offset: side(1, up),
      height: side(2, up),
      pitch: side(3, up),
    });
    return { down: all(false), up: all(true) };
  }

  /** The sides that nothing has stopped yet. */
  private freeSides(): Side[] {
    return SIDES.filter((side) => !this.stops.has(side) && !this.isAtEnd(side));
  }

  private isAtEnd({ k, up }: Side): boolean {
    return up ? this.box.hi[k]! >= this.ends.hi[k]! : this.box.lo[k]! <= this.ends.lo[k]!;
  }

  /** A limit of the coordinate where it ends before the range does. */
  private endStop({ k, up }: Side): Stop {
    const end = up ? this.ends.hi[k]! : this.ends.lo[k]!;
    const { limits } = this.searches.meter.contactsOf(this.set);
    const at = limits.find(
      (limit) =>
        limit.kind === 'coordinate' &&
        limit.coordinate === k &&
        (up ? limit.limit.max : limit.limit.min) === end,
    );
    const isRange = (up ? this.rangeEnds.hi[k]! : this.rangeEnds.lo[k]!) === end;
    return at && !isRange ? { by: 'limit', limit: at.limit } : { by: 'range' };
  }

  private isSpent(): boolean {
    return this.searches.stopped !== undefined || this.searches.meter.effort.gaps >= this.most;
  }

  /** Grow these sides together, if all of what that adds is proved. */
  private *grows(sides: readonly Side[], steps: number): Steps<boolean> {
    const to = this.grown(sides, steps);
    if (isSame(to, this.box) || (yield* this.missing(to, steps > 1 ? FEW_PIECES : MOST_PIECES)))
      return false;
    this.box.lo.set(to.lo);
    this.box.hi.set(to.hi);
    return true;
  }

  /** Grow one side by a step, or stop it for good. */
  private *growsAlone(side: Side): Steps<void> {
    const to = this.grown([side], 1);
    const stopped = yield* this.missing(to, MOST_PIECES);
    // Out of effort is no reason of the bay's: the side is left as it is.
    if (stopped === 'spent') return;
    if (stopped) this.stops.set(side, stopped);
    else {
      this.box.lo.set(to.lo);
      this.box.hi.set(to.hi);
    }
  }

  private grown(sides: readonly Side[], steps: number): Corners {
    const lo = Float64Array.from(this.box.lo);
    const hi = Float64Array.from(this.box.hi);
    for (const { k, up } of sides) {
      const by = steps * (k === 3 ? PITCH_STEP : LENGTH_STEP);
      if (up) hi[k] = Math.min(this.ends.hi[k]!, hi[k]! + by);
      else lo[k] = Math.max(this.ends.lo[k]!, lo[k]! - by);
    }
    return { lo, hi };
  }

  /** What is missed, or cannot be shown to be kept, in the box grown to `to`; undefined if nothing. */
  private *missing(
    to: Corners,
    most: number,
  ): Steps<Pick<SlackSide, 'stop' | 'missedAt'> | 'spent' | undefined> {
    for (let i = 0; i < this.conditions.length; i++) {
      const condition = this.conditions[i]!;
      const kept = condition.keeps(to, this.box, most);
      yield* this.report();
      if (this.isSpent()) return 'spent';
      if (kept.kept) continue;
      // What stopped it last is asked first next time.
      this.conditions.splice(i, 1);
      this.conditions.unshift(condition);
      return { stop: condition.stop, ...(kept.at && { missedAt: positionOf(kept.at) }) };
    }
    return undefined;
  }

  private *report(): Steps<void> {
    const { searches } = this;
    const { effort } = searches.meter;
    if (effort.gaps - this.reported < STRIDE) return;
    this.reported = effort.gaps;
    const signal = yield { doing: 'room to set it', effort: searches.meter.counts() };
    if (signal !== 'go') searches.stopped = signal;
  }
}

function isSame(a: Corners, b: Corners): boolean {
  return a.lo.every((v, k) => v === b.lo[k]) && a.hi.every((v, k) => v === b.hi[k]);
}
