/** Trims: chassis faces that may be cut back. */

import { throughDepth } from '../solids/cut.js';
import { partExtents } from '../solids/extents.js';
import type { Kind } from '../kinds.js';
import { AXES } from '../scenario.js';
import type { Box, Part, Path, Trim } from '../scenario.js';
import type { RawTrim } from '../schema.js';
import type { Census } from './census.js';
import { readWork } from './choices.js';
import { Frame } from './frame.js';
import type { Reading } from './reading.js';

/** Never cut: steering, brakes, fuel and suspension. */
const NEVER_CUT: readonly Kind[] = [
  'steering valve',
  'steering box',
  'steering shaft',
  'steering linkage',
  'brake booster',
  'brake line',
  'fuel line',
  'fuel pump',
  'suspension',
  'spring',
  'axle',
];

/** Sheet metal, which is cut out for a recess: that nothing of it is left there may well be meant. */
const SHEET: readonly (Kind | undefined)[] = [
  'firewall',
  'tunnel',
  'floor',
  'toeboard',
  'hood',
  'inner fender',
  'core support',
];

/** Reads the list of trims; those with a problem are left out once it is said. */
export function readTrims(
  c: Reading,
  raw: readonly RawTrim[] | undefined,
  path: Path,
  census: Census,
): readonly Trim[] {
  return c.items(raw).flatMap((given, index) => {
    const at = [...path, index];
    const trim = c.faulty(at) ? undefined : readTrim(c, given, at, census);
    return trim === undefined ? [] : [trim];
  });
}

function readTrim(c: Reading, raw: RawTrim, path: Path, census: Census): Trim | undefined {
  sayWrongPart(c, raw.part, [...path, 'part'], census);
  const upTo = c.size(raw['up to'], [...path, 'up to'], 'the deepest cut', 'bad trim');
  const over: Partial<Box> | undefined =
    raw.over === undefined
      ? {}
      : new Frame(c, 'chassis', 'chosen').ranges(raw.over, [...path, 'over']);
  for (const [axis, range] of Object.entries(over ?? {})) {
    if (range.min < range.max) continue;
    c.say('bad trim', [...path, 'over', axis], 'the stretch to cut has no length');
  }
  const plus = raw.plus && readPlus(c, raw.plus, [...path, 'plus']);
  const hours = readWork(c, raw.hours, [...path, 'hours']);
  const cost = readWork(c, raw.cost, [...path, 'cost']);
  if (upTo === undefined || over === undefined) return undefined;
  const trim = {
    part: raw.part,
    cut: raw.cut,
    ...(raw.over === undefined ? {} : { over }),
    upTo,
    hours,
    cost,
    ...(plus === undefined ? {} : { plus }),
  };
  sayWrongCut(c, trim, path, census);
  return trim;
}

/** What the file says of the part, however an option replaces it, makes a cut unclear or pointless. */
function sayWrongCut(c: Reading, trim: Trim, path: Path, census: Census): void {
  const drawn = (census.parts.get(trim.part) ?? []).filter(({ broken }) => !broken);
  const parts = drawn.map(({ part }) => part).filter(({ solids }) => solids.length > 0);
  if (parts.length === 0) return;
  if (trim.cut === 'outward' && parts.some(straddles)) {
    const message = `'${trim.part}' stands on both sides of the centre, so outward could be either way`;
    c.say('bad trim', [...path, 'cut'], message, { expected: 'left or right' });
    return;
  }
  for (const axis of AXES) {
    const range = trim.over?.[axis];
    if (range === undefined) continue;
    const missed = parts.every((part) => {
      const { min, max } = partExtents(part)[axis];
      return range.max <= min || range.min >= max;
    });
    const message = `the stretch to cut misses '${trim.part}'`;
    if (missed) c.say('bad trim', [...path, 'over', axis], message);
  }
  const through = (part: Part) => trim.upTo >= throughDepth(part, trim.cut);
  if (parts.every((part) => !SHEET.includes(part.kind) && through(part))) {
    const where = trim.over === undefined ? '' : ' in that stretch';
    const message = `so deep a cut goes right through: nothing of '${trim.part}' is left${where}`;
    c.say('bad trim', [...path, 'up to'], message, { severity: 'warning' });
  }
}

/** Whether a part that is no panel reaches to both sides of the frame centre. */
function straddles(part: Part): boolean {
  const { min, max } = partExtents(part).y;
  return min < 0 && max > 0 && part.solids.some(({ shape }) => shape !== 'panel');
}

function readPlus(c: Reading, raw: NonNullable<RawTrim['plus']>, path: Path): Trim['plus'] {
  const per = c.size(raw.per, [...path, 'per'], "'per'", 'bad trim');
  const hours = readWork(c, raw.hours, [...path, 'hours']);
  const cost = readWork(c, raw.cost, [...path, 'cost']);
  return per === undefined ? undefined : { hours, cost, per };
}

function sayWrongPart(c: Reading, name: string, path: Path, census: Census): void {
  const drawn = census.parts.get(name);
  if (drawn === undefined) {
    const chassis = [...census.parts].filter(([, [first]]) => first!.part.side === 'chassis');
    c.sayUnknown(
      path,
      name,
      chassis.map(([known]) => known),
      'a chassis part',
    );
    return;
  }
  if (drawn[0]!.part.side === 'engine') {
    c.say('bad trim', path, `'${name}' rides with the engine; only the chassis is cut`);
    return;
  }
  const kind = drawn.map(({ part }) => part.kind).find((one) => one && NEVER_CUT.includes(one));
  if (kind !== undefined) {
    const message = `'${name}' is a ${kind}: steering, brakes, fuel and suspension are never cut`;
    c.say('bad trim', path, message);
  }
}
