/** Choices, their options, and everything an option does. */

import {
  allDomains,
  firstOptions,
  isCompatible,
  narrow,
  NO_EFFECT,
  optionSets,
} from '../options.js';
import type { Choice, Option, OptionRef, Path, Scenario, Vec3 } from '../scenario.js';
import type { RawOption, RawScenario } from '../schema.js';
import type { Census, OptionPlace } from './census.js';
import { readLimits } from './limits.js';
import type { Reading } from './reading.js';
import { readRules } from './rules.js';

interface Known {
  readonly census: Census;
  readonly datums: Scenario['datums'];
  readonly position: Partial<Scenario['position']>;
  readonly weighed: boolean;
}

/** Reads every choice in the file's order. */
export function readChoices(
  c: Reading,
  raw: RawScenario,
  places: readonly OptionPlace[],
  known: Known,
): readonly Choice[] {
  const choices = c.entries(raw.choices, ['choices']);
  const names = new Map(
    choices.map(([name, options]) => [
      name,
      c.entries(options ?? undefined, ['choices', name]).map(([option]) => option),
    ]),
  );
  return choices.map(([name]) => {
    const path = ['choices', name];
    const options = names.get(name)!;
    if (options.length === 0 && !c.faulty(path)) {
      c.say('missing', path, `the choice '${name}' has no options`);
    }
    return {
      name,
      options: options.map((option) => {
        const place = places.find((one) => one.choice === name && one.option === option);
        return place === undefined
          ? { ...NO_EFFECT, name: option }
          : readOption(c, place, names, known);
      }),
    };
  });
}

function readOption(
  c: Reading,
  { choice, option, raw, path }: OptionPlace,
  names: ReadonlyMap<string, readonly string[]>,
  known: Known,
): Option {
  const { census } = known;
  const origin = { from: 'option', choice, option } as const;
  const needs = readRefs(c, raw.needs, [...path, 'needs'], choice, option, names);
  const rulesOut = readRefs(c, raw['rules out'], [...path, 'rules out'], choice, option, names);
  for (const ref of needs.filter((need) => rulesOut.some((out) => same(out, need)))) {
    const message = `'${option}' both needs and rules out '${ref.option}'`;
    c.say('excluded', [...path, 'needs', ref.choice], message);
  }
  return {
    name: option,
    remove: readRemove(c, raw, [...path, 'remove'], census),
    add: (census.added.get(raw) ?? []).map(({ part }) => part),
    replace: (census.replaced.get(raw) ?? []).map(({ part }) => part),
    move: readMoves(c, raw, [...path, 'move'], census),
    rules: readRules(c, raw.rules, [...path, 'rules'], census, origin),
    limits: readLimits(c, raw.limits, [...path, 'limits'], known),
    needs,
    rulesOut,
    hours: readWork(c, raw.hours, [...path, 'hours']),
    cost: readWork(c, raw.cost, [...path, 'cost']),
  };
}

/** Hours or money: 0 or more, 0 when not given. */
export function readWork(c: Reading, raw: number | undefined, path: Path): number {
  if (raw === undefined || c.faulty(path)) return 0;
  if (raw < 0) c.say('bad number', path, `${String(path.at(-1))} cannot be less than 0`);
  return raw;
}

/** The parts a name stands for: a part, else the members of a group; says when neither. */
function partsNamed(c: Reading, name: string, path: Path, census: Census): readonly string[] {
  if (census.parts.has(name)) return [name];
  const group = census.groups.find((one) => one.name === name);
  if (group !== undefined) return group.parts;
  const known = [...census.parts.keys(), ...census.groups.map((one) => one.name)];
  c.sayUnknown(path, name, known, 'a part or a group');
  return [];
}

function readRemove(c: Reading, raw: RawOption, path: Path, census: Census): readonly string[] {
  if (c.faulty(path)) return [];
  return c.items(raw.remove).flatMap((name, i) => partsNamed(c, name, [...path, i], census));
}

function readMoves(c: Reading, raw: RawOption, path: Path, census: Census): Option['move'] {
  return c.entries(raw.move, path).flatMap(([name, by]) => {
    const at = [...path, name];
    const parts = partsNamed(c, name, at, census);
    if (c.faulty(at)) return [];
    const axes = (['x', 'y', 'z'] as const).filter((axis) => by[axis] !== undefined);
    if (axes.length === 0) {
      c.say('missing', at, `'${name}' is moved by nothing`, { expected: 'x, y or z' });
    }
    const move = new Map(axes.map((axis) => [axis, c.length(by[axis]!, [...at, axis]) ?? 0]));
    const sum: Vec3 = [move.get('x') ?? 0, move.get('y') ?? 0, move.get('z') ?? 0];
    return parts.map((part) => ({ part, by: sum }));
  });
}

function readRefs(
  c: Reading,
  raw: Readonly<Record<string, string>> | undefined,
  path: Path,
  ownChoice: string,
  ownOption: string,
  names: ReadonlyMap<string, readonly string[]>,
): readonly OptionRef[] {
  return c.entries(raw, path).flatMap(([choice, option]) => {
    const at = [...path, choice];
    if (c.faulty(at)) return [];
    const options = names.get(choice);
    if (options === undefined) {
      const nearest = c.nearest(choice, names.keys());
      c.say('unknown name', at, `there is no choice called '${choice}'`, {
        read: choice,
        expected: [...names.keys()].join(', '),
        ...(nearest === undefined ? {} : { nearest }),
        at: 'key',
      });
      return [];
    }
    if (!options.includes(option)) {
      c.sayUnknown(at, option, options, `an option of '${choice}': ${options.join(', ')}`);
      return [];
    }
    const needs = path.at(-1) === 'needs';
    if (choice === ownChoice && (needs ? option !== ownOption : option === ownOption)) {
      const message = `'${ownOption}' can never be chosen: one choice takes one option`;
      c.say('excluded', at, message, { expected: 'an option of another choice' });
      return [];
    }
    return [{ choice, option }];
  });
}

function same(a: OptionRef, b: OptionRef): boolean {
  return a.choice === b.choice && a.option === b.option;
}

/**
 * Says which options can never be chosen, or that nothing goes together at all; false then, and
 * for a choice without options, which has been said.
 */
export function sayExclusions(c: Reading, s: Scenario): boolean {
  if (s.choices.some(({ options }) => options.length === 0)) return false;
  const all = narrow(s, allDomains(s));
  if (all === undefined || optionSets(s, all).next().done === true) {
    const message = 'the options exclude each other: no set of them goes together';
    c.say('excluded', ['choices'], message, { at: 'key', read: 'choices' });
    return false;
  }
  s.choices.forEach((choice, at) => {
    choice.options.forEach((option, index) => {
      const pinned = all.map((open, other) => (other === at ? [index] : open));
      const never = !all[at]!.includes(index) || optionSets(s, pinned).next().done === true;
      if (!never) return;
      const path = ['choices', choice.name, option.name];
      // What it needs and rules out has been said to contradict itself.
      if (c.problems.some((one) => one.code === 'excluded' && startsWith(one.path, path))) return;
      const message = `'${option.name}' can never be chosen beside the options of other choices`;
      c.say('excluded', path, message, { severity: 'warning', at: 'key', read: option.name });
    });
  });
  if (!isCompatible(s, firstOptions(s))) {
    const message = 'the first options, the bay as it stands, do not go together';
    c.say('excluded', ['choices'], message, { severity: 'warning', at: 'key', read: 'choices' });
  }
  return true;
}

function startsWith(path: Path, start: Path): boolean {
  return start.every((key, index) => path[index] === key);
}
