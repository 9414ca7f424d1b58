/** One coordinate moved along, as a plot: what is left at best at each place, and which rule is in charge where. */

import { maxOf, minOf } from '../../model/extremes.js';
import { COORDINATES } from '../../model/scenario.js';
import { meetsLimits } from '../../solver/explaining/compare.js';
import type { Slide, SlidePoint } from '../../solver/explaining/slide.js';
import { coordinateWords } from '../../words/where.js';
import { pairWords, spare } from '../../words/words.js';
import { button, el, svg } from '../dom.js';
import type { Page, Panel } from '../page.js';
import { ticksOf } from '../views/ticks.js';
import { onMark, stepsOf } from '../steps.js';
import { goButton } from './place-card.js';
import { solverBlock } from './solver-block.js';
import { capital } from './verdict.js';

/** Points over the range. */
const STEPS = 17;
/** Pixels of the plot, and of the rule beneath and beside it. */
const SIZE = { width: 640, height: 300, rule: 30 };

export function slidePanel(page: Page): Panel {
  const { position } = page.scenario;
  const free = COORDINATES.filter((one) => position[one].min < position[one].max);
  const block = solverBlock(
    page,
    ...free.map((along) =>
      button(`Slide ${along}`, () => {
        const allowed = page.state.options.map((option) => [option]);
        block.ask({ kind: 'slide', along, allowed, steps: STEPS }, (slide) => told(page, slide));
      }),
    ),
  );
  return { element: block.element, update: () => undefined };
}

function told(page: Page, slide: Slide): Node[] {
  const { telling } = page;
  const { best, along } = slide;
  const { length, angle } = stepsOf(page.scenario)[0]!;
  // Ends are found to less than a tape shows, so to its marks they are told.
  const words = (at: number) =>
    coordinateWords(along, onMark(at, along === 'pitch' ? angle : length), telling);
  const lead = `Best about ${words(best.at)}: ${spare(marginOf(best), telling.units)}.`;
  const fits = slide.fits
    ? `Every rule is kept from ${words(slide.fits.min)} to ${words(slide.fits.max)}.`
    : 'No place along it keeps every rule.';
  const open = slide.proved ? '' : ' Not all of it is proved.';
  return [
    el('p', { class: 'lead' }, lead),
    el('p', {}, fits + open),
    // Stopped at once, it has the best place and no way along yet.
    hasLine(slide)
      ? el('div', { class: 'plot' }, plotOf(page, slide))
      : el('p', {}, 'There is not enough of it to draw.'),
    el(
      'ol',
      { class: 'stretches', attrs: { 'aria-label': 'Stretches' } },
      ...slide.stretches.map(({ range, rules }) => {
        const told = rules.slice(0, 2).map((one) => pairWords(one, telling));
        const rule = told.join(' and ') || 'no place keeps the limits';
        return el('li', {}, `${words(range.min)} to ${words(range.max)}: ${rule}`);
      }),
    ),
    goButton(page, 'Put the engine at the best', {
      position: best.placement.optimum.position,
      options: slide.options,
    }),
    el('details', {}, el('summary', {}, 'The same as a table'), table(page, slide)),
  ];
}

function hasLine({ points, best }: Slide): boolean {
  return points.length > 1 && Number.isFinite(marginOf(best));
}

function marginOf({ placement }: SlidePoint): number {
  return meetsLimits(placement) ? placement.optimum.margin : -Infinity;
}

function plotOf(page: Page, slide: Slide): SVGSVGElement {
  const { units } = page.telling;
  const { width, height, rule } = SIZE;
  const points = slide.points.filter((point) => Number.isFinite(marginOf(point)));
  const margins = points.map(marginOf);
  const [from, to] = [slide.points[0]!.at, slide.points.at(-1)!.at];
  const low = Math.min(0, minOf(margins));
  const high = Math.max(1, maxOf(margins));
  const tall = (high - low) * 1.1;
  const x = (at: number) => rule + ((at - from) / (to - from)) * (width - rule - 8);
  const y = (margin: number) => 8 + ((high - margin) / tall) * (height - rule - 16);
  const line = points.map(
    (point, i) => `${i === 0 ? 'M' : 'L'}${x(point.at)} ${y(marginOf(point))}`,
  );
  const stretches = slide.stretches.flatMap(({ range }, i) => {
    const [left, right] = [x(range.min), x(range.max)];
    return [
      svg('rect', {
        class: i % 2 === 0 ? 'stretch' : 'stretch other',
        attrs: { x: left, y: 0, width: Math.max(0, right - left), height: height - rule },
      }),
      svg(
        'text',
        {
          class: 'number',
          attrs: { x: (left + right) / 2, y: height - rule - 8, 'text-anchor': 'middle' },
        },
        String(i + 1),
      ),
    ];
  });
  const here = page.state.position[slide.along];
  const unit = slide.along === 'pitch' ? 'mm' : units;
  const perPixel = (to - from) / (width - rule - 8);
  // A degree is drawn as a millimetre of the rule, for the marks alone.
  const scale = slide.along === 'pitch' ? 180 / Math.PI : 1;
  const ticks = ticksOf(
    { length: width - rule - 8, start: from * scale, perPixel: perPixel * scale },
    unit,
  );
  return svg(
    'svg',
    {
      attrs: {
        viewBox: `0 0 ${width} ${height}`,
        role: 'img',
        'aria-label': `What is left against ${slide.along}; the table below says the same`,
      },
    },
    ...stretches,
    svg('line', { class: 'zero', attrs: { x1: rule, x2: width, y1: y(0), y2: y(0) } }),
    svg(
      'text',
      { class: 'zero', attrs: { x: rule + 4, y: y(0) + (y(0) < 24 ? 16 : -5) } },
      'nothing to spare',
    ),
    svg('path', { class: 'line', attrs: { d: line.join('') } }),
    svg('circle', {
      class: 'best',
      attrs: { cx: x(slide.best.at), cy: y(marginOf(slide.best)), r: 7 },
    }),
    ...(here >= from && here <= to
      ? [
          svg('line', {
            class: 'here',
            attrs: { x1: x(here), x2: x(here), y1: 24, y2: height - rule },
          }),
          svg('text', { class: 'here', attrs: { x: x(here) + 4, y: 36 } }, 'here'),
        ]
      : []),
    svg('rect', {
      class: 'blade',
      attrs: { x: 0, y: height - rule, width, height: rule },
    }),
    svg('path', {
      class: 'ticks',
      attrs: {
        d: ticks.map(({ at, rank }) => `M${rule + at} ${height - rule}v${5 + rank * 9}`).join(''),
      },
    }),
    ...ticks.flatMap(({ at, text }) =>
      text === undefined
        ? []
        : [svg('text', { class: 'reading', attrs: { x: rule + at + 3, y: height - 5 } }, text)],
    ),
  );
}

function table(page: Page, { points, along }: Slide): HTMLElement {
  const { telling } = page;
  return el(
    'table',
    {},
    el('thead', {}, el('tr', {}, el('th', {}, capital(along)), el('th', {}, 'Left'))),
    el(
      'tbody',
      {},
      ...points.map((point) =>
        el(
          'tr',
          {},
          el('td', {}, coordinateWords(along, point.at, telling)),
          el('td', {}, spare(marginOf(point), telling.units)),
        ),
      ),
    ),
  );
}
