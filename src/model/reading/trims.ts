/** Trims: chassis faces that may be cut back. */

import type { Kind } from '../kinds.js';
import type { Box, Path, Trim } from '../scenario.js';
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
  return {
    part: raw.part,
    cut: raw.cut,
    ...(raw.over === undefined ? {} : { over }),
    upTo,
    hours,
    cost,
    ...(plus === undefined ? {} : { plus }),
  };
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
