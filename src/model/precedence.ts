/**
 * Which rules hold between two parts.
 *
 * For each measure the rule with the more specific ends wins, the better end compared first (part,
 * group, kind, side). At equality an option's rule beats the file's, and the file's the rule book's;
 * two that still tie are a mistake in the file. A winning `ignore` takes the measure away. The room
 * a part needs to come out is a measure of its own, for which 0 is needed unless a rule says more.
 */

import { maxOf, minOf } from './extremes.js';
import { ruleIndexOf, keysOf } from './rule-index.js';
import type { RuleIndex } from './rule-index.js';
import { MEASURES } from './scenario.js';
import type { Measure, OptionSet, Part, Rule, RuleEnd, Scenario } from './scenario.js';

/** One rule as it holds between parts `a` and `b`. */
export interface PairRule {
  readonly rule: Rule;
  /** Millimetres. */
  readonly needed: number;
  readonly measured: Measure;
  /** True when it measures the room that `withdrawn` needs to come out, at rest. */
  readonly comingOut: boolean;
  /** True when the rule's first end is `b`. */
  readonly swapped: boolean;
  /** Which of the two comes out; on coming-out rules only. */
  readonly withdrawn?: 'a' | 'b';
}

/**
 * The rules that hold between two parts under an option set: at most one per measure, and at most
 * one for each part that comes out.
 */
export interface PairRules {
  readonly rules: readonly PairRule[];
  /** Rules of equal standing of which neither wins: a mistake in the file, each pair once. */
  readonly ties: readonly (readonly [Rule, Rule])[];
}

/** What holds for the room to come out when no rule speaks of it. */
export const ROOM_TO_COME_OUT: Rule = {
  between: [
    { level: 'side', name: 'engine' },
    { level: 'side', name: 'chassis' },
  ],
  gap: 0,
  measured: 'nearest',
  comingOut: true,
  why: 'room to take it out',
  origin: { from: 'rule book', source: 'our default' },
};

/** The rules between parts `a` and `b`, as they stand under the option set, in either order. */
export function pairRules(s: Scenario, a: Part, b: Part, set: OptionSet): PairRules {
  const candidates = candidatesFor(s, a, b);
  if (candidates.byChoice.size === 0) return (candidates.always ??= settle(candidates.base, a, b));
  const standing = [...candidates.base];
  for (const [choice, byOption] of candidates.byChoice) {
    standing.push(...(byOption.get(set[choice]!) ?? []));
  }
  return settle(standing, a, b);
}

/** Indexes of the choices any option of which brings a rule that matches the pair. */
export function choicesRuling(s: Scenario, a: Part, b: Part): readonly number[] {
  return [...candidatesFor(s, a, b).byChoice.keys()];
}

/** A rule that matches a pair, and the way round it does. */
interface Candidate {
  readonly rule: Rule;
  readonly swapped: boolean;
  /** Higher wins. */
  readonly rank: number;
}

interface Candidates {
  readonly base: readonly Candidate[];
  readonly byChoice: ReadonlyMap<number, ReadonlyMap<number, readonly Candidate[]>>;
  /** The answer where no option brings a rule, once it has been worked out. */
  always?: PairRules;
}

const LEVEL: Readonly<Record<RuleEnd['level'], number>> = { part: 3, group: 2, kind: 1, side: 0 };
const ORIGIN: Readonly<Record<Rule['origin']['from'], number>> = {
  option: 2,
  file: 1,
  'rule book': 0,
};

function rankOf(rule: Rule): number {
  const ends = rule.between.map((end) => LEVEL[end.level]);
  return maxOf(ends) * 100 + minOf(ends) * 10 + ORIGIN[rule.origin.from];
}

const known = new WeakMap<Scenario, WeakMap<Part, WeakMap<Part, Candidates>>>();

function candidatesFor(s: Scenario, a: Part, b: Part): Candidates {
  let byFirst = known.get(s);
  if (byFirst === undefined) known.set(s, (byFirst = new WeakMap()));
  let bySecond = byFirst.get(a);
  if (bySecond === undefined) byFirst.set(a, (bySecond = new WeakMap()));
  let candidates = bySecond.get(b);
  if (candidates === undefined) bySecond.set(b, (candidates = match(s, a, b)));
  return candidates;
}

