/** Which options of the choices that matter to a pair can stand together. */

import { narrow } from '../../model/options.js';
import type { OptionSet, Scenario } from '../../model/scenario.js';

export class Combinations {
  /** @param domains option indexes still allowed, per choice. */
  constructor(
    private readonly scenario: Scenario,
    private readonly domains: readonly (readonly number[])[],
  ) {}

  private readonly known = new Map<string, readonly (readonly number[])[]>();

  /** Every combination of allowed options of these choices that some compatible set extends. */
  of(choices: readonly number[]): readonly (readonly number[])[] {
    const key = choices.join();
    let all = this.known.get(key);
    if (!all) this.known.set(key, (all = [...this.extend(choices, [], this.domains)]));
    return all;
  }

  private *extend(
    choices: readonly number[],
    picked: readonly number[],
    domains: readonly (readonly number[])[],
  ): Generator<readonly number[]> {
    const choice = choices[picked.length];
    if (choice === undefined) {
      yield picked;
      return;
    }
    for (const option of domains[choice]!) {
      const decided = domains.map((domain, c) => (c === choice ? [option] : domain));
      const next = narrow(this.scenario, decided);
      if (next) yield* this.extend(choices, [...picked, option], next);
    }
  }

  /** A whole option set with these options picked. */
  setWith(choices: readonly number[], options: readonly number[]): OptionSet {
    const set = this.domains.map((domain) => domain[0] ?? 0);
    choices.forEach((choice, i) => (set[choice] = options[i]!));
    return set;
  }
}

/** Leave out the choices that make no difference to a pair, and the combos that then repeat. */
export function dropIdleChoices<C extends { readonly options: readonly number[] }>(
  choices: readonly number[],
  combos: readonly C[],
  print: (combo: C) => string,
): { choices: readonly number[]; combos: readonly C[] } {
  let keptChoices = [...choices];
  let kept = [...combos];
  for (const choice of choices) {
    const at = keptChoices.indexOf(choice);
    const merged = new Map<string, C>();
    let idle = true;
    for (const combo of kept) {
      const rest = combo.options.filter((_, i) => i !== at);
      const twin = merged.get(rest.join());
      if (!twin) merged.set(rest.join(), { ...combo, options: rest });
      else if (print(twin) !== print(combo)) idle = false;
    }
    if (idle) {
      keptChoices = keptChoices.filter((c) => c !== choice);
      kept = [...merged.values()];
    }
  }
  return { choices: keptChoices, combos: kept };
}
