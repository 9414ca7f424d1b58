/**
 * The state in the part of the address after `#`, so that a bookmark brings it back: lengths in the file's
 * units, pitch in degrees, options by name, so that it outlives changes to the file.
 */

import { asItStands } from '../model/asked/cases.js';
import { isCompatible } from '../model/options.js';
import type { OptionSet, Position, Scenario } from '../model/scenario.js';
import { heldInside, LOOKS, startOf } from './state.js';
import type { Kept, Looking, Place, State } from './state.js';

/** Before the name of a choice. */
const WITH = 'with ';
const DEGREE = Math.PI / 180;
/** Places kept that an address may hold: it comes from anyone. */
const MOST_KEPT = 12;

/** Without the `#`. */
export function addressOf(s: Scenario, state: State): string {
  const pairs = [...placePairs(s, state), ['look', state.looking]];
  for (const kept of state.kept) {
    pairs.push(['keep', packed([...placePairs(s, kept), ['name', kept.name]])]);
  }
  return packed(pairs);
}

/** The state that an address names, over the one the page begins with: what it does not say, or says wrongly, stays. */
export function fromAddress(s: Scenario, address: string): State {
  const start = startOf(s);
  const pairs = unpacked(address.replace(/^#/, ''));
  const looking = LOOKS.find((one) => one === valueOf(pairs, 'look')) ?? start.looking;
  const kept = pairs
    .filter(([key]) => key === 'keep')
    .slice(0, MOST_KEPT)
    .map(([, text]): Kept => {
      const own = unpacked(text);
      return { ...placeFrom(s, own, start), name: (valueOf(own, 'name') ?? '').slice(0, 80) };
    });
  return { ...placeFrom(s, pairs, start), looking: looking satisfies Looking, kept };
}

function placePairs(s: Scenario, { position, options, depths }: Place): string[][] {
  const { setback, offset, height, pitch } = position;
  const standing = asItStands(s).set;
  const unit = unitOf(s);
  return [
    ['at', [setback / unit, offset / unit, height / unit, pitch / DEGREE].map(number).join(',')],
    ...s.choices.flatMap((choice, c) =>
      options[c] === standing[c] ? [] : [[WITH + choice.name, choice.options[options[c]!]!.name]],
    ),
    ...(depths.some((depth) => depth > 0)
      ? [['cut', depths.map((depth) => number(depth / unit)).join(',')]]
      : []),
  ];
}

function placeFrom(s: Scenario, pairs: readonly Pair[], start: Place): Place {
  const unit = unitOf(s);
  const at = numbers(valueOf(pairs, 'at'));
  const scale = [unit, unit, unit, DEGREE];
  const read = (i: number, otherwise: number): number => {
    const value = at[i];
    return value === undefined || !Number.isFinite(value) ? otherwise : value * scale[i]!;
  };
  const position: Position = {
    setback: read(0, start.position.setback),
    offset: read(1, start.position.offset),
    height: read(2, start.position.height),
    pitch: read(3, start.position.pitch),
  };
  const cuts = numbers(valueOf(pairs, 'cut'));
  const depths = s.trims.map(({ upTo }, t) => {
    const depth = (cuts[t] ?? 0) * unit;
    return Number.isFinite(depth) ? Math.min(upTo, Math.max(0, depth)) : 0;
  });
  return { position: heldInside(s, position), options: optionsFrom(s, pairs, start), depths };
}

function optionsFrom(s: Scenario, pairs: readonly Pair[], start: Place): OptionSet {
  const set = [...start.options];
  for (const [key, text] of pairs) {
    if (!key.startsWith(WITH)) continue;
    const c = s.choices.findIndex(({ name }) => name === key.slice(WITH.length));
    const o = s.choices[c]?.options.findIndex(({ name }) => name === text) ?? -1;
    if (o >= 0) set[c] = o;
  }
  return isCompatible(s, set) ? set : start.options;
}

function unitOf(s: Scenario): number {
  return s.units === 'in' ? 25.4 : 1;
}

/** Short for what lies on a mark of a tape; to far below what a tape shows for what does not. */
function number(value: number): string {
  return String(Number(value.toFixed(10)));
}

function numbers(text: string | undefined): readonly number[] {
  return (text ?? '').split(',').map((one) => (one.trim() === '' ? NaN : Number(one)));
}

type Pair = readonly [string, string];

function packed(pairs: readonly (readonly string[])[]): string {
  return pairs.map((pair) => pair.map(encode).join('=')).join('&');
}

/** As an address may hold it, with what is read easily left as it is. */
function encode(text: string): string {
  return encodeURIComponent(text).replace(/%20/g, '+').replace(/%2C/g, ',');
}

function unpacked(text: string): Pair[] {
  return text.split('&').flatMap((piece): Pair[] => {
    const at = piece.indexOf('=');
    if (at < 0) return [];
    const [key, value] = [decode(piece.slice(0, at)), decode(piece.slice(at + 1))];
    return key === undefined || value === undefined ? [] : [[key, value]];
  });
}

function decode(text: string): string | undefined {
  try {
    return decodeURIComponent(text.replace(/\+/g, ' '));
  } catch {
    return undefined;
  }
}

function valueOf(pairs: readonly Pair[], key: string): string | undefined {
  return pairs.find(([one]) => one === key)?.[1];
}
