/** How the engine goes in: what is off meanwhile, and the positions it passes through. */

import { KINDS } from '../kinds.js';
import type { HoistPath, Path, Position, RuleEnd, Side } from '../scenario.js';
import type { RawHoist } from '../schema.js';
import { levelOf } from './census.js';
import type { Census } from './census.js';
import { readCoordinate, saySteep } from './header.js';
import type { Reading } from './reading.js';

const EXPECTED = 'a part, a group or a kind';

/** The hoist path, or undefined where there is none or its problems are said. */
export function readHoistPath(
  c: Reading,
  raw: RawHoist | undefined,
  census: Census,
): HoistPath | undefined {
  const path = ['hoist path'];
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) return undefined;
  const off = readAbsent(c, raw.off, [...path, 'off'], 'chassis', census);
  const without = readAbsent(c, raw.without, [...path, 'without'], 'engine', census);
  const gap = readGap(c, raw.gap, [...path, 'gap']);
  sayEmpty(c, raw.through, [...path, 'through'], 'there is no position to go through');
  const through = c.items(raw.through).flatMap((stop, i) => {
    const at = readStop(c, stop, [...path, 'through', i]);
    return at === undefined ? [] : [at];
  });
  return { off, without, gap, through };
}

function readGap(c: Reading, raw: RawHoist['gap'], path: Path): number {
  if (raw === undefined || c.faulty(path)) return 0;
  const gap = c.length(raw, path) ?? 0;
  if (gap < 0) c.say('bad path', path, 'a gap needed cannot be less than 0');
  return gap;
}

function readStop(c: Reading, raw: RawHoist['through'][number], path: Path): Position | undefined {
  if (c.faulty(path)) return undefined;
  const read = (name: keyof Position) => readCoordinate(c, raw[name], [...path, name], name);
  const [setback, offset] = [read('setback'), read('offset')];
  const [height, pitch] = [read('height'), read('pitch')];
  if (pitch !== undefined) saySteep(c, Math.abs(pitch), [...path, 'pitch']);
  if (setback === undefined || offset === undefined) return undefined;
  return height === undefined || pitch === undefined
    ? undefined
    : { setback, offset, height, pitch };
}

/** Parts, groups or kinds of one side that are not there meanwhile. */
export function readAbsent(
  c: Reading,
  raw: readonly string[] | undefined,
  path: Path,
  side: Side,
  census: Census,
): readonly RuleEnd[] {
  if (raw === undefined || c.faulty(path)) return [];
  sayEmpty(c, raw, path, `nothing is listed under '${String(path.at(-1))}'`);
  return raw.flatMap((word, i): RuleEnd[] => {
    const level = levelOf(census, word);
    if (level === undefined || level === 'side') {
      const groups = census.groups.map((group) => group.name);
      c.sayUnknown([...path, i], word, [...census.parts.keys(), ...groups, ...KINDS], EXPECTED);
      return [];
    }
    sayWrongSide(c, { level, name: word }, [...path, i], side, census);
    return [{ level, name: word }];
  });
}

/** Says that a name stands for parts of the other side, or that no part of this side is of a kind. */
function sayWrongSide(c: Reading, end: RuleEnd, path: Path, side: Side, census: Census): void {
  const { level, name } = end;
  const expected = `${EXPECTED} of the ${side}`;
  if (level === 'kind') {
    const drawn = [...census.parts.values()].flat().map(({ part }) => part);
    if (drawn.some((part) => part.kind === name && part.side === side)) return;
    c.say('bad path', path, `no part of the ${side} is of the kind '${name}'`, { expected });
    return;
  }
  const group = census.groups.find((one) => one.name === name);
  const members = level === 'part' ? [name] : (group?.parts ?? []);
  const wrong = members.find((part) => census.parts.get(part)?.[0]!.part.side !== side);
  if (wrong === undefined) return;
  const other = side === 'engine' ? 'chassis' : 'engine';
  c.say('bad path', path, `'${wrong}' rides with the ${other}`, { expected });
}

function sayEmpty(c: Reading, list: unknown, path: Path, message: string): void {
  if (Array.isArray(list) && list.length === 0) c.say('missing', path, message);
}
