/** Numbers for programs: in the units printed, angles in degrees, rounded so that nothing is promised that is not there. */

import * as trig from '../../model/trig.js';
import type { Coordinate, Scenario } from '../../model/scenario.js';
import { decimalLength } from '../../model/text/tape.js';
import type { Rounding, Units } from '../../model/text/tape.js';
import { massNumber } from '../../words/axle.js';

/** What every number of an answer depends on. */
export interface Numbers {
  readonly scenario: Scenario;
  readonly units: Units;
  /** Millimetres: the bounds must show it. */
  readonly tolerance?: number;
}

/** Decimals of a coordinate, in the units printed or degrees. */
const COORDINATE_DECIMALS = 6;

/** A coordinate in the units printed, or degrees. */
export function coordinateNumber(name: Coordinate, value: number, { units }: Numbers): number {
  if (name === 'pitch') return degreesOf(value);
  return decimalLength(value, units, { round: 'nearest', decimals: COORDINATE_DECIMALS });
}

export function degreesOf(radians: number): number {
  return Number(((radians * 180) / Math.PI).toFixed(COORDINATE_DECIMALS)) + 0;
}

/** A weight to hundredths, `null` where it is not finite. */
export function massJson(kg: number, round: Rounding, { units }: Numbers): number | null {
  return Number.isFinite(kg) ? massNumber(kg, units, { round, decimals: 2 }) : null;
}

/** In the units printed, `null` where it is not finite. */
export function length(mm: number, round: Rounding, n: Numbers): number | null {
  if (!Number.isFinite(mm)) return null;
  return decimalLength(mm, n.units, { round, decimals: decimals(n) });
}

/** Four decimals of an inch, three of a millimetre, more where the tolerance is finer. */
function decimals({ units, tolerance }: Numbers): number {
  const usual = units === 'in' ? 4 : 3;
  if (tolerance === undefined || !(tolerance > 0)) return usual;
  const printed = units === 'in' ? tolerance / 25.4 : tolerance;
  return Math.min(9, Math.max(usual, 1 - trig.powerOfTen(printed)));
}

/** Degrees, rounded down. */
export function angle(radians: number): number {
  return decimalLength((radians * 180) / Math.PI, 'mm', { round: 'down', decimals: 4 });
}

/** A share, to six decimals. */
export function ratio(share: number): number {
  return Number(share.toFixed(6));
}
