/** Rules by what their two ends name, so that the rules of a pair are looked up, not searched for. */

import type { Part, Rule, RuleEnd, Scenario } from './scenario.js';

/** A rule of the file or the rule book, or of one option of one choice. */
interface IndexedRule {
  readonly rule: Rule;
  readonly choice?: number;
  readonly option?: number;
}

/** Rules by the key of their first end, then of their second. */
export type RuleIndex = ReadonlyMap<string, ReadonlyMap<string, readonly IndexedRule[]>>;

/** One way to name a part; `named` when it names it by part or group, not by kind or side. */
export interface EndKey {
  readonly key: string;
  readonly named: boolean;
}

const indexes = new WeakMap<Scenario, RuleIndex>();
const keys = new WeakMap<Scenario, WeakMap<Part, readonly EndKey[]>>();

/** All rules of a scenario, those of its options included; worked out once. */
export function ruleIndexOf(s: Scenario): RuleIndex {
  const made = indexes.get(s) ?? makeIndex(s);
  indexes.set(s, made);
  return made;
}

/** Every way a rule's end can name this part; worked out once. */
export function keysOf(s: Scenario, part: Part): readonly EndKey[] {
  const byPart = keys.get(s) ?? new WeakMap<Part, readonly EndKey[]>();
  keys.set(s, byPart);
  const made = byPart.get(part) ?? makeKeys(s, part);
  byPart.set(part, made);
  return made;
}

function makeIndex(s: Scenario): RuleIndex {
  const index = new Map<string, Map<string, IndexedRule[]>>();
  const put = (entry: IndexedRule) => {
    const [first, second] = entry.rule.between;
    const bySecond = index.get(keyOf(first)) ?? new Map<string, IndexedRule[]>();
    index.set(keyOf(first), bySecond);
    const entries = bySecond.get(keyOf(second)) ?? [];
    bySecond.set(keyOf(second), entries);
    entries.push(entry);
  };
  for (const rule of s.rules) put({ rule });
  s.choices.forEach((choiceMade, choice) => {
    choiceMade.options.forEach((optionMade, option) => {
      for (const rule of optionMade.rules) put({ rule, choice, option });
    });
  });
  return index;
}

function makeKeys(s: Scenario, part: Part): readonly EndKey[] {
  const groups = s.groups.filter((group) => group.parts.includes(part.name));
  return [
    { key: keyOf({ level: 'part', name: part.name }), named: true },
    ...groups.map(({ name }) => ({ key: keyOf({ level: 'group', name }), named: true })),
    ...(part.kind === undefined
      ? []
      : [{ key: keyOf({ level: 'kind', name: part.kind }), named: false }]),
    { key: keyOf({ level: 'side', name: part.side }), named: false },
  ];
}

function keyOf(end: RuleEnd): string {
  return `${end.level}:${end.name}`;
}
