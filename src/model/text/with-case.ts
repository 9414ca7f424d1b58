/**
 * A case put into the text of a scenario file, all else left as it stands: comments, order, line ends. The
 * text is cut open at one place (`splice.ts`), never written out anew; and what comes out is read again, so
 * that a notation nobody thought of is refused, not spoilt.
 */

import { parseDocument } from 'yaml';
import { readDocument } from './document.js';
import type { SourceDocument } from './document.js';
import type { Problem } from './problem.js';
import { splices } from './splice.js';
import type { Edit } from './splice.js';

/** Letters. */
const LONGEST_NAME = 80;
const LONGEST_WANTS = 4000;

/** What no name or wish needs, and what would look like another name: control characters and half letters. */
const UNPRINTABLE = /[\p{Cc}\p{Cs}\p{Zl}\p{Zp}\ufeff]/u;

/**
 * Adds a case to the `cases` of a file, or puts it in the place of the one of that name. The file must be
 * readable as YAML or JSON; whether the wishes mean anything in it is not looked at here.
 * @param wants wishes as a command line takes them: `offset=0; oil filter=remote`.
 * @returns the new text; or problems: of the file's notation, of the name, or that this file's way of
 * writing `cases` has to be edited by hand.
 */
export function withCase(
  text: string,
  name: string,
  wants: string,
): { readonly text: string } | { readonly problems: readonly Problem[] } {
  const wrong = wrongWith(name, wants);
  if (wrong !== undefined) return refused(wrong, name);
  const before = readDocument(text);
  const { problems, value } = before;
  if (problems.length > 0) return { problems };
  if (!isMap(value)) return refused('this file is no scenario', name);
  const parsed = parseDocument(text, {
    version: '1.2',
    schema: 'core',
    stringKeys: true,
    uniqueKeys: false,
    prettyErrors: false,
  });
  for (const edits of splices(text, parsed.contents, { name, wants })) {
    const next = applied(text, edits);
    if (isAddedTo(before, readDocument(next), name, wants)) return { text: next };
  }
  return refused("the file's cases are written in a way that has to be edited by hand", name);
}

function wrongWith(name: string, wants: string): string | undefined {
  if (name.trim() === '') return 'a case needs a name';
  if (name !== name.trim()) return 'the name of a case begins and ends with a letter';
  if (name.length > LONGEST_NAME) return `the name of a case has at most ${LONGEST_NAME} letters`;
  if (UNPRINTABLE.test(name)) return 'the name of a case holds a letter that cannot be seen';
  if (name === '__proto__' || name === '<<') return `'${name}' cannot be a name`;
  if (wants.trim() === '') return 'no wish is given';
  if (wants.length > LONGEST_WANTS) return `wishes have at most ${LONGEST_WANTS} letters`;
  return UNPRINTABLE.test(wants) ? 'a wish holds a letter that cannot be seen' : undefined;
}

function refused(message: string, name: string): { readonly problems: readonly Problem[] } {
  return {
    problems: [{ code: 'bad wish', severity: 'error', message, path: ['cases', name], read: name }],
  };
}

function applied(text: string, edits: readonly Edit[]): string {
  let made = text;
  for (const { from, to, put } of [...edits].sort((a, b) => b.from - a.from)) {
    made = made.slice(0, from) + put + made.slice(to);
  }
  return made;
}

/** Whether a text says all that it said before, in the same order, and the case besides. */
function isAddedTo(
  before: SourceDocument,
  after: SourceDocument,
  name: string,
  wants: string,
): boolean {
  if (after.problems.length > 0 || !isMap(after.value) || !isMap(before.value)) return false;
  const { cases, ...rest } = after.value;
  const { cases: casesBefore, ...restBefore } = before.value;
  if (!isMap(cases) || !Object.hasOwn(cases, name) || cases[name] !== wants) return false;
  const others = (map: unknown) =>
    isMap(map) ? Object.entries(map).filter(([key]) => key !== name) : [];
  const order = (document: SourceDocument) => [
    document.keys([]).filter((key) => key !== 'cases'),
    document.keys(['cases']).filter((key) => key !== name),
  ];
  return (
    isSame(rest, restBefore) &&
    isSame(others(cases), others(casesBefore)) &&
    isSame(order(after), order(before))
  );
}

function isSame(one: unknown, other: unknown): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

function isMap(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
