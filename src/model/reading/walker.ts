/** Pairs of parts, under every set of options that matters to them. */

import { allDomains, choicesTouching, narrow, optionSets, partUnder } from '../options.js';
import type { OptionDomains } from '../options.js';
import { variantsOf } from '../part-history.js';
import { choicesRuling, pairRules } from '../precedence.js';
import type { PairRule } from '../precedence.js';
import type { OptionSet, Part, Rule, Scenario } from '../scenario.js';

/** Option sets looked at for one pair; a pair that hangs on more choices is looked at in part. */
const MAX_SETS = 512;

export interface Pair {
  readonly first: Part;
  readonly second: Part;
  readonly rules: readonly PairRule[];
  readonly ties: readonly (readonly [Rule, Rule])[];
}

/** Goes through the option sets in which a pair of parts stands together. */
export class PairWalker {
  private readonly open: OptionDomains;
  /** By the choices that matter to a pair, which many pairs share. */
  private readonly known = new Map<string, readonly OptionSet[]>();

  constructor(private readonly s: Scenario) {
    this.open = narrow(s, allDomains(s)) ?? [];
  }

  *pairs(a: string, b: string): Generator<Pair> {
    for (const set of this.sets(a, b)) {
      const first = partUnder(this.s, a, set)?.part;
      const second = partUnder(this.s, b, set)?.part;
      if (first === undefined || second === undefined) continue;
      yield { first, second, ...pairRules(this.s, first, second, set) };
    }
  }

  /** Whether the two ever stand together. */
  meet(a: string, b: string): boolean {
    return !this.pairs(a, b).next().done;
  }

  /** One whole compatible set for each combination of the options that matter to the pair. */
  private sets(a: string, b: string): readonly OptionSet[] {
    const ruling = variantsOf(this.s, a).flatMap((one) =>
      variantsOf(this.s, b).flatMap((other) => choicesRuling(this.s, one, other)),
    );
    const touching = [...choicesTouching(this.s, a), ...choicesTouching(this.s, b)];
    const matter = [...new Set([...touching, ...ruling])].sort((one, other) => one - other);
    const key = matter.join();
    const known = this.known.get(key) ?? [...this.compatible(matter)];
    this.known.set(key, known);
    return known;
  }

  private *compatible(matter: readonly number[]): Generator<OptionSet> {
    let left = MAX_SETS;
    for (const domains of this.combinations(matter, this.open)) {
      if (left-- === 0) return;
      const set = optionSets(this.s, domains).next();
      if (set.done !== true) yield set.value;
    }
  }

  private *combinations(choices: readonly number[], open: OptionDomains): Generator<OptionDomains> {
    const [choice, ...rest] = choices;
    if (choice === undefined) {
      yield open;
      return;
    }
    for (const option of open[choice] ?? []) {
      yield* this.combinations(
        rest,
        open.map((options, c) => (c === choice ? [option] : options)),
      );
    }
  }
}
