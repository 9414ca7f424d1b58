/**
 * Whether the engine goes in along the file's hoist path: every pair of parts across the sides at
 * rest, at each position and along the straight legs between them, the last one to where it sits.
 *
 * Along a leg a gap is bounded from the stretch's two measured ends: with n the direction that parts
 * the solids at an end, min_A n.p - max_B n.q is never more than the gap, changes by n.d as the
 * engine moves by d, and by at most reach times the turn as it turns. The stretch whose bound is
 * least is divided first, until the least bound is within HOIST_TOLERANCE of the least gap measured.
 *
 * The positions of a path are level. Where the engine leans in its place, it takes on its roll and yaw evenly
 * over the last leg. Each of the three turns moves a point by at most its angle times how far the point is
 * from the datum, through which all their axes run.
 */

import { createGap, gapBetween } from '../../geometry/gap.js';
import { placed } from '../../geometry/placed.js';
import type { Shape } from '../../geometry/shape.js';
import { absence } from '../../model/absence.js';
import type { HoistPath, OptionSet, Scenario } from '../../model/scenario.js';
import { leans, stanceFrom, stanceOf, stanceRotation, stanceVector } from '../../model/stance.js';
import type { Seat } from '../../model/stance.js';
import * as trig from '../../model/trig.js';
import type { Verdict } from '../answer.js';
import { compileBay } from './compile.js';
import { DECISION_SLACK } from '../decision.js';
import { Heap } from '../heap.js';
import { positionOf, vectorOf } from './measure.js';
import type { EngineSolid } from './pose.js';
import { LAST } from './unruled.js';

/** Millimetres between the margin told and the least found along the legs. */
export const HOIST_TOLERANCE = 0.1;

/** A stretch is divided no nearer to an end than this share of it. */
const LEAST_SHARE = 0.1;

/** What a hoist path leaves, with one set of options and one place at its end. */
export interface Hoist {
  /** `undecided` where the least gap and its bound lie on either side of what is needed. */
  readonly fits: Verdict;
  /** Millimetres: no pair has less anywhere on the way; Infinity where nothing can meet. */
  readonly margin: number;
  readonly needed: number;
  /** Where the least gap was measured; absent where nothing can meet. */
  readonly worst?: {
    /** Engine part first. */
    readonly between: readonly [string, string];
    readonly position: Seat;
    /**
     * Positions of the path, counted from 0, that it lies between, the place itself last; both the
     * same where it is one of them.
     */
    readonly leg: readonly [number, number];
  };
}

/** A pair of solids, one of either side. */
interface Meeting {
  readonly between: readonly [string, string];
  readonly engine: EngineSolid;
  readonly chassis: Shape;
}

/** A pair measured at a share of a leg; what its gap does at least as the share grows or shrinks. */
interface Sample {
  readonly share: number;
  readonly gap: number;
  /** Change of the parted distance for the whole leg, without the turn. */
  readonly slope: number;
}

interface Leg {
  readonly index: number;
  readonly from: Float64Array;
  readonly step: Float64Array;
}

/** Part of a leg for one pair, and a bound on its gap there, least at a share of the leg. */
interface Stretch {
  readonly meeting: Meeting;
  readonly leg: Leg;
  readonly from: Sample;
  readonly to: Sample;
  readonly bound: number;
  readonly least: number;
}

interface Worst {
  gap: number;
  /** Not less than the gap there. */
  most: number;
  between: readonly [string, string];
  leg: Leg;
  share: number;
}

/**
 * The hoist path of a scenario, on to where the engine sits; undefined where the file has none.
 * @param set options, as indexes; parts that they take away are not in the way.
 */
export function hoistTo(scenario: Scenario, set: OptionSet, place: Seat): Hoist | undefined {
  const path = scenario.hoistPath;
  if (path === undefined) return undefined;
  const passage = new Passage(legsOf(path, place));
  for (const meeting of meetings(scenario, path, set)) passage.add(meeting);
  return passage.finish(path.gap);
}

/** The legs, in order; a path of one position has the one leg to the place. */
function legsOf({ through }: HoistPath, place: Seat): readonly Leg[] {
  const stops = [...through, place];
  return stops.slice(1).map((end, index) => {
    const start = stops[index]!;
    const vector = leans(end) ? leaningVector : vectorOf;
    const [from, to] = [vector(start), vector(end)];
    return { index, from, step: to.map((end, k) => end - from[k]!) };
  });
}

/** Six numbers, level or not. */
function leaningVector(seat: Seat): Float64Array {
  return stanceVector(stanceOf(seat));
}

/** Every pair across the sides that is there on the way in and not exempt from a gap. */
function meetings(scenario: Scenario, path: HoistPath, set: OptionSet): readonly Meeting[] {
  const everyPair = { ...scenario, rules: [...scenario.rules, LAST] };
  const bay = compileBay(everyPair, { allowed: set.map((option) => [option]) });
  const isAbsent = absence(scenario, set, [...path.off, ...path.without]);
  return bay.groups
    .filter(({ measured, comingOut, between }) => {
      return measured === 'nearest' && !comingOut && !between.some(isAbsent);
    })
    .flatMap(({ between, combos }) =>
      combos.flatMap(({ contacts }) =>
        contacts.map((id) => {
          const { engineStill, chassisStill } = bay.contacts[id]!;
          return { between, engine: engineStill, chassis: chassisStill };
        }),
      ),
    );
}

