/**
 * Cases to compare: named changes, each laid over the bay as it stands. The options of a case bring along
 * what they need; where they cannot stand with the rest as it is, the case says with which.
 */

import { domainsByName } from './options-by-name.js';
import { firstOptions, isCompatible, optionSets } from '../options.js';
import { pinProblems } from './pins.js';
import type { Problem } from '../text/problem.js';
import { COORDINATES } from '../scenario.js';
import type { Coordinate, OptionRef, OptionSet, Range, Scenario } from '../scenario.js';
import type { Wants } from './wants.js';

/** Two options that cannot stand together: `one` needs another than `other`, or rules it out. */
export interface Clash {
  readonly one: OptionRef;
  readonly other: OptionRef;
}

export interface Case {
  readonly name: string;
  readonly set: OptionSet;
  /** Options that no one named: another needs them. */
  readonly brought: readonly OptionRef[];
  /** Why the set cannot stand. */
  readonly clash?: Clash;
  /** Millimetres and radians, inside the file's ranges. */
  readonly ranges: Readonly<Partial<Record<Coordinate, Range>>>;
  /** Millimetres that every rule must leave for the case to fit. */
  readonly margin: number;
}

/** The bay as it stands; where its options do not go together, the first in the file's order that do. */
export function asItStands(s: Scenario): Case {
  const first = optionSets(s).next();
  const set = first.done === true ? firstOptions(s) : first.value;
  return { name: 'as it stands', set, brought: [], ranges: {}, margin: 0 };
}

/** Every other option by itself. */
export function optionCases(s: Scenario): Case[] {
  const { set } = asItStands(s);
  return s.choices.flatMap((choice, c) =>
    choice.options.flatMap((option, o) => {
      if (o === set[c]) return [];
      const options = [{ choice: choice.name, option: option.name }];
      return [caseOf(s, `${choice.name}: ${option.name}`, { ranges: {}, options })];
    }),
  );
}

/**
 * Lays wishes over the bay as it stands. Their options must be known and go together, and their ranges
 * meet the file's: see `caseProblems`.
 */
export function caseOf(s: Scenario, name: string, wants: Wants): Case {
  const { set: base } = asItStands(s);
  const set = [...base];
  const brought: OptionRef[] = [];
  const settled = new Set<number>();
  const queue = [...wants.options];
  const named = queue.length;
  for (let n = 0; n < queue.length; n++) {
    const ref = queue[n]!;
    const c = s.choices.findIndex((choice) => choice.name === ref.choice);
    const option = s.choices[c]!.options.findIndex((one) => one.name === ref.option);
    // What is named first stands; a later need that disagrees shows up as a clash.
    if (settled.has(c)) continue;
    settled.add(c);
    if (n >= named && set[c] !== option) brought.push(ref);
    set[c] = option;
    queue.push(...s.choices[c]!.options[option]!.needs);
  }
  const clash = isCompatible(s, set) ? undefined : clashIn(s, set);
  return {
    name,
    set,
    brought,
    ...(clash && { clash }),
    ranges: narrowed(s, wants),
    margin: wants.margin ?? 0,
  };
}

/**
 * What is wrong with wishes as a case: options that are not there (with the nearest) or cannot go
 * together whatever the others are, and ranges outside the file's. Sizes are told in `unit`.
 */
export function caseProblems(s: Scenario, wants: Wants, unit: 'in' | 'mm'): readonly Problem[] {
  const { problems } = domainsByName(s, wants.options);
  const outside = COORDINATES.flatMap((name) => {
    const range = wants.ranges[name];
    const { min, max } = s.position[name];
    if (range === undefined || (range.min <= max && range.max >= min)) return [];
    const wished = range.min > max ? range.min : range.max;
    return pinProblems(s.position, { [name]: wished }, unit).map((problem) => ({
      ...problem,
      code: 'bad wish' as const,
      message: `${name} is wished for outside the range that the file gives`,
    }));
  });
  return [...problems, ...outside];
}

function narrowed(s: Scenario, { ranges }: Wants): Case['ranges'] {
  const inside: Partial<Record<Coordinate, Range>> = {};
  for (const name of COORDINATES) {
    const range = ranges[name];
    if (range === undefined) continue;
    const { min, max } = s.position[name];
    inside[name] = { min: Math.max(min, range.min), max: Math.min(max, range.max) };
  }
  return inside;
}

/** The first two options of a set that cannot stand together, in the file's order. */
function clashIn(s: Scenario, set: OptionSet): Clash | undefined {
  const chosen = s.choices.map((choice, c) => ({
    choice: choice.name,
    option: choice.options[set[c]!]!,
  }));
  for (const { choice, option } of chosen) {
    for (const other of chosen) {
      const needs = option.needs.some(
        (need) => need.choice === other.choice && need.option !== other.option.name,
      );
      const out = option.rulesOut.some(
        (ref) => ref.choice === other.choice && ref.option === other.option.name,
      );
      if (needs || out) {
        return {
          one: { choice, option: option.name },
          other: { choice: other.choice, option: other.option.name },
        };
      }
    }
  }
  return undefined;
}
