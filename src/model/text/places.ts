/**
 * Places along an axis in the words a tape is read in: `9 ahead of front axle`, `5 1/2 below rail
 * top`. A distance, a word, and a datum of the same side that fixes that axis.
 */

import { parseExactLength } from './length.js';
import type { ExactLength } from './length.js';
import { nearestName } from './nearest.js';
import type { Problem } from './problem.js';
import type { Axis, Side } from '../scenario.js';

interface Word {
  readonly axis: Axis;
  /** Which way along the axis the word goes: X runs rearward, Y to the right, Z up. */
  readonly sign: 1 | -1;
}

const WORDS: ReadonlyMap<string, Word> = new Map([
  ['ahead of', { axis: 'x', sign: -1 }],
  ['behind', { axis: 'x', sign: 1 }],
  ['left of', { axis: 'y', sign: -1 }],
  ['right of', { axis: 'y', sign: 1 }],
  ['above', { axis: 'z', sign: 1 }],
  ['below', { axis: 'z', sign: -1 }],
]);

/** How an axis is spoken of. */
const ALONG: Readonly<Record<Axis, string>> = {
  x: 'fore and aft',
  y: 'sideways',
  z: 'up and down',
};

/** No place is longer: a name, a length and a word. */
const MAX_LETTERS = 300;
const PLACE = /^(.*?)\s*\b(ahead\s+of|behind|left\s+of|right\s+of|above|below)\b\s*(.*)$/is;

/** What a coordinate may look like, for messages. */
export const PLACE_EXPECTED = "a length, or a place such as '9 ahead of front axle'";

/** A place as written, nothing of it looked up yet. */
export interface TapeWords {
  readonly distance: string;
  readonly word: string;
  readonly datum: string;
}

/** Whether a text speaks of a place from a datum, and its three pieces then. */
export function tapeWordsIn(text: string | number): TapeWords | undefined {
  if (typeof text !== 'string' || text.length > MAX_LETTERS) return undefined;
  const [, distance, word, datum] = PLACE.exec(text) ?? [];
  if (distance === undefined || word === undefined || datum === undefined) return undefined;
  return {
    distance: distance.trim(),
    word: word.toLowerCase().replace(/\s+/g, ' '),
    datum: datum.trim(),
  };
}

const ERROR = /^(.*?)\s*(?:\+\/?[-\u2212]|\u00b1)\s*(.*)$/s;

/** A length and its measuring error as written: `19 1/4 +- 1/16`, or with a true plus-minus sign. */
export function splitError(raw: string | number): {
  readonly value: string | number;
  readonly error?: string;
} {
  if (typeof raw !== 'string' || raw.length > MAX_LETTERS) return { value: raw };
  const [, value, error] = ERROR.exec(raw) ?? [];
  return value === undefined || error === undefined ? { value: raw } : { value, error };
}

/** Where the datums of a file are, for a place to be looked up from. */
export interface DatumLookup<T> {
  names(side: Side): readonly string[];
  /**
   * The coordinate of a datum of that name along an axis. `open`: the datum does not fix it;
   * `faulty`: it has a problem, which has been said.
   */
  find(side: Side, name: string, axis: Axis): { readonly at: T } | 'open' | 'faulty';
}

/** What is wrong with a place, but where in the file it stands. */
export type PlaceFault = Pick<Problem, 'code' | 'message' | 'expected' | 'nearest'>;

/** A place looked up: the datum's coordinate, the way to go, and how far. */
export interface Found<T> {
  readonly datum: T;
  readonly sign: 1 | -1;
  readonly distance: ExactLength;
}

/**
 * Looks up a place along one axis of one side. `faulty` for a datum whose own problem has been
 * said. A distance without a unit is in `unit`.
 */
export function findPlace<T>(
  { distance, word, datum }: TapeWords,
  { axis, side, unit }: { readonly axis: Axis; readonly side: Side; readonly unit: 'in' | 'mm' },
  datums: DatumLookup<T>,
): Found<T> | { readonly fault: PlaceFault } | 'faulty' {
  const { axis: own, sign } = WORDS.get(word)!;
  if (own !== axis) {
    const message = `'${word}' goes ${ALONG[own]}, and this is a place ${ALONG[axis]}`;
    return bad(message, wordsAlong(axis).join(' or '));
  }
  const names = datums.names(side);
  if (!names.includes(datum)) return { fault: unknownDatum(datum, side, names, datums) };
  const found = datums.find(side, datum, axis);
  if (found === 'faulty') return found;
  if (found === 'open') {
    return bad(`the datum '${datum}' fixes no place ${ALONG[axis]}`, `a datum with ${axis}`);
  }
  const length = parseExactLength(distance, unit);
  if ('problem' in length) {
    return bad(distance === '' ? 'the distance is missing' : length.problem, PLACE_EXPECTED);
  }
  if (length.valueOf() < 0) {
    const message = `'${word}' says which way: the distance goes without a sign`;
    return bad(message, `${distance.replace(/^\D+/, '')} ${oppositeOf(word)} ${datum}`);
  }
  return { datum: found.at, sign, distance: length };
}

function wordsAlong(axis: Axis): readonly string[] {
  return [...WORDS].filter(([, word]) => word.axis === axis).map(([word]) => word);
}

function oppositeOf(word: string): string {
  return wordsAlong(WORDS.get(word)!.axis).find((other) => other !== word)!;
}

function bad(message: string, expected: string): { readonly fault: PlaceFault } {
  return { fault: { code: 'bad length', message, expected } };
}

function unknownDatum(
  datum: string,
  side: Side,
  names: readonly string[],
  datums: DatumLookup<unknown>,
): PlaceFault {
  const code = 'unknown name';
  const expected = names.length === 0 ? `a datum of the ${side}` : names.join(', ');
  const other: Side = side === 'engine' ? 'chassis' : 'engine';
  if (datums.names(other).includes(datum)) {
    const message = `'${datum}' is a datum of the ${other}, and this is measured on the ${side}`;
    return { code, message, expected };
  }
  const nearest = nearestName(datum, names);
  const message =
    datum === '' ? 'the datum is missing' : `there is no datum of the ${side} called '${datum}'`;
  return { code, message, expected, ...(nearest === undefined ? {} : { nearest }) };
}
