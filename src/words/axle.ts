/** Weights, and what the front axle carries, in words. */

import { axleLoadsUnder } from '../geometry/weight.js';
import { inMassUnit, massUnit } from '../model/text/mass.js';
import type { OptionSet } from '../model/scenario.js';
import type { Seat } from '../model/stance.js';
import { decimalLength } from '../model/text/tape.js';
import type { Rounding, Units } from '../model/text/tape.js';
import type { Telling } from './words.js';

/** Whole pounds beside inches, whole kilograms beside millimetres: `1,842 lb`. */
export function massWords(kg: number, units: Units, round: Rounding): string {
  return `${grouped(massNumber(kg, units, { round, decimals: 0 }))} ${massUnit(units)}`;
}

/** To a tenth, for a weight as a file gives it. */
export function exactMassWords(kg: number, units: Units): string {
  return `${grouped(massNumber(kg, units, { round: 'nearest', decimals: 1 }))} ${massUnit(units)}`;
}

/** A weight as a number of the unit that goes with the units printed. */
export function massNumber(
  kg: number,
  units: Units,
  style: { readonly round: Rounding; readonly decimals: number },
): number {
  return decimalLength(inMassUnit(kg, massUnit(units)), 'mm', style);
}

/**
 * What the front axle carried and will carry, heavier rather than lighter:
 * `front 1,780 lb before, 1,842 lb after (55.5 to 57.2 % of the vehicle)`.
 * Undefined where the file has no weights.
 */
export function axleWords(
  set: OptionSet,
  seat: Seat,
  { scenario, units }: Pick<Telling, 'scenario' | 'units'>,
): string | undefined {
  const loads = axleLoadsUnder(scenario, set, seat);
  if (loads === undefined) return undefined;
  const { before, after } = loads;
  const carried = `front ${massWords(before.front, units, 'nearest')} before, ${massWords(after.front, units, 'up')} after`;
  const [was, is] = [before, after].map(frontPercent);
  if (was === undefined || is === undefined) return carried;
  return `${carried} (${was} to ${is} % of the vehicle)`;
}

/** The same in a line that is read while the engine moves: `Front axle 1,842 lb, was 1,780 lb`. */
export function axleNow(
  set: OptionSet,
  seat: Seat,
  { scenario, units }: Pick<Telling, 'scenario' | 'units'>,
): string | undefined {
  const loads = axleLoadsUnder(scenario, set, seat);
  if (loads === undefined) return undefined;
  const { before, after } = loads;
  return `Front axle ${massWords(after.front, units, 'up')}, was ${massWords(before.front, units, 'nearest')}`;
}

function frontPercent({ front, rear }: { front: number; rear?: number }): string | undefined {
  return rear === undefined ? undefined : ((100 * front) / (front + rear)).toFixed(1);
}

/** Thousands apart, as on a plate of weights. */
function grouped(value: number): string {
  const [whole, rest] = String(value).split('.');
  return whole!.replace(/\B(?=(\d{3})+$)/g, ',') + (rest === undefined ? '' : `.${rest}`);
}
