/** Trims as sliders: how deep each face is cut. */

import type { Trim } from '../../model/scenario.js';
import { trimWork } from '../../model/trims.js';
import { name } from '../../words/text.js';
import { beforeCutting, depthWords, wayWords } from '../../words/why.js';
import { workWords } from '../../words/words.js';
import { el, mark, newId, write } from '../dom.js';
import type { Page, Panel } from '../page.js';
import { spoken } from '../spoken.js';
import { stepsOf } from '../steps.js';

export function trimsPanel(page: Page): Panel {
  const { trims } = page.scenario;
  if (trims.length === 0) {
    return { element: el('p', {}, 'This file lets no face be cut.'), update: () => undefined };
  }
  const rows = trims.map((trim, t) => trimRow(page, trim, t));
  return {
    element: el('div', { class: 'rows' }, ...rows.map(({ element }) => element)),
    update: () => rows.forEach((row) => row.update()),
  };
}

function trimRow(page: Page, trim: Trim, t: number): Panel {
  const { scenario, telling } = page;
  const by = stepsOf(scenario)[0]!.length;
  const id = newId();
  const steps = Math.ceil(trim.upTo / by - 1e-9);
  const slider = el('input', {
    id,
    attrs: { type: 'range', min: 0, max: steps, step: 1 },
    on: {
      input: () => {
        const depth = Math.min(trim.upTo, Number(slider.value) * by);
        const depths = page.state.depths.map((one, i) => (i === t ? depth : one));
        page.change({ depths }, `trim ${t}`);
      },
      change: () => page.ended(),
    },
  });
  const value = el('output', { class: 'value', attrs: { for: id } });
  const element = el(
    'div',
    { class: 'trim' },
    el(
      'label',
      { attrs: { for: id } },
      `${name(trim.part, telling.look)}, ${wayWords(trim, telling)}`,
    ),
    value,
    slider,
    el('p', { class: 'care' }, sentence(beforeCutting(trim, page.state.options, telling))),
  );
  return {
    element,
    update: () => {
      const depth = page.state.depths[t] ?? 0;
      const { hours, cost } = trimWork(trim, depth);
      const work = workWords(hours, cost);
      const words =
        depth === 0
          ? 'not cut'
          : `${depthWords(depth, telling)} deep${work === '' ? '' : `, ${work}`}`;
      write(value, words);
      const share = String(Math.round(depth / by));
      if (slider.value !== share) slider.value = share;
      mark(slider, 'aria-valuetext', spoken(words));
    },
  };
}

function sentence(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}
