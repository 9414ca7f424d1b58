/** Places kept, side by side with where the engine is. */

import { workOf } from '../../model/options.js';
import { trimWork } from '../../model/trims.js';
import { name } from '../../words/text.js';
import { whereWords } from '../../words/where.js';
import { depthWords, wayWords } from '../../words/why.js';
import { changes, pairWords, spare, workWords } from '../../words/words.js';
import type { Standing } from '../../solver/answer.js';
import { button, el, newId } from '../dom.js';
import type { Page, Panel } from '../page.js';
import type { Kept, Place } from '../state.js';
import { goButton, placeCard } from './place-card.js';
import { solverBlock } from './solver-block.js';
import { capital } from './verdict.js';

/** Places kept at most: an address must hold them. */
const MOST = 8;

export function comparePanel(page: Page): Panel {
  const id = newId();
  const called = el('input', { id, attrs: { type: 'text', maxlength: 40, autocomplete: 'off' } });
  const keep = button('Keep this place', () => {
    const { kept, position, options, depths } = page.state;
    const one = called.value.trim() || `Place ${kept.length + 1}`;
    called.value = '';
    page.change({ kept: [...kept, { name: one, position, options, depths }].slice(-MOST) });
    page.say(`${one} is kept`);
  });
  const cards = el('div', { class: 'cards' });
  const block = solverBlock(
    page,
    button('Find the best place of each', () => {
      const { kept, options } = page.state;
      const sets = [{ name: 'Here', options }, ...kept];
      const cases = sets.map((one) => ({ name: one.name, set: one.options }));
      block.ask({ kind: 'compare', cases }, (found) => [
        el(
          'div',
          { class: 'cards' },
          ...found.cases.flatMap(({ name: n, placement }) =>
            placement ? [placeCard(page, placement, `${name(n, page.telling.look)}: `)] : [],
          ),
        ),
      ]);
    }),
  );
  const element = el(
    'div',
    {},
    el('div', { class: 'own' }, el('label', { attrs: { for: id } }, 'Name'), called, keep),
    cards,
    block.element,
  );
  let shown = '';
  // What was measured at a place kept stays so.
  const known = new Map<string, Standing>();
  const measured = ({ position, options, depths }: Place): Standing => {
    const key = JSON.stringify([position, options, depths]);
    const found = known.get(key) ?? page.measure({ position, options, depths });
    known.set(key, found);
    return found;
  };
  return {
    element,
    update: () => {
      const { kept, position, options, depths } = page.state;
      const { standing } = page.measured;
      if (!standing) return;
      const key = JSON.stringify([kept, position, options, depths, page.telling.units]);
      if (key === shown) return;
      shown = key;
      const here = { position, options, depths };
      cards.replaceChildren(
        card(page, 'Here', here, standing.margin, standing.readings[0]),
        ...kept.map((one, i) => {
          const there = measured(one);
          return card(page, one.name, one, there.margin, there.readings[0], i);
        }),
      );
    },
  };
}

function card(
  page: Page,
  called: string,
  place: Place,
  margin: number,
  tight: Parameters<typeof pairWords>[0] | undefined,
  index?: number,
): HTMLElement {
  const { telling, scenario } = page;
  const { units, look } = telling;
  const cuts = scenario.trims.flatMap((trim, t) => {
    const depth = place.depths[t] ?? 0;
    return depth > 0
      ? [`${name(trim.part, look)} ${depthWords(depth, telling)} ${wayWords(trim, telling)}`]
      : [];
  });
  const { hours, cost } = scenario.trims.reduce(
    (sum, trim, t) => {
      const own = trimWork(trim, place.depths[t] ?? 0);
      return { hours: sum.hours + own.hours, cost: sum.cost + own.cost };
    },
    workOf(scenario, place.options),
  );
  const rows: [string, string][] = [
    ['Left', capital(spare(margin, units))],
    ['Tightest', tight ? pairWords(tight, telling) : 'nothing'],
    ['At', whereWords(place.position, telling).join(', ')],
    [
      'With',
      changes(place.options, telling)
        .map(({ what }) => what)
        .join('; ') || 'the bay as it stands',
    ],
    ['Cuts', cuts.join('; ') || 'none'],
    ['Work', workWords(hours, cost) || 'none'],
  ];
  const drop = (at: number) =>
    button('Drop', () => {
      page.change({ kept: page.state.kept.filter((_: Kept, i: number) => i !== at) });
    });
  return el(
    'div',
    { class: 'card', attrs: { role: 'group', 'aria-label': name(called, look) } },
    el('h3', {}, name(called, look)),
    el('dl', {}, ...rows.flatMap(([term, text]) => [el('dt', {}, term), el('dd', {}, text)])),
    ...(index === undefined
      ? []
      : [el('div', { class: 'asks' }, goButton(page, 'Go there', place), drop(index))]),
  );
}
