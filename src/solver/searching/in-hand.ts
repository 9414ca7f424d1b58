/** The best place found so far: what is offered to it, and when a climb may better it. */

import { workOf } from '../../model/options.js';
import { endsOf } from '../box.js';
import { climb } from './climb.js';
import { DECISION_SLACK } from '../decision.js';
import { narrowByLimits, settled } from '../measuring/limits.js';
import type { Seen } from './lookout.js';
import type { SetContacts } from '../measuring/meter.js';
import { clearOf } from './request.js';
import type { Candidate, SearchRequest } from './request.js';
import { compareWork } from '../measuring/work.js';

/** First and last trust radius of a climb, millimetres of travel. */
const CLIMB_RADIUS = 12;
const CLIMB_FINEST = 1e-3;
/** Linear programs a climb may take, with a place in hand and without. */
const CLIMB_STEPS = 12;
const FIRST_CLIMB_STEPS = 30;
/** In a search for the least work, climb from places this close to reaching it. */
const CLIMB_WORTH = 6;

export class InHand {
  best: Candidate | undefined;
  /** Places too far from reaching it that a decision has come by. */
  private farOff = 0;
  /** Climbs along a coordinate that led no further, since one last did. */
  private vain = 0;

  constructor(private readonly request: SearchRequest) {
    for (const candidate of request.start) this.offer(candidate);
  }

  /** Take a place in hand if it is better than the one there. */
  private offer(candidate: Candidate): void {
    if (candidate.value === -Infinity) return;
    const { best } = this;
    const { reach } = this.request;
    if (reach !== undefined) {
      if (candidate.value < reach - DECISION_SLACK) return;
      if (best) {
        const order = compareWork(candidate.work, best.work);
        if (order > 0 || (order === 0 && candidate.value <= best.value)) return;
      }
    } else if (best && candidate.value <= best.value) return;
    this.best = candidate;
  }

  /**
   * Offer a position seen under the options that suit it, and climb from it when that may pay.
   * @param bound what is proved of the node it was seen in.
   */
  consider(seen: Seen, bound: number): void {
    if (!seen.completions) return;
    const { meter, objective, reach } = this.request;
    const { set } = seen.completions.chosen;
    const of = meter.contactsOf(set);
    const fixed = this.request.ignoreFixed ? Infinity : of.fixed;
    const work = workOf(meter.bay.scenario, set);
    const { best } = this;
    if (reach !== undefined && best && compareWork(work, best.work) >= 0) return;
    if (objective.kind === 'margin') {
      // Exact wherever the value may be taken in hand: at the reach, or above the best.
      const floor = reach === undefined ? (best?.value ?? -Infinity) : reach - CLIMB_WORTH;
      const known = seen.margin <= clearOf(this.request, bound);
      const own = known ? seen.margin : meter.marginAt(of, seen.x, floor);
      // A place that misses a limit may still be worth a climb, which keeps them all.
      if (Math.min(own, fixed) <= floor && (best || this.isFarOff())) return;
      const value = meter.withinLimits(of, seen.x) ? Math.min(own, fixed) : -Infinity;
      if (reach !== undefined && value >= reach) {
        this.offer({ x: seen.x, set, value, work });
        return;
      }
    } else {
      if (fixed < objective.keep - DECISION_SLACK) return;
      if (seen.margin < objective.keep - CLIMB_WORTH || this.isVain()) return;
    }
    if (this.request.still) return;
    const { x, value } = this.climbFrom(of, seen.x);
    this.offer({
      x,
      set,
      value: objective.kind === 'margin' ? Math.min(value, fixed) : value,
      work,
    });
    if (this.best !== best) this.vain = 0;
  }

  /** Along a coordinate every place tells of a climb: the more led nowhere, the seldomer one is tried. */
  private isVain(): boolean {
    this.vain++;
    return (this.vain & (this.vain - 1)) !== 0;
  }

  /** In a mere decision, climbs from far off are tried ever more seldom: most such places lead nowhere. */
  private isFarOff(): boolean {
    if (!this.request.decides) return false;
    this.farOff++;
    return (this.farOff & (this.farOff - 1)) !== 0;
  }

  private climbFrom(of: SetContacts, start: Float64Array): { x: Float64Array; value: number } {
    const { meter, objective, ranges } = this.request;
    const { lo, hi } = endsOf(ranges);
    if (!narrowByLimits(of.limits, settled(of.set), lo, hi)) return { x: start, value: -Infinity };
    const steps = this.best ? CLIMB_STEPS : FIRST_CLIMB_STEPS;
    const { decides, reach } = this.request;
    const asked = { meter, of, lo, hi, objective, steps, radius: CLIMB_RADIUS };
    const enough = decides && reach !== undefined ? { enough: reach } : {};
    return climb({ ...asked, finest: CLIMB_FINEST, ...enough }, start);
  }
}
