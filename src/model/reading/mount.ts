/** One mount of plates and tube. */

import type { BasePlate, Gussets, PlateMount, UpperPlate } from '../fitup/mounts.js';
import { MOUNT_ENDS } from '../fitup/mounts.js';
import type { Path, Side } from '../scenario.js';
import type { RawLength, RawMounts } from '../schema.js';
import type { Census } from './census.js';
import { all } from './items.js';
import { readBoss, readPad, readSocket, sayTwice } from './mount-faces.js';
import { FLAT_MM } from './profile.js';
import type { Reading } from './reading.js';

type RawMount = RawMounts['make'][string];

interface Known {
  /** Millimetres: the thickness of plates that do not say their own. */
  readonly plate: number;
  readonly census: Census;
}

const MOST_GUSSETS = 12;

/** The mount, or undefined once its problems are said. */
export function readMount(
  c: Reading,
  name: string,
  raw: RawMount,
  path: Path,
  known: Known,
): PlateMount | undefined {
  const at = (...keys: string[]): Path => [...path, ...keys];
  const boss = readBoss(c, raw.boss, at('boss'));
  const pad = readPad(c, raw.pad, at('pad'));
  sayPart(c, raw.boss.on, at('boss', 'on'), 'engine', known.census);
  sayPart(c, raw.pad.on, at('pad', 'on'), 'chassis', known.census);
  const tube = readTube(c, raw.tube, at('tube'));
  const insulator = raw.insulator && {
    height: c.size(
      raw.insulator.height,
      at('insulator', 'height'),
      'a height',
      'bad length',
      FLAT_MM,
    ),
    diameter: c.size(
      raw.insulator.diameter,
      at('insulator', 'diameter'),
      'it',
      'bad length',
      FLAT_MM,
    ),
  };
  const base = readBase(c, raw['base plate'], at('base plate'), known.plate);
  const upper = readUpper(c, raw['upper plate'], at('upper plate'), known.plate);
  const gussets = readGussets(c, raw.gussets, at('gussets'), known.plate);
  const inPlaceOf = raw['in place of'] ?? [];
  inPlaceOf.forEach((part, i) =>
    sayPart(c, part, [...path, 'in place of', i], undefined, known.census),
  );
  if (!boss || !pad || !tube || !base || !upper) return undefined;
  if (raw.gussets !== undefined && !gussets) return undefined;
  const { height, diameter } = insulator ?? {};
  if (insulator && (height === undefined || diameter === undefined)) return undefined;
  return {
    name,
    boss: { ...boss, ...(raw.boss.on !== undefined && { on: raw.boss.on }) },
    ...(insulator && { insulator: { height: height!, diameter: diameter! } }),
    pad: { ...pad, ...(raw.pad.on !== undefined && { on: raw.pad.on }) },
    tube,
    base,
    upper,
    ...(gussets && { gussets }),
    inPlaceOf,
  };
}

function sayPart(
  c: Reading,
  part: string | undefined,
  path: Path,
  side: Side | undefined,
  { parts }: Census,
): void {
  if (part === undefined) return;
  const known = parts.get(part)?.[0]?.part;
  if (!known) c.sayUnknown(path, part, parts.keys(), side ? `a part of the ${side}` : 'a part');
  else if (side && known.side !== side) {
    const message = `'${part}' rides with the ${known.side}`;
    c.say('bad option', path, message, { expected: `a part of the ${side}` });
  }
}

function readTube(c: Reading, raw: RawMount['tube'], path: Path): PlateMount['tube'] | undefined {
  const diameter = c.size(
    raw.diameter,
    [...path, 'diameter'],
    'the diameter',
    'bad length',
    FLAT_MM,
  );
  const wall = c.size(raw.wall, [...path, 'wall'], 'the wall', 'bad length', FLAT_MM);
  if (diameter === undefined || wall === undefined) return undefined;
  if (2 * wall < diameter) return { diameter, wall };
  const message = 'the wall is no thinner than half the diameter';
  c.say('bad length', [...path, 'wall'], message, { expected: 'the thickness of the tube' });
  return undefined;
}

