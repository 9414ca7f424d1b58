/** The mock-up set to where the engine is now: how long each adjuster is to be, and how far to turn it. */

import { freedomOf } from '../../geometry/adjusters/freedom.js';
import { lengthOf } from '../../geometry/adjusters/links.js';
import type { Adjuster, Mockup } from '../../model/fitup/mockup.js';
import { stanceOf } from '../../model/stance.js';
import { tape } from '../../model/text/tape.js';
import type { SetUp } from '../../solver/fitup/set-up.js';
import { turnsOf } from '../../solver/fitup/set-up.js';
import {
  adjusterTape,
  freeWords,
  handWords,
  HANGING_CAUTION,
  moveWords,
  turnWords,
} from '../../words/fitup.js';
import { landsWords, mockupAdvice, mockupHeadline } from '../../words/mockup.js';
import { name } from '../../words/text.js';
import { whereWords } from '../../words/where.js';
import { unit } from '../../words/words.js';
import { button, el, write } from '../dom.js';
import { factsOf, figureOf } from '../facts.js';
import type { Page, Panel } from '../page.js';
import { solverBlock } from './solver-block.js';
import { capital } from './verdict.js';

export function mockupPanel(page: Page, mockup: Mockup): Panel {
  const { telling } = page;
  const { adjusters } = mockup;
  const lead = el('p', { class: 'lead' });
  const rows = adjusters.map((one) => figureOf(capital(name(one.name, telling.look, 24))));
  const facts = factsOf(['Which way', 'Not held']);
  const block = solverBlock(
    page,
    button('Find the order to turn them in', () => {
      const { position, options, depths } = page.state;
      const place = { position, options, depths };
      block.ask({ kind: 'mock-up', place }, (found) => [orderCard(found, page)]);
    }),
  );
  const update = () => {
    const stance = stanceOf(page.state.position);
    let beyond = 0;
    adjusters.forEach((adjuster, i) => {
      const length = lengthOf(adjuster, stance);
      const doubt = doubtOf(adjuster, length);
      if (doubt !== undefined) beyond++;
      const size = adjusterTape(length, telling.units);
      rows[i]!.show(size, moreOf(adjuster, length, doubt, page), doubt !== undefined);
    });
    const count = `${beyond} of ${adjusters.length} adjusters`;
    write(
      lead,
      beyond === 0
        ? 'Every adjuster reaches here. Set to:'
        : `Cannot be set here: ${count} out of range.`,
    );
    const { motions } = freedomOf(adjusters, stance);
    facts.tell([
      handWords(adjusters),
      motions.length === 0 ? 'nothing: every motion is held' : motions.map(freeWords).join('; '),
    ]);
  };
  const element = el(
    'div',
    { class: 'rows' },
    lead,
    el(
      'ol',
      { class: 'figures', attrs: { 'aria-label': 'Adjusters' } },
      ...rows.map(({ element: row }) => row),
    ),
    facts.element,
    block.element,
    el('p', { class: 'care' }, HANGING_CAUTION),
  );
  return { element, update };
}

function doubtOf({ range }: Adjuster, length: number): string | undefined {
  if (length > range.max) return 'too far apart';
  return length < range.min ? 'too near' : undefined;
}

/** Turns from how long it is now, where that is known, and what it can do. */
function moreOf(
  adjuster: Adjuster,
  length: number,
  doubt: string | undefined,
  { telling }: Page,
): string[] {
  const { now, range } = adjuster;
  const { units } = telling;
  const turned =
    now === undefined
      ? []
      : [turnWords(turnsOf(length - now, adjuster.lead)), `now ${adjusterTape(now, units)}`];
  const least = tape(range.min, units, { round: 'up' });
  const most = tape(range.max, units, { round: 'down' }) + unit(units);
  return [...(doubt === undefined ? [] : [doubt]), ...turned, `goes from ${least} to ${most}`];
}

/** The answer of the solver: for a place that the engine may have left since, so it says which. */
function orderCard(found: SetUp, { telling }: Page): HTMLElement {
  const { now, target } = found;
  const { label, text } = mockupHeadline(found, telling);
  const moves = now?.order.moves ?? [];
  return el(
    'div',
    { class: 'card' },
    el('p', { class: 'lead' }, `${capital(label.toLowerCase())} ${text}`),
    el('p', { class: 'hint' }, `For ${whereWords(target, telling).join(', ')}.`),
    ...(moves.length === 0
      ? []
      : [
          el(
            'ol',
            { class: 'reasons' },
            ...moves.map((move) => el('li', {}, capital(moveWords(move, found, telling)))),
          ),
        ]),
    ...(now ? [el('p', {}, `Lands ${landsWords(found, telling)}.`)] : []),
    ...(mockupAdvice(found) === '' ? [] : [el('p', {}, `${capital(mockupAdvice(found))}.`)]),
  );
}
