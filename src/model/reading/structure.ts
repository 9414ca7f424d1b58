/** What the schema finds wrong with a file's structure, in the words of a problem report. */

import { z } from 'zod';
import { nearestName } from '../text/nearest.js';
import type { Problem, ProblemCode } from '../text/problem.js';
import type { Path } from '../scenario.js';

/** A problem whose place in the text is not looked up yet. */
export interface Found extends Omit<Problem, 'line' | 'column'> {
  /** Whether the key is at fault and not its value. */
  readonly at: 'key' | 'value';
}

/** Every structural problem of a value read from a file of a schema; one mistake gives one problem. */
export function structureProblems(value: unknown, schema: z.ZodObject): readonly Found[] {
  const result = schema.safeParse(value);
  if (result.success) return [];
  const found = result.error.issues.flatMap((issue) => problemsOf(issue, value, schema));
  // A misspelt key is said once, not also as the key it was meant to be.
  const meant = new Set(
    found.flatMap(({ code, path, nearest }) =>
      code === 'unknown key' && nearest ? [keyOf([...path.slice(0, -1), nearest])] : [],
    ),
  );
  return found.filter(({ code, path }) => code !== 'missing' || !meant.has(keyOf(path)));
}

/** One text for a path, to look it up by. */
export function keyOf(path: Path): string {
  return JSON.stringify(path);
}

type Issue = z.core.$ZodIssue;

function problemsOf(issue: Issue, value: unknown, schema: z.ZodObject): Found[] {
  const path = issue.path.map((key) => (typeof key === 'number' ? key : String(key)));
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => unknownKey([...path, key], key, schema));
  }
  const read = valueAt(value, path);
  const last = path.at(-1);
  const base = { severity: 'error', path, expected: issue.message, at: 'value' } as const;
  if (read === undefined) {
    return [{ ...base, code: 'missing', message: `${nameOf(last)} is missing`, at: 'key' }];
  }
  const inMap = issue.code === 'invalid_union' && isRecord(read) ? mapIssues(issue) : [];
  if (inMap.length > 0) {
    return inMap.flatMap((one) =>
      problemsOf({ ...one, path: [...path, ...one.path] }, value, schema),
    );
  }
  if (holdsNoNumber(read)) {
    return [{ ...base, code: 'bad number', message: `${nameOf(last)} must be a finite number` }];
  }
  if (issue.code === 'invalid_value' && typeof read === 'string') {
    const names = issue.values.map(String);
    const nearest = nearestName(read, names);
    const code: ProblemCode = 'unknown name';
    const message = `'${shorten(read)}' is not known here`;
    return [{ ...base, code, message, ...(nearest === undefined ? {} : { nearest }) }];
  }
  return [{ ...base, code: 'wrong type', message: `${nameOf(last)} is not ${article(issue)}` }];
}

function article(issue: Issue): string {
  return issue.code === 'too_big' || issue.code === 'too_small'
    ? 'of the right length'
    : 'what belongs here';
}

function unknownKey(path: Path, key: string, schema: z.ZodObject): Found {
  const parent = path.slice(0, -1);
  const known = knownKeys(parent, schema);
  const base = { severity: 'error', path, at: 'key', read: shorten(key) } as const;
  if (parent.length > 0 && Object.hasOwn(schema.shape, key)) {
    const message = `'${key}' is read at the top of the file, not here`;
    return { ...base, code: 'unknown key', message };
  }
  const nearest = nearestName(key, known);
  return {
    ...base,
    code: 'unknown key',
    message: `'${shorten(key)}' is not read here`,
    ...(known.length === 0 ? {} : { expected: known.join(', ') }),
    ...(nearest === undefined ? {} : { nearest }),
  };
}

/** Of alternatives that a map matched none of, what is wrong with it as the one that is a map. */
function mapIssues({ errors }: Extract<Issue, { code: 'invalid_union' }>): readonly Issue[] {
  const isNoMap = ({ code, path }: Issue) => path.length === 0 && code !== 'unrecognized_keys';
  return errors.find((issues) => !issues.some(isNoMap)) ?? [];
}

/** The keys that may stand in the map at a path. */
function knownKeys(path: Path, schema: z.ZodObject): readonly string[] {
  let here: unknown = schema;
  for (const key of path) {
    const at = unwrapped(here);
    if (at instanceof z.ZodObject) here = at.shape[key];
    else if (at instanceof z.ZodRecord) here = at.valueType;
    else if (at instanceof z.ZodArray) here = at.element;
    else if (at instanceof z.ZodTuple) here = at.def.items[Number(key)];
    else return [];
  }
  const at = unwrapped(here);
  return at instanceof z.ZodObject ? Object.keys(at.shape) : [];
}

/** Past optional and nullable, and of alternatives the map. */
function unwrapped(schema: unknown): unknown {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodNullable) {
    return unwrapped(schema.unwrap());
  }
  if (schema instanceof z.ZodUnion) {
    return schema.options.find((option) => option instanceof z.ZodObject) ?? schema;
  }
  return schema;
}

function valueAt(value: unknown, path: Path): unknown {
  let at = value;
  for (const key of path) {
    if (Array.isArray(at)) at = at[Number(key)] as unknown;
    else if (isRecord(at) && Object.hasOwn(at, key)) at = at[key];
    else return undefined;
  }
  return at;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function holdsNoNumber(value: unknown): boolean {
  if (Array.isArray(value)) return value.some(holdsNoNumber);
  return typeof value === 'number' && !Number.isFinite(value);
}

function nameOf(key: string | number | undefined): string {
  if (key === undefined) return 'the file';
  return typeof key === 'number' ? `item ${key + 1}` : `'${shorten(key)}'`;
}

function shorten(text: string): string {
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}
