/** One reading as it is typed beside what should be read. */

import { parseAngle, parseLength } from '../model/text/length.js';
import { ANGLE_ERROR, TAPE_ERROR } from '../model/fitup/measured.js';
import type { MeasuredReading } from '../model/fitup/measured.js';
import { parseCoordinate } from '../model/asked/pins.js';
import { splitError, tapeWordsIn } from '../model/text/places.js';
import type { Scenario } from '../model/scenario.js';
import type { ToTape } from '../solver/fitup/to-tape.js';
import { datumOf, wayFrom } from '../words/to-tape.js';

export type Typed = { readonly reading: MeasuredReading } | { readonly problem: string };

const COORDINATE = { x: 'setback', y: 'offset', z: 'height' } as const;

/**
 * Reads a length, an angle or a place, each with its error after +- where it has one. A bare length of a
 * point is from the datum, and on the side of it, where the point should be.
 */
export function typedReading({ wanted, expected }: ToTape, text: string, s: Scenario): Typed {
  const { value: plain, error: own } = splitError(text);
  const isAngle = wanted.of === 'angle';
  const value = valueOf({ wanted, expected }, String(plain), s);
  if ('problem' in value) return value;
  const error = own === undefined ? undefined : sizeOf(own, isAngle, s);
  if (typeof error === 'object') return error;
  if (error !== undefined && error <= 0)
    return { problem: 'a reading is never exact: its error must be more than 0' };
  const unlessGiven = isAngle ? ANGLE_ERROR : TAPE_ERROR;
  return { reading: { ...wanted, value: value.value, error: error ?? unlessGiven } };
}

function valueOf(
  { wanted, expected }: ToTape,
  text: string,
  s: Scenario,
): { readonly value: number } | { readonly problem: string } {
  if (wanted.of === 'point' && tapeWordsIn(text) !== undefined) {
    const at = parseCoordinate(COORDINATE[wanted.axis], text, s.units, s.datums);
    return 'value' in at ? at : { problem: at.message };
  }
  const size = sizeOf(text, wanted.of === 'angle', s);
  if (typeof size === 'object') return size;
  if (wanted.of === 'point') {
    const { axis } = wanted;
    const datum = datumOf(axis, expected, s);
    const isMore = AWAY.has(wayFrom(datum, axis, expected));
    return { value: datum[axis]! + (isMore ? size : -size) };
  }
  // What a level floor shows is the frame's rake less.
  const rake = wanted.of === 'angle' && wanted.angle === 'pitch' ? s.rake : 0;
  return { value: size + rake };
}

/** Words of a place that lies further along its axis than the datum. */
const AWAY: ReadonlySet<string> = new Set(['behind', 'right of', 'above']);

/** Millimetres or radians. */
function sizeOf(
  text: string,
  isAngle: boolean,
  s: Scenario,
): number | { readonly problem: string } {
  if (isAngle) {
    const angle = parseAngle(text);
    return 'radians' in angle ? angle.radians : angle;
  }
  const length = parseLength(text, s.units);
  return 'mm' in length ? length.mm : length;
}
