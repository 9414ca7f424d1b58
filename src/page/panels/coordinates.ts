/** The four coordinates as sliders, each with a step either way. */

import type { Coordinate } from '../../model/scenario.js';
import { COORDINATES } from '../../model/scenario.js';
import { coordinateWords } from '../../words/where.js';
import { button, el, mark, newId, write } from '../dom.js';
import type { Page, Panel } from '../page.js';
import { spoken } from '../spoken.js';
import { heldInside } from '../state.js';
import { nudged, onMark, stepsOf, waysOf } from '../steps.js';
import { capital } from './verdict.js';

export function coordinatesPanel(page: Page): Panel {
  const rows = COORDINATES.map((coordinate) => coordinateRow(page, coordinate));
  return {
    element: el('div', { class: 'rows' }, ...rows.map(({ element }) => element)),
    update: () => rows.forEach((row) => row.update()),
  };
}

function coordinateRow(page: Page, coordinate: Coordinate): Panel {
  const { scenario, telling } = page;
  const { min, max } = scenario.position[coordinate];
  const isPinned = min === max;
  const step = stepsOf(scenario)[0]!;
  const by = coordinate === 'pitch' ? step.angle : step.length;
  const id = newId();
  const value = el('output', { class: 'value', attrs: { for: id } });
  const slider = el('input', {
    id,
    attrs: { type: 'range', min: 0, max: Math.max(1, Math.round((max - min) / by)), step: 1 },
    on: {
      input: () => {
        const at = min + Number(slider.value) * by;
        const position = { ...page.state.position, [coordinate]: onMark(at, by) };
        page.change({ position: heldInside(scenario, position) }, `slider ${coordinate}`);
      },
      change: () => page.ended(),
    },
  });
  slider.disabled = isPinned;
  const nudges = ([-1, 1] as const).map((way) =>
    button(waysOf(scenario, coordinate)[way > 0 ? 1 : 0], () => {
      page.change({ position: nudged(scenario, page.state.position, coordinate, way, step) });
      page.say(coordinateWords(coordinate, page.state.position[coordinate], telling));
    }),
  );
  nudges.forEach((one) => (one.disabled = isPinned));
  const element = el(
    'div',
    { class: 'coordinate' },
    el('label', { attrs: { for: id } }, capital(coordinate)),
    value,
    nudges[0],
    slider,
    nudges[1],
  );
  return {
    element,
    update: () => {
      const at = page.state.position[coordinate];
      const words =
        coordinateWords(coordinate, at, telling) + (isPinned ? ' (held by the file)' : '');
      write(value, words);
      const share = String(Math.round((at - min) / by));
      if (slider.value !== share) slider.value = share;
      mark(slider, 'aria-valuetext', spoken(words));
    },
  };
}
