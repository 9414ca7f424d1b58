/** How the pinion should point at ride height for the shaft to turn as evenly as it can. */

import { minOf } from '../../model/extremes.js';
import type { Driveline } from '../../model/fitup/driveline.js';
import type { Seat } from '../../model/stance.js';
import * as trig from '../../model/trig.js';
import { jointsAt, outputDirection } from './standing.js';

/** Radians either way of the pinion as it is that are looked at: what a wedge can make good, and more. */
const REACH = (15 * Math.PI) / 180;
/** Looks in the first pass: fine enough that no valley of the ripple lies between two. */
const LOOKS = 601;
/** Radians to which the angle is told. */
const FINE = 1e-7;
/** A swing this much greater counts as the same, for nobody feels the difference. */
const SAME = 5e-4;

export interface BestPinion {
  /** Radians that the nose should point up. */
  readonly up: number;
  /** Radians that it must be turned up from where it is: the wedge. */
  readonly by: number;
  /** Greatest over least speed left, less 1. */
  readonly swing: number;
}

/**
 * The pinion angle at ride height with the least ripple. Two may be as good, the ends parallel or the shaft
 * the bisector of them; then it is the one nearer to parallel, as is usual. Where the front joint is of constant velocity, that is the shaft's own slope. Undefined with
 * one joint: the tube and the pinion are one.
 */
export function bestPinion(driveline: Driveline, position: Seat): BestPinion | undefined {
  if (driveline.joints === 'one') return undefined;
  const { ride } = driveline.pinion;
  const [x, , z] = outputDirection(driveline, position);
  const parallel = trig.atan2(-z, x);
  const swingAt = (up: number): number => {
    const { least, greatest } = jointsAt(driveline, position, { ...ride, up }).ripple;
    return greatest / least - 1;
  };
  const step = (2 * REACH) / (LOOKS - 1);
  const looked = Array.from({ length: LOOKS }, (_, i) => ride.up - REACH + i * step);
  const swings = looked.map(swingAt);
  const valleys = looked.flatMap((up, i) => {
    const isLow =
      swings[i]! <= (swings[i - 1] ?? Infinity) && swings[i]! <= (swings[i + 1] ?? Infinity);
    return isLow ? [lowest(swingAt, up - step, up + step)] : [];
  });
  const found = valleys.map((up) => ({ up, by: up - ride.up, swing: swingAt(up) }));
  const least = minOf(found.map(({ swing }) => swing));
  return found
    .filter(({ swing }) => swing <= least + SAME)
    .sort((a, b) => Math.abs(a.up - parallel) - Math.abs(b.up - parallel))[0];
}

/** Where a function with one valley between two ends is lowest, by thirds. */
function lowest(of: (x: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  while (high - low > FINE) {
    const third = (high - low) / 3;
    if (of(low + third) <= of(high - third)) high -= third;
    else low += third;
  }
  return (low + high) / 2;
}
