/** Parts of one side that move in step. */

import type { Path, Scenario } from '../scenario.js';
import type { RawScenario } from '../schema.js';
import type { Census } from './census.js';
import type { Reading } from './reading.js';

/** The lists of parts that move together; none when not given. */
export function readTogether(c: Reading, raw: RawScenario, census: Census): Scenario['together'] {
  const listed = new Set<string>();
  return c.items(raw.together).flatMap((names, index) => {
    const path = ['together', index];
    if (c.faulty(path)) return [];
    if (names.length < 2) {
      c.say('missing', path, 'two parts or more move together', { expected: 'a list of parts' });
      return [];
    }
    const known = names.filter((name, i) => mayMove(c, name, [...path, i], census, listed));
    saySides(c, names, path, census);
    return [known];
  });
}

/** Whether the name is of a part that moves and is listed here alone; says why where it is not. */
function mayMove(
  c: Reading,
  name: string,
  path: Path,
  census: Census,
  listed: Set<string>,
): boolean {
  const drawn = census.parts.get(name);
  if (drawn === undefined) {
    c.sayUnknown(path, name, census.parts.keys(), 'a part');
    return false;
  }
  if (listed.has(name)) {
    const message = `'${name}' moves together with others already`;
    c.say('duplicate', path, message, { expected: 'each part once; one list for all in step' });
    return false;
  }
  listed.add(name);
  const moves = drawn.some(({ part, broken }) => broken || part.turn || part.sweep);
  if (!moves) {
    c.say('bad motion', path, `'${name}' neither turns nor sweeps`, {
      expected: 'a part with a turn or a sweep',
    });
  }
  return moves;
}

/** Says which part of a list rides with the other side than the first. */
function saySides(c: Reading, names: readonly string[], path: Path, census: Census): void {
  const sides = names.map((name) => census.parts.get(name)?.[0]!.part.side);
  const own = sides.find((side) => side !== undefined);
  const wrong = sides.findIndex((side) => side !== undefined && side !== own);
  if (wrong < 0) return;
  const message = `'${names[wrong]}' rides with the ${sides[wrong]}`;
  c.say('bad motion', [...path, wrong], message, { expected: `a part of the ${own}` });
}
