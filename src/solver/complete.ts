/** Choosing the open options at a position: the set with the best margin there, or the least work. */

import { isCompatible, workOf } from '../model/options.js';
import type { OptionSet, Scenario } from '../model/scenario.js';
import { compareWork } from './view.js';
import type { View, Work } from './view.js';

/** Above this many combinations of open options, they are improved one choice at a time. */
const ENUMERATED = 300;

interface Completion {
  readonly set: OptionSet;
  /** Least margin of the pairs that open choices touch; Infinity when none binds. */
  readonly margin: number;
  /** Index into `View.open` of the pair at that margin; -1 where no open pair holds it back. */
  readonly tightest: number;
}

export interface Completions {
  /** The least work among sets that reach `enough`, else the best margin. */
  readonly chosen: Completion;
  /** The least work of all. */
  readonly cheapest: Completion;
}

type Better = (a: Completion, b: Completion) => boolean;

/**
 * Complete a view at a position; undefined when no open options go together.
 * @param comboMargins margin of each combination of each open group, as `View.open` orders them.
 * @param fixedOf least margin that a set leaves in the rules no position changes.
 * @param enough a margin that suffices: among the sets that reach it, the least work is taken; with
 *   Infinity the best margin is taken.
 * @param work only sets of exactly this work.
 */
export function complete(
  scenario: Scenario,
  view: View,
  comboMargins: readonly (readonly number[])[],
  fixedOf: (set: OptionSet) => number,
  enough: number,
  work: Work | undefined,
): Completions | undefined {
  const completionOf = (set: OptionSet): Completion => {
    let margin = fixedOf(set);
    let tightest = -1;
    view.open.forEach((group, g) => {
      const at = group.indexOf(set);
      const value = at < 0 ? Infinity : comboMargins[g]![at]!;
      if (value < margin) {
        margin = value;
        tightest = g;
      }
    });
    return { set, margin, tightest };
  };
  const lessWork: Better = (a, b) => {
    const work = compareWork(workOf(scenario, a.set), workOf(scenario, b.set));
    return work !== 0 ? work < 0 : a.margin > b.margin;
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
