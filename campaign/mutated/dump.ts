/** What was read, letter for letter; and where two trees differ. */

import type { Problem } from '../../src/model/text/problem.js';

interface Read {
  readonly scenario?: unknown;
  readonly readings?: unknown;
  readonly problems: readonly Problem[];
}

/** Numbers that JSON has no word for are told apart; what is said of the file counts as read too. */
export function dumpOf({ scenario, readings, problems }: Read): string {
  const said = problems.map(({ code, message, path }) => [code, message, path]);
  return JSON.stringify([scenario, readings, said], (_, value: unknown) =>
    typeof value === 'number' && !Number.isFinite(value) ? String(value) : value,
  );
}

/** `path: this -> that`, for every leaf that differs; what is empty, and what is not there, included. */
export function differences(a: unknown, b: unknown, path = ''): string[] {
  if (Object.is(a, b) || (a === 0 && b === 0)) return [];
  const both = [a, b].every((value) => typeof value === 'object' && value !== null);
  if (!both || Array.isArray(a) !== Array.isArray(b))
    return [`${path}: ${shown(a)} -> ${shown(b)}`];
  const [from, to] = [a as Record<string, unknown>, b as Record<string, unknown>];
  const keys = [...new Set([...Object.keys(from), ...Object.keys(to)])];
  const inside = keys.flatMap((key) => {
    const [here, there] = [from, to].map((one) => (Object.hasOwn(one, key) ? one[key] : undefined));
    return differences(here, there, `${path}/${key}`);
  });
  // Of the keys that the format has, any order will do; that of choices is the bay's own.
  const ordered = (one: object) => Object.keys(one).join('\n');
  if (!/^\/choices(\/[^/]*)?$/.test(path) || ordered(from) === ordered(to)) return inside;
  return [...inside, `${path}: in another order`];
}

function shown(value: unknown): string {
  return value === undefined ? 'nothing' : JSON.stringify(value).slice(0, 60);
}

/** Where a number that is none stands in what was measured; undefined where there is none. */
export function notANumber(value: unknown, path = ''): string | undefined {
  if (typeof value === 'number') return Number.isNaN(value) ? path : undefined;
  if (typeof value !== 'object' || value === null) return undefined;
  for (const [key, inner] of Object.entries(value)) {
    const found = notANumber(inner, `${path}/${key}`);
    if (found !== undefined) return found;
  }
  return undefined;
}
