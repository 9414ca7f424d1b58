import type { OptionSet } from '../model/scenario.js';

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
  const byKey = new Map(combos.map((combo, i) => [keyOf(combo.options), i]));
  const picked: number[] = choices.map(() => 0);
  return (set) => {
    for (let i = 0; i < choices.length; i++) picked[i] = set[choices[i]!]!;
    return byKey.get(keyOf(picked)) ?? -1;
  };
}

/** A number for a combination: options are few, so a base of 64 holds eight choices exactly. */
function keyOf(options: readonly number[]): number | string {
  if (options.length > 8 || options.some((option) => option >= 64)) return options.join();
  let key = 1;
  for (const option of options) key = key * 64 + option;
  return key;
}
