/** Changes to what a file says: values put in one another's place, keys renamed, references broken. */

import type { Random } from '../../tests/geometry/random.js';
import { below, oneOf } from './pick.js';
import { KEYS } from './tokens.js';

type Map = Record<string, unknown>;
type Path = readonly (string | number)[];

/** One value of the file and where it stands; never the file itself. */
interface Spot {
  readonly holder: Map | unknown[];
  readonly key: string | number;
  readonly path: Path;
  readonly value: unknown;
}

export interface Spoilt {
  readonly tree: unknown;
  /** A key that the format does not have was put where the format decides the keys. */
  readonly foreign?: Path;
}

function spotsOf(value: unknown, path: Path = []): Spot[] {
  if (typeof value !== 'object' || value === null) return [];
  const entries: [string | number, unknown][] = Array.isArray(value)
    ? [...value.entries()]
    : Object.entries(value);
  return entries.flatMap(([key, inner]) => {
    const at = [...path, key];
    return [{ holder: value as Map, key, path: at, value: inner }, ...spotsOf(inner, at)];
  });
}

function put({ holder, key }: Spot, value: unknown): void {
  (holder as Map)[key] = value;
}

/** A map with one key renamed, in the same place. */
function renamed(holder: Map, from: string, to: string): void {
  const entries = Object.entries(holder);
  for (const [key] of entries) delete holder[key];
  for (const [key, value] of entries) define(holder, key === from ? to : key, value);
}

/** Sets a key as a file does, `__proto__` too. */
function define(holder: Map, key: string, value: unknown): void {
  Object.defineProperty(holder, key, {
    value,
    enumerable: true,
    writable: true,
    configurable: true,
  });
}

const isMap = (value: unknown): value is Map =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Maps whose keys are names that the file's writer chose, by the end of their path. */
const NAMED: readonly RegExp[] = [
  /^(datums\/)?(engine|chassis)$/,
  /^(groups|choices|choices\/[^/]*|cases|cases\/[^/]*|adjusters)$/,
  /\/(replace|move|needs|rules out|adjusters|make|supports)$/,
  /\/(add|passages)\/(engine|chassis)$/,
  /^weight\/(in|out)$/,
];

/** Whether the format says which keys a map has. */
function isFormal(path: Path): boolean {
  const text = path.join('/');
  return !NAMED.some((pattern) => pattern.test(text));
}

const ODD: readonly unknown[] = [
  null, true, false, [], {}, '', ' ', -1, 0, 1, -0, NaN, Infinity, -Infinity, 1e300, 1e-300, 1e6, -1e6, 2 ** 53, 'yes', 'NaN',
  '1e999', '3 furlongs', '2 ft 3 in', '1/0', '0', '-3 5/8', '999 mm', [0, 0], [1, 0], [[0, 0, 0]], { x: [0, 1] }, { kind: 'block' }, 'x',
  'engine', 'chassis', 'constructor', '__proto__', 'toString', 'ignore', '\u202eevil', 'a\u0000b', '\ud83d\ude00', 'y'.repeat(5000),
  '2026-01-01', '0x10', '>= 3', [null], [[]], [{}], { '': 1 }, '9 ahead of axle', '3 +- 1/8', '3 +- 99',
]; // prettier-ignore

type TreeChange = (
  spots: readonly Spot[],
  random: Random,
  tree: unknown,
) => Path | undefined | void;

const numbers = (spots: readonly Spot[]): Spot[] =>
  spots.filter(({ value }) => typeof value === 'number');
const texts = (spots: readonly Spot[]): Spot[] =>
  spots.filter(({ value }) => typeof value === 'string');
const maps = (spots: readonly Spot[]): Spot[] => spots.filter(({ value }) => isMap(value));
const lists = (spots: readonly Spot[]): Spot[] => spots.filter(({ value }) => Array.isArray(value));

/** Does something to one of the spots, where there is any. */
function at(
  among: (spots: readonly Spot[]) => readonly Spot[],
  change: (spot: Spot, random: Random, spots: readonly Spot[]) => Path | undefined | void,
): TreeChange {
  return (spots, random) => {
    const all = among(spots);
    return all.length === 0 ? undefined : change(oneOf(random, all), random, spots);
  };
}

const any = (spots: readonly Spot[]): readonly Spot[] => spots;
const copy = (value: unknown): unknown => structuredClone(value);

