/**
 * Where the engine really sits, from readings of known error: weighted least squares over all six motions, with
 * its covariance, and the readings that the others contradict.
 *
 * A reading that is off by at most e, anywhere in between, has the standard deviation e / sqrt 3 (JCGM 100:2008,
 * 4.3.7, from memory). A reading disagrees where what it is off by, divided by what that should be
 * (Baarda's test: the reading's own variance less what the fit takes of it), is more than DISAGREES.
 */

import { maxOf } from '../../model/extremes.js';
import { freedomOfRows } from '../../geometry/adjusters/freedom.js';
import type { FreeMotion } from '../../geometry/adjusters/freedom.js';
import { leastSquares, scaledStance, unscaledStance } from '../../geometry/adjusters/links.js';
import { dot, singular } from '../../geometry/singular.js';
import type { Stance } from '../../model/stance.js';
import * as trig from '../../model/trig.js';

/** What one reading should be at a stance, and its slopes by scaled motion. */
export interface Expected {
  readonly value: number;
  readonly slopes: ArrayLike<number>;
}

export interface Observed {
  readonly name: string;
  readonly value: number;
  /** Standard deviation, in the unit of the value. */
  readonly deviation: number;
  readonly expected: (stance: Stance) => Expected;
}

/** One reading against the fit. */
interface Residual {
  readonly reading: number;
  /** What it should be where the engine is taken to be. */
  readonly expected: number;
  /** What it reads less that, in standard deviations of that difference; 0 where nothing checks it. */
  readonly disagrees: number;
  /** From 0, where no other reading checks it, to 1, where the others tell all of it. */
  readonly checked: number;
}

export interface Estimate {
  readonly stance: Stance;
  /** Of the scaled six, row by row; what is not determined is left out of it. */
  readonly covariance: readonly (readonly number[])[];
  /** Motions that the readings say too little of; the estimate keeps what was meant there. */
  readonly open: readonly FreeMotion[];
  readonly residuals: readonly Residual[];
  /** Readings left out, since the others contradict them. */
  readonly doubtful: readonly number[];
  /** Other places that fit as well as chance allows: the readings do not tell which of them it is. */
  readonly rivals: readonly Stance[];
  /** Readings that contradict one another, and none says which is wrong: two or more, or none. */
  readonly atOdds: readonly number[];
}

/** Standard deviations beyond which a reading disagrees with the rest. */
export const DISAGREES = 3.3;
/** Millimetres of standard deviation beyond which a scaled motion is not determined. */
const UNKNOWN = 15;
/** A reading of which the others tell less than this is not checked by them. */
const UNCHECKED = 1e-6;

const MOST_STEPS = 50;
/** Millimetres. */
const SETTLED = 1e-6;

/** Half width, in standard deviations, of what is stated: about 95 in 100 (JCGM 100:2008, 6.3.3). */
export const COVERAGE = 2;

/** The standard deviation of a reading that is off by at most `error`. */
export function deviationOf(error: number): number {
  return error / Math.sqrt(3);
}

/** @param meant where the search begins, and what is kept of motions that no reading tells. */
export function estimate(readings: readonly Observed[], meant: Stance): Estimate {
  let used = readings.map((_, i) => i);
  let fit = fitted(readings, used, meant);
  const dropped: number[] = [];
  let atOdds: number[] = [];
  while (fit.open.length === 0) {
    const worst = mostAtOdds(fit, used);
    if (worst.length === 0) break;
    if (worst.length > 1) {
      atOdds = worst;
      break;
    }
    dropped.push(worst[0]!);
    used = used.filter((i) => i !== worst[0]);
    fit = fitted(readings, used, fit.stance);
  }
  // One that only looked wrong beside another that was is taken back.
  for (const back of atOdds.length === 0 ? [...dropped] : []) {
    if (Math.abs(fit.residuals[back]!.disagrees) > DISAGREES) continue;
    dropped.splice(dropped.indexOf(back), 1);
    used = [...used, back].sort((a, b) => a - b);
    fit = fitted(readings, used, fit.stance);
  }
  const [best, ...others] = fitsAbout(readings, used, fit);
  const rivals: Misfitted[] = [];
  for (const one of best!.open.length > 0 ? [] : others) {
    if ([best!, ...rivals].every((other) => isRival(one, best!, other))) rivals.push(one);
  }
  return {
    ...(best as Fit),
    doubtful: dropped.sort((a, b) => a - b),
    atOdds,
    rivals: rivals.map(({ stance }) => stance),
  };
}

/** A place that fits within what chance does 95 times in 100, farther from another than the best is known to. */
function isRival(one: Misfitted, best: Misfitted, other: Misfitted): boolean {
  if (one.misfit > best.misfit + RIVALS) return false;
  const [a, b] = [scaledStance(one.stance), scaledStance(other.stance)];
  return a.some(
    (value, k) => Math.abs(value - b[k]!) > COVERAGE * Math.sqrt(best.covariance[k]![k]!),
  );
}

/**
 * The used readings that disagree the most, all that may be the wrong one: without one of them the sum of squares
 * falls by the square of its disagreement. None where all agree.
 */
