/** How the engine moves as one in use: its rock under torque, and its lift when a mount fails. */

import { isRoundAbout, radiusAbout } from '../solids/about-axis.js';
import { parseAngle, parseLength } from '../text/length.js';
import { isLiftedAgainst } from '../solids/lift.js';
import type { Part, Path, Vec3 } from '../scenario.js';
import type { RawLength, RawRockAtPart, RawScenario } from '../schema.js';
import { ROCK_EXPECTED } from '../schema/values.js';
import { tape } from '../text/tape.js';
import type { Census } from './census.js';
import { saySteep } from './header.js';
import type { Reading } from './reading.js';
import * as trig from '../trig.js';

/** A point of the crankshaft, which runs along x. */
const CRANKSHAFT: Vec3 = [0, 0, 0];

/** Radians each way about the crankshaft; 0 when not given. */
export function readRock(c: Reading, raw: RawScenario, census: Census): number {
  const given = raw.rock;
  const path = ['rock'];
  if (given === undefined || c.faulty(path)) return 0;
  const rock =
    typeof given === 'object' ? rockAtPart(c, given, path, census) : rockInDegrees(c, given, path);
  saySteep(c, rock ?? 0, path);
  return rock ?? 0;
}

function rockInDegrees(c: Reading, raw: RawLength, path: Path): number | undefined {
  const isLength = 'mm' in parseLength(raw, 'mm') || / at /.test(String(raw));
  if (isLength && 'problem' in parseAngle(raw)) {
    const message = 'a length of rock goes with the part at which it was measured';
    c.say('bad number', path, message, { expected: ROCK_EXPECTED });
    return undefined;
  }
  const rock = c.angle(raw, path);
  if (rock === undefined || rock >= 0) return rock;
  c.say('bad number', path, 'rock goes each way: it cannot be less than 0');
  return undefined;
}

/**
 * The angle whose sine times the part's greatest radius, as the file first draws it, is the length: the
 * largest angle by which a point can go that far.
 */
function rockAtPart(
  c: Reading,
  raw: RawRockAtPart,
  path: Path,
  census: Census,
): number | undefined {
  const by = c.size(raw.by, [...path, 'by'], 'how far the part rocks', 'bad length');
  const part = rockingPart(c, raw.at, [...path, 'at'], census);
  if (by === undefined || part === undefined) return undefined;
  const radius = radiusAbout(part, 'x', CRANKSHAFT);
  if (by <= radius) return trig.asin(by / radius);
  const far = tape(radius, c.units, { round: 'down' });
  const message = `'${part.name}' reaches only ${far} ${c.units} from the crankshaft`;
  c.say('bad motion', [...path, 'by'], message, { expected: 'less than it reaches' });
  return undefined;
}

/** The part at which rock was measured; undefined once it is said why it cannot be. */
function rockingPart(c: Reading, name: string, path: Path, census: Census): Part | undefined {
  const drawn = census.parts.get(name)?.[0];
  if (drawn === undefined) {
    const engine = [...census.parts].filter(([, [first]]) => first!.part.side === 'engine');
    const names = engine.map(([known]) => known);
    c.sayUnknown(path, name, names, 'an engine part');
    return undefined;
  }
  const { part, broken } = drawn;
  if (part.side === 'chassis') {
    const message = `'${name}' rides with the chassis, and the engine rocks`;
    c.say('bad motion', path, message, { expected: 'an engine part' });
    return undefined;
  }
  if (broken) return undefined;
  if (!isRoundAbout(part, 'x', CRANKSHAFT)) return part;
  const message = `'${name}' is round about the crankshaft: rock takes it nowhere`;
  c.say('bad motion', path, message, { expected: 'an engine part that moves as the engine rocks' });
  return undefined;
}

/** Millimetres that the engine may lift; 0 when not given. */
export function readLift(c: Reading, raw: RawScenario, census: Census): number {
  const path = ['lift'];
  if (raw.lift === undefined || c.faulty(path)) return 0;
  const lift = c.length(raw.lift, path) ?? 0;
  if (lift < 0) c.say('bad length', path, 'a failed mount lifts the engine: no less than 0');
  const parts = [...census.parts.values()].flat();
  if (lift > 0 && !parts.some(({ part, broken }) => broken || isLiftedAgainst(part))) {
    c.say('uncovered', path, 'lift is checked against nothing', {
      severity: 'warning',
      expected: 'a chassis part of a brake, steering or throttle kind',
    });
  }
  return lift;
}