export const TREE_CHANGES: Readonly<Record<string, TreeChange>> = {
  'an odd value': at(any, (spot, random) => put(spot, copy(oneOf(random, ODD)))),
  "another's value": at(any, (spot, random, spots) => put(spot, copy(oneOf(random, spots).value))),
  'values swapped': at(any, (spot, random, spots) => {
    const other = oneOf(random, spots);
    const [a, b] = [copy(spot.value), copy(other.value)];
    put(spot, b);
    put(other, a);
  }),
  'a list turned about': at(lists, ({ value }) => void (value as unknown[]).reverse()),
  'an item doubled': at(lists, ({ value }, random) => {
    const list = value as unknown[];
    if (list.length > 0) list.splice(below(random, list.length), 0, copy(oneOf(random, list)));
  }),
  'an item dropped': at(lists, ({ value }, random) => {
    const list = value as unknown[];
    list.splice(below(random, list.length), 1);
  }),
  'a list made long': at(lists, ({ value }, random) => {
    const list = value as unknown[];
    if (list.length > 0) for (let n = 0; n < 200; n++) list.push(copy(oneOf(random, list)));
  }),
  'a key dropped': at(any, ({ holder, key }) => {
    if (isMap(holder)) delete holder[key];
  }),
  'a key put in': at(maps, ({ value, path }, random) => {
    const key = oneOf(random, [
      'zzz',
      'colour',
      'box ',
      'Gap',
      'constructor',
      '__proto__',
      'toString',
      '',
      '0',
    ]);
    const map = value as Map;
    if (Object.hasOwn(map, key)) return undefined;
    define(map, key, oneOf<unknown>(random, [1, 'x', null, [], {}]));
    return isFormal(path) ? [...path, key] : undefined;
  }),
  'a key put in at the top': (_spots, _random, tree) => {
    define(tree as Map, 'colour', 'red');
    return ['colour'];
  },
  'a key of the format put in': at(maps, ({ value }, random) => {
    define(value as Map, oneOf(random, KEYS), oneOf<unknown>(random, [1, 'x', null, [0, 1], {}]));
  }),
  'a key renamed': at(any, ({ holder, key, path }, random) => {
    if (!isMap(holder) || typeof key !== 'string') return undefined;
    const to = random() < 0.5 ? `${key}s` : `${key.slice(0, 1)}${key.slice(2)}q`;
    if (Object.hasOwn(holder, to)) return undefined;
    renamed(holder, key, to);
    const around = path.slice(0, -1);
    return isFormal(around) ? [...around, to] : undefined;
  }),
  'a key moved': at(any, ({ holder, key, value }, random, spots) => {
    const to = maps(spots);
    if (!isMap(holder) || to.length === 0) return;
    delete holder[key];
    define(oneOf(random, to).value as Map, String(key), value);
  }),
  'a name broken': at(texts, (spot, random) => {
    const text = spot.value as string;
    put(
      spot,
      oneOf(random, [`${text}x`, text.slice(1), text.toUpperCase(), `${text} `, ` ${text}`, '']),
    );
  }),
  "another's name": at(texts, (spot, random, spots) =>
    put(spot, oneOf(random, texts(spots)).value),
  ),
  'a number scaled': at(numbers, (spot, random) =>
    put(
      spot,
      (spot.value as number) * oneOf(random, [-1, 0, 2, 10, 25.4, 1e-9, 1e6, 1 / 3, 1e300]),
    ),
  ),
  'a number nudged': at(numbers, (spot, random) =>
    put(spot, (spot.value as number) + oneOf(random, [1, -1, 1e-9, 1 / 64, 100, -100])),
  ),
  'a unit mixed in': at(numbers, (spot, random) =>
    put(
      spot,
      `${spot.value as number} ${oneOf(random, ['mm', 'in', 'ft', 'm', 'cm', 'lb', 'deg', '"'])}`,
    ),
  ),
  'a number as text': at(numbers, (spot) => put(spot, String(spot.value))),
  'a value wrapped': at(any, (spot, random) =>
    put(spot, random() < 0.5 ? [copy(spot.value)] : { x: copy(spot.value) }),
  ),
};

/** One change, to a copy of what a file says. */
export function spoiltTree(tree: unknown, change: TreeChange, random: Random): Spoilt {
  const own = copy(tree);
  const foreign = change(spotsOf(own), random, own);
  return { tree: own, ...(foreign && { foreign }) };
}