const gap = createGap();

class Passage {
  private worst: Worst | undefined;
  private readonly open = new Heap<Stretch>((a, b) => a.bound < b.bound);

  constructor(private readonly legs: readonly Leg[]) {}

  /** Measures a pair at every position, and notes where between them it may be nearer. */
  add(meeting: Meeting): void {
    for (const leg of this.legs) {
      const from = this.sample(meeting, leg, 0);
      const to = this.sample(meeting, leg, 1);
      this.push(meeting, leg, from, to);
    }
  }

  finish(needed: number): Hoist {
    for (;;) {
      const stretch = this.open.peek();
      if (stretch === undefined || stretch.bound >= this.worst!.gap - HOIST_TOLERANCE) break;
      this.open.pop();
      this.divide(stretch);
    }
    const { worst } = this;
    if (worst === undefined) return { fits: 'yes', margin: Infinity, needed };
    const margin = Math.min(worst.gap, this.open.peek()?.bound ?? Infinity) - needed;
    const { between, leg, share } = worst;
    const at = (place: number): readonly [number, number] => [leg.index + place, leg.index + place];
    return {
      fits: verdictOf(margin, worst.most - needed),
      margin,
      needed,
      worst: {
        between,
        position: positionOf(along(leg, share)),
        leg: share === 0 || share === 1 ? at(share) : [leg.index, leg.index + 1],
      },
    };
  }

  private divide({ meeting, leg, from, to, least }: Stretch): void {
    const room = LEAST_SHARE * (to.share - from.share);
    const share = Math.min(to.share - room, Math.max(from.share + room, least));
    const middle = this.sample(meeting, leg, share);
    this.push(meeting, leg, from, middle);
    this.push(meeting, leg, middle, to);
  }

  /** Keeps a stretch in which the pair may be nearer than the nearest measured. */
  private push(meeting: Meeting, leg: Leg, from: Sample, to: Sample): void {
    const turn = mostTurned(meeting.engine, leg);
    const { bound, least } = leastBetween(from, to, turn);
    if (bound < this.worst!.gap) this.open.push({ meeting, leg, from, to, bound, least });
  }

  private sample({ between, engine, chassis }: Meeting, leg: Leg, share: number): Sample {
    const x = along(leg, share);
    gap.nx = gap.ny = gap.nz = 0;
    gapBetween(standingAt(engine, x), chassis, x[0]!, x[1]!, x[2]!, gap);
    if (this.worst === undefined || gap.lower < this.worst.gap) {
      this.worst = { gap: gap.lower, most: gap.upper, between, leg, share };
    }
    const { step } = leg;
    const slope = gap.nx * step[0]! + gap.ny * step[1]! + gap.nz * step[2]!;
    return { share, gap: gap.lower, slope };
  }
}

/** How far a leg's turns move any point of a solid at most, in all. */
function mostTurned(engine: EngineSolid, { step }: Leg): number {
  if (step.length < 6) return engine.reach(0) * Math.abs(step[3]!);
  const { center, radius } = engine.shape;
  const far = trig.hypot(center[0]!, center[1]!, center[2]!) + radius;
  return far * (Math.abs(step[3]!) + Math.abs(step[4]!) + Math.abs(step[5]!));
}

/** A solid turned as the engine is there. */
function standingAt(engine: EngineSolid, x: Float64Array): Shape {
  if (x.length < 6) return engine.at(x[3]!, 0);
  return placed(engine.shape, stanceRotation(stanceFrom(x)));
}

function along({ from, step }: Leg, share: number): Float64Array {
  return from.map((start, k) => start + share * step[k]!);
}

/**
 * The least of what two samples leave between them, each good for the whole stretch: from either end
 * the gap falls no faster than its slope less the turn, and the greater of the two bounds holds.
 */
function leastBetween(
  from: Sample,
  to: Sample,
  turn: number,
): { readonly bound: number; readonly least: number } {
  const width = to.share - from.share;
  const rise = from.slope - turn;
  const fall = to.slope + turn;
  const bound = (along: number) =>
    Math.max(from.gap + rise * along, to.gap - fall * (width - along));
  const ends = [0, width];
  const crossing = (to.gap - fall * width - from.gap) / (rise - fall);
  if (crossing > 0 && crossing < width) ends.push(crossing);
  const least = ends.reduce((a, b) => (bound(b) < bound(a) ? b : a));
  return { bound: bound(least), least: from.share + least };
}

function verdictOf(margin: number, most: number): Verdict {
  if (margin >= -DECISION_SLACK) return 'yes';
  return most < -DECISION_SLACK ? 'no' : 'undecided';
}
