/** The driveline behind the engine. */

import { minOf } from '../extremes.js';
import { AXLE_STATES, jointBounds } from '../fitup/driveline.js';
import type { AxleState, Driveline, Pinion, Tube } from '../fitup/driveline.js';
import type { Limit, Path, Side, Vec3 } from '../scenario.js';
import type { RawDriveline, RawLength } from '../schema.js';
import { largestAngle } from '../rulebook/joints.js';
import { Frame } from './frame.js';
import { saySteep } from './header.js';
import type { Reading } from './reading.js';

const DEGREE = Math.PI / 180;
/** Radians: printed limits run from half a degree; two joints are to cancel within one. */
const LEAST_UNLESS_GIVEN = DEGREE / 2;
const WITHIN_UNLESS_GIVEN = DEGREE;
const SHARE_UNLESS_GIVEN = 0.75;
const HERE: Path = ['driveline'];

/** The driveline, or undefined where there is none or its problems are said. */
export function readDriveline(c: Reading, raw: RawDriveline | undefined): Driveline | undefined {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw) || c.faulty(HERE))
    return undefined;
  const before = c.problems.length;
  const at = (...keys: (string | number)[]): Path => [...HERE, ...keys];
  const { output, pinion, angles, slip } = raw;
  const centre = readPoint(c, output.at, at('output', 'at'), 'engine');
  const aim = {
    down: readAngle(c, output.down, at('output', 'down'), 0),
    right: readAngle(c, output.right, at('output', 'right'), 0),
  };
  const pinions = readPinions(c, pinion, at('pinion'));
  const tube = readTube(c, raw.tube, at('tube'));
  const gears = readGears(c, raw.gears, at('gears'));
  const speed = readSpeed(c, raw, gears.transmission, at('top speed'));
  const least = readAngle(c, angles?.least, at('angles', 'least'), LEAST_UNLESS_GIVEN);
  const most = readAngle(c, angles?.most, at('angles', 'most'), undefined);
  const within = readAngle(c, angles?.within, at('angles', 'within'), WITHIN_UNLESS_GIVEN);
  sayAngles(c, least, most, within, at('angles'));
  const share = readShare(c, raw['critical share'], at('critical share'));
  const travel = slip && {
    in: c.size(slip.in, at('slip', 'in'), 'the way in', 'bad length', -Number.MIN_VALUE),
    out: c.size(slip.out, at('slip', 'out'), 'the way out', 'bad length', -Number.MIN_VALUE),
  };
  if (c.problems.length > before || centre === undefined || speed === undefined) return undefined;
  const { ride } = pinions;
  if (ride === undefined) return undefined;
  sayAhead(c, centre, ride, at('pinion', 'ride', 'at'));
  return {
    output: centre,
    aim: { down: aim.down!, right: aim.right! },
    joints: raw.joints ?? 'two',
    pinion: { ...pinions, ride },
    ...(tube && { tube }),
    ...(travel && { slip: { in: travel.in!, out: travel.out! } }),
    speed,
    gears,
    angles: {
      least: least!,
      most: most ?? largestAngle(speed),
      mostBy: most === undefined ? 'speed' : 'file',
      within: within!,
    },
    share,
  };
}

/** What the joints must keep, as limits on the position. */
export function jointLimits(driveline: Driveline): readonly Limit[] {
  const said = { why: 'driveline', path: [...HERE, 'angles'] };
  return jointBounds(driveline).map((bound) => {
    const { max } = bound;
    if (bound.of === 'joint difference')
      return { quantity: { of: bound.of, state: bound.state }, min: -Infinity, max, ...said };
    const { of, joint, state, min } = bound;
    return { quantity: { of, joint, state }, min, max, ...said };
  });
}

function readPoint(
  c: Reading,
  raw: readonly [RawLength, RawLength, RawLength],
  path: Path,
  side: Side,
): Vec3 | undefined {
  return new Frame(c, side, 'chosen').point(raw, path);
}

function readAngle<T extends number | undefined>(
  c: Reading,
  raw: RawLength | undefined,
  path: Path,
  unlessGiven: T,
): number | T | undefined {
  if (raw === undefined) return unlessGiven;
  const angle = c.angle(raw, path);
  if (angle !== undefined) saySteep(c, Math.abs(angle), path);
  return angle;
}