function mostAtOdds({ residuals }: Fit, used: readonly number[]): number[] {
  const size = (i: number) => Math.abs(residuals[i]!.disagrees);
  const most = maxOf(used.map(size));
  if (!(most > DISAGREES)) return [];
  return used.filter((i) => trig.squared(size(i)) >= trig.squared(most) - RIVALS);
}

type Fit = Omit<Estimate, 'doubtful' | 'atOdds' | 'rivals'>;
type Misfitted = Fit & { readonly misfit: number };

/** The best fit of the used readings that is soon found; where readings disagree, looked for all about. */
function fitted(readings: readonly Observed[], used: readonly number[], from: Stance): Fit {
  const first = fitFrom(readings, used, from);
  return mostAtOdds(first, used).length === 0 ? first : fitsAbout(readings, used, first)[0]!;
}

/**
 * The fits that are found from a fit and from turned about it, the best first. A gap has edges, where another
 * corner comes nearest: a fit may come to rest on either side of one.
 */
function fitsAbout(
  readings: readonly Observed[],
  used: readonly number[],
  first: Fit,
): readonly Misfitted[] {
  const { stance } = first;
  const turned = ELSEWHERE.map(([turn, by]) =>
    fitFrom(readings, used, { ...stance, [turn]: stance[turn] + by }),
  );
  return [first, ...turned]
    .map((fit) => ({ ...fit, misfit: misfitOf(readings, used, fit.stance) }))
    .sort((a, b) => a.misfit - b.misfit);
}

/** Turns from a fit, radians, at which to look for another. */
const ELSEWHERE = (['yaw', 'roll', 'pitch'] as const).flatMap((turn) =>
  [-0.015, 0.015].map((by) => [turn, by] as const),
);
/** By how much the sum of squares of a fit may be greater, for it to be a place as likely: two deviations, squared. */
const RIVALS = 4;

function fitFrom(readings: readonly Observed[], used: readonly number[], from: Stance): Fit {
  const stance = settledAt(readings, used, from);
  const rows = used.map((i) => weighed(readings[i]!, stance).row);
  const { values, right } = singular(rows, 6);
  const known = values.flatMap((value, k) => (value * UNKNOWN > 1 ? [k] : []));
  const covariance = [0, 1, 2, 3, 4, 5].map((i) =>
    [0, 1, 2, 3, 4, 5].map((j) =>
      known.reduce((sum, k) => sum + (right[k]![i]! * right[k]![j]!) / trig.squared(values[k]!), 0),
    ),
  );
  return {
    stance,
    covariance,
    open: freedomOfRows(rows, 1 / UNKNOWN).motions,
    residuals: readings.map((reading, i) => {
      const { row, off, expected } = weighed(reading, stance);
      // What the fit tells of this reading, in its own variances: part of it is its own doing where it is used.
      const told = quadratic(covariance, row);
      const share = used.includes(i) ? 1 - told : 1 + told;
      const isChecked = share > UNCHECKED;
      return {
        reading: i,
        expected,
        disagrees: isChecked ? off / Math.sqrt(share) : 0,
        checked: Math.min(1, Math.max(0, share)),
      };
    }),
  };
}

/** x C x. */
export function quadratic(matrix: readonly (readonly number[])[], x: ArrayLike<number>): number {
  return matrix.reduce((sum, row, i) => sum + x[i]! * dot(row, x), 0);
}

/** The slopes, and what is read less what is expected, in standard deviations of the reading. */
function weighed(reading: Observed, stance: Stance) {
  const { value: expected, slopes } = reading.expected(stance);
  const row = Array.from(slopes, (slope) => slope / reading.deviation);
  return { row, off: (reading.value - expected) / reading.deviation, expected };
}

/** The sum of the squares that the fit makes least. */
function misfitOf(readings: readonly Observed[], used: readonly number[], stance: Stance): number {
  return used.reduce((sum, i) => sum + trig.squared(weighed(readings[i]!, stance).off), 0);
}

/** Gauss and Newton; a step is halved until the fit is no worse, since gaps have edges. */
function settledAt(readings: readonly Observed[], used: readonly number[], from: Stance): Stance {
  let x = scaledStance(from);
  const misfit = (at: Float64Array): number => misfitOf(readings, used, unscaledStance(at));
  let now = misfit(x);
  for (let step = 0; step < MOST_STEPS; step++) {
    const all = used.map((i) => weighed(readings[i]!, unscaledStance(x)));
    const by = leastSquares(
      all.map(({ row }) => row),
      all.map(({ off }) => off),
      1 / UNKNOWN,
    );
    let share = 1;
    let next = moved(x, by, share);
    let after = misfit(next);
    while (after > now && share > 1 / 64) {
      share /= 2;
      next = moved(x, by, share);
      after = misfit(next);
    }
    if (after > now) break;
    x = next;
    now = after;
    if (share * trig.norm(by) < SETTLED) break;
  }
  return unscaledStance(x);
}

function moved(x: Float64Array, by: readonly number[], share: number): Float64Array {
  return x.map((value, k) => value + share * by[k]!);
}
