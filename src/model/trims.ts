/** Trims as choices beside those of the file, so that all that weighs options weighs cuts alike. */

import type { Choice, Option, Scenario, Trim } from './scenario.js';

/**
 * The scenario with a choice for every trim of its file after its own choices, of names that no file can
 * hold: not cut, or cut.
 * @param depths millimetres, by trim; as deep as the file allows unless given.
 */
export function withTrims(
  s: Scenario,
  depths: readonly number[] = s.trims.map(({ upTo }) => upTo),
): Scenario {
  const choices = s.trims.map((trim, t): Choice => {
    const depth = depths[t]!;
    const cuts = [{ trim, depth }];
    const cut: Option = { ...NOTHING, name: 'cut', cuts, ...trimWork(trim, depth) };
    return { name: `\0trim ${t}`, options: [{ ...NOTHING, name: 'not cut' }, cut] };
  });
  const oneSide = s.oneSide && withTrims(s.oneSide, depths);
  return { ...s, choices: [...s.choices, ...choices], ...(oneSide && { oneSide }) };
}

/** Hours and money of a cut so deep; nothing for none. */
export function trimWork(trim: Trim, depth: number): { hours: number; cost: number } {
  if (depth <= 0) return { hours: 0, cost: 0 };
  const { hours, cost, plus } = trim;
  const times = plus === undefined ? 0 : depth / plus.per;
  return { hours: hours + times * (plus?.hours ?? 0), cost: cost + times * (plus?.cost ?? 0) };
}

const NOTHING: Option = {
  name: '',
  remove: [],
  add: [],
  replace: [],
  move: [],
  rules: [],
  limits: [],
  needs: [],
  rulesOut: [],
  hours: 0,
  cost: 0,
};
