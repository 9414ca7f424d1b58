/** Clearance rules as the file writes them. */

import type { Facing, Measure, Path, Rule, RuleEnd, RuleOrigin } from '../scenario.js';
import type { RawRule } from '../schema.js';
import { endNames, levelOf } from './census.js';
import type { Census } from './census.js';
import type { Reading } from './reading.js';

/** The axis measure that each side word goes with. */
const MEASURE_OF: Readonly<Record<Facing, Measure>> = {
  ahead: 'fore-aft',
  behind: 'fore-aft',
  left: 'side-to-side',
  right: 'side-to-side',
  above: 'up-down',
  below: 'up-down',
};

/** Reads a list of rules; those with a problem are left out once it is said. */
export function readRules(
  c: Reading,
  raw: readonly RawRule[] | undefined,
  path: Path,
  census: Census,
  origin: RuleOrigin,
): readonly Rule[] {
  return c.items(raw).flatMap((given, index) => {
    const at = [...path, index];
    const rule = c.faulty(at) ? undefined : readRule(c, given, at, census, origin);
    return rule === undefined ? [] : [rule];
  });
}

function readRule(
  c: Reading,
  raw: RawRule,
  path: Path,
  census: Census,
  origin: RuleOrigin,
): Rule | undefined {
  const before = c.problems.length;
  const [one, other] = raw.between.map((end, i) =>
    readEnd(c, end, [...path, 'between', i], census),
  );
  const ignore = typeof raw.gap === 'string' && raw.gap.trim() === 'ignore';
  const gap = ignore ? 'ignore' : c.length(raw.gap, [...path, 'gap']);
  if (typeof gap === 'number' && gap < 0) {
    const expected = '0 or more, or ignore for a pair that is meant to touch';
    c.say('bad rule', [...path, 'gap'], 'a gap needed cannot be less than 0', { expected });
  }
  if (ignore && (raw.why ?? '').trim() === '') {
    const message = 'a pair that is ignored needs its reason';
    c.say('missing', [...path, 'why'], message, { expected: 'why: ...' });
  }
  const measured = raw.measured ?? (ignore ? undefined : 'nearest');
  sayWrongSide(c, raw, path);
  if (c.problems.length > before || !one || !other || gap === undefined) return undefined;
  return {
    between: [one, other],
    gap,
    ...(measured === undefined ? {} : { measured }),
    ...(raw.side === undefined ? {} : { facing: raw.side }),
    comingOut: raw['coming out'] ?? false,
    ...(raw.why === undefined ? {} : { why: raw.why }),
    origin,
    path,
  };
}

function sayWrongSide(c: Reading, raw: RawRule, path: Path): void {
  if (raw.side === undefined) return;
  const wanted = MEASURE_OF[raw.side];
  if (raw.measured === wanted) return;
  c.say('bad rule', [...path, 'side'], `${raw.side} goes only with a gap measured ${wanted}`, {
    expected: `measured: ${wanted}`,
  });
}

function readEnd(
  c: Reading,
  raw: RawRule['between'][number],
  path: Path,
  census: Census,
): RuleEnd | undefined {
  if (typeof raw === 'string') {
    const level = levelOf(census, raw);
    if (level !== undefined) return { level, name: raw };
    c.sayUnknown(path, raw, endNames(census), 'a part, a group, a kind, engine or chassis');
    return undefined;
  }
  const forced = (['part', 'group', 'kind', 'side'] as const).filter((level) => level in raw);
  const level = forced[0];
  if (level === undefined || forced.length > 1) {
    const expected = 'one of part, group, kind or side';
    c.say('bad rule', path, 'this does not name one thing', { expected });
    return undefined;
  }
  const name = raw[level]!;
  const known =
    level === 'part'
      ? [...census.parts.keys()]
      : level === 'group'
        ? census.groups.map((group) => group.name)
        : undefined;
  if (known !== undefined && !known.includes(name)) {
    c.sayUnknown([...path, level], name, known, `a ${level}`);
    return undefined;
  }
  return { level, name };
}
