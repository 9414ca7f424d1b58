/** The gaps, worst first: as many rows as are followed while the engine moves, then all of them on request. */

import { neededStyle, tape } from '../../model/text/tape.js';
import type { Reading, Standing } from '../../solver/answer.js';
import { limitWords } from '../../words/where.js';
import { countOf, pairWords, spare, unit } from '../../words/words.js';
import { button, el, mark, write } from '../dom.js';
import { pairKey } from '../page.js';
import type { Page, Panel } from '../page.js';
import { FOLLOWED } from '../session.js';
import { spoken } from '../spoken.js';
import type { Moving } from '../live.js';

interface Row {
  readonly element: HTMLLIElement;
  show(one: Moving | Reading | undefined): void;
}

export function gapsPanel(page: Page): Panel {
  const rows = Array.from({ length: FOLLOWED }, (_, i) => rowOf(page, i + 1));
  const list = el(
    'ol',
    { class: 'gaps', attrs: { 'aria-label': 'Gaps, worst first' } },
    ...rows.map((row) => row.element),
  );
  const limits = el('p', { class: 'limits' });
  let isAll = false;
  const more = button('', () => {
    isAll = !isAll;
    update();
  });
  const rest = el('ol', {
    class: 'gaps rest',
    attrs: { 'aria-label': 'Other gaps', start: FOLLOWED + 1 },
  });
  let shown: readonly Reading[] | undefined;
  const update = () => {
    const { worst, standing } = page.measured;
    rows.forEach((row, i) => row.show(worst[i]));
    const others = standing?.readings.filter(
      (one) => !worst.some((w) => pairKey(w) === pairKey(one)),
    );
    mark(more, 'aria-expanded', String(isAll));
    if (standing) write(limits, limitsWords(standing, page));
    if (others) {
      write(
        more,
        isAll ? 'The worst alone' : `All ${countOf(others.length + worst.length, 'rule')}`,
      );
    }
    rest.hidden = !isAll;
    if (!isAll || !others || (others === shown && rest.childElementCount > 0)) return;
    shown = others;
    rest.replaceChildren(
      ...others.map((one, i) => {
        const row = rowOf(page, FOLLOWED + 1 + i);
        row.show(one);
        return row.element;
      }),
    );
  };
  const element = el(
    'section',
    { class: 'panel gaps-panel', attrs: { 'aria-label': 'Gaps' } },
    el('h2', {}, 'Gaps, worst first'),
    limits,
    list,
    more,
    rest,
  );
  return { element, update };
}

/** Limits that are not kept here; nothing where all are. */
function limitsWords(standing: Standing, { scenario, telling }: Page): string {
  const missed = limitWords(standing, telling);
  if (missed.length > 0) return `Limit missed: ${missed.join('; ')}`;
  return scenario.limits.length > 0 ? 'Every limit is kept.' : '';
}

function rowOf(page: Page, number: number): Row {
  const pair = el('span', { class: 'pair' });
  const left = el('span', { class: 'left' });
  const needs = el('span', { class: 'needs' });
  let key: string | undefined;
  const press = button('', () => page.choose(page.chosen === key ? undefined : key), {
    class: 'gap-row',
  });
  const said = el('span', { class: 'unseen' });
  const seen = [el('span', { class: 'number' }, String(number)), pair, left, needs];
  // Seen as figures and heard as words.
  for (const one of seen) one.setAttribute('aria-hidden', 'true');
  press.append(...seen, said);
  const element = el('li', {}, press);
  return {
    element,
    show: (one) => {
      element.hidden = !one;
      if (!one) return;
      const { telling, chosen } = page;
      const { units } = telling;
      key = pairKey(one);
      const [name, size] = [pairWords(one, telling), spare(one.margin, units)];
      const need = `needs ${tape(one.needed, units, neededStyle(one.needed, units))}${unit(units)}`;
      const rest =
        'atRest' in one
          ? `, ${tape(one.atRest, units, { round: 'down' })}${unit(units)} at rest`
          : '';
      write(pair, name);
      write(left, size);
      write(needs, need + rest);
      write(said, spoken(`${number}: ${name}, ${size}, ${need}`));
      mark(press, 'aria-pressed', String(chosen === key));
      mark(press, 'data-margin', String(one.margin));
      mark(press, 'data-short', one.margin < 0 ? '' : undefined);
    },
  };
}
