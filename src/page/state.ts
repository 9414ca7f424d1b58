/**
 * What the page holds: where the engine is, with which options and cuts, how it is looked at, and what was
 * kept to compare. Never changed in place; a history of it gives undo and redo. Millimetres and radians.
 */

import { asItStands } from '../model/asked/cases.js';
import { isCompatible } from '../model/options.js';
import { COORDINATES } from '../model/scenario.js';
import type { Coordinate, OptionSet, Position, Scenario } from '../model/scenario.js';

export const LOOKS = ['side', 'top', 'front', 'turn'] as const;
/** Which way the large view looks; `turn` is the one in three dimensions. */
export type Looking = (typeof LOOKS)[number];

/** One place with what it takes. */
export interface Place {
  readonly position: Position;
  /** Of the file's choices. */
  readonly options: OptionSet;
  /** Millimetres cut, by trim of the file; 0 for none. */
  readonly depths: readonly number[];
}

/** A place kept to compare. */
export interface Kept extends Place {
  readonly name: string;
}

export interface State extends Place {
  readonly looking: Looking;
  readonly kept: readonly Kept[];
}

/** Where the page begins without an address: the bay as it stands, the engine in the middle of its ranges. */
export function startOf(s: Scenario): State {
  const middle = (c: Coordinate): number => (s.position[c].min + s.position[c].max) / 2;
  const position = {
    setback: middle('setback'),
    offset: middle('offset'),
    height: middle('height'),
    pitch: middle('pitch'),
  };
  return {
    position,
    options: asItStands(s).set,
    depths: s.trims.map(() => 0),
    looking: 'side',
    kept: [],
  };
}

/** A position held to the ranges of the file. */
export function heldInside(s: Scenario, position: Position): Position {
  const held = { ...position };
  for (const c of COORDINATES) {
    const { min, max } = s.position[c];
    held[c] = Math.min(max, Math.max(min, position[c]));
  }
  return held;
}

/**
 * The set with one choice changed. What the option needs comes with it; where it cannot stand with the
 * rest all the same, undefined.
 */
export function withOption(
  s: Scenario,
  set: OptionSet,
  choice: number,
  option: number,
): OptionSet | undefined {
  const next = [...set];
  const queue = [[choice, option] as const];
  const settled = new Set<number>();
  for (let at = queue.shift(); at; at = queue.shift()) {
    const [c, o] = at;
    if (settled.has(c)) continue;
    settled.add(c);
    next[c] = o;
    for (const need of s.choices[c]!.options[o]!.needs) {
      const needed = s.choices.findIndex(({ name }) => name === need.choice);
      const one = s.choices[needed]?.options.findIndex(({ name }) => name === need.option) ?? -1;
      if (one >= 0) queue.push([needed, one]);
    }
  }
  return isCompatible(s, next) ? next : undefined;
}

/** The state after the file was read anew: what is still there is kept, by name. */
export function carriedOver(from: Scenario, to: Scenario, state: State): State {
  const place = (one: Place): Place => ({
    position: heldInside(to, one.position),
    options: optionsCarried(from, to, one.options),
    depths: to.trims.map((trim) => {
      const before = from.trims.findIndex(
        ({ part, cut, over }) =>
          part === trim.part &&
          cut === trim.cut &&
          JSON.stringify(over) === JSON.stringify(trim.over),
      );
      return Math.min(trim.upTo, one.depths[before] ?? 0);
    }),
  });
  return {
    ...state,
    ...place(state),
    kept: state.kept.map((kept) => ({ ...place(kept), name: kept.name })),
  };
}

function optionsCarried(from: Scenario, to: Scenario, set: OptionSet): OptionSet {
  const standing = asItStands(to).set;
  const next = to.choices.map((choice, c) => {
    const before = from.choices.findIndex(({ name }) => name === choice.name);
    const called = from.choices[before]?.options[set[before]!]?.name;
    const option = choice.options.findIndex(({ name }) => name === called);
    return option < 0 ? standing[c]! : option;
  });
  return isCompatible(to, next) ? next : standing;
}
