/**
 * What the front axle carries, by moments about the rear axle on level ground:
 *
 *     front = sum of m (rear - x) / (rear - front)
 *
 * where x runs along the frame, and x of what rides with the engine is
 * setback + x' cos(pitch) + z' sin(pitch) of x' and z' from the engine datum. What was on the scales stays,
 * less what comes out, and what goes in is added. The frame's rake is left out: it moves a load of so much
 * height by the height times its sine, both before and after.
 *
 * Millimetres, radians and kilograms.
 */

import { loadsUnder } from '../model/fitup/loads-under.js';
import type { StandingLoad } from '../model/fitup/loads-under.js';
import type { OptionSet, Scenario } from '../model/scenario.js';
import { carried, stanceOf } from '../model/stance.js';
import type { Seat, Stance } from '../model/stance.js';
import { frontShare } from '../model/fitup/weight.js';
import type { Weights } from '../model/fitup/weight.js';
import * as trig from '../model/trig.js';

/** Kilograms on the axles; `rear` only where it was weighed. */
export interface AxleLoads {
  readonly front: number;
  readonly rear?: number;
}

/** What the axles carry with the old engine out and these loads in, the engine sitting so. */
export function axleLoadsAt(
  weights: Weights,
  loads: readonly StandingLoad[],
  stance: Stance,
): AxleLoads {
  const { axles, before, out } = weights;
  let { front } = before;
  let all = before.front + (before.rear ?? 0);
  for (const { mass, at } of out) {
    front -= mass * frontShare(axles, at[0]);
    all -= mass;
  }
  for (const { side, mass, at } of loads) {
    const [x] = side === 'engine' ? carried(stance, at) : at;
    front += mass * frontShare(axles, x);
    all += mass;
  }
  return { front, ...(before.rear !== undefined && { rear: all - front }) };
}

/** What the axles carried before and carry after, under an option set; undefined where the file has no weights. */
export function axleLoadsUnder(
  s: Scenario,
  set: OptionSet,
  seat: Seat,
): { readonly before: AxleLoads; readonly after: AxleLoads } | undefined {
  const { weight } = s;
  if (weight === undefined) return undefined;
  const loads = loadsUnder(s, weight, set);
  return { before: weight.before, after: axleLoadsAt(weight, loads, stanceOf(seat)) };
}

/**
 * The front axle's load as a function of the position, in kilograms:
 * `still` - `slide` setback - `along` cos(pitch) - `up` sin(pitch).
 * Those of several loads add up.
 */
export interface Moments {
  readonly still: number;
  /** Kilograms a millimetre, 0 or more. */
  readonly slide: number;
  readonly along: number;
  readonly up: number;
}

export const NO_MOMENTS: Moments = { still: 0, slide: 0, along: 0, up: 0 };

/** Of one load that goes in. */
export function momentsOf(axles: Weights['axles'], load: StandingLoad): Moments {
  const { side, mass, at } = load;
  if (side === 'chassis') return { ...NO_MOMENTS, still: mass * frontShare(axles, at[0]) };
  const each = mass / (axles.rear - axles.front);
  return {
    still: mass * frontShare(axles, 0),
    slide: each,
    along: each * at[0],
    up: each * at[2],
  };
}

/** Of the vehicle with what comes out out and nothing in. */
export function emptyMoments({ axles, before, out }: Weights): Moments {
  const gone = out.reduce((sum, { mass, at }) => sum + mass * frontShare(axles, at[0]), 0);
  return { ...NO_MOMENTS, still: before.front - gone };
}

export function sumOfMoments(all: readonly Moments[]): Moments {
  return all.reduce(
    (a, b) => ({
      still: a.still + b.still,
      slide: a.slide + b.slide,
      along: a.along + b.along,
      up: a.up + b.up,
    }),
    NO_MOMENTS,
  );
}

/** Kilograms at a setback and a pitch. */
export function frontLoad({ still, slide, along, up }: Moments, setback: number, pitch: number) {
  return still - slide * setback - along * trig.cos(pitch) - up * trig.sin(pitch);
}

/** A line in setback and pitch, by half the box's width each way, and how far the load may leave it. */
export interface LoadLine {
  readonly value: number;
  readonly bySetback: number;
  readonly byPitch: number;
  /** Kilograms either way. */
  readonly bend: number;
}

/**
 * The load's line about the middle of a box. With t from the middle pitch, cos and sin leave their tangents
 * by cos t - 1 of the value and sin t - t of the slope, which are greatest at the ends of the box.
 */
export function loadLine(
  moments: Moments,
  mid: ArrayLike<number>,
  half: ArrayLike<number>,
): LoadLine {
  const [c, s] = [trig.cos(mid[3]!), trig.sin(mid[3]!)];
  const reach = moments.along * c + moments.up * s;
  const swing = moments.along * s - moments.up * c;
  const turn = half[3]!;
  return {
    value: moments.still - moments.slide * mid[0]! - reach,
    bySetback: -moments.slide * half[0]!,
    byPitch: swing * turn,
    bend:
      Math.abs(reach) * 2 * trig.squared(trig.sin(turn / 2)) +
      Math.abs(swing) * (turn - trig.sin(turn)),
  };
}
