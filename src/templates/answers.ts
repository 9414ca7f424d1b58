/**
 * Answers as a plain text that a person can write and the interview keeps:
 *
 *     # a comment
 *     engine: pushrod V8
 *     rails front: 29 1/2
 *     hood:                       # nothing after the colon: skipped
 *
 * One a line, in any order; what is left out counts as skipped, or as not yet asked.
 */

import { nearestName } from '../model/text/nearest.js';
import type { Problem } from '../model/text/problem.js';
import { QUESTIONS } from './questions.js';
import type { QuestionKey } from './questions.js';
import { readReply } from './reply.js';
import type { Answers } from './reply.js';

export interface ReadAnswers {
  readonly answers: Answers;
  /** Every one of them, in the order of the text. */
  readonly problems: readonly Problem[];
}

interface Line {
  readonly key: string;
  readonly value: string;
  readonly line: number;
}

/** Reads answers; never throws for what the text holds. */
export function readAnswers(text: string): ReadAnswers {
  const problems: Problem[] = [];
  const lines = linesOf(text, problems);
  const known = knownLines(lines, problems);
  const answers = new Map<QuestionKey, string>();
  // In the order of the interview, since units and templates decide what a size may be.
  for (const question of QUESTIONS) {
    const found = known.get(question.key);
    if (found === undefined) continue;
    const reply = readReply(question, found.value, answers);
    if ('text' in reply) answers.set(question.key, reply.text);
    else {
      const { problem, expected } = reply;
      const message = `${question.key}: ${problem}`;
      problems.push(at(found, 'bad length', message, { read: found.value, expected }));
    }
  }
  return { answers, problems: problems.sort((a, b) => (a.line ?? 0) - (b.line ?? 0)) };
}

/** The answers as such a text, in the order of the interview. */
export function answersText(answers: Answers, about: string): string {
  const lines = QUESTIONS.filter(({ key }) => answers.has(key)).map(({ key }) =>
    `${key}: ${answers.get(key)}`.trimEnd(),
  );
  return [
    `# ${about}`,
    '# One a line, question: answer. Nothing after the colon: skipped.',
    ...lines,
    '',
  ].join('\n');
}

function linesOf(text: string, problems: Problem[]): Line[] {
  return text
    .replace(/^\ufeff/, '')
    .split(/\r\n|\r|\n/)
    .flatMap((whole, index) => {
      const content = whole.replace(/(^|\s)#.*$/, '').trim();
      if (content === '') return [];
      const colon = content.indexOf(':');
      const line = index + 1;
      if (colon > 0) {
        const [key, value] = [content.slice(0, colon).trim(), content.slice(colon + 1).trim()];
        return [{ key, value, line }];
      }
      const said = { read: content, expected: 'question: answer, such as rails front: 29 1/2' };
      problems.push(at({ line }, 'syntax', 'this is not an answer', said));
      return [];
    });
}

/** Lines by question; a question that is not known or is answered twice is a problem. */
function knownLines(lines: readonly Line[], problems: Problem[]): Map<QuestionKey, Line> {
  const keys = QUESTIONS.map(({ key }) => key);
  const known = new Map<QuestionKey, Line>();
  for (const line of lines) {
    const key = keys.find((one) => one === line.key.toLowerCase());
    if (key === undefined) {
      const nearest = nearestName(line.key, keys);
      problems.push(
        at(line, 'unknown key', `there is no question '${line.key}'`, {
          ...(nearest === undefined ? { expected: keys.join(', ') } : { nearest }),
        }),
      );
    } else if (known.has(key)) {
      problems.push(at(line, 'duplicate', `'${key}' is answered a second time`));
    } else known.set(key, line);
  }
  return known;
}

function at(
  { line }: Pick<Line, 'line'>,
  code: Problem['code'],
  message: string,
  rest: Pick<Problem, 'read' | 'expected' | 'nearest'> = {},
): Problem {
  return { code, severity: 'error', message, path: [], line, column: 1, ...rest };
}
