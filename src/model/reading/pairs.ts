/** Checks on every pair of parts: rules that tie, and rules along an axis whose side is not clear. */

import { derivedFacing, facingBetween } from '../facing.js';
import { partNames } from '../options.js';
import type { PairRule } from '../precedence.js';
import type { Part, Path, Rule, Scenario } from '../scenario.js';
import { sayEmptyRules, sayUncovered } from './coverage.js';
import type { Doubts } from './coverage.js';
import type { Reading } from './reading.js';
import { PairWalker } from './walker.js';

/** Says which rules tie, which need a side, which parts no rule covers, which rules cover nothing. */
export function sayPairProblems(
  c: Reading,
  s: Scenario,
  doubts: Doubts,
  pathOf: (part: string) => Path,
): void {
  const names = partNames(s);
  const covered = new Set<string>();
  const held = new Set<Rule>();
  const said = new Set<Rule>();
  const walker = new PairWalker(s);
  names.forEach((a, index) => {
    for (const b of names.slice(index + 1)) {
      for (const { rules, ties, first, second } of walker.pairs(a, b)) {
        for (const [one, other] of ties) {
          if (!said.has(other)) sayTie(c, one, other, a, b, pathOf(a));
          said.add(other);
        }
        for (const rule of rules) {
          held.add(rule.rule);
          if (!rule.comingOut) covered.add(a).add(b);
          if (rule.measured === 'nearest' || said.has(rule.rule) || doubts.sides) continue;
          if (doubts.broken.has(a) || doubts.broken.has(b)) continue;
          if (sayUnclearSide(c, s, rule, first, second, pathOf(b))) said.add(rule.rule);
        }
      }
    }
  });
  sayEmptyRules(c, s, doubts, walker, held);
  if (!doubts.coverage) sayUncovered(c, s, doubts, covered, pathOf);
}

function sayTie(c: Reading, one: Rule, other: Rule, a: string, b: string, fallback: Path): void {
  const message = `two rules tie for '${a}' and '${b}': neither is the more specific`;
  c.say('tie', other.path ?? one.path ?? fallback, message, {
    expected:
      one.path === undefined ? 'one of them' : `one of them; the other is ${words(one.path)}`,
  });
}

/** A path as a reader counts: `rules, item 2`. */
function words(path: Path): string {
  return path.map((key) => (typeof key === 'number' ? `item ${key + 1}` : key)).join(', ');
}

function sayUnclearSide(
  c: Reading,
  s: Scenario,
  { rule, swapped, measured }: PairRule,
  first: Part,
  second: Part,
  fallback: Path,
): boolean {
  const [a, b] = swapped ? [second, first] : [first, second];
  const facing = facingBetween(s, rule, a, b);
  const derived = derivedFacing(s, rule, a, b);
  const path = rule.path ?? fallback;
  if (facing === undefined) {
    const own = rule.path !== undefined;
    c.say('side unclear', path, `it is not clear on which side of '${a.name}' '${b.name}' lies`, {
      expected: own
        ? "'side' in this rule"
        : `a rule of your own between the two, measured ${measured}, with 'side'`,
    });
    return true;
  }
  if (derived === undefined || derived === facing) return false;
  const message = `'${b.name}' never lies ${facing} of '${a.name}', but always ${derived}`;
  c.say('bad rule', path, message, { severity: 'warning', expected: `side: ${derived}` });
  return true;
}
