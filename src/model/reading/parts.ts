/** Parts, and the register of every part that the file or any of its options draws. */

import { KINDS } from '../kinds.js';
import type { Kind } from '../kinds.js';
import type { Part, Path, Side, Solid } from '../scenario.js';
import { SHAPES } from '../schema.js';
import type { RawPart } from '../schema.js';
import { Frame } from './frame.js';
import { mirroredBox, mirroredTurn, readMotion, readTurn, sayIdleTurn } from './motions.js';
import type { Reading } from './reading.js';
import { readSolid } from './solids.js';

/** A part as read; a broken one still counts as drawn, so that naming it is no second mistake. */
export interface Drawn {
  readonly part: Part;
  readonly path: Path;
  readonly broken: boolean;
}

/** Reads the parts of one map, mirror images after the part they mirror. */
export function readParts(
  c: Reading,
  raw: Readonly<Record<string, RawPart>> | undefined,
  path: Path,
  sideOf: (name: string) => Side,
  kindOf: (name: string) => Kind | undefined = () => undefined,
): readonly Drawn[] {
  return c.entries(raw, path).flatMap(([name, given]) => {
    const at = [...path, name];
    const plain = readPart(c, given, at, name, sideOf(name), kindOf(name));
    const mirror = given?.mirror;
    if (typeof mirror !== 'string') return [plain];
    return [plain, mirrored(c, plain, mirror, kindOf(mirror))];
  });
}

function readPart(
  c: Reading,
  raw: RawPart,
  path: Path,
  name: string,
  side: Side,
  inherited: Kind | undefined,
): Drawn {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) {
    return { part: { name, side, solids: [], mirrored: false }, path, broken: true };
  }
  const solids = readAllSolids(new Frame(c, side), raw, path);
  const turn = readTurn(c, raw.turn, [...path, 'turn'], side);
  const sweep = readMotion(c, raw.sweep, [...path, 'sweep'], 'sweep');
  const comesOut = readMotion(c, raw['comes out'], [...path, 'comes out'], 'way out');
  if (turn !== undefined && solids !== undefined) {
    sayIdleTurn(c, { name, side, solids, mirrored: false }, turn, [...path, 'turn']);
  }
  const kind = KINDS.find((one) => one === raw.kind) ?? inherited;
  return {
    part: {
      name,
      side,
      ...(kind === undefined ? {} : { kind }),
      ...(raw.guess === true ? { guess: true } : {}),
      solids: solids ?? [],
      mirrored: false,
      ...(turn === undefined ? {} : { turn }),
      ...(sweep === undefined ? {} : { sweep }),
      ...(comesOut === undefined ? {} : { comesOut }),
    },
    path,
    broken:
      solids === undefined || isLost(raw.turn, turn) || isLost(raw.sweep, sweep) || c.faulty(path),
  };
}

/** Whether what is given could not be read. */
function isLost(given: unknown, read: unknown): boolean {
  return given !== undefined && read === undefined;
}

/** The one solid drawn here, or those listed; undefined once a problem is said. */
export function readAllSolids(
  frame: Frame,
  raw: Pick<NonNullable<RawPart>, 'solids' | (typeof SHAPES)[number] | 'tilt'>,
  path: Path,
): readonly Solid[] | undefined {
  const { c } = frame;
  if (raw.solids === undefined) {
    const drawn = SHAPES.some((shape) => raw[shape] !== undefined);
    // A shape that is misspelt or not read yet has been said.
    return !drawn && c.faulty(path) ? undefined : readSolid(frame, raw, path);
  }
  const beside = [...SHAPES, 'tilt' as const].find((key) => raw[key] !== undefined);
  if (beside !== undefined) {
    const message = `${beside} stands beside a list of solids`;
    c.say('bad solid', [...path, beside], message, { expected: 'it under solids', at: 'key' });
  }
  const at = [...path, 'solids'];
  const items = c.items(raw.solids);
  if (items.length === 0 && !c.faulty(at)) c.say('missing', at, 'the list of solids is empty');
  const solids = items.map((item, index) => {
    const here = [...at, index];
    const drawn = isMap(item) && SHAPES.some((shape) => item[shape] !== undefined);
    return !drawn && c.faulty(here) ? undefined : readSolid(frame, item, here);
  });
  if (beside !== undefined || solids.length === 0) return undefined;
  return solids.every((solid) => solid !== undefined) ? solids.flat() : undefined;
}

function isMap(value: unknown): boolean {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function mirrored(c: Reading, drawn: Drawn, name: string, inherited: Kind | undefined): Drawn {
  const { part, path, broken } = drawn;
  const at = [...path, 'mirror'];
  if (name.trim() === '') c.say('missing', at, 'the mirror image has no name');
  const kind = part.kind ?? inherited;
  return {
    part: {
      name,
      side: part.side,
      ...(kind === undefined ? {} : { kind }),
      ...(part.guess === undefined ? {} : { guess: part.guess }),
      solids: part.solids,
      mirrored: true,
      ...(part.turn === undefined ? {} : { turn: mirroredTurn(part.turn) }),
      ...(part.sweep === undefined ? {} : { sweep: mirroredBox(part.sweep) }),
      ...(part.comesOut === undefined ? {} : { comesOut: mirroredBox(part.comesOut) }),
    },
    path: at,
    broken,
  };
}
