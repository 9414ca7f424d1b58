/** Trims as choices beside those of the file, so that all that weighs options weighs cuts alike. */

import { NO_EFFECT } from './options.js';
import type { Choice, Option, Scenario, Trim } from './scenario.js';
import { exactTape } from './text/tape.js';
import type { Units } from './text/tape.js';

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
    const cut: Option = { ...NO_EFFECT, name: 'cut', cuts, ...trimWork(trim, depth) };
    return { name: `\0trim ${t}`, options: [{ ...NO_EFFECT, name: 'not cut' }, cut] };
  });
  const oneSide = s.oneSide && withTrims(s.oneSide, depths);
  return { ...s, choices: [...s.choices, ...choices], ...(oneSide && { oneSide }) };
}

/**
 * The scenario with a choice for every trim named, between no cut and one so deep, told in words; what
 * is to be done before cutting is for the caller to say.
 * @param depths millimetres, by the trim's index in the file.
 */
export function withCutsOf(
  s: Scenario,
  depths: ReadonlyMap<number, number>,
  units: Units,
): Scenario {
  const taken = new Set(s.choices.map(({ name }) => name));
  const choices = [...depths].map(([t, depth]): Choice => {
    const name = cutName(t, taken);
    return {
      name,
      options: [{ ...NO_EFFECT, name: 'none' }, cutOption(s.trims[t]!, depth, units, '')],
    };
  });
  return { ...s, choices: [...s.choices, ...choices] };
}

/** Steps from no cut to the deepest, where cuts stand among options: quarters of it, on tape marks. */
const STEPS = 4;

/**
 * The scenario with a choice for every trim, its options named in words: no cut, or quarters of the deepest, each
 * rounded up to a tape mark.
 */
export function withCutSteps(s: Scenario, units: Units): Scenario {
  const mark = units === 'in' ? 25.4 / 16 : 1;
  const taken = new Set(s.choices.map(({ name }) => name));
  const choices = s.trims.map((trim, t): Choice => {
    const name = cutName(t, taken);
    const depths = Array.from({ length: STEPS }, (_, i) =>
      Math.min(trim.upTo, mark * Math.ceil(((i + 1) * trim.upTo) / STEPS / mark - 1e-9)),
    );
    const cuts = [...new Set(depths)].map((depth) => cutOption(trim, depth, units));
    return { name, options: [{ ...NO_EFFECT, name: 'none' }, ...cuts] };
  });
  return { ...s, choices: [...s.choices, ...choices] };
}

function cutName(trim: number, taken: ReadonlySet<string>): string {
  let name = `cut ${trim + 1}`;
  while (taken.has(name)) name = `trim ${name}`;
  return name;
}

function cutOption(
  trim: Trim,
  depth: number,
  units: Units,
  note = ' (measure again before cutting)',
): Option {
  const deep = `${trim.part} ${exactTape(depth, units)} ${trim.cut}`;
  return {
    ...NO_EFFECT,
    name: deep + note,
    cuts: [{ trim, depth }],
    ...trimWork(trim, depth),
  };
}

/** Hours and money of a cut so deep; nothing for none. */
export function trimWork(trim: Trim, depth: number): { hours: number; cost: number } {
  if (depth <= 0) return { hours: 0, cost: 0 };
  const { hours, cost, plus } = trim;
  const times = plus === undefined ? 0 : depth / plus.per;
  return { hours: hours + times * (plus?.hours ?? 0), cost: cost + times * (plus?.cost ?? 0) };
}
