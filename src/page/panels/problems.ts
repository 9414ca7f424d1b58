/** What is wrong with the file, in place: where, what was read, and what would have been right. */

import type { Problem } from '../../model/text/problem.js';
import { clean } from '../../words/text.js';
import { el } from '../dom.js';
import { PAGE_LOOK } from '../page.js';

const LONGEST = 160;

/** @param isKept whether a scenario that was read well before still shows. */
export function problemList(
  name: string,
  problems: readonly Problem[],
  isKept: boolean,
): HTMLElement {
  const errors = problems.filter(({ severity }) => severity === 'error').length;
  const isWrong = errors > 0;
  const lead = isWrong
    ? `${name} cannot be read as it is now${isKept ? '; the page shows it as it was before' : ''}.`
    : `${name} can be read, but see this.`;
  return el(
    'section',
    { class: isWrong ? 'problems wrong' : 'problems', attrs: { 'aria-label': 'The file' } },
    el('h2', {}, lead),
    el('ol', {}, ...problems.map(item)),
  );
}

function item({ message, line, column, read, expected, nearest }: Problem): HTMLElement {
  const place =
    line === undefined ? '' : `Line ${line}${column === undefined ? '' : `, column ${column}`}: `;
  const said = (label: string, text: string | undefined) =>
    text === undefined ? [] : [el('p', {}, `${label} ${short(text)}`)];
  return el(
    'li',
    {},
    el('p', { class: 'message' }, place + clean(message, PAGE_LOOK)),
    ...said('Read:', read),
    ...said('Expected:', expected),
    ...said('Did you mean', nearest === undefined ? undefined : `'${nearest}'?`),
  );
}

function short(text: string): string {
  const safe = clean(text, PAGE_LOOK);
  return safe.length > LONGEST ? `${safe.slice(0, LONGEST)}…` : safe;
}
