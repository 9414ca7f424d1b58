/** What a file says once: datums, position ranges, rake and rock. */

import { COORDINATES } from '../scenario.js';
import type { Datum, Path, PositionRanges, Range, Scenario } from '../scenario.js';
import type { RawScenario } from '../schema.js';
import type { Reading } from './reading.js';

/** Radians: an engine or a frame at a steeper slope than this is a slip of the pen. */
const STEEPEST = Math.PI / 4;

export function readDatums(c: Reading, raw: RawScenario): Scenario['datums'] {
  const given = raw.datums;
  const readable = typeof given === 'object' && given !== null;
  const of = (side: 'chassis' | 'engine') =>
    readable ? readDatumMap(c, given[side], ['datums', side]) : [];
  return { chassis: of('chassis'), engine: of('engine') };
}

type RawDatums = NonNullable<RawScenario['datums']>['chassis'];

function readDatumMap(c: Reading, raw: RawDatums, path: Path): readonly Datum[] {
  return c.entries(raw, path).map(([name, given]) => {
    const at = [...path, name];
    // A faulty datum fixes everything, so that naming it is no second mistake.
    if (c.faulty(at)) return { name, x: 0, y: 0, z: 0 };
    const axes = (['x', 'y', 'z'] as const).filter((axis) => given[axis] !== undefined);
    if (axes.length === 0) {
      c.say('missing', at, `the datum '${name}' fixes nothing`, { expected: 'x, y or z' });
    }
    const fixed = axes.map((axis) => [axis, c.length(given[axis]!, [...at, axis]) ?? 0]);
    return { name, ...(Object.fromEntries(fixed) as Omit<Datum, 'name'>) };
  });
}

/** The ranges that are readable; each of the four must be there for a scenario. */
export function readPosition(c: Reading, raw: RawScenario): Partial<PositionRanges> {
  const given = raw.position;
  if (typeof given !== 'object' || given === null) return {};
  const ranges: { -readonly [name in keyof PositionRanges]?: Range } = {};
  for (const name of COORDINATES) {
    const path = ['position', name];
    const one = given[name];
    if (one === undefined || c.faulty(path)) continue;
    const unit = name === 'pitch' ? 'angle' : 'length';
    const range = Array.isArray(one) ? c.range(one, path, unit) : pinned(c[unit](one, path));
    if (range !== undefined) ranges[name] = range;
  }
  const { pitch } = ranges;
  if (pitch !== undefined) saySteep(c, Math.max(-pitch.min, pitch.max), ['position', 'pitch']);
  return ranges;
}

function pinned(at: number | undefined): Range | undefined {
  return at === undefined ? undefined : { min: at, max: at };
}

/** Radians; 0 when not given. */
export function readRake(c: Reading, raw: RawScenario): number {
  if (raw.rake === undefined || c.faulty(['rake'])) return 0;
  const rake = c.angle(raw.rake, ['rake']) ?? 0;
  saySteep(c, Math.abs(rake), ['rake']);
  return rake;
}

/** Radians each way; 0 when not given. */
export function readRock(c: Reading, raw: RawScenario): number {
  if (raw.rock === undefined || c.faulty(['rock'])) return 0;
  const rock = c.angle(raw.rock, ['rock']) ?? 0;
  if (rock < 0) c.say('bad number', ['rock'], 'rock goes each way: it cannot be less than 0');
  saySteep(c, rock, ['rock']);
  return rock;
}

function saySteep(c: Reading, radians: number, path: Path): void {
  if (radians <= STEEPEST) return;
  c.say('bad range', path, 'this is steeper than any bay', { expected: 'at most 45 degrees' });
}
