/**
 * How far what is measured where an engine is taken to sit may be off, since it may sit a little elsewhere.
 *
 * A margin that is a plain sum of the motions is off by two deviations of its slope in the covariance. A gap is
 * the least over corners and solids, and falls whichever way a flat face turns before another; so the margins that may
 * matter are measured again at places drawn from the covariance, and all but the worst few of those are allowed for.
 */

import { scaledSlopes, scaledStance, unscaledStance } from '../../geometry/adjusters/links.js';
import { singular } from '../../geometry/singular.js';
import type { Limit, OptionSet } from '../../model/scenario.js';
import { stanceVector } from '../../model/stance.js';
import type { Stance } from '../../model/stance.js';
import type { LimitReading, Reading, Standing } from '../answer.js';
import { limitValue } from '../measuring/limits.js';
import type { ReadyLimit } from '../measuring/limits.js';
import { readingsAt } from '../measuring/measure.js';
import type { Meter } from '../measuring/meter.js';
import { keyOf } from '../measuring/reading-key.js';
import { COVERAGE, quadratic } from './estimate.js';
import type { Estimate } from './estimate.js';

/** A rule where the engine is taken to sit. */
export interface BuiltReading {
  readonly reading: Reading;
  /** The margin may be less by this much, mm; 0 where no position changes it. */
  readonly within: number;
}

/** A limit where the engine is taken to sit: its value may be off by `within`. */
export interface BuiltLimit {
  readonly reading: LimitReading;
  readonly within: number;
  /** Kept; missed by less than anyone sets an engine; missed, perhaps; missed for sure. */
  readonly kept: 'yes' | 'near' | 'perhaps' | 'no';
}

type Known = Pick<Estimate, 'stance' | 'covariance'>;

/** Rules measured again, at the most and at the least. */
const MOST_AGAIN = 40;
const LEAST_AGAIN = 10;

/** Every rule, the least left first when what it may be off is taken away. */
export function builtRules(
  meter: Meter,
  set: OptionSet,
  { readings }: Standing,
  known: Known,
): readonly BuiltReading[] {
  const plain = readings.map((reading) => ({ reading, within: plainly(reading, known) }));
  const left = ({ reading, within }: BuiltReading) => reading.margin - within;
  const byLeft = plain.filter(({ reading }) => !reading.fixed).sort((a, b) => left(a) - left(b));
  const wanted = byLeft
    .slice(0, MOST_AGAIN)
    .filter(({ reading, within }, k) => k < LEAST_AGAIN || reading.margin < 4 * within);
  const falls = fallsOf(
    meter,
    set,
    wanted.map(({ reading }) => reading),
    known,
  );
  return plain
    .map(({ reading, within }) => ({
      reading,
      within: Math.max(within, falls.get(keyOf(reading)) ?? 0),
    }))
    .sort((a, b) => left(a) - left(b));
}

/** Two deviations of a margin, by its slope. */
function plainly({ slope }: Reading, { covariance }: Known): number {
  if (!slope) return 0;
  return COVERAGE * Math.sqrt(Math.max(0, quadratic(covariance, slopesOf(slope))));
}

/** A slope by motion as one by scaled motion. */
export function slopesOf(slope: Stance): Float64Array {
  return scaledSlopes(stanceVector(slope));
}

/** Places tried, and how many of them may leave less than is told: 2 1/2 in 100, as beyond two deviations. */
const TRIED = 200;
const BEYOND = 5;

/** How far margins fall at places drawn from the covariance, all but the BEYOND worst. */
function fallsOf(
  meter: Meter,
  set: OptionSet,
  readings: readonly Reading[],
  { stance, covariance }: Known,
): ReadonlyMap<string, number> {
  const margins = new Map(readings.map((reading) => [keyOf(reading), reading.margin]));
  const falls = new Map<string, number[]>(readings.map((reading) => [keyOf(reading), []]));
  const { values, right } = singular(covariance, 6);
  const x = scaledStance(stance);
  for (const deviates of DEVIATES) {
    const far = deviates.map((deviate, k) => deviate * Math.sqrt(values[k]!));
    const moved = x.map(
      (value, j) => value + right.reduce((sum, axis, k) => sum + far[k]! * axis[j]!, 0),
    );
    const at = stanceVector(unscaledStance(moved));
    for (const reading of readingsAt(meter, set, at, (group) => falls.has(keyOf(group)))) {
      const key = keyOf(reading);
      falls.get(key)!.push(margins.get(key)! - reading.margin);
    }
  }
  return new Map(
    [...falls].map(([key, all]) => [key, all.sort((a, b) => b - a)[BEYOND] ?? 0] as const),
  );
}

/**
 * Six normal deviates a place, always the same: sums of twelve even numbers, from a congruential sequence
 * (multiplier and increment of Numerical Recipes, from memory).
 */
const DEVIATES: readonly (readonly number[])[] = (() => {
  let state = 1;
  const even = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
  const deviate = () => {
    let sum = -6;
    for (let k = 0; k < 12; k++) sum += even();
    return sum;
  };
  return Array.from({ length: TRIED }, () => Array.from({ length: 6 }, deviate));
})();

/** Millimetres, and radians by TURN_ARM: steps for the slope of a limit's value. */
const STEP = 0.05;

/** What nobody sets an engine closer to a limit than: 1/16 in, 0.2 degree, a kilogram. */
const SET_TO = { length: 1.5875, angle: (0.2 * Math.PI) / 180, weight: 1 };

/** Limits with how far their values may be off, by differences: some of them are no plain sum. */
export function builtLimits(
  meter: Meter,
  set: OptionSet,
  { limits }: Standing,
  { covariance, stance }: Known,
): readonly BuiltLimit[] {
  const ready = meter.contactsOf(set).limits;
  const x = scaledStance(stance);
  const at = (limit: ReadyLimit, k: number, by: number): number => {
    const moved = unscaledStance(x.map((value, j) => (j === k ? value + by : value)));
    return limitValue(limit, set, stanceVector(moved))!;
  };
  return limits.map((reading): BuiltLimit => {
    const own = ready.find(({ limit }) => limit === reading.limit)!;
    const slopes = x.map((_, k) => (at(own, k, STEP) - at(own, k, -STEP)) / (2 * STEP));
    const within = COVERAGE * Math.sqrt(Math.max(0, quadratic(covariance, slopes)));
    return { reading, within, kept: keptBy(reading, within) };
  });
}

function keptBy({ limit, value, met }: LimitReading, within: number): BuiltLimit['kept'] {
  if (met) return 'yes';
  const past = Math.max(limit.min - value, value - limit.max);
  if (past > within) return 'no';
  return past <= SET_TO[unitOf(limit.quantity)] ? 'near' : 'perhaps';
}

function unitOf({ of }: Limit['quantity']): keyof typeof SET_TO {
  if (of === 'front axle load') return 'weight';
  return of === 'pitch' || of === 'joint angle' || of === 'joint difference' ? 'angle' : 'length';
}
