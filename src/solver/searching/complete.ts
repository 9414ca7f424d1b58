/** Choosing the open options at a position: the set with the best margin there, or the least work. */

import { isCompatible, workOf } from '../../model/options.js';
import type { OptionSet, Scenario } from '../../model/scenario.js';
import type { Group } from '../measuring/bay.js';
import type { View } from '../measuring/view.js';
import { compareWork } from '../measuring/work.js';
import type { Work } from '../measuring/work.js';

/** Above this many combinations of open options, they are improved one choice at a time. */
const ENUMERATED = 300;

interface Completion {
  readonly set: OptionSet;
  /** Least margin of the pairs that open choices touch; Infinity when none binds. */
  readonly margin: number;
  /** The pair at that margin; absent where no open pair holds it back. */
  readonly tightest?: Group;
}

export interface Completions {
  /** The least work among sets that reach `enough`, else the best margin. */
  readonly chosen: Completion;
  /** The least work of all. */
  readonly cheapest: Completion;
}

export interface CompletionRequest {
  readonly scenario: Scenario;
  readonly view: View;
  /** Margin of a contact at the position; Infinity where it is known not to matter. */
  readonly marginOf: (id: number) => number;
  /** Least margin that a set leaves in the rules no position changes. */
  readonly fixedOf: (set: OptionSet) => number;
  /**
   * A margin that suffices: among the sets that reach it, the least work is taken; with Infinity the
   * best margin is taken.
   */
  readonly enough: number;
  /** Only sets of exactly this work. */
  readonly work?: Work;
}

type Better = (a: Completion, b: Completion) => boolean;

/** Complete a view at a position; undefined when no open options go together. */
export function complete(request: CompletionRequest): Completions | undefined {
  const { scenario, view, enough, work } = request;
  const completionOf = completer(request);
  const lessWork: Better = (a, b) => {
    const order = compareWork(workOf(scenario, a.set), workOf(scenario, b.set));
    return order !== 0 ? order < 0 : a.margin > b.margin;
  };
  const better: Better = (a, b) => {
    const enoughA = a.margin >= enough;
    if (enoughA !== b.margin >= enough) return enoughA;
    return !enoughA && a.margin !== b.margin ? a.margin > b.margin : lessWork(a, b);
  };
  if (view.count <= ENUMERATED) {
    let chosen: Completion | undefined;
    let cheapest: Completion | undefined;
    for (const set of view.sets()) {
      if (work && compareWork(workOf(scenario, set), work) !== 0) continue;
      const completion = completionOf(set);
      if (!chosen || better(completion, chosen)) chosen = completion;
      if (!cheapest || lessWork(completion, cheapest)) cheapest = completion;
    }
    return chosen && cheapest && { chosen, cheapest };
  }
  const seed = view.someSet();
  // One choice at a time would leave the works asked for: let the search decide choices first.
  if (!seed || work) return undefined;
  const first = completionOf(seed);
  return {
    chosen: improve(scenario, view, first, better, completionOf),
    cheapest: improve(scenario, view, first, lessWork, completionOf),
  };
}

/** False only where it is certain that no set in view has this very work. */
export function hasWork(scenario: Scenario, view: View, work: Work): boolean {
  if (view.count > ENUMERATED) return true;
  return view.sets().some((set) => compareWork(workOf(scenario, set), work) === 0);
}

/** A pair whose margin at the position depends on the open options, by combination. */
interface Weighed {
  readonly group: Group;
  /** By index of `group.combos`; Infinity where a combination is closed. */
  readonly margins: readonly number[];
}

/** What a complete set leaves at the position; only pairs that matter there are looked at. */
function completer({ view, marginOf, fixedOf }: CompletionRequest): (set: OptionSet) => Completion {
  const weighed: Weighed[] = [];
  for (const { group, combos } of view.open) {
    let margins: number[] | undefined;
    for (const combo of combos) {
      for (const id of group.combos[combo]!.contacts) {
        const margin = marginOf(id);
        if (margin === Infinity) continue;
        margins ??= group.combos.map(() => Infinity);
        margins[combo] = Math.min(margins[combo]!, margin);
      }
    }
    if (margins) weighed.push({ group, margins });
  }
  return (set) => {
    let margin = fixedOf(set);
    let tightest: Group | undefined;
    for (const { group, margins } of weighed) {
      const at = group.comboOf(set);
      const value = at < 0 ? Infinity : margins[at]!;
      if (value >= margin) continue;
      margin = value;
      tightest = group;
    }
    return { set, margin, ...(tightest && { tightest }) };
  };
}

/** True only where it is certain that exactly one set in view has this very work. */
export function hasOneOfWork(scenario: Scenario, view: View, work: Work): boolean {
  if (view.count > ENUMERATED) return false;
  return view.sets().filter((set) => compareWork(workOf(scenario, set), work) === 0).length === 1;
}

/** Change one choice at a time while that helps. */
function improve(
  scenario: Scenario,
  view: View,
  first: Completion,
  better: Better,
  completionOf: (set: OptionSet) => Completion,
): Completion {
  let best = first;
  for (let improved = true; improved;) {
    improved = false;
    for (const c of view.undecided) {
      for (const option of view.domains[c]!) {
        if (best.set[c] === option) continue;
        const set = best.set.map((chosen, d) => (d === c ? option : chosen));
        if (!isCompatible(scenario, set)) continue;
        const completion = completionOf(set);
        if (!better(completion, best)) continue;
        best = completion;
        improved = true;
      }
    }
  }
  return best;
}
