/** Why a wish cannot be had: what is in the way, and remedies that are applied with a touch. */

import type { Scenario } from '../../model/scenario.js';
import { parseWants } from '../../model/asked/wants.js';
import type { Remedy } from '../../solver/explaining/asking.js';
import type { WhyAnswer } from '../../solver/explaining/why.js';
import { leftWords, placeOf, reasonWords, remedyWords, wantedWords } from '../../words/why.js';
import { button, el, newId } from '../dom.js';
import type { Page, Panel } from '../page.js';
import { wantsOf } from '../wants-of.js';
import { goButton, whereList } from './place-card.js';
import { solverBlock } from './solver-block.js';
import { capital } from './verdict.js';

export function whyPanel(page: Page): Panel {
  const id = newId();
  const hint = newId();
  const own = el('input', {
    id,
    attrs: { type: 'text', autocomplete: 'off', spellcheck: 'false', 'aria-describedby': hint },
  });
  own.value = 'offset=0; margin>=1/8';
  const ask = (want: string) => {
    own.value = want;
    block.ask({ kind: 'why', want }, (answer) => told(page, want, answer));
  };
  const block = solverBlock(
    page,
    button('Why not centred?', () => ask('offset=0')),
    button('Why not here?', () => ask(wantsOf(page.scenario, page.state))),
  );
  const element = el(
    'div',
    {},
    el(
      'form',
      {
        class: 'own',
        on: {
          submit: (event) => {
            event.preventDefault();
            ask(own.value);
          },
        },
      },
      el('label', { attrs: { for: id } }, 'A wish of your own'),
      own,
      el(
        'p',
        { id: hint, class: 'hint' },
        'Such as setback>=26; margin>=1/4. A semicolon parts several.',
      ),
      el('button', { attrs: { type: 'submit' } }, 'Ask why not'),
    ),
  );
  element.prepend(block.element);
  element.append(block.answer);
  return { element, update: () => undefined };
}

function told(page: Page, want: string, answer: WhyAnswer): Node[] {
  const { telling } = page;
  const { wants } = parseWants([want], telling.units, page.scenario);
  const wanted = el('p', {}, `Wanted: ${wantedWords(wants, telling).join(', ')}.`);
  if (answer.possible === 'yes') {
    const { placement, wish } = answer;
    const left = placement ? leftWords(placement, wish.margin, telling) : '';
    const lead = el('p', { class: 'lead' }, `It can be had, proved, with ${left}.`);
    if (!placement) return [lead, wanted];
    const standing = placeOf(placement, wish.margin);
    const offer = { position: standing.position, options: answer.set };
    return [lead, wanted, whereList(page, standing), goButton(page, 'Put the engine there', offer)];
  }
  const lead =
    answer.possible === 'no'
      ? 'It cannot be had as things are. Proved.'
      : 'Undecided: stopped before it was settled.';
  const rest = answer.complete ? 'There is no other reason.' : 'There may be other reasons.';
  return [
    el('p', { class: 'lead' }, lead),
    wanted,
    el('h3', {}, 'In the way'),
    el(
      'ol',
      { class: 'reasons' },
      ...answer.reasons.map((one) => el('li', {}, `${capital(reasonWords(one, telling))}.`)),
    ),
    el('p', {}, rest),
    el('h3', {}, 'What would do it'),
    ...remedyNodes(page, answer),
  ];
}

function remedyNodes(page: Page, answer: WhyAnswer): Node[] {
  const { remedies, remediesComplete } = answer;
  if (remedies.length === 0) {
    const none = remediesComplete
      ? 'No option and no cut of this file makes it possible. Proved.'
      : 'None found so far.';
    return [el('p', {}, none)];
  }
  return [
    el(
      'ol',
      { class: 'remedies' },
      ...remedies.map((one) =>
        el(
          'li',
          {},
          el('p', {}, `${capital(remedyWords(one, answer, page.telling))}.`),
          goButton(page, 'Do this', {
            position: placeOf(one.placement, answer.wish.margin).position,
            options: one.options,
            depths: depthsOf(page.scenario, one),
          }),
        ),
      ),
    ),
    el('p', {}, remediesComplete ? 'No smaller change does it.' : 'There may be others.'),
  ];
}

/** How deep a remedy cuts, by trim of the file: what comes from the worker is a copy. */
function depthsOf({ trims }: Scenario, { cuts }: Remedy): number[] {
  const known = trims.map((trim) => JSON.stringify(trim));
  const depths = trims.map(() => 0);
  for (const { trim, depth } of cuts) {
    const t = known.indexOf(JSON.stringify(trim));
    if (t >= 0) depths[t] = depth;
  }
  return depths;
}
