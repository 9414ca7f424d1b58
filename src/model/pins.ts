/** Positions as the command line takes them: `setback=25 1/2 in, pitch=3`. */

import { ANGLE_EXPECTED, LENGTH_EXPECTED, parseAngle, parseLength } from './length.js';
import { nearestName } from './nearest.js';
import type { Problem } from './problem.js';
import { COORDINATES } from './scenario.js';
import type { Coordinate, Position, PositionRanges } from './scenario.js';
import { exactDegrees, exactTape } from './tape.js';

export interface Pins {
  /** Millimetres and radians. */
  readonly position: Partial<Position>;
  readonly problems: readonly Problem[];
}

/** Reads one coordinate's value: a length in `unit` unless it says otherwise, or degrees. */
export function parseCoordinate(
  name: Coordinate,
  text: string | number,
  unit: 'in' | 'mm',
): { readonly value: number } | { readonly problem: string } {
  if (name === 'pitch') {
    const angle = parseAngle(text);
    return 'radians' in angle ? { value: angle.radians } : angle;
  }
  const length = parseLength(text, unit);
  return 'mm' in length ? { value: length.mm } : length;
}

/**
 * Reads `name=value` pairs parted by commas. Problems: a name that is no coordinate (with the
 * nearest one), a value that cannot be read, one coordinate twice.
 */
export function parsePins(text: string, unit: 'in' | 'mm'): Pins {
  const position: Partial<Record<Coordinate, number>> = {};
  const problems: Problem[] = [];
  const say = (code: Problem['code'], message: string, rest: Partial<Problem>) =>
    problems.push({ code, severity: 'error', message, path: [], ...rest });
  for (const piece of text.split(',')) {
    const at = piece.indexOf('=');
    if (at < 0) {
      const expected = 'name=value, such as offset=0 or setback=25 1/2';
      say('bad pin', `'${piece.trim()}' is not a pin`, { read: piece.trim(), expected });
      continue;
    }
    const read = piece.slice(0, at).trim();
    const name = COORDINATES.find((coordinate) => coordinate === read.toLowerCase());
    if (name === undefined) {
      const nearest = nearestName(read, COORDINATES);
      say('unknown name', `'${read}' is not a coordinate of the position`, {
        read,
        expected: COORDINATES.join(', '),
        ...(nearest === undefined ? {} : { nearest }),
      });
      continue;
    }
    const value = piece.slice(at + 1).trim();
    const parsed = parseCoordinate(name, value, unit);
    if ('problem' in parsed) {
      const expected = name === 'pitch' ? ANGLE_EXPECTED : LENGTH_EXPECTED;
      say('bad pin', `${name}: ${parsed.problem}`, { read: value, expected });
    } else if (position[name] !== undefined) {
      say('duplicate', `${name} is given twice`, { read: piece.trim() });
    } else {
      position[name] = parsed.value;
    }
  }
  return { position, problems };
}

/** A pin outside the range that the file gives is a mistake: one problem each, sizes in `unit`. */
export function pinProblems(
  ranges: PositionRanges,
  pins: Partial<Position>,
  unit: 'in' | 'mm',
): readonly Problem[] {
  return COORDINATES.filter((name) => {
    const value = pins[name];
    return value !== undefined && (value < ranges[name].min || value > ranges[name].max);
  }).map((name) => {
    const said = (size: number) => {
      return name === 'pitch' ? `${exactDegrees(size)} deg` : `${exactTape(size, unit)} ${unit}`;
    };
    const { min, max } = ranges[name];
    const range =
      min === max ? `${said(min)}, as the file pins it` : `${said(min)} to ${said(max)}`;
    return {
      code: 'bad pin',
      severity: 'error',
      message: `${name} is pinned outside the range that the file gives`,
      path: ['position', name],
      read: said(pins[name]!),
      expected: range,
    };
  });
}
