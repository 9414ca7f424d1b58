/**
 * The rule book 'common practice': clearances by kind, each with its reason and its source.
 *
 * Rows join the two sides only. Where a pair of parts has rows for more than one measure all of them
 * hold; no two rows tie for any pair of kinds on any sides.
 */

import { DRIVELINE } from './rulebook/driveline.js';
import { FRONT } from './rulebook/front.js';
import { GENERAL } from './rulebook/general.js';
import { HEAT } from './rulebook/heat.js';
import { JOINED } from './rulebook/joined.js';
import { ROOM } from './rulebook/room.js';
import type { Row, RowEnd } from './rulebook/row.js';
import { TOP } from './rulebook/top.js';
import { UNDER } from './rulebook/under.js';
import type { Rule, RuleEnd } from './scenario.js';

/** The rows as a person would print them: lists of kinds, gaps in millimetres. */
export const RULE_BOOK: readonly Row[] = [
  ...GENERAL,
  ...FRONT,
  ...TOP,
  ...UNDER,
  ...HEAT,
  ...DRIVELINE,
  ...JOINED,
  ...ROOM,
];

/** The rule book as clearance rules, one for each two kinds a row joins. */
export function rulebookRules(): readonly Rule[] {
  return RULES;
}

const RULES: readonly Rule[] = RULE_BOOK.flatMap(rulesOf);

function rulesOf(row: Row): Rule[] {
  const [first, second] = row.between;
  return endsOf(first).flatMap((one) => endsOf(second).map((other) => ruleOf(row, one, other)));
}

function endsOf(end: RowEnd): RuleEnd[] {
  return typeof end === 'string'
    ? [{ level: 'side', name: end }]
    : end.map((name) => ({ level: 'kind', name }));
}

function ruleOf(row: Row, one: RuleEnd, other: RuleEnd): Rule {
  return {
    between: [one, other],
    gap: row.gap,
    // An ignore without a measure exempts the pair from all of them.
    ...(row.gap === 'ignore' ? {} : { measured: row.measured ?? 'nearest' }),
    ...(row.facing === undefined ? {} : { facing: row.facing }),
    comingOut: row.comingOut ?? false,
    why: row.why,
    origin: { from: 'rule book', source: row.source },
  };
}
