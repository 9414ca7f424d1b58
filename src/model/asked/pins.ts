/** Positions as the command line takes them: `setback=25 1/2 behind front axle, pitch=3`. */

import {
  ANGLE_EXPECTED,
  LENGTH_EXPECTED,
  millimetres,
  parseAngle,
  parseLength,
} from '../text/length.js';
import { nearestName } from '../text/nearest.js';
import { findPlace, tapeWordsIn } from '../text/places.js';
import type { DatumLookup } from '../text/places.js';
import type { Problem } from '../text/problem.js';
import { AXIS_OF, COORDINATES } from '../scenario.js';
import type { Coordinate, Position, PositionRanges, Scenario } from '../scenario.js';
import type { Stance } from '../stance.js';
import { exactDegrees, exactTape } from '../text/tape.js';

const LEANS = ['roll', 'yaw'] as const;

export interface Pins {
  /** Millimetres and radians. */
  readonly position: Partial<Position>;
  /** Radians; absent where the engine must stand level. */
  readonly lean?: Partial<Pick<Stance, 'roll' | 'yaw'>>;
  readonly problems: readonly Problem[];
}

export type Parsed = { readonly value: number } | Pick<Problem, 'message' | 'expected' | 'nearest'>;

/** What is said of a search that is asked to roll or yaw the engine; undefined of any other name. */
export function leanRefused(name: string): Pick<Problem, 'message' | 'expected'> | undefined {
  const lean = LEANS.find((one) => one === name.toLowerCase());
  return (
    lean && {
      message: `${lean}: a search keeps the engine level from side to side and in line`,
      expected:
        'berth gaps --at, which takes roll and yaw, or a coordinate: ' + COORDINATES.join(', '),
    }
  );
}

/** One coordinate's value: degrees, a length in `unit`, or a place from a chassis datum. */
export function parseCoordinate(
  name: Coordinate,
  text: string,
  unit: 'in' | 'mm',
  datums: Scenario['datums'],
): Parsed {
  if (name === 'pitch') {
    const angle = parseAngle(text);
    if ('radians' in angle) return { value: angle.radians };
    return { message: angle.problem, expected: ANGLE_EXPECTED };
  }
  const words = tapeWordsIn(text);
  if (words !== undefined) {
    const about = { axis: AXIS_OF[name], side: 'chassis', unit } as const;
    const found = findPlace(words, about, lookupIn(datums));
    // What a scenario holds has no fault of its own.
    if (found === 'faulty') return { message: 'this datum cannot be read' };
    if ('fault' in found) return found.fault;
    return { value: found.datum + found.sign * millimetres(found.distance) };
  }
  const length = parseLength(text, unit);
  if ('mm' in length) return { value: length.mm };
  return { message: length.problem, expected: LENGTH_EXPECTED };
}

function lookupIn(datums: Scenario['datums']): DatumLookup<number> {
  return {
    names: (side) => datums[side].map(({ name }) => name),
    find: (side, wanted, axis) => {
      const at = datums[side].find(({ name }) => name === wanted)?.[axis];
      return at === undefined ? 'open' : { at };
    },
  };
}

/**
 * Reads `name=value` pairs parted by commas. Problems: a name that is no coordinate (with the
 * nearest one), a value that cannot be read, one coordinate twice, roll and yaw where they are not taken.
 * @param datums those of the file, for places such as `height=2 above rail top`.
 * @param may whether the engine may lean: roll and yaw are taken too.
 */
export function parsePins(
  text: string,
  unit: 'in' | 'mm',
  datums: Scenario['datums'],
  may: 'stand level' | 'lean' = 'stand level',
): Pins {
  const position: Partial<Record<Coordinate, number>> = {};
  const lean: { roll?: number; yaw?: number } = {};
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
    const known = may === 'lean' ? [...COORDINATES, ...LEANS] : COORDINATES;
    const name = known.find((coordinate) => coordinate === read.toLowerCase());
    if (name === undefined) {
      const refused = leanRefused(read);
      const nearest = nearestName(read, known);
      if (refused) say('bad pin', refused.message, { read, ...refused });
      else
        say('unknown name', `'${read}' is not a coordinate of the position`, {
          read,
          expected: known.join(', '),
          ...(nearest === undefined ? {} : { nearest }),
        });
      continue;
    }
    const isLean = name === 'roll' || name === 'yaw';
    const value = piece.slice(at + 1).trim();
    const parsed = parseCoordinate(isLean ? 'pitch' : name, value, unit, datums);
    if ('message' in parsed) {
      const { expected, nearest } = parsed;
      say('bad pin', `${name}: ${parsed.message}`, {
        read: value,
        ...(expected === undefined ? {} : { expected }),
        ...(nearest === undefined ? {} : { nearest }),
      });
    } else if ((isLean ? lean[name] : position[name]) !== undefined) {
      say('duplicate', `${name} is given twice`, { read: piece.trim() });
    } else if (isLean) {
      lean[name] = parsed.value;
    } else {
      position[name] = parsed.value;
    }
  }
  return { position, ...(may === 'lean' && { lean }), problems };
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
