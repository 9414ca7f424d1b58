/**
 * What a set of chosen options makes of the bay: which parts stand, moved by how much, at what price,
 * and which options can go together at all.
 *
 * Order of effects: parts are added, then replaced, then removed, whatever the order of the choices;
 * cuts come next, and moves come last and sum. An option that names the same part under `remove` and `add` puts another
 * one in its place.
 */

import { cutPart, takenOff } from './solids/cut.js';
import { historyOf } from './part-history.js';
import type { Cut, Option, OptionSet, Part, Scenario, Side, Solid, Vec3 } from './scenario.js';

/** A part as some option set has it, and the sum of the chosen options' moves, in its own frame. */
export interface PartInPlace {
  readonly part: Part;
  /** Millimetres, in the frame of the part's side. */
  readonly move: Vec3;
}

/** What an option does that does nothing. */
export const NO_EFFECT: Omit<Option, 'name'> = {
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

/** The options still open in each choice, as indexes in the order of `Scenario.choices`. */
export type OptionDomains = readonly (readonly number[])[];

/** The bay as it stands: the first option of every choice. */
export function firstOptions(s: Scenario): OptionSet {
  return s.choices.map(() => 0);
}

/** Every option of every choice. */
export function allDomains(s: Scenario): OptionDomains {
  return s.choices.map((choice) => choice.options.map((_, index) => index));
}

/** The options that a set chooses, in the order of the choices. */
function chosenOptions(s: Scenario, set: OptionSet): readonly Option[] {
  return s.choices.map((choice, c) => choice.options[set[c]!]!);
}

/** Every chosen option's needs are met, and none rules another out (either way round). */
export function isCompatible(s: Scenario, set: OptionSet): boolean {
  return set.every((option, c) => set.every((other, d) => d > c || agree(s, c, option, d, other)));
}

/** Hours and money of all chosen options together. */
export function workOf(s: Scenario, set: OptionSet): { hours: number; cost: number } {
  let hours = 0;
  let cost = 0;
  for (const option of chosenOptions(s, set)) {
    hours += option.hours;
    cost += option.cost;
  }
  return { hours, cost };
}

/** The part of this name under an option set, or undefined when it does not stand there. */
export function partUnder(s: Scenario, name: string, set: OptionSet): PartInPlace | undefined {
  const found = uncutUnder(s, name, set);
  return found && { part: cutPart(found.part, found.cuts, s.position), move: found.move };
}

/** The sum of the chosen options' moves of a part, in its own frame, or undefined when it does not stand there. */
export function moveUnder(s: Scenario, name: string, set: OptionSet): Vec3 | undefined {
  return uncutUnder(s, name, set)?.move;
}

/** What the cuts of an option set take off a part, in the part's own frame, before its `move`. */
export function takenOffUnder(s: Scenario, name: string, set: OptionSet): readonly Solid[] {
  const found = uncutUnder(s, name, set);
  return found === undefined ? [] : takenOff(found.part, found.cuts, s.position);
}

function uncutUnder(
  s: Scenario,
  name: string,
  set: OptionSet,
): (PartInPlace & { readonly cuts: readonly Cut[] }) | undefined {
  const history = historyOf(s).get(name);
  if (history === undefined) return undefined;
  let added = history.base;
  let replaced: Part | undefined;
  let removed = false;
  const move: [number, number, number] = [0, 0, 0];
  const cuts: Cut[] = [];
  for (const [c, effects] of history.effects) {
    const effect = effects.get(set[c]!);
    if (effect === undefined) continue;
    if (effect.add !== undefined) added = effect.add;
    else if (effect.remove) removed = true;
    if (effect.replace !== undefined) replaced = effect.replace;
    for (const axis of [0, 1, 2] as const) move[axis] += effect.move[axis];
    cuts.push(...effect.cuts);
  }
  if (removed || added === undefined) return undefined;
  return { part: replaced ?? added, move, cuts };
}

/** The parts whose sizes are guessed, of those that stand under an option set. */
export function guessedParts(s: Scenario, set: OptionSet): readonly string[] {
  return partNames(s).filter((name) => partUnder(s, name, set)?.part.guess === true);
}

/** Every part that stands under any option, in the document's order, each name once. */
export function partNames(s: Scenario): readonly string[] {
  return [...historyOf(s)]
    .filter(([, history]) => history.side !== undefined)
    .map(([name]) => name);
}

/**
 * The side a part rides with.
 * @throws RangeError for a name that stands under no option: a broken invariant, not a bad file.
 */
export function sideOf(s: Scenario, name: string): Side {
  const side = historyOf(s).get(name)?.side;
  if (side === undefined) throw new RangeError(`no part is called '${name}'`);
  return side;
}

/** Indexes of the choices any option of which adds, removes, replaces or moves the part. */
export function choicesTouching(s: Scenario, name: string): readonly number[] {
  return [...(historyOf(s).get(name)?.effects.keys() ?? [])];
}

/**
 * Every compatible option set, the last choice turning fastest.
 * @param allowed the options to choose from in each choice; all of them unless given.
 */
export function* optionSets(
  s: Scenario,
  allowed: OptionDomains = allDomains(s),
): Generator<OptionSet> {
  yield* extend(s, allowed, []);
}

/**
 * Takes out every option that no open option of some other choice can stand beside, until nothing
 * changes (arc consistency). Undefined when a choice is left with none. What is left may still
 * hold no compatible set, so check complete sets with `isCompatible`.
 */
export function narrow(s: Scenario, domains: OptionDomains): number[][] | undefined {
  const open = domains.map((options) => [...options]);
  const others = open.map((_, c) => c);
  for (let changed = true; changed;) {
    changed = false;
    for (const c of others) {
      const supported = open[c]!.filter((option) =>
        others.every((d) =>
          d === c
            ? agree(s, c, option, c, option)
            : open[d]!.some((other) => agree(s, c, option, d, other)),
        ),
      );
      if (supported.length === 0) return undefined;
      if (supported.length < open[c]!.length) {
        open[c] = supported;
        changed = true;
      }
    }
  }
  return open;
}

/** Whether option `o` of choice `c` can stand beside option `p` of choice `d`. */
function agree(s: Scenario, c: number, o: number, d: number, p: number): boolean {
  return accepts(s, c, o, d, p) && accepts(s, d, p, c, o);
}

function accepts(s: Scenario, c: number, o: number, d: number, p: number): boolean {
  const asked = s.choices[c]!.options[o]!;
  const choice = s.choices[d]!.name;
  const option = s.choices[d]!.options[p]!.name;
  return (
    asked.needs.every((need) => need.choice !== choice || need.option === option) &&
    !asked.rulesOut.some((out) => out.choice === choice && out.option === option)
  );
}

function* extend(s: Scenario, allowed: OptionDomains, begun: OptionSet): Generator<OptionSet> {
  const c = begun.length;
  if (c === s.choices.length) {
    yield begun;
    return;
  }
  for (const option of allowed[c]!) {
    const goes = agree(s, c, option, c, option) && begun.every((o, d) => agree(s, c, option, d, o));
    if (goes) yield* extend(s, allowed, [...begun, option]);
  }
}
