/** The interview as data: where it stands, and what each line typed does to it. */

import { QUESTIONS } from './questions.js';
import type { Question } from './questions.js';
import { readReply, standing } from './reply.js';
import type { Answers } from './reply.js';

/** What a line typed has led to. */
export type Turn =
  /** An answer was taken, or taken back: go on with these. */
  | { readonly turn: 'on'; readonly answers: Answers; readonly said: readonly string[] }
  /** Nothing has changed: say this, and ask again. */
  | { readonly turn: 'again'; readonly said: readonly string[] }
  | { readonly turn: 'stop' };

/** The question that comes next; undefined when all have been answered or skipped. */
export function nextQuestion(answers: Answers): Question | undefined {
  return QUESTIONS.find(({ key }) => !answers.has(key));
}

/** Takes one line as typed for the next question, or after the last of them. */
export function take(answers: Answers, line: string): Turn {
  const question = nextQuestion(answers);
  const word = line.trim().toLowerCase();
  if (word === 'stop') return { turn: 'stop' };
  if (word === 'back') return back(answers, question);
  if (question === undefined) return { turn: 'again', said: ['Enter writes the file'] };
  if (word === '?') return { turn: 'again', said: [question.how] };
  const reply = readReply(question, line, answers);
  if ('problem' in reply) {
    return { turn: 'again', said: [reply.problem, `expected: ${reply.expected}`] };
  }
  const { kept, dropped } = standing(new Map([...answers, [question.key, reply.text]]));
  return { turn: 'on', answers: kept, said: dropped.map((key) => `${key} is asked again`) };
}

function back(answers: Answers, question: Question | undefined): Turn {
  const at = question === undefined ? QUESTIONS.length : QUESTIONS.indexOf(question);
  const before = QUESTIONS[at - 1];
  if (before === undefined) return { turn: 'again', said: ['this is the first question'] };
  const rest = new Map(answers);
  rest.delete(before.key);
  return { turn: 'on', answers: rest, said: [] };
}
