/** Every name a file gives: parts under any option, groups, datums. What the rest may refer to. */

import { KINDS } from '../kinds.js';
import type { Kind } from '../kinds.js';
import type { Path, RuleEnd, Scenario, Side } from '../scenario.js';
import type { RawOption, RawScenario } from '../schema.js';
import { readParts } from './parts.js';
import type { Drawn } from './parts.js';
import type { Reading } from './reading.js';

export interface Census {
  /** The file's own parts in order, mirror images after the part they mirror. */
  readonly base: readonly Drawn[];
  /** Parts that options add and replace, by the option's path. */
  readonly added: ReadonlyMap<RawOption, readonly Drawn[]>;
  readonly replaced: ReadonlyMap<RawOption, readonly Drawn[]>;
  /** Everything drawn under each name, the file's own first. */
  readonly parts: ReadonlyMap<string, readonly Drawn[]>;
  readonly groups: Scenario['groups'];
}

/** Where one option stands in the file. */
export interface OptionPlace {
  readonly choice: string;
  readonly option: string;
  readonly raw: RawOption;
  readonly path: Path;
}

/** Every option that is readable, in the file's order. */
export function optionPlaces(c: Reading, raw: RawScenario): readonly OptionPlace[] {
  return c.entries(raw.choices, ['choices']).flatMap(([choice, options]) =>
    c.entries(options ?? undefined, ['choices', choice]).flatMap(([option, given]) => {
      const readable = typeof given === 'object' && given !== null && !Array.isArray(given);
      const path = ['choices', choice, option];
      return readable ? [{ choice, option, raw: given, path }] : [];
    }),
  );
}

/** Reads all parts and groups, and says which names are given twice or stand for nothing. */
export function takeCensus(c: Reading, raw: RawScenario, options: readonly OptionPlace[]): Census {
  const parts = new Map<string, Drawn[]>();
  const put = (drawn: Drawn) => {
    const known = parts.get(drawn.part.name);
    if (known === undefined) parts.set(drawn.part.name, [drawn]);
    else known.push(drawn);
  };
  const base = (['engine', 'chassis'] as const)
    .flatMap((side) => readParts(c, raw[side], [side], () => side))
    .filter((drawn) => {
      const twice = parts.has(drawn.part.name);
      if (twice) sayTwice(c, drawn);
      else put(drawn);
      return !twice;
    });
  const added = new Map<RawOption, readonly Drawn[]>();
  for (const { raw: option, path } of options) {
    const read = (['engine', 'chassis'] as const).flatMap((side) =>
      readParts(c, option.add?.[side], [...path, 'add', side], () => side),
    );
    const kept: Drawn[] = [];
    for (const drawn of read) {
      if (kept.some(({ part }) => part.name === drawn.part.name)) sayTwice(c, drawn);
      else if (mayAdd(c, drawn, option, parts.get(drawn.part.name)?.[0])) kept.push(drawn);
    }
    kept.forEach(put);
    added.set(option, kept);
  }
  const replaced = new Map<RawOption, readonly Drawn[]>();
  for (const { raw: option, path } of options) {
    replaced.set(option, readReplaced(c, option, [...path, 'replace'], parts));
  }
  for (const drawn of [...replaced.values()].flat()) put(drawn);
  return { base, added, replaced, parts, groups: readGroups(c, raw, parts) };
}

function sayTwice(c: Reading, { part, path }: Drawn): void {
  c.say('duplicate', path, `there are two parts called '${part.name}'`, {
    expected: 'a name of its own',
    read: part.name,
    at: path.at(-1) === 'mirror' ? 'value' : 'key',
  });
}

/** An option may add a name that stands already only on the same side, and in its place. */
function mayAdd(c: Reading, drawn: Drawn, option: RawOption, known: Drawn | undefined): boolean {
  if (known === undefined) return true;
  const { part, path } = drawn;
  const own = known.path[0] !== 'choices';
  const removes = c.items(option.remove).includes(part.name);
  if (known.part.side === part.side && (!own || removes)) return true;
  const message = `there is a part called '${part.name}' already`;
  const expected = known.part.side === part.side ? 'it under replace' : 'a name of its own';
  c.say('duplicate', path, message, { expected, read: part.name, at: 'key' });
  return false;
}

function readReplaced(
  c: Reading,
  option: RawOption,
  path: Path,
  parts: ReadonlyMap<string, readonly Drawn[]>,
): readonly Drawn[] {
  const sideOf = (name: string): Side => parts.get(name)?.[0]!.part.side ?? 'engine';
  const kindOf = (name: string): Kind | undefined => parts.get(name)?.[0]!.part.kind;
  return readParts(c, option.replace, path, sideOf, kindOf).filter(({ part, path: at }) => {
    const known = parts.get(part.name);
    if (known === undefined) {
      c.say('unknown name', at, `there is no part called '${part.name}' to replace`, {
        ...nearestPart(c, part.name, parts),
        at: at.at(-1) === 'mirror' ? 'value' : 'key',
      });
      return false;
    }
    if (known[0]!.part.side === part.side) return true;
    const message = `'${part.name}' rides with the other side`;
    c.say('bad option', at, message, { expected: `a part of the ${part.side}` });
    return false;
  });
}

function nearestPart(c: Reading, name: string, parts: ReadonlyMap<string, unknown>) {
  const nearest = c.nearest(name, parts.keys());
  return { read: name, ...(nearest === undefined ? {} : { nearest }) };
}

function readGroups(
  c: Reading,
  raw: RawScenario,
  parts: ReadonlyMap<string, readonly Drawn[]>,
): Scenario['groups'] {
  return c.entries(raw.groups, ['groups']).map(([name, members]) => {
    const path = ['groups', name];
    const known: string[] = [];
    if (c.faulty(path)) return { name, parts: c.items(members).filter((one) => parts.has(one)) };
    if (members.length === 0) c.say('missing', path, `the group '${name}' is empty`);
    members.forEach((member, index) => {
      if (!parts.has(member)) {
        c.sayUnknown([...path, index], member, parts.keys(), 'a part');
      } else if (known.includes(member)) {
        c.say('duplicate', [...path, index], `'${member}' is in the group twice`);
      } else {
        known.push(member);
      }
    });
    return { name, parts: known };
  });
}

/** What a bare word names: a part, else a group, else a kind, else a side. */
export function levelOf(census: Census, word: string): RuleEnd['level'] | undefined {
  if (census.parts.has(word)) return 'part';
  if (census.groups.some((group) => group.name === word)) return 'group';
  if (KINDS.some((kind) => kind === word)) return 'kind';
  return word === 'engine' || word === 'chassis' ? 'side' : undefined;
}

/** Every word that a rule's end may be. */
export function endNames(census: Census): readonly string[] {
  const groups = census.groups.map((group) => group.name);
  return [...census.parts.keys(), ...groups, ...KINDS, 'engine', 'chassis'];
}
