/** Each part through all options: what the file draws, and what any option does to it. */

import type { Cut, Part, Scenario, Side } from './scenario.js';

/** What one option does to one part. */
interface Effect {
  add?: Part;
  replace?: Part;
  remove: boolean;
  move: [number, number, number];
  readonly cuts: Cut[];
}

/** A part through all options: as drawn, and by choice and option what is done to it. */
export interface History {
  base?: Part;
  side?: Side;
  readonly effects: Map<number, Map<number, Effect>>;
}

const histories = new WeakMap<Scenario, Map<string, History>>();

/** Every name that any option or the file itself speaks of, in the document's order; worked out once. */
export function historyOf(s: Scenario): ReadonlyMap<string, History> {
  let history = histories.get(s);
  if (history === undefined) {
    history = readHistory(s);
    histories.set(s, history);
  }
  return history;
}

/** A part as the file draws it, and as any option adds or replaces it. */
export function variantsOf(s: Scenario, name: string): readonly Part[] {
  const history = historyOf(s).get(name);
  const effects = [...(history?.effects.values() ?? [])].flatMap((byOption) => [
    ...byOption.values(),
  ]);
  const parts = [history?.base, ...effects.flatMap(({ add, replace }) => [add, replace])];
  return parts.filter((part): part is Part => part !== undefined);
}

function readHistory(s: Scenario): Map<string, History> {
  const all = new Map<string, History>();
  const of = (name: string): History => {
    let history = all.get(name);
    if (history === undefined) all.set(name, (history = { effects: new Map() }));
    return history;
  };
  for (const part of s.parts) {
    of(part.name).base = part;
    of(part.name).side = part.side;
  }
  s.choices.forEach((choice, c) => {
    choice.options.forEach((option, o) => {
      const effectOn = (name: string): Effect => {
        const { effects } = of(name);
        if (!effects.has(c)) effects.set(c, new Map());
        const byOption = effects.get(c)!;
        if (!byOption.has(o)) byOption.set(o, { remove: false, move: [0, 0, 0], cuts: [] });
        return byOption.get(o)!;
      };
      for (const part of option.add) {
        effectOn(part.name).add = part;
        of(part.name).side ??= part.side;
      }
      for (const part of option.replace) effectOn(part.name).replace = part;
      for (const name of option.remove) effectOn(name).remove = true;
      for (const cut of option.cuts ?? []) effectOn(cut.trim.part).cuts.push(cut);
      for (const { part, by } of option.move) {
        for (const name of membersOf(s, part)) {
          const { move } = effectOn(name);
          for (const axis of [0, 1, 2] as const) move[axis] += by[axis];
        }
      }
    });
  });
  return all;
}

/** A group's members, or the part of that name: a part goes before a group. */
function membersOf(s: Scenario, name: string): readonly string[] {
  const isPart =
    s.parts.some((part) => part.name === name) ||
    s.choices.some((choice) =>
      choice.options.some((option) => option.add.some((part) => part.name === name)),
    );
  const group = isPart ? undefined : s.groups.find((candidate) => candidate.name === name);
  return group?.parts ?? [name];
}
