/** Options as switches: one is on in every choice. What cannot stand with the rest says so and stays off. */

import type { Choice } from '../../model/scenario.js';
import { workOf } from '../../model/options.js';
import { name } from '../../words/text.js';
import { workWords } from '../../words/words.js';
import { button, el, mark, newId, write } from '../dom.js';
import type { Page, Panel } from '../page.js';
import { withOption } from '../state.js';

export function optionsPanel(page: Page): Panel {
  const { scenario } = page;
  if (scenario.choices.length === 0) {
    return { element: el('p', {}, 'This file has no options.'), update: () => undefined };
  }
  const rows = scenario.choices.map((choice, c) => choiceRow(page, choice, c));
  const work = el('p', { class: 'work' });
  return {
    element: el('div', { class: 'rows' }, ...rows.map(({ element }) => element), work),
    update: () => {
      rows.forEach((row) => row.update());
      const { hours, cost } = workOf(scenario, page.state.options);
      write(work, `Work for these: ${workWords(hours, cost) || 'none'}`);
    },
  };
}

function choiceRow(page: Page, choice: Choice, c: number): Panel {
  const { scenario, telling } = page;
  const called = name(choice.name, telling.look);
  const heading = newId();
  const switches = choice.options.map((option, o) => {
    const words = workWords(option.hours, option.cost);
    const made = button(
      '',
      () => {
        const set = withOption(scenario, page.state.options, c, o);
        if (!set) {
          page.say(`${name(option.name, telling.look)} cannot stand with the other options`);
          return;
        }
        page.change({ options: set });
        page.say(`${called}: ${name(option.name, telling.look)}`);
      },
      { class: 'switch', attrs: { role: 'switch' } },
    );
    made.append(
      el('span', { class: 'knob', attrs: { 'aria-hidden': 'true' } }),
      el('span', { class: 'called' }, name(option.name, telling.look)),
      el('span', { class: 'cost' }, words),
    );
    return made;
  });
  const element = el(
    'div',
    { class: 'choice', attrs: { role: 'group', 'aria-labelledby': heading } },
    el('h3', { id: heading }, called),
    el('div', { class: 'switches' }, ...switches),
  );
  return {
    element,
    update: () => {
      const { options } = page.state;
      switches.forEach((one, o) => {
        mark(one, 'aria-checked', String(options[c] === o));
        const stands = withOption(scenario, options, c, o) !== undefined;
        mark(one, 'aria-disabled', stands ? undefined : 'true');
      });
    },
  };
}
