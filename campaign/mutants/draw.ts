/** What may be changed in the sources, one small change at a time, and a draw from it. */

import { readFileSync } from 'node:fs';
import { Instrumenter, type InstrumenterOptions } from '@stryker-mutator/instrumenter';
import { caseSeed } from '../seeds.js';

/** One change: the text between two offsets of a file gives way to another. */
export interface Mutant {
  readonly file: string;
  /** Line in the file, from 1. */
  readonly line: number;
  /** What sort of change, in the words of the package that makes it. */
  readonly sort: string;
  readonly from: number;
  readonly to: number;
  readonly was: string;
  readonly becomes: string;
  /** Where it is, as the package counts: lines and columns from 0. */
  readonly location: Location;
}

interface Location {
  readonly start: { readonly line: number; readonly column: number };
  readonly end: { readonly line: number; readonly column: number };
}

const OPTIONS: InstrumenterOptions = {
  excludedMutations: [],
  plugins: null,
  ignorers: [],
  noHeader: true,
};

const QUIET = {
  isTraceEnabled: () => false,
  isDebugEnabled: () => false,
  isInfoEnabled: () => false,
  isWarnEnabled: () => false,
  isErrorEnabled: () => false,
  isFatalEnabled: () => false,
  trace: () => undefined,
  debug: () => undefined,
  info: () => undefined,
  warn: () => undefined,
  error: () => undefined,
  fatal: () => undefined,
};

/** Replacements that are whole statements or parts of a list, and need no brackets. */
const BARE = new Set(['BlockStatement', 'StringLiteral', 'ObjectLiteral', 'ArrayDeclaration']);

/** A label of a switch whose statements are taken away. */
const LABEL = /^(case\b|default:)/;

/** Every change that can be made in these files. */
export async function allMutants(files: readonly string[]): Promise<Mutant[]> {
  const texts = new Map(files.map((file) => [file, readFileSync(file, 'utf8')]));
  const made = await new Instrumenter(QUIET).instrument(
    files.map((name) => ({ name, mutate: true, content: texts.get(name)! })),
    OPTIONS,
  );
  return made.mutants.map((mutant) => {
    const text = texts.get(mutant.fileName)!;
    const starts = lineStarts(text);
    const { start, end } = mutant.location;
    const from = starts[start.line]! + start.column;
    const to = starts[end.line]! + end.column;
    const { mutatorName: sort, replacement } = mutant;
    return {
      file: mutant.fileName,
      line: start.line + 1,
      sort,
      from,
      to,
      was: text.slice(from, to),
      becomes: BARE.has(sort) || LABEL.test(replacement) ? replacement : `(${replacement})`,
      location: { start, end },
    };
  });
}

/** The text of a file with one change made. */
export function changed(text: string, { from, to, becomes }: Mutant): string {
  return text.slice(0, from) + becomes + text.slice(to);
}

/**
 * The texts of these changes' files, counting which places are reached; and for each number that they count
 * under, the changes of that place.
 */
export async function watched(
  drawn: readonly Mutant[],
): Promise<{ texts: Map<string, string>; numbers: Map<string, readonly Mutant[]> }> {
  const files = [...new Set(drawn.map(({ file }) => file))];
  // Several changes may be of one place.
  const at = new Map<string, Mutant[]>();
  for (const mutant of drawn) {
    const key = keyOf(mutant.file, mutant.location);
    at.set(key, [...(at.get(key) ?? []), mutant]);
  }
  const made = await new Instrumenter(QUIET).instrument(
    files.map((name) => ({
      name,
      mutate: drawn.filter(({ file }) => file === name).map(({ location }) => location),
      content: readFileSync(name, 'utf8'),
    })),
    { ...OPTIONS, noHeader: false },
  );
  const numbers = new Map<string, readonly Mutant[]>();
  for (const mutant of made.mutants) {
    const found = at.get(keyOf(mutant.fileName, mutant.location));
    if (found !== undefined) numbers.set(mutant.id, found);
  }
  return { texts: new Map(made.files.map(({ name, content }) => [name, content])), numbers };
}

function keyOf(file: string, { start, end }: Location): string {
  return `${file}:${start.line}:${start.column}-${end.line}:${end.column}`;
}

/** `count` of the list, each as likely as any other; a larger draw of the same seed begins with a smaller one. */
export function draw<T>(list: readonly T[], count: number, seed: number): T[] {
  return list
    .map((item, index) => ({ item, turn: caseSeed('mutants', seed, index) }))
    .sort((a, b) => a.turn - b.turn)
    .slice(0, count)
    .map(({ item }) => item);
}

function lineStarts(text: string): number[] {
  const starts = [0];
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return starts;
}
