import { maxOf } from '../../model/extremes.js';
import type { OptionSet } from '../../model/scenario.js';

/**
 * Which of a pair's combinations an option set picks: a function of the set that gives an index, or
 * -1 where the combination cannot be.
 * @param choices the choices that matter to the pair.
 * @param combos each combination's option for each of `choices`.
 */
export function comboIndex(
  choices: readonly number[],
  combos: readonly { readonly options: readonly number[] }[],
): (set: OptionSet) => number {
  if (choices.length === 0) return () => (combos.length > 0 ? 0 : -1);
  const sizes = choices.map((_, i) => 1 + maxOf(combos.map(({ options }) => options[i]!)));
  // Mixed radix: exact for as many combinations as a bay that compiles can have.
  const keyOf = (optionOf: (i: number) => number): number => {
    let key = 0;
    for (let i = 0; i < sizes.length; i++) {
      const option = optionOf(i);
      if (option >= sizes[i]!) return -1;
      key = key * sizes[i]! + option;
    }
    return key;
  };
  const byKey = new Map(combos.map(({ options }, i) => [keyOf((c) => options[c]!), i]));
  return (set) => byKey.get(keyOf((i) => set[choices[i]!]!)) ?? -1;
}
