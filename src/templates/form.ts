/** The blank measuring guide: what is asked, from where to where, and a line to write on. */

import { QUESTIONS } from './questions.js';
import { isChoice } from './reply.js';
import { WIDTH, wrapped } from './wrap.js';

const INDENT = ' '.repeat(6);

export const FORM_TITLE = 'Measuring guide';

/** What holds for every line of the guide. */
export const BEFORE =
  'Vehicle at ride height on a level floor, side to side level. Tape to 1/16 in or 1 mm. ' +
  'What you leave blank is guessed, and the answer says so.';

/** The one caution. */
export const CAUTION =
  'Never work under a hung engine; use stands, and measure again before anything is cut.';

/** After the questions: what a first file guesses, and what bites. */
export const AFTER =
  'Then every part with its accessories on, belts at full adjustment: fan, filter, alternator, ' +
  'pumps, starter, distributor, mounts, booster, heater, lines. The part nobody drew is the one ' +
  'that hits.';

/** The guide as plain text. */
export function formText(): string {
  const questions = QUESTIONS.flatMap((question, index) => {
    const title = `${String(index + 1).padStart(3)}.  ${question.title}`;
    if (isChoice(question)) {
      const boxes = question.options.map((option) => `[ ] ${option}  `.replace(/ /g, '\u00a0'));
      return [
        title,
        ...lines(boxes.join(' ')).map((line) => line.replace(/\u00a0/g, ' ').trimEnd()),
        '',
      ];
    }
    const minus = question.minus === undefined ? '' : ` (minus: ${question.minus})`;
    return [
      `${title} `.padEnd(WIDTH - 22, '.') + ' ____________________',
      ...lines(`from ${question.from}`),
      ...lines(`to ${question.to}${minus}`),
      ...lines(`(${question.how})`),
      '',
    ];
  });
  return `${[
    FORM_TITLE.toUpperCase(),
    '',
    ...wrapped(BEFORE, ''),
    '',
    'Vehicle ____________________  Engine ____________________  Date ______________',
    '',
    ...questions,
    ...wrapped(AFTER, ''),
    '',
    ...wrapped(CAUTION, ''),
  ].join('\n')}\n`;
}

function lines(text: string): string[] {
  return wrapped(text, INDENT);
}
