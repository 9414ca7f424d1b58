/** Weights as a person writes them, read as kilograms. */

import { exactQuantity, plainText, QUANTITY } from './length.js';

/** What a weight may look like, for messages. */
export const MASS_EXPECTED = 'a weight such as 575 lb, 2 1/2 lb or 260 kg, in quotes if need be';

/** Exactly so: NIST SP 811 (2008), appendix B.8. */
const KG_PER_LB = 0.45359237;

/** No load of a vehicle weighs more than this (1000 t); a greater one is a slip of the pen. */
const MAX_KG = 1e6;
/** The longest text that can be a weight. */
const MAX_LETTERS = 60;
const MASS = new RegExp(String.raw`^([+-]?)\s*(${QUANTITY})\s*([a-z]+\.?)?$`);
const UNIT_WORDS: ReadonlyMap<string, 'lb' | 'kg'> = new Map([
  ...(['lb', 'lb.', 'lbs', 'lbs.', 'pound', 'pounds'] as const).map(
    (word) => [word, 'lb'] as const,
  ),
  ...(['kg', 'kgs', 'kilogram', 'kilograms'] as const).map((word) => [word, 'kg'] as const),
]);

export type MassUnit = 'lb' | 'kg';
export type Mass = { readonly kg: number } | { readonly problem: string };

/** What weights are in where the file says nothing: pounds beside inches, kilograms beside millimetres. */
export function massUnit(units: 'in' | 'mm'): MassUnit {
  return units === 'in' ? 'lb' : 'kg';
}

/** Kilograms as a number of a unit. */
export function inMassUnit(kg: number, unit: MassUnit): number {
  return unit === 'kg' ? kg : kg / KG_PER_LB;
}

/** Reads a weight; one without a unit is in `unit`. The problem is one sentence without a full stop. */
export function parseMass(text: string | number, unit: MassUnit): Mass {
  if (typeof text === 'number' && !Number.isFinite(text))
    return { problem: 'a weight must be a finite number' };
  const written = String(text);
  const match = written.length > MAX_LETTERS ? null : MASS.exec(plainText(written));
  if (match === null) return { problem: 'this is not a weight' };
  const [, sign, size, word] = match;
  const own = word === undefined ? unit : UNIT_WORDS.get(word);
  if (own === undefined) return { problem: `'${word}' is not a unit of weight` };
  const value = exactQuantity(size!);
  if (typeof value === 'string') return { problem: value };
  const kg = value.valueOf() * (own === 'lb' ? KG_PER_LB : 1);
  if (kg > MAX_KG) return { problem: 'this is more than a thousand tonnes' };
  return { kg: sign === '-' ? -kg : kg };
}