function readPinions(
  c: Reading,
  raw: RawDriveline['pinion'],
  path: Path,
): Partial<Record<AxleState, Pinion>> {
  const read: Partial<Record<AxleState, Pinion>> = {};
  for (const state of AXLE_STATES) {
    const given = raw[state];
    if (given === undefined) continue;
    const here = [...path, state];
    const at = readPoint(c, given.at, [...here, 'at'], 'chassis');
    const up = readAngle(c, given.up, [...here, 'up'], undefined);
    const right = readAngle(c, given.right, [...here, 'right'], 0);
    if (at && up !== undefined && right !== undefined) read[state] = { at, up, right };
  }
  return read;
}

function readTube(c: Reading, raw: RawDriveline['tube'], path: Path): Tube | undefined {
  if (raw === undefined) return undefined;
  const diameter = c.size(raw.diameter, [...path, 'diameter'], 'the diameter', 'bad length');
  const wall = c.size(raw.wall, [...path, 'wall'], 'the wall', 'bad length');
  if (diameter === undefined || wall === undefined) return undefined;
  if (2 * wall < diameter) return { diameter, wall };
  const message = 'the wall is thicker than half the diameter';
  c.say('bad length', [...path, 'wall'], message, { expected: 'the thickness of the tube' });
  return undefined;
}

function readGears(c: Reading, raw: RawDriveline['gears'], path: Path): Driveline['gears'] {
  if (raw === undefined) return { transmission: [] };
  const transmission = c.items(raw.transmission);
  transmission.forEach((ratio, i) => sayPositive(c, ratio, [...path, 'transmission', i]));
  if (transmission.length === 0) c.say('missing', [...path, 'transmission'], 'no ratio is listed');
  if (raw.axle !== undefined) sayPositive(c, raw.axle, [...path, 'axle']);
  return { transmission, ...(raw.axle !== undefined && { axle: raw.axle }) };
}

function sayPositive(c: Reading, value: number, path: Path): void {
  if (value > 0 && Number.isFinite(value)) return;
  c.say('bad number', path, 'this must be more than 0', { expected: 'a number, more than 0' });
}

/** Revolutions a minute of the shaft. */
function readSpeed(
  c: Reading,
  raw: RawDriveline,
  ratios: readonly number[],
  path: Path,
): number | undefined {
  const { shaft, engine } = raw['top speed'];
  if ((shaft === undefined) === (engine === undefined)) {
    const message = shaft === undefined ? 'no speed is given' : 'two speeds are given';
    c.say(shaft === undefined ? 'missing' : 'bad number', path, message, {
      expected: 'one of shaft and engine',
    });
    return undefined;
  }
  const [key, given] = shaft === undefined ? ['engine', engine!] : ['shaft', shaft];
  sayPositive(c, given, [...path, key]);
  if (shaft !== undefined) return shaft;
  if (ratios.length > 0) return given / minOf(ratios);
  c.say('missing', HERE, "the engine's speed tells the shaft's only through its gears", {
    expected: 'gears: { transmission: [...] }, or top speed: { shaft: ... }',
  });
  return undefined;
}

function readShare(c: Reading, raw: number | undefined, path: Path): number {
  if (raw === undefined) return SHARE_UNLESS_GIVEN;
  if (raw > 0 && raw <= 1) return raw;
  c.say('bad number', path, 'this is no share', { expected: 'a number above 0, at most 1' });
  return SHARE_UNLESS_GIVEN;
}

function sayAngles(
  c: Reading,
  least: number | undefined,
  most: number | undefined,
  within: number | undefined,
  path: Path,
): void {
  for (const [key, angle] of Object.entries({ least, most, within })) {
    if (angle !== undefined && angle < 0)
      c.say('bad range', [...path, key], 'an angle between two shafts is never less than 0');
  }
  if (least !== undefined && most !== undefined && least > most)
    c.say('bad range', [...path, 'least'], 'least is more than most');
}

/** Says that the pinion is not behind the output, however little: a slip in the signs. */
function sayAhead(c: Reading, output: Vec3, ride: Pinion, path: Path): void {
  if (ride.at[0] > output[0]) return;
  const message = 'the pinion lies ahead of the output';
  c.say('bad range', path, message, { severity: 'warning', expected: 'a point further back' });
}
