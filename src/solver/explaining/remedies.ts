/**
 * What makes a wish possible: every smallest set of changes - options, and trims at their deepest -
 * under which it can be had.
 *
 * What refutes one set of changes names the choices that it rests on; any set that leaves all of those
 * as they are is refuted with it. So, if D is refuted for such a reason, a remedy that holds all of D
 * makes a change besides to one of those choices: the search branches there and nowhere else, by the
 * number of changes, and misses none.
 */

import { isCompatible } from '../../model/options.js';
import type { OptionSet, Scenario } from '../../model/scenario.js';
import type { Steps } from '../answering/searches.js';
import type { Decider } from './decider.js';

/** A smallest set of changes, and a place that it makes possible. */
export interface ChangeSet {
  readonly set: OptionSet;
  readonly at: Float64Array;
}

export interface SmallestChanges {
  readonly found: readonly ChangeSet[];
  /** Whether there are no others, proved. */
  readonly complete: boolean;
}

/** What is asked: from which set, and which choices may change. */
export interface ChangesAsked {
  readonly from: OptionSet;
  readonly mayChange: (choice: number) => boolean;
  /** Sets of changes to decide before the list is left incomplete. */
  readonly most: number;
}

/** Options of these choices, all together, are refuted. */
type Refuted = ReadonlyMap<number, number>;

export function* smallestChanges(decider: Decider, asked: ChangesAsked): Steps<SmallestChanges> {
  const { scenario } = decider.bay;
  const found: ChangeSet[] = [];
  const refuted: Refuted[] = [];
  const seen = new Set<string>();
  const waiting: OptionSet[][] = [[asked.from]];
  let complete = true;
  let decided = 0;
  for (let size = 0; size < waiting.length; size++) {
    for (const set of waiting[size]!) {
      if (decider.stopped) return { found, complete: false };
      if (found.some((one) => includes(set, one.set, asked.from))) continue;
      let by = clashOf(scenario, set) ?? refuted.find((one) => agrees(set, one));
      if (!by) {
        if (decided++ >= asked.most) return { found, complete: false };
        const decision = yield* decider.decide(set, decider.members.under(set));
        if (decision.possible === 'yes') {
          found.push({ set, at: decision.at });
          continue;
        }
        complete &&= decision.possible === 'no';
        const members = decision.possible === 'no' ? decision.by : decider.members.under(set);
        refuted.push((by = refutedBy(decider, set, members)));
      }
      for (const next of furtherChanges(scenario, set, by, asked)) {
        if (seen.has(next.join())) continue;
        seen.add(next.join());
        (waiting[size + 1] ??= []).push(next);
      }
    }
  }
  return { found, complete };
}

/** The sets with one change more, to a choice that the refutation rests on and that is as it was. */
function furtherChanges(
  scenario: Scenario,
  set: OptionSet,
  by: Refuted,
  { from, mayChange }: ChangesAsked,
): OptionSet[] {
  return [...by.keys()]
    .filter((c) => set[c] === from[c] && mayChange(c))
    .flatMap((c) =>
      scenario.choices[c]!.options.flatMap((_, o) =>
        o === from[c] ? [] : [set.map((option, d) => (d === c ? o : option))],
      ),
    );
}

/** Two choices that cannot go together. */
function clashOf(scenario: Scenario, set: OptionSet): Refuted | undefined {
  if (isCompatible(scenario, set)) return undefined;
  const name = (c: number): string => scenario.choices[c]!.name;
  const clash = new Map<number, number>();
  set.forEach((option, c) => {
    const { needs, rulesOut } = scenario.choices[c]!.options[option]!;
    set.forEach((other, d) => {
      const theirs = scenario.choices[d]!.options[other]!.name;
      const goes =
        needs.every((need) => need.choice !== name(d) || need.option === theirs) &&
        !rulesOut.some((out) => out.choice === name(d) && out.option === theirs);
      if (goes || clash.size > 0) return;
      clash.set(c, option).set(d, other);
    });
  });
  return clash;
}

function refutedBy(decider: Decider, set: OptionSet, members: readonly number[]): Refuted {
  const { all } = decider.members;
  const choices = new Set(members.flatMap((id) => decider.members.choicesOf(all[id]!)));
  return new Map([...choices].map((c) => [c, set[c]!]));
}

function agrees(set: OptionSet, refuted: Refuted): boolean {
  return [...refuted].every(([c, option]) => set[c] === option);
}

/** Whether a set makes all the changes that another does. */
function includes(set: OptionSet, other: OptionSet, from: OptionSet): boolean {
  return other.every((option, c) => option === from[c] || set[c] === option);
}
