/** Rules that cover nothing, and parts that no rule covers. */

import { partNames } from '../options.js';
import { historyOf, variantsOf } from '../part-history.js';
import type { Part, Path, Rule, RuleEnd, Scenario } from '../scenario.js';
import type { Reading } from './reading.js';
import type { PairWalker } from './walker.js';

/** What an earlier mistake makes pointless to say. */
export interface Doubts {
  /** Parts whose solids or kind could not be read. */
  readonly broken: ReadonlySet<string>;
  /** Whether some rule, or what it speaks of, could not be read. */
  readonly coverage: boolean;
  /** Whether the position ranges could not be read, so that no side is sure. */
  readonly sides: boolean;
}

/** A rule of the file that speaks of no two parts under any options is a mistake in it. */
export function sayEmptyRules(
  c: Reading,
  s: Scenario,
  doubts: Doubts,
  walker: PairWalker,
  held: ReadonlySet<Rule>,
): void {
  const options = s.choices.flatMap((choice) => choice.options);
  const own = [...s.rules, ...options.flatMap((option) => option.rules)];
  const parts = [...historyOf(s).keys()].flatMap((name) => variantsOf(s, name));
  for (const rule of own) {
    if (rule.path === undefined || held.has(rule)) continue;
    const [firsts, seconds] = rule.between.map((end) => parts.filter((p) => names(s, end, p)));
    if (sayComesOutOfNothing(c, rule, [...firsts!, ...seconds!], doubts)) continue;
    const doubtful = rule.between.some((end) => end.level === 'kind') && doubts.broken.size > 0;
    const joins = firsts!.some((a) =>
      seconds!.some((b) => a.name !== b.name && mayJoin(rule, a, b) && walker.meet(a.name, b.name)),
    );
    if (joins || doubtful) continue;
    const itself = isItself(rule, firsts!, seconds!);
    const message = itself
      ? 'this rule is between a thing and itself'
      : `this rule joins no two parts: ${emptyEnds(rule, firsts!, seconds!)}`;
    c.say('bad rule', [...rule.path, 'between'], message, { expected: 'two different parts' });
  }
}

function sayComesOutOfNothing(
  c: Reading,
  rule: Rule,
  parts: readonly Part[],
  doubts: Doubts,
): boolean {
  if (!rule.comingOut || rule.gap === 'ignore' || parts.length === 0) return false;
  if (parts.some((part) => part.comesOut !== undefined || doubts.broken.has(part.name))) {
    return false;
  }
  c.say('bad rule', [...rule.path!, 'coming out'], 'neither of the two comes out', {
    expected: "a part with 'comes out'",
  });
  return true;
}

function isItself(rule: Rule, firsts: readonly Part[], seconds: readonly Part[]): boolean {
  const [one, other] = rule.between;
  if (one.level === other.level && one.name === other.name) return true;
  const all = new Set([...firsts, ...seconds].map((part) => part.name));
  return firsts.length > 0 && seconds.length > 0 && all.size === 1;
}

function emptyEnds(rule: Rule, firsts: readonly Part[], seconds: readonly Part[]): string {
  const empty = rule.between.filter((_, i) => (i === 0 ? firsts : seconds).length === 0);
  if (empty.length > 0) return `nothing here is '${empty.map((end) => end.name).join("' or '")}'`;
  const [a, b] = [firsts[0]!, seconds[0]!];
  return a.side === b.side && !mayJoin(rule, a, b)
    ? 'kinds and sides join the engine to the chassis only'
    : 'they never stand together';
}

function mayJoin(rule: Rule, a: Part, b: Part): boolean {
  const named = rule.between.every((end) => end.level === 'part' || end.level === 'group');
  return named || a.side !== b.side;
}

function names(s: Scenario, end: RuleEnd, part: Part): boolean {
  switch (end.level) {
    case 'part':
      return part.name === end.name;
    case 'group':
      return s.groups.some(({ name, parts }) => name === end.name && parts.includes(part.name));
    case 'kind':
      return part.kind === end.name;
    case 'side':
      return part.side === end.name;
  }
}

/** Warns of every part that no rule covers in place, under any options. */
export function sayUncovered(
  c: Reading,
  s: Scenario,
  doubts: Doubts,
  covered: ReadonlySet<string>,
  pathOf: (part: string) => Path,
): void {
  const options = s.choices.flatMap((choice) => choice.options);
  const rules = [...s.rules, ...options.flatMap((option) => option.rules)];
  if (rules.length === 0) {
    // Every place would be as good as any other, and the best of them proved of nothing.
    c.say('uncovered', [], 'this file has no rule, so there is nothing to measure', {
      expected: 'rulebook: common practice, or rules',
      at: 'key',
    });
    return;
  }
  // A part whose every gap is exempted by name is spoken of, and with a reason.
  const exempted = rules.filter(({ gap }) => gap === 'ignore').flatMap(({ between }) => between);
  for (const name of partNames(s)) {
    if (covered.has(name) || doubts.broken.has(name)) continue;
    const variants = variantsOf(s, name);
    const spoken = exempted.some(
      (end) => end.level !== 'side' && variants.some((part) => names(s, end, part)),
    );
    if (spoken) continue;
    c.say('uncovered', pathOf(name), `no rule covers '${name}'`, {
      severity: 'warning',
      expected: 'a rule that names it, its group, its kind or its side',
      read: name,
      at: 'key',
    });
  }
}
