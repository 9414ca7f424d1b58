/** What to tape, in words: what, how, and what it should read. */

import { pitchOnFloor } from '../model/rake.js';
import type { AXES } from '../model/scenario.js';
import type { Datum, Scenario } from '../model/scenario.js';
import { tape } from '../model/text/tape.js';
import type { ToTape } from '../solver/fitup/to-tape.js';
import { readWords } from './built.js';
import { name } from './text.js';
import { sides } from './words.js';
import type { Telling } from './words.js';

/** Words of a place along each axis, for more and for less. */
const WAYS = {
  x: ['behind', 'ahead of'],
  y: ['right of', 'left of'],
  z: ['above', 'below'],
} as const;

/** Millimetres: nearer than this to a datum, a tape may find the point on either side of it. */
const TOO_NEAR = 12;

/** What is taped, how, and what it should read. */
export function toTapeCells(
  { wanted, expected }: ToTape,
  telling: Telling,
): [what: string, how: string, reads: string] {
  const { scenario, units, look } = telling;
  switch (wanted.of) {
    case 'gap':
      return [
        wanted.between.map((part) => name(part, look)).join(' - '),
        wanted.measured,
        readWords(wanted, expected, units),
      ];
    case 'point': {
      const called = pointOf(wanted);
      const along = wanted.name.slice(wanted.name.lastIndexOf(', ') + 2);
      const datum = datumOf(wanted.axis, expected, scenario);
      const [, ...y] = wanted.point;
      const at = y.every((one) => one === 0) ? ' at the crank' : '';
      return [
        `${name(called, look)}${at}`,
        along,
        placeFrom(datum, wanted.axis, expected, telling),
      ];
    }
    case 'angle': {
      const floor = scenario.rake === 0 ? '' : ', on a level floor';
      const read = wanted.angle === 'pitch' ? pitchOnFloor(expected, scenario) : expected;
      const way = wanted.angle === 'pitch' ? 'tail-down' : `${sides(scenario)[0]} side up`;
      return [wanted.angle, `angle finder${floor}`, `${readWords(wanted, read, units)} ${way}`];
    }
    case 'adjuster':
      return [name(wanted.adjuster, look), 'length', readWords(wanted, expected, units)];
  }
}

/** The datum of the engine that a point is. */
export function pointOf({ name: called }: Pick<ToTape['wanted'], 'name'>): string {
  return called.slice(0, called.lastIndexOf(', '));
}

/** The chassis datum nearest to a place, but for one so near that the tape may read either way of it. */
export function datumOf(axis: (typeof AXES)[number], at: number, { datums }: Scenario): Datum {
  const away = (datum: Datum) => Math.abs(at - datum[axis]!);
  const all = datums.chassis
    .filter((datum) => datum[axis] !== undefined)
    .sort((a, b) => away(a) - away(b));
  return all.find((datum) => away(datum) >= TOO_NEAR) ?? all[0]!;
}

/** On which side of a datum a place is. */
export function wayFrom(datum: Datum, axis: (typeof AXES)[number], at: number): string {
  return WAYS[axis][at >= datum[axis]! ? 0 : 1];
}

function placeFrom(
  datum: Datum,
  axis: (typeof AXES)[number],
  at: number,
  { units, look }: Telling,
): string {
  const step = units === 'in' ? 1 / 32 : 0.5;
  const size = tape(Math.abs(at - datum[axis]!), units, { round: 'nearest', step });
  return `${size} ${wayFrom(datum, axis, at)} ${name(datum.name, look)}`;
}
