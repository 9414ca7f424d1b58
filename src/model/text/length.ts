/**
 * Lengths and angles as a person writes them, read by our own small grammar:
 *
 *     length   := sign? ( feet | one )            a leading minus takes the whole
 *     feet     := quantity FOOT ( '-'? quantity INCH )?
 *     one      := quantity UNIT?                  without a unit: in the unit of the file
 *     quantity := decimal | whole '/' whole | whole ( ' ' | '-' ) whole '/' whole
 *
 * mathjs turns a known unit and a number into millimetres, in exact fractions. It never sees text:
 * it reads `19-1/4 in` as a subtraction and `2 ft 3 in` as an area.
 */

import { create, fractionDependencies, unitDependencies } from 'mathjs';
import type { Fraction } from 'mathjs';

/** What a length may look like, for messages. */
export const LENGTH_EXPECTED = "a length such as 3/8, 3 5/8, 19-1/4, '2 ft 3 in' or 490 mm";
export const ANGLE_EXPECTED = 'an angle in degrees, such as 3 or 2.5';

/** No length in a vehicle is longer than this (1 km); a longer one is a slip of the pen. */
export const MAX_LENGTH_MM = 1e6;

/** The longest text that can be a length. */
const MAX_LETTERS = 60;
/** Ten to this power is out of any vehicle's reach, up or down. */
const MAX_EXPONENT = 20;

const math = create({ ...fractionDependencies, ...unitDependencies }, { number: 'Fraction' });

type UnitName = 'inch' | 'foot' | 'mm' | 'cm' | 'm';
const UNIT_WORDS: ReadonlyMap<string, UnitName> = new Map([
  ...(['in', 'inch', 'inches', 'in.', '"'] as const).map((word) => [word, 'inch'] as const),
  ...(['ft', 'foot', 'feet', 'ft.', "'"] as const).map((word) => [word, 'foot'] as const),
  ['mm', 'mm'],
  ['cm', 'cm'],
  ['m', 'm'],
]);

/** An unsigned number, with or without a fraction, as a person writes one. */
export const QUANTITY = String.raw`(?:\d+(?:\s+|-)\d+/\d+|\d+/\d+|(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)`;
const LENGTH = new RegExp(
  String.raw`^([+-]?)\s*(${QUANTITY})\s*([a-z]+\.?|["'])?(?:\s*-?\s*(${QUANTITY})\s*([a-z]+\.?|["'])?)?$`,
);
const ANGLE = new RegExp(String.raw`^([+-]?)\s*(${QUANTITY})\s*(?:°|deg\.?|degrees?)?$`);

export type Length = { readonly mm: number } | { readonly problem: string };
/** Millimetres as an exact fraction, for sums of lengths that must not depend on their order. */
export type ExactLength = Fraction;
export type Angle = { readonly radians: number } | { readonly problem: string };

/**
 * Reads a length; a number and a text without a unit are in `unit`. The result is the double
 * nearest to the exact fraction (3/8 in is 9.525). The problem is one sentence without a full stop.
 */
export function parseLength(text: string | number, unit: 'in' | 'mm'): Length {
  const exact = parseExactLength(text, unit);
  return 'problem' in exact ? exact : { mm: millimetres(exact) };
}

/** The double nearest to an exact length. */
export function millimetres(exact: ExactLength): number {
  return exact.valueOf() + 0;
}

/** Reads a length as `parseLength` does, without rounding it. */
export function parseExactLength(
  text: string | number,
  unit: 'in' | 'mm',
): ExactLength | { readonly problem: string } {
  if (typeof text === 'number' && !Number.isFinite(text)) {
    return { problem: 'a length must be a finite number' };
  }
  const written = String(text);
  if (written.length > MAX_LETTERS) return { problem: 'this is too long for a length' };
  const match = LENGTH.exec(plainText(written));
  if (match === null) return { problem: 'this is not a length' };
  const [, sign, first, firstUnit, second, secondUnit] = match;
  const own: UnitName = unit === 'in' ? 'inch' : 'mm';
  const unitOf = (word: string | undefined) => (word === undefined ? own : UNIT_WORDS.get(word));
  const name = unitOf(firstUnit);
  if (name === undefined) return { problem: `'${firstUnit}' is not a unit of length` };
  let total = inMillimetres(first!, name);
  if (typeof total === 'string') return { problem: total };
  if (second !== undefined) {
    if (firstUnit === undefined || name !== 'foot') {
      return { problem: 'two numbers make one length only as feet and inches' };
    }
    if (secondUnit === undefined) return { problem: `the second number needs its unit` };
    if (UNIT_WORDS.get(secondUnit) !== 'inch') return { problem: 'inches must follow feet' };
    const inches = inMillimetres(second, 'inch');
    if (typeof inches === 'string') return { problem: inches };
    total = total.add(inches);
  }
  if (total.valueOf() > MAX_LENGTH_MM) return { problem: 'this is longer than a kilometre' };
  return sign === '-' ? total.neg() : total;
}

/** Reads an angle in degrees (a tape fraction will do, `deg` may follow), as radians. */
export function parseAngle(text: string | number): Angle {
  if (typeof text === 'number' && !Number.isFinite(text)) {
    return { problem: 'an angle must be a finite number' };
  }
  const written = String(text);
  const match = written.length > MAX_LETTERS ? null : ANGLE.exec(plainText(written));
  if (match === null) return { problem: 'this is not an angle in degrees' };
  const value = exactQuantity(match[2]!);
  if (typeof value === 'string') return { problem: value };
  const degrees = value.valueOf() * (match[1] === '-' ? -1 : 1) + 0;
  if (Math.abs(degrees) > 360) return { problem: 'this is more than a full turn' };
  return { radians: (degrees * Math.PI) / 180 };
}

/** One spelling for each sign: primes for feet and inches, a true minus, printed fractions. */
export function plainText(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/[\u2032\u2019]/g, "'")
    .replace(/[\u2033\u201d]|''/g, '"')
    .replace(/\u2212/g, '-')
    .replace(/[\u00bc-\u00be\u215b-\u215e]/g, (printed) => {
      const [over, under] = printed.normalize('NFKD').split('\u2044');
      return ` ${over}/${under}`;
    })
    .trim();
}

function inMillimetres(text: string, name: UnitName): Fraction | string {
  const value = exactQuantity(text);
  if (typeof value === 'string') return value;
  // Under this configuration a unit made of a fraction stays one; mathjs's types do not say so.
  return math.unit(value, name).toNumeric('mm') as unknown as Fraction;
}

/** An unsigned quantity, exactly; or what is wrong with it. */
export function exactQuantity(text: string): Fraction | string {
  const [, whole, over, under] = /^(?:(\d+)(?:\s+|-))?(\d+)\/(\d+)$/.exec(text) ?? [];
  if (over !== undefined && under !== undefined) {
    if (/^0+$/.test(under)) return 'a fraction cannot be over 0';
    const part = math.fraction(`${over}/${under}`);
    if (whole === undefined) return part;
    if (part.compare(1) >= 0) return 'the fraction after a whole number must be less than 1';
    return part.add(math.fraction(whole));
  }
  const [digits, exponent] = text.split('e');
  if (exponent !== undefined && Math.abs(Number(exponent)) > MAX_EXPONENT) {
    return 'this number is out of reach';
  }
  const value = math.fraction(digits!.replace(/^\./, '0.').replace(/\.$/, ''));
  const power = math.fraction(`1${'0'.repeat(Math.abs(Number(exponent ?? 0)))}`);
  return Number(exponent ?? 0) < 0 ? value.div(power) : value.mul(power);
}
