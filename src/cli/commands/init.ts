/** `berth init`: a first scenario from a few answers, asked one at a time or read from a file. */

import { answersText, readAnswers } from '../../templates/answers.js';
import { formPage } from '../../templates/page.js';
import { formText } from '../../templates/form.js';
import type { Answers } from '../../templates/reply.js';
import { guessCount, scenarioText, titleOf } from '../../templates/write.js';
import { interview } from '../asking/interview.js';
import { readInput } from '../io.js';
import type { Io } from '../io.js';
import { lookFor } from '../look.js';
import { printedPolicy } from '../writing/policy.js';
import { mistake, UserError } from '../problems.js';
import { isThere, putFile } from '../writing/put.js';
import { paragraph, print } from '../report/lines.js';
import type { Line } from '../report/lines.js';
import { clean } from '../../words/text.js';
import type { Look } from '../../words/text.js';
import { STATUS } from '../status.js';

/** As commander gives them: all text. */
export interface InitOptions {
  readonly answers?: string;
  readonly form?: boolean;
  readonly page?: string;
  readonly force?: boolean;
  readonly plain?: boolean;
}

/**
 * Prints the form, or writes a scenario; returns the exit status.
 * @throws UserError for anything wrong with the options, the answers or the file.
 */
export async function runInit(
  file: string | undefined,
  options: InitOptions,
  io: Io,
): Promise<number> {
  if (options.form === true) return printForm(file, options, io);
  if (options.page !== undefined) throw mistake('--page goes with --form');
  if (file === undefined) {
    throw mistake('init needs the name of the file to write', { expected: 'berth init bay.yaml' });
  }
  await sayNo(file, options);
  const answers =
    options.answers === undefined
      ? await asked(file, options, io)
      : await readAll(options.answers, io);
  if (answers === undefined) return STATUS.undecided;
  await putFile(file, scenarioText(answers));
  const look = lookFor(io, options.plain === true);
  io.out(print(written(file, answers, look), look));
  return 0;
}

async function printForm(file: string | undefined, options: InitOptions, io: Io): Promise<number> {
  if (file !== undefined || options.answers !== undefined) {
    throw mistake('--form prints the blank guide alone: it takes no file and no --answers');
  }
  if (options.page === undefined) {
    io.out(formText());
    return 0;
  }
  await refuseThere(options.page, options.force);
  await putFile(options.page, formPage(printedPolicy));
  const page = clean(options.page, lookFor(io, options.plain === true));
  io.out(`Written: ${page}; open it in a browser and print it, on Letter or A4.\n`);
  return 0;
}

/** What could not end well is said before the first question. */
async function sayNo(file: string, { force }: InitOptions): Promise<void> {
  if (file === '-' || /\.json$/i.test(file)) {
    throw mistake(`init writes YAML, for its comments: '${file}' will not do`, {
      read: file,
      expected: 'a name such as bay.yaml',
    });
  }
  await refuseThere(file, force);
}

async function refuseThere(file: string, force: boolean | undefined): Promise<void> {
  if (force === true || !(await isThere(file))) return;
  const { problems } = mistake('this file is there already; --force writes over it');
  throw new UserError(problems, file);
}

/** Asks what is not answered yet; undefined when the person stops. */
async function asked(file: string, options: InitOptions, io: Io): Promise<Answers | undefined> {
  const beside = `${file}.answers`;
  const before = (await isThere(beside)) ? await readAll(beside, io) : new Map<never, never>();
  return interview(before, {
    io,
    look: lookFor(io, options.plain === true),
    file,
    beside,
    keep: (answers) => putFile(beside, answersText(answers, `Answers for ${file}, by berth init.`)),
  });
}

async function readAll(path: string, io: Io): Promise<Answers> {
  const { text } = await readInput(path, io);
  const { answers, problems } = readAnswers(text);
  if (problems.length > 0) throw new UserError(problems, path);
  return answers;
}

function written(file: string, answers: Answers, look: Look): Line[] {
  const { parts, guesses } = guessCount(answers);
  const given = [...answers.values()].filter((text) => text !== '').length;
  const from = `${given} answers; ${guesses} of ${parts} parts rest on a guess, and say so`;
  return [
    ...paragraph('Written', `${clean(file, look)}: ${titleOf(answers)}`, look),
    ...paragraph('From', from, look),
    ...paragraph('Next', `berth place ${clean(file, look)}`, look),
    ...paragraph('', 'then tape what it calls tight, and put that into the file', look),
  ];
}
