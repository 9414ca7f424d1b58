/** The two faces that a mount joins: the boss on the block, the pad on the frame. */

import { maxOf } from '../extremes.js';
import type { PlateMount, Socket } from '../fitup/mounts.js';
import type { Path, Vec3 } from '../scenario.js';
import type { RawMounts } from '../schema.js';
import { cross, dot, lengthOf, minus, plus, unit } from '../vector.js';
import { Frame } from './frame.js';
import { all } from './items.js';
import { FLAT_MM } from './profile.js';
import type { Reading } from './reading.js';
import * as trig from '../trig.js';

type RawMount = RawMounts['make'][string];

/** Millimetres by which a hole may lie off the boss's face: what a tape can err, and no more. */
const OFF_FACE = 1;
/** Millimetres: two holes this near are one. */
const ONE_HOLE = 1;
/** The boss, or undefined once its problems are said. */
export function readBoss(
  c: Reading,
  raw: RawMount['boss'],
  path: Path,
): Omit<PlateMount['boss'], 'on'> | undefined {
  const frame = new Frame(c, 'engine', 'chosen');
  const at = [...path, 'holes'];
  const hole = c.size(raw.hole, [...path, 'hole'], "a hole's diameter", 'bad length', FLAT_MM);
  const holes = all(raw.holes, (point, i) => frame.point(point, [...at, i]));
  if (!holes) return undefined;
  if (holes.length < 2) {
    c.say('missing', at, 'a boss has two holes or more', { expected: '[[x, y, z], [x, y, z]]' });
    return undefined;
  }
  const twice = sayTwice(c, holes, at);
  const socket = readSocket(c, raw.socket, [...path, 'socket']);
  if (twice || (raw.socket && !socket)) return undefined;
  const normal =
    raw.normal === undefined
      ? ownNormal(c, holes, path)
      : givenNormal(c, raw.normal, holes, [...path, 'normal']);
  return normal && hole !== undefined
    ? { holes, normal, hole, ...(socket && { socket }) }
    : undefined;
}

/** The room for a socket; undefined where there is none, or its problems are said. */
export function readSocket(
  c: Reading,
  raw: RawMount['boss']['socket'],
  path: Path,
): Socket | undefined {
  if (raw === undefined) return undefined;
  const size = (key: keyof Socket) => c.size(raw[key], [...path, key], 'it', 'bad length', FLAT_MM);
  const [diameter, length] = [size('diameter'), size('length')];
  return diameter === undefined || length === undefined ? undefined : { diameter, length };
}

/** Says which holes are there twice. */
export function sayTwice(c: Reading, points: readonly (readonly number[])[], path: Path): boolean {
  let found = false;
  points.forEach((point, i) => {
    const near = (other: readonly number[]): boolean =>
      trig.norm(point.map((at, k) => at - other[k]!)) < ONE_HOLE;
    if (points.findIndex(near) === i) return;
    c.say('duplicate', [...path, i], 'this hole is there twice');
    found = true;
  });
  return found;
}

/** The middle of points. */
function middleOf(points: readonly Vec3[]): Vec3 {
  return points.reduce<Vec3>((sum, point) => plus(sum, point, 1 / points.length), [0, 0, 0]);
}

/** From the holes: square to the face that they lie in, away from the crankshaft. */
function ownNormal(c: Reading, holes: readonly Vec3[], path: Path): Vec3 | undefined {
  const middle = middleOf(holes);
  const arms = holes.map((hole) => minus(hole, middle));
  const crosses = arms.flatMap((a, i) => arms.slice(i + 1).map((b) => cross(a, b)));
  const square = crosses.reduce<Vec3>((a, b) => (lengthOf(b) > lengthOf(a) ? b : a), [0, 0, 0]);
  const longest = maxOf(arms.map(lengthOf));
  if (lengthOf(square) < OFF_FACE * longest) {
    c.say('missing', path, 'holes in one line do not say which way the boss faces', {
      expected: 'normal: [x, y, z], out of the block',
    });
    return undefined;
  }
  const normal = unit(square);
  const away = dot(normal, [0, middle[1], middle[2]]);
  if (Math.abs(away) < OFF_FACE) {
    c.say('missing', path, 'these holes do not say which way is out of the block', {
      expected: 'normal: [x, y, z], out of the block',
    });
    return undefined;
  }
  if (sayOffFace(c, holes, normal, [...path, 'holes'])) return undefined;
  return away > 0 ? normal : [0 - normal[0], 0 - normal[1], 0 - normal[2]];
}

function givenNormal(c: Reading, raw: Vec3, holes: readonly Vec3[], path: Path): Vec3 | undefined {
  const normal = direction(c, raw, path);
  return normal && !sayOffFace(c, holes, normal, path) ? normal : undefined;
}

/** A direction of length 1, or undefined once it is said that it has none. */
function direction(c: Reading, raw: Vec3, path: Path): Vec3 | undefined {
  const length = lengthOf(raw);
  if (length > 0 && Number.isFinite(length)) return unit(raw);
  c.say('bad number', path, 'this points nowhere', { expected: 'a direction, such as [0, -1, 0]' });
  return undefined;
}

function sayOffFace(c: Reading, holes: readonly Vec3[], normal: Vec3, path: Path): boolean {
  const middle = middleOf(holes);
  const off = maxOf(holes.map((hole) => Math.abs(dot(minus(hole, middle), normal))));
  if (off <= OFF_FACE) return false;
  const isNormal = path.at(-1) === 'normal';
  const message = isNormal
    ? 'this is not square to the face that the holes lie in'
    : 'the holes do not lie in one face';
  c.say('bad range', path, message, {
    expected: isNormal ? 'the direction square to the face, out of the block' : 'points of a plane',
  });
  return true;
}

/** The pad, or undefined once its problems are said. */
export function readPad(
  c: Reading,
  raw: RawMount['pad'],
  path: Path,
): Omit<PlateMount['pad'], 'on'> | undefined {
  const at = new Frame(c, 'chassis', 'chosen').point(raw.at, [...path, 'at']);
  const face = [...path, 'face'];
  if (typeof raw.face !== 'string') {
    const normal = direction(c, raw.face, face);
    return at && normal && { at, normal };
  }
  if (raw.face === 'top') return at && { at, normal: [0, 0, 1] };
  if (!at) return undefined;
  if (at[1] === 0) {
    const message = 'a pad on the centre has no inside or outside face';
    c.say('bad range', face, message, { expected: 'top, or a direction out of the frame' });
    return undefined;
  }
  const isRight = at[1] > 0;
  return { at, normal: [0, isRight === (raw.face === 'outside') ? 1 : -1, 0] };
}
