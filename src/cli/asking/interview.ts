/** The interview on a terminal: prompts, answers kept after each one, and the ways to leave it. */

import { nextQuestion, take } from '../../templates/interview.js';
import { QUESTIONS, placeOf } from '../../templates/questions.js';
import type { Question } from '../../templates/questions.js';
import { isChoice, rangeOf, unitsOf, usualText } from '../../templates/reply.js';
import type { Answers } from '../../templates/reply.js';
import { rangeText } from '../../templates/write.js';
import type { Io } from '../io.js';
import { paragraph, print } from '../report/lines.js';
import type { Line } from '../report/lines.js';
import { clean } from '../../words/text.js';
import type { Look } from '../../words/text.js';
import { typedLines } from './typed.js';

export interface Interviewing {
  readonly io: Io;
  readonly look: Look;
  /** What will be written in the end, and where answers are kept until then. */
  readonly file: string;
  readonly beside: string;
  /** Called after every answer, with all of them. */
  keep(answers: Answers): Promise<void>;
}

/** Asks until everything is answered or skipped; undefined when the person stops before. */
export async function interview(before: Answers, to: Interviewing): Promise<Answers | undefined> {
  const { io } = to;
  const lines = typedLines(io);
  let hear = (): void => undefined;
  const interrupted = new Promise<undefined>((resolve) => {
    hear = () => resolve(undefined);
  });
  const ignore = io.onInterrupt(hear);
  io.out(welcome(before, to));
  let answers = before;
  try {
    while (nextQuestion(answers) !== undefined || io.inIsTerminal) {
      io.out(prompt(answers, to));
      const next = await Promise.race([lines.next(), interrupted]);
      if (next === undefined || next.done === true) return stopped(answers, to);
      // A terminal shows what is typed; piped answers are shown, so that the record can be read.
      if (!io.inIsTerminal) io.out(`${clean(next.value, to.look)}\n`);
      if (nextQuestion(answers) === undefined && next.value.trim() === '') return answers;
      const turn = take(answers, next.value);
      if (turn.turn === 'stop') return stopped(answers, to);
      for (const said of turn.said)
        io.out(print(paragraph('', clean(said, to.look), to.look), to.look));
      if (turn.turn === 'again') continue;
      answers = turn.answers;
      await to.keep(answers);
    }
    return answers;
  } finally {
    ignore();
  }
}

function welcome(answers: Answers, { look, beside }: Interviewing): string {
  const lines =
    answers.size === 0
      ? paragraph(
          'INIT',
          `${QUESTIONS.length} questions, one measurement each. Enter skips one, and a usual size ` +
            'stands in as a guess. back undoes, ? tells how to hold the tape, stop keeps what you ' +
            `have answered in ${clean(beside, look)} until you come back.`,
          look,
        )
      : paragraph(
          'INIT',
          `Going on with ${clean(beside, look)}: ${answers.size} of ${QUESTIONS.length} are done. ` +
            'back undoes the last.',
          look,
        );
  return print(lines, look);
}

function prompt(answers: Answers, { look, file }: Interviewing): string {
  const question = nextQuestion(answers);
  const lines =
    question === undefined
      ? paragraph('Done', `Enter writes ${clean(file, look)}; back goes back.`, look)
      : asking(question, answers, look);
  return `\n${print(lines, look)}> `;
}

function asking(question: Question, answers: Answers, look: Look): Line[] {
  const usual = usualText(question, answers);
  const units = unitsOf(answers);
  const number = `${placeOf(question.key) + 1} of ${QUESTIONS.length}`;
  const under = (text: string) => paragraph('', text, look);
  if (isChoice(question)) {
    const options = question.options.map((option, index) => joined(`${index + 1} ${option}`));
    const choices = under(`${options.join(', ')}; Enter: ${usual}`);
    return [...paragraph(number, question.title, look), ...choices.map(parted)];
  }
  const { least, most } = rangeOf(question, answers);
  const minus = question.minus === undefined || least >= 0 ? '' : `; minus: ${question.minus}`;
  return [
    ...paragraph(number, question.title, look),
    ...under(`from ${question.from}`),
    ...under(`to ${question.to}${minus}`),
    ...under(`${rangeText(least, most, units)}; Enter: ${usual}, as a guess`),
  ];
}

/** Words that a line may not be broken between, until they are parted again. */
function joined(words: string): string {
  return words.replace(/ /g, '\u00a0');
}

function parted(line: Line): Line {
  return { ...line, text: line.text.replace(/\u00a0/g, ' ') };
}

function stopped(answers: Answers, { io, look, file, beside }: Interviewing): undefined {
  const kept =
    answers.size === 0
      ? 'Nothing was answered, and nothing is written.'
      : `${answers.size} of ${QUESTIONS.length} are kept in ${clean(beside, look)}. ` +
        `berth init ${clean(file, look)} goes on from there.`;
  io.out(`\n${print(paragraph('Stopped', kept, look), look)}`);
  return undefined;
}
