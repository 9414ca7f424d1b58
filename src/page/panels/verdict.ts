/** The line that stays in sight: what is to spare here, and what is tightest. */

import { pairWords, spare } from '../../words/words.js';
import { el, mark, write } from '../dom.js';
import type { Page, Panel } from '../page.js';

export function verdictPanel(page: Page): Panel {
  const left = el('span', {});
  const size = el('strong', { class: 'size' }, left);
  const tight = el('span', { class: 'tight' });
  const element = el('div', { class: 'verdict' }, size, tight);
  return {
    element,
    update: () => {
      const { measured, telling } = page;
      const { standing } = measured;
      const worst = standing?.readings[0] ?? measured.worst[0];
      const margin = worst?.margin ?? Infinity;
      write(left, capital(spare(margin, telling.units)));
      write(tight, worst ? pairWords(worst, telling) : 'Nothing to keep apart');
      mark(element, 'data-fits', standing ? String(standing.fits) : undefined);
      mark(element, 'data-short', margin < 0 ? '' : undefined);
    },
  };
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