function readThick(c: Reading, raw: RawLength | undefined, path: Path, plate: number) {
  return raw === undefined
    ? plate
    : c.size(raw, [...path, 'thick'], 'a plate', 'bad length', FLAT_MM);
}

function readSize(
  c: Reading,
  raw: readonly [RawLength, RawLength],
  path: Path,
): readonly [number, number] | undefined {
  const [along, across] = raw.map((one, i) => {
    return c.size(one, [...path, 'size', i], 'a size', 'bad length', FLAT_MM);
  });
  return along === undefined || across === undefined ? undefined : [along, across];
}

function readBase(
  c: Reading,
  raw: RawMount['base plate'],
  path: Path,
  plate: number,
): BasePlate | undefined {
  const size = readSize(c, raw.size, path);
  const thick = readThick(c, raw.thick, path, plate);
  const at = [...path, 'holes'];
  const holes = all(raw.holes ?? [], (hole, i): readonly [number, number] | undefined => {
    const [along, across] = hole.map((one, k) => c.length(one, [...at, i, k]));
    return along === undefined || across === undefined ? undefined : [along, across];
  });
  const hole =
    raw.hole === undefined
      ? 0
      : c.size(raw.hole, [...path, 'hole'], 'a hole', 'bad length', FLAT_MM);
  const socket = readSocket(c, raw.socket, [...path, 'socket']);
  if (!size || thick === undefined || !holes || hole === undefined) return undefined;
  if (raw.socket && !socket) return undefined;
  if (holes.length > 0 && hole === 0) {
    c.say('missing', path, 'the holes have no diameter', { expected: 'hole: 1/2' });
    return undefined;
  }
  const twice = sayTwice(c, holes, at);
  const isOff = ([along, across]: readonly [number, number]): boolean =>
    Math.abs(along) + hole / 2 >= size[0] / 2 || Math.abs(across) + hole / 2 >= size[1] / 2;
  const off = holes.findIndex(isOff);
  if (off >= 0) c.say('bad range', [...at, off], 'this hole runs off the plate');
  return twice || off >= 0 ? undefined : { size, thick, holes, hole, ...(socket && { socket }) };
}

function readUpper(
  c: Reading,
  raw: RawMount['upper plate'],
  path: Path,
  plate: number,
): UpperPlate | undefined {
  const size = raw?.size && readSize(c, raw.size, path);
  const thick = readThick(c, raw?.thick, path, plate);
  const unlessGiven = c.units === 'in' ? 25.4 : 25;
  const margin =
    raw?.margin === undefined
      ? unlessGiven
      : c.size(raw.margin, [...path, 'margin'], 'the margin', 'bad length', FLAT_MM);
  if (raw?.size && raw.margin !== undefined) {
    c.say('bad option', [...path, 'margin'], 'a plate goes by its size or by its margin', {
      expected: 'one of the two',
      at: 'key',
    });
  }
  if ((raw?.size && !size) || thick === undefined || margin === undefined) return undefined;
  return { thick, margin, ...(size && { size }) };
}

function readGussets(
  c: Reading,
  raw: RawMount['gussets'],
  path: Path,
  plate: number,
): Gussets | undefined {
  if (raw === undefined) return undefined;
  const { count, ends = 'base' } = raw;
  const isCount = Number.isInteger(count) && count >= 1 && count <= MOST_GUSSETS;
  if (!isCount) {
    c.say('bad number', [...path, 'count'], 'this is no number of gussets', {
      expected: `a whole number from 1 to ${MOST_GUSSETS}`,
    });
  }
  const leg = (key: 'on plate' | 'on tube') =>
    c.size(raw[key], [...path, key], 'a leg of a gusset', 'bad length', FLAT_MM);
  const [onPlate, onTube] = [leg('on plate'), leg('on tube')];
  const thick = readThick(c, raw.thick, path, plate);
  const first = raw.first === undefined ? 0 : c.angle(raw.first, [...path, 'first']);
  if (!isCount || onPlate === undefined || onTube === undefined) return undefined;
  if (thick === undefined || first === undefined) return undefined;
  return { count, ends: ends === 'both' ? MOUNT_ENDS : [ends], onPlate, onTube, thick, first };
}
