/** Trims as choices beside those of the file, so that all that weighs options weighs cuts alike. */

import type { Choice, Option, Scenario, Trim } from './scenario.js';

/** The file's choices, then one for each trim, of a name that no file can hold: not cut, or cut. */
export interface Trimmed {
  readonly scenario: Scenario;
  /** The trim that each further choice stands for. */
  readonly trimOf: ReadonlyMap<number, Trim>;
}

/**
 * The scenario with a choice for every trim of its file.
 * @param depths millimetres, by trim; as deep as the file allows unless given.
 */
export function withTrims(
  s: Scenario,
  depths: readonly number[] = s.trims.map(({ upTo }) => upTo),
): Trimmed {
  const before = s.choices.length;
  const choices = s.trims.map((trim, t): Choice => {
    const depth = depths[t]!;
    const cut: Option = {
      ...NOTHING,
      name: 'cut',
      cuts: [{ trim, depth }],
      ...trimWork(trim, depth),
    };
    return { name: `\0trim ${t}`, options: [{ ...NOTHING, name: 'not cut' }, cut] };
  });
  const oneSide = s.oneSide && withTrims(s.oneSide, depths).scenario;
  return {
    scenario: { ...s, choices: [...s.choices, ...choices], ...(oneSide && { oneSide }) },
    trimOf: new Map(s.trims.map((trim, t) => [before + t, trim])),
  };
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
