/** Problems as a person reads them: the place, what is wrong, and what would have been right. */

import type { Problem } from '../model/text/problem.js';
import { clean, fit, name } from '../words/text.js';
import type { Look } from '../words/text.js';

/** The longest stretch of a file repeated beside a message, and the longest message: it may hold names. */
const LONGEST_READ = 120;
const LONGEST_MESSAGE = 400;

/** A mistake in what a person asked for: said, and exit status 2. Never a fault of the program. */
export class UserError extends Error {
  override readonly name = 'UserError';
  /** @param file what the problems are in; none where they are in what was typed. */
  constructor(
    readonly problems: readonly Problem[],
    readonly file = '',
  ) {
    super(problems.map((problem) => problem.message).join('; '));
  }
}

/** A user error of one problem that stands in no file. */
export function mistake(
  message: string,
  rest: Partial<Pick<Problem, 'code' | 'read' | 'expected' | 'nearest'>> = {},
): UserError {
  return new UserError([{ code: 'wrong type', severity: 'error', message, path: [], ...rest }]);
}

/** Every problem in the order of the file, each with its place, then how many there are. */
export function problemText(problems: readonly Problem[], file: string, look: Look): string {
  const ordered = [...problems].sort(
    (a, b) => (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0),
  );
  return ordered.map((problem) => `${lines(problem, file, look).join('\n')}\n`).join('');
}

/** `3 errors, 1 warning`. */
export function problemCount(problems: readonly Problem[]): string {
  const errors = problems.filter((problem) => problem.severity === 'error').length;
  const warnings = problems.length - errors;
  const said: string[] = [];
  if (errors > 0) said.push(`${errors} error${errors === 1 ? '' : 's'}`);
  if (warnings > 0) said.push(`${warnings} warning${warnings === 1 ? '' : 's'}`);
  return said.join(', ');
}

/** One problem on one line, for where there is little room. */
export function problemLine(problem: Problem, file: string, look: Look): string {
  const nearest =
    problem.nearest === undefined ? '' : ` (did you mean '${name(problem.nearest, look)}'?)`;
  return `${placeOf(problem, file, look)}  ${worded(problem.message, look)}${nearest}`;
}

function lines(problem: Problem, file: string, look: Look): string[] {
  const { severity, message, read, expected, nearest } = problem;
  const kind = severity === 'warning' ? 'warning: ' : '';
  const place = placeOf(problem, file, look);
  const said = [`${place === '' ? '' : `${place}  `}${kind}${worded(message, look)}`];
  const add = (label: string, text: string | undefined) => {
    if (text === undefined) return;
    said.push(`    ${label}${fit(clean(text, look), LONGEST_READ, look)}`);
  };
  add('read:     ', read);
  add('expected: ', expected);
  add('nearest:  ', nearest);
  return said;
}

function worded(message: string, look: Look): string {
  return fit(clean(message, look), LONGEST_MESSAGE, look);
}

/** `file:line:column`, as far as it is known; keys where the line is not. */
function placeOf(problem: Problem, file: string, look: Look): string {
  if (file === '') return '';
  const called = clean(file === '-' ? 'standard input' : file, look);
  const { line, column, path } = problem;
  if (line !== undefined) return `${called}:${line}${column === undefined ? '' : `:${column}`}`;
  return path.length === 0 ? called : `${called}: ${worded(path.join(' > '), look)}`;
}

/** @throws UserError where there are any. */
export function refuse(problems: readonly Problem[]): void {
  if (problems.length > 0) throw new UserError(problems);
}