function match(s: Scenario, a: Part, b: Part): Candidates {
  const base: Candidate[] = [];
  const byChoice = new Map<number, Map<number, Candidate[]>>();
  if (a.name === b.name) return { base, byChoice };
  const index = ruleIndexOf(s);
  // Straight before swapped: a rule that matches both ways round is taken once, straight.
  const seen = new Set<Rule>();
  for (const swapped of [false, true]) {
    for (const { rule, choice, option } of swapped
      ? found(index, s, b, a)
      : found(index, s, a, b)) {
      if (seen.has(rule)) continue;
      seen.add(rule);
      const candidate = { rule, swapped, rank: rankOf(rule) };
      if (choice === undefined || option === undefined) {
        base.push(candidate);
        continue;
      }
      const byOption = byChoice.get(choice) ?? new Map<number, Candidate[]>();
      byChoice.set(choice, byOption);
      byOption.set(option, [...(byOption.get(option) ?? []), candidate]);
    }
  }
  return { base, byChoice };
}

/** Every rule whose first end names `first` and whose second end names `second`. */
function* found(index: RuleIndex, s: Scenario, first: Part, second: Part) {
  const opposite = first.side !== second.side;
  for (const one of keysOf(s, first)) {
    for (const other of keysOf(s, second)) {
      // Kinds and sides join opposite sides only.
      if (!opposite && !(one.named && other.named)) continue;
      yield* index.get(one.key)?.get(other.key) ?? [];
    }
  }
}

function settle(standing: readonly Candidate[], a: Part, b: Part): PairRules {
  const rules: PairRule[] = [];
  const ties: (readonly [Rule, Rule])[] = [];
  const inPlace = standing.filter(({ rule }) => !rule.comingOut);
  for (const measured of MEASURES) {
    const best = winner(
      inPlace.filter(({ rule }) => (rule.measured ?? measured) === measured),
      ties,
    );
    if (best === undefined || best.rule.gap === 'ignore') continue;
    const { rule, swapped } = best;
    rules.push({ rule, needed: rule.gap as number, measured, comingOut: false, swapped });
  }
  const withdrawn = (['a', 'b'] as const).filter((end) => (end === 'a' ? a : b).comesOut);
  if (withdrawn.length > 0) {
    const room = roomToComeOut(standing, ties, a, b);
    if (room !== undefined) rules.push(...withdrawn.map((end) => ({ ...room, withdrawn: end })));
  }
  return { rules, ties };
}

function roomToComeOut(
  standing: readonly Candidate[],
  ties: (readonly [Rule, Rule])[],
  a: Part,
  b: Part,
): PairRule | undefined {
  const best = winner(
    standing.filter(({ rule }) => rule.comingOut || exemptsEverything(rule)),
    ties,
  );
  if (best === undefined) {
    // Between parts of one side only a rule that names them asks for the room.
    if (a.side === b.side) return undefined;
    const swapped = a.side !== 'engine';
    return { rule: ROOM_TO_COME_OUT, needed: 0, measured: 'nearest', comingOut: true, swapped };
  }
  const { rule, swapped } = best;
  if (rule.gap === 'ignore') return undefined;
  return { rule, needed: rule.gap, measured: rule.measured ?? 'nearest', comingOut: true, swapped };
}

function exemptsEverything(rule: Rule): boolean {
  return rule.gap === 'ignore' && rule.measured === undefined;
}

/** The highest in rank, the first of them in the file; others of that rank go to `ties`. */
function winner(
  candidates: readonly Candidate[],
  ties: (readonly [Rule, Rule])[],
): Candidate | undefined {
  const rank = maxOf(candidates.map((candidate) => candidate.rank));
  const [best, ...equals] = candidates.filter((candidate) => candidate.rank === rank);
  for (const { rule } of equals) {
    const said = ties.some(([one, other]) => one === best!.rule && other === rule);
    if (!said) ties.push([best!.rule, rule]);
  }
  return best;
}
