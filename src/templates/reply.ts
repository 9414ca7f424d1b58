/** One answer as typed, read: a choice by name or number, a length by the tape. */

import { LENGTH_EXPECTED, parseLength } from '../model/text/length.js';
import { nearestName } from '../model/text/nearest.js';
import { exactTape } from '../model/text/tape.js';
import type { Units } from '../model/text/tape.js';
import { ENGINES } from './catalogue.js';
import { rangesOf } from './plan.js';
import type { Job } from './plan.js';
import { QUESTIONS } from './questions.js';
import type { ChoiceQuestion, Question, QuestionKey, SizeQuestion } from './questions.js';
import type { SizeKey, SizeRange, Sizes } from './sizes.js';

/** Answers by question, as typed; an empty one was skipped, one that is not there not reached. */
export type Answers = ReadonlyMap<QuestionKey, string>;

export type Reply =
  { readonly text: string } | { readonly problem: string; readonly expected: string };

const MM_PER_INCH = 25.4;

/** Units and job, as far as the answers say; what they do not say is as usual. */
export function unitsOf(answers: Answers): Units {
  return answers.get('units') === 'mm' ? 'mm' : 'in';
}

export function jobOf(answers: Answers): Job {
  const given = <T extends string>(key: QuestionKey, usual: T): T =>
    (answers.get(key) || usual) as T;
  const engine = given<Job['engine']>('engine', 'pushrod V8');
  return {
    engine,
    sump: given('sump', ENGINES[engine].sump),
    transmission: given('transmission', 'long manual'),
    bay: given('bay', 'pickup'),
    driver: given('driver', 'left'),
  };
}

/** Every size in inches: as answered, and where it was not, as usual for the templates chosen. */
export function sizesOf(answers: Answers): Sizes<SizeKey> {
  const ranges = rangesOf(jobOf(answers));
  const units = unitsOf(answers);
  const entries = Object.entries<SizeRange>(ranges).map(([key, { usual }]) => {
    const length = parseLength(answers.get(key as SizeKey) || 'skipped', units);
    return [key, 'mm' in length ? length.mm / MM_PER_INCH : usual];
  });
  return Object.fromEntries(entries) as Sizes<SizeKey>;
}

/** How far a size may go with the templates chosen, in inches. */
export function rangeOf(question: SizeQuestion, answers: Answers): SizeRange {
  return rangesOf(jobOf(answers))[question.key];
}

/** What stands in for an answer that is skipped, as text. */
export function usualText(question: Question, answers: Answers): string {
  if (!isChoice(question)) {
    return inchesText(rangeOf(question, answers).usual, unitsOf(answers));
  }
  return question.key === 'units' ? 'in' : jobOf(without(answers, question.key))[question.key];
}

/**
 * Reads what was typed for a question; nothing typed skips it.
 * @param answers those that units and templates are taken from.
 */
export function readReply(question: Question, typed: string, answers: Answers): Reply {
  const text = typed.trim();
  if (text === '') return { text };
  return isChoice(question) ? readChoice(question, text) : readSize(question, text, answers);
}

/** Answers that still hold, and those that no longer do because another one was changed. */
export function standing(answers: Answers): { kept: Answers; dropped: readonly QuestionKey[] } {
  const kept = new Map<QuestionKey, string>();
  const dropped: QuestionKey[] = [];
  for (const question of QUESTIONS) {
    const text = answers.get(question.key);
    if (text === undefined) continue;
    if ('problem' in readReply(question, text, kept)) dropped.push(question.key);
    else kept.set(question.key, text);
  }
  return { kept, dropped };
}

export function isChoice(question: Question): question is ChoiceQuestion {
  return 'options' in question;
}

/** Inches, in the units answered in. */
export function inchesText(inches: number, units: Units): string {
  const mm = inches * MM_PER_INCH;
  return units === 'in' ? exactTape(mm, 'in') : String(Math.round(mm));
}

function readChoice({ options }: ChoiceQuestion, text: string): Reply {
  const wanted = text.toLowerCase();
  const number = /^\d+$/.test(text) ? Number(text) : 0;
  const exact = options.find((option) => option.toLowerCase() === wanted) ?? options[number - 1];
  if (exact !== undefined) return { text: exact };
  const starting = options.filter((option) => option.toLowerCase().startsWith(wanted));
  if (starting.length === 1) return { text: starting[0]! };
  const near = nearestName(text, options);
  const hint = near === undefined || starting.length > 1 ? '' : `; did you mean ${near}?`;
  return { problem: `'${text}' is not one of these${hint}`, expected: options.join(', ') };
}

function readSize(question: SizeQuestion, text: string, answers: Answers): Reply {
  const units = unitsOf(answers);
  const length = parseLength(text, units);
  if ('problem' in length) return { problem: length.problem, expected: LENGTH_EXPECTED };
  const { least, most } = rangeOf(question, answers);
  const inches = length.mm / MM_PER_INCH;
  const slack = units === 'mm' ? 0.5 / MM_PER_INCH : 0;
  if (inches >= least - slack && inches <= most + slack) return { text };
  const [from, to] = [inchesText(least, units), inchesText(most, units)];
  const which = inches < least ? 'less' : 'more';
  return {
    problem: `${text} is ${which} than this template can be drawn at`,
    expected: `${from} to ${to} ${units}; or skip it, and put the true size into the file`,
  };
}

function without(answers: Answers, key: QuestionKey): Answers {
  const rest = new Map(answers);
  rest.delete(key);
  return rest;
}
