/**
 * Whether the engine passes along a way on its adjusters without closing a gap: solids that are open stay
 * open, and those that touch where it begins come no nearer than there.
 *
 * A gap changes by no more than the solid travels, so a stretch of the way whose middle leaves more than
 * that is clear throughout. What is left is halved until a step is FINEST, where a look at its middle has to do.
 */

import type { Stance } from '../../model/stance.js';
import { restingGap, travelBetween } from './resting.js';
import type { RestingSolids } from './resting.js';
import type { Way } from './way.js';

/** Millimetres of travel between two looks that no stretch is divided below. */
const FINEST = 0.1;

/** The way between two looks is not quite straight: travel is taken this much longer. */
const BENT = 1.1;

/** Millimetres: a gap within this of its floor has not become less. */
const STILL = 1e-6;

/** A stretch so short a share of its way that goes so far is no way: the engine snaps over. */
const TORN = 1 / 4096;

export class Passage {
  private readonly floors: Float64Array;
  /** The last gap measured of each two solids, and where. */
  private readonly gaps: Float64Array;
  private readonly stances: Stance[];

  constructor(
    private readonly meetings: readonly RestingSolids[],
    from: Stance,
  ) {
    this.gaps = Float64Array.from(meetings, (one) => restingGap(one, from).lower);
    this.floors = this.gaps.map((gap) => Math.min(0, gap));
    this.stances = meetings.map(() => from);
  }

  /** The first two solids found to close on the way; undefined where none does. */
  closing(way: Way): RestingSolids | 'torn' | undefined {
    const all = this.meetings.map((_, i) => i);
    const found = this.closes(way, 0, 1, way.at(0), way.at(1), all);
    return found === undefined || found === 'torn' ? found : this.meetings[found];
  }

  /**
   * The least gap on the way, no more than it is and less by FINEST at the most, and whose it is; undefined where
   * nothing can meet.
   */
  least(way: Way): { readonly gap: number; readonly solids: RestingSolids } | undefined {
    let best = { gap: Infinity, index: -1 };
    let floor = Infinity;
    const look = (a: number, b: number, from: Stance, to: Stance, these: readonly number[]) => {
      const share = (a + b) / 2;
      const middle = way.at(share);
      const left = these.filter((index) => {
        const gap = this.measured(index, middle);
        if (gap < best.gap) best = { gap, index };
        const travel = this.travel(index, middle, from, to);
        if (gap - travel < best.gap - FINEST && travel > FINEST) return true;
        floor = Math.min(floor, gap - travel);
        return false;
      });
      if (left.length === 0) return;
      look(a, share, from, middle, left);
      look(share, b, middle, to, left);
    };
    const all = this.meetings.map((_, index) => index);
    look(0, 1, way.at(0), way.at(1), all);
    return best.index < 0
      ? undefined
      : { gap: Math.min(best.gap, floor), solids: this.meetings[best.index]! };
  }

  private closes(
    way: Way,
    a: number,
    b: number,
    from: Stance,
    to: Stance,
    these: readonly number[],
  ): number | 'torn' | undefined {
    const share = (a + b) / 2;
    const middle = way.at(share);
    const left: number[] = [];
    for (const i of these) {
      const travel = this.travel(i, middle, from, to);
      const last =
        this.gaps[i]! - BENT * travelBetween(this.meetings[i]!.engine, this.stances[i]!, middle);
      if (last - travel >= this.floors[i]!) continue;
      const gap = this.measured(i, middle);
      if (gap < this.floors[i]! - STILL) return i;
      if (gap - travel < this.floors[i]! && travel > FINEST) left.push(i);
    }
    if (left.length === 0) return undefined;
    if (b - a < TORN) return 'torn';
    return (
      this.closes(way, a, share, from, middle, left) ?? this.closes(way, share, b, middle, to, left)
    );
  }

  /** The most that a solid travels from the middle of a stretch to either end. */
  private travel(index: number, middle: Stance, from: Stance, to: Stance): number {
    const { engine } = this.meetings[index]!;
    return BENT * Math.max(travelBetween(engine, middle, from), travelBetween(engine, middle, to));
  }

  private measured(index: number, stance: Stance): number {
    const { lower } = restingGap(this.meetings[index]!, stance);
    this.gaps[index] = lower;
    this.stances[index] = stance;
    return lower;
  }
}
