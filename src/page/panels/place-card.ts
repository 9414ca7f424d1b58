/** One placement as the solver found it: what it leaves, where it is, what it takes, and a button to go there. */

import type { Placement, Standing } from '../../solver/answer.js';
import { shownOf } from '../../solver/explaining/compare.js';
import { whereWords } from '../../words/where.js';
import { boundWords, changes, pairWords, spare } from '../../words/words.js';
import { button, el } from '../dom.js';
import type { Page } from '../page.js';
import type { Offer } from '../protocol.js';
import { capital } from './verdict.js';

/** In a sentence: what is proved of a placement. */
function provedWords({ fits, best, bound, optimum, setting }: Placement, page: Page): string {
  const { units } = page.telling;
  const { margin } = shownOf({ optimum, setting } as Placement);
  const left = spare(margin, units);
  const most =
    bound < 0
      ? `under these options every place is ${boundWords(bound, units)} or more`
      : `no place under these options has more than ${boundWords(bound, units)}`;
  if (fits === 'no') return `Proved: it does not fit. Least bad, ${left}; ${most}.`;
  if (best === 'proved') return `Proved best: ${left}; ${most}.`;
  return `Best so far: ${left}; ${most}.`;
}

export function placeCard(page: Page, placement: Placement, called: string): HTMLElement {
  const shown = shownOf(placement);
  const done = changes(placement.options, page.telling).map(({ what, work }) =>
    work === '' ? what : `${what} (${work})`,
  );
  return el(
    'div',
    { class: 'card' },
    el('p', { class: 'lead' }, `${called}${provedWords(placement, page)}`),
    whereList(page, shown),
    el('p', {}, done.length === 0 ? 'With the bay as it stands.' : `With ${done.join('; ')}.`),
    goButton(page, 'Put the engine there', {
      position: shown.position,
      options: placement.options,
    }),
  );
}

/** Where it is, a line a coordinate, and what is tightest there. */
export function whereList(page: Page, standing: Standing): HTMLElement {
  const tight = standing.readings[0];
  return el(
    'ul',
    { class: 'where' },
    ...whereWords(standing.position, page.telling).map((words) => el('li', {}, capital(words))),
    ...(tight ? [el('li', {}, `Tightest: ${pairWords(tight, page.telling)}`)] : []),
  );
}

/** Takes a place up, to be undone as one. */
export function goButton(page: Page, text: string, offer: Offer): HTMLButtonElement {
  return button(
    text,
    () => {
      const { position, options } = offer;
      const depths = offer.depths ?? page.scenario.trims.map(() => 0);
      page.change({ position, options, depths });
      page.say('The engine is there now');
    },
    { class: 'go' },
  );
}
