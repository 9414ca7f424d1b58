/** What a file says once: position ranges, rake, its measuring error. */

import { AXIS_OF, COORDINATES } from '../scenario.js';
import type { Coordinate, Path, PositionRanges, Range } from '../scenario.js';
import type { RawLength, RawScenario } from '../schema.js';
import { Frame } from './frame.js';
import type { Reading } from './reading.js';

/** Radians: an engine or a frame at a steeper slope than this is a slip of the pen. */
const STEEPEST = Math.PI / 4;

/** The ranges that are readable; each of the four must be there for a scenario. */
export function readPosition(c: Reading, raw: RawScenario): Partial<PositionRanges> {
  const given = raw.position;
  if (typeof given !== 'object' || given === null) return {};
  const ranges: { -readonly [name in keyof PositionRanges]?: Range } = {};
  for (const name of COORDINATES) {
    const path = ['position', name];
    const one = given[name];
    if (one === undefined || c.faulty(path)) continue;
    const range = Array.isArray(one)
      ? c.ordered(
          readCoordinate(c, one[0], [...path, 0], name),
          readCoordinate(c, one[1], [...path, 1], name),
          path,
        )
      : pinned(readCoordinate(c, one, path, name));
    if (range !== undefined) ranges[name] = range;
  }
  const { pitch } = ranges;
  if (pitch !== undefined) saySteep(c, Math.max(-pitch.min, pitch.max), ['position', 'pitch']);
  return ranges;
}

/** A coordinate of the position: a length, a place from a chassis datum, or an angle. */
export function readCoordinate(
  c: Reading,
  raw: RawLength,
  path: Path,
  name: Coordinate,
): number | undefined {
  if (name === 'pitch') return c.angle(raw, path);
  return new Frame(c, 'chassis', 'chosen').coordinate(raw, path, AXIS_OF[name]);
}

function pinned(at: number | undefined): Range | undefined {
  return at === undefined ? undefined : { min: at, max: at };
}

/** Millimetres; 0 when not given. */
export function readMeasuringError(c: Reading, raw: RawScenario): number {
  const given = raw['measuring error'];
  if (given === undefined || c.faulty(['measuring error'])) return 0;
  return c.errorOf(given, ['measuring error']) ?? 0;
}

/** Radians; 0 when not given. */
export function readRake(c: Reading, raw: RawScenario): number {
  if (raw.rake === undefined || c.faulty(['rake'])) return 0;
  const rake = c.angle(raw.rake, ['rake']) ?? 0;
  saySteep(c, Math.abs(rake), ['rake']);
  return rake;
}

/** Says that an angle is too steep to be meant. */
export function saySteep(c: Reading, radians: number, path: Path): void {
  if (radians <= STEEPEST) return;
  c.say('bad range', path, 'this is steeper than any bay', { expected: 'at most 45 degrees' });
}
