/**
 * Lengths and angles as a person reads them off a tape or an angle finder, rounded to the side that
 * never flatters: what is there (gaps, margins) down, what is needed or short up.
 */

import * as trig from '../trig.js';

/** What lengths are printed in. */
export type Units = 'in' | 'mm';

/** `down` is toward minus infinity, `up` toward plus infinity; ties of `nearest` go up. */
export type Rounding = 'down' | 'up' | 'nearest';

export interface TapeStyle {
  readonly round: Rounding;
  /** In the units printed. The default is what a tape shows: 1/16 in or 1 mm. */
  readonly step?: number;
}

/** One inch is 25.4 mm exactly (NIST SP 811). */
const MM_PER_INCH = 25.4;

/** What a tape shows, in the units printed. */
const TAPE_STEP: Readonly<Record<Units, number>> = { in: 1 / 16, mm: 1 };

/** Degrees: what an angle finder shows. */
const ANGLE_STEP = 0.1;

/** In the units printed: a value no further past a step than this is on it. */
export const DUST = 1e-9;

/** The finest fraction of an inch worth writing as one. */
const FINEST = 64;

/** In inches: a position no further from a 1/64 than this is written as that fraction. */
const ON_FRACTION = 1e-6;

const DEGREES_PER_RADIAN = 180 / Math.PI;

/** Millimetres to the units named. */
export function inUnits(mm: number, units: Units): number {
  return units === 'in' ? mm / MM_PER_INCH : mm;
}

/**
 * A length rounded to a step: `25 1/2`, `3/16`, `-1/8`, `0` in inches, `647` in millimetres. A step
 * of an inch that is not 1/2, 1/4 ... 1/64 is written in decimals.
 * @param mm millimetres, finite.
 * @throws RangeError for a length that is not finite.
 */
export function tape(mm: number, units: Units, style: TapeStyle): string {
  const step = style.step ?? TAPE_STEP[units];
  const steps = stepsIn(inUnits(mm, units), step, style.round);
  const parts = Math.round(1 / step);
  const isFraction = units === 'in' && parts <= FINEST && (parts & (parts - 1)) === 0;
  return isFraction && Math.abs(parts * step - 1) < DUST
    ? fraction(steps, parts)
    : decimal(steps, step);
}

/**
 * The number that `tape` writes, in the units printed.
 * @throws RangeError for a length that is not finite.
 */
export function tapeSize(mm: number, units: Units, style: TapeStyle): number {
  const step = style.step ?? TAPE_STEP[units];
  return stepsIn(inUnits(mm, units), step, style.round) * step;
}

/** Marks that a file may ask a gap to: those of a tape, then finer ones. */
const GIVEN_STEPS: Readonly<Record<Units, readonly number[]>> = {
  in: [1 / 16, 1 / 32, 1 / 64],
  mm: [1, 0.5, 0.1],
};

/** A size that is needed: as given where it is on a mark, a fine one too, else up to what a tape shows. */
export function neededStyle(mm: number, units: Units): TapeStyle {
  const value = inUnits(mm, units);
  const step = GIVEN_STEPS[units].find((one) => {
    return Math.abs(tapeSize(mm, units, { round: 'nearest', step: one }) - value) <= DUST;
  });
  return { round: 'up', ...(step === undefined ? {} : { step }) };
}

/**
 * A length rounded to so many decimals, as a number, in the units named.
 * @throws RangeError for a length that is not finite.
 */
export function decimalLength(
  mm: number,
  units: Units,
  style: { readonly round: Rounding; readonly decimals: number },
): number {
  const step = trig.tenTo(-style.decimals);
  return Number(decimal(stepsIn(inUnits(mm, units), step, style.round), step));
}

/**
 * A coordinate as exactly as it is worth writing: the plainest fraction of an inch that it is, to
 * 1/64, else four decimals; three decimals in millimetres, all without trailing zeros.
 * @throws RangeError for a length that is not finite.
 */
export function exactTape(mm: number, units: Units): string {
  const value = inUnits(mm, units);
  if (units === 'mm') return tape(mm, units, { round: 'nearest', step: 1e-3 });
  const steps = stepsIn(value, 1 / FINEST, 'nearest');
  return Math.abs(value - steps / FINEST) <= ON_FRACTION
    ? fraction(steps, FINEST)
    : tape(mm, units, { round: 'nearest', step: 1e-4 });
}

/**
 * An angle in degrees, `3.1`.
 * @param radians finite.
 * @param step degrees.
 * @throws RangeError for an angle that is not finite.
 */
export function degrees(radians: number, round: Rounding = 'nearest', step = ANGLE_STEP): string {
  const steps = stepsIn(radians * DEGREES_PER_RADIAN, step, round);
  return steps === 0 ? '0.0' : (steps * step).toFixed(decimalsOf(step));
}

/** An angle in degrees to 0.1, or to as many as three decimals where it is not one of those. */
export function exactDegrees(radians: number): string {
  const value = radians * DEGREES_PER_RADIAN;
  const isOnStep = Math.abs(value / ANGLE_STEP - Math.round(value / ANGLE_STEP)) < ON_FRACTION;
  return degrees(radians, 'nearest', isOnStep ? ANGLE_STEP : 1e-3);
}

function stepsIn(value: number, step: number, round: Rounding): number {
  if (!Number.isFinite(value)) throw new RangeError(`not a finite size: ${value}`);
  const nearest = Math.round(value / step);
  if (round === 'nearest') return nearest;
  // Dust grows with the value only as fast as its own last digits do.
  if (Math.abs(value - nearest * step) <= DUST + Math.abs(value) * Number.EPSILON * 4) {
    return nearest;
  }
  return round === 'down' ? Math.floor(value / step) : Math.ceil(value / step);
}

function fraction(steps: number, parts: number): string {
  const whole = Math.floor(Math.abs(steps) / parts);
  let over = Math.abs(steps) % parts;
  let under = parts;
  while (over > 0 && over % 2 === 0 && under > 1) {
    over /= 2;
    under /= 2;
  }
  const sign = steps < 0 ? '-' : '';
  if (over === 0) return `${sign}${whole}`;
  return whole === 0 ? `${sign}${over}/${under}` : `${sign}${whole} ${over}/${under}`;
}

function decimal(steps: number, step: number): string {
  if (steps === 0) return '0';
  const text = (steps * step).toFixed(decimalsOf(step));
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

function decimalsOf(step: number): number {
  let decimals = 0;
  while (
    decimals < 9 &&
    Math.abs(Math.round(step * trig.tenTo(decimals)) / trig.tenTo(decimals) - step) > 1e-12
  ) {
    decimals++;
  }
  return decimals;
}
