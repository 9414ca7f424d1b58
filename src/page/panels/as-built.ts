/** What was built: tape readings typed beside what they should be, and where the engine really sits. */

import type { MeasuredReading } from '../../model/fitup/measured.js';
import type { AsBuilt } from '../../solver/fitup/as-built.js';
import type { ToTape } from '../../solver/fitup/to-tape.js';
import {
  againWords,
  builtHeadline,
  contradictedWords,
  offWords,
  readingWords,
  sitsWords,
  sureWords,
  uncheckedWords,
  unusedWords,
  withinWords,
} from '../../words/built.js';
import { freeWords, HANGING_CAUTION } from '../../words/fitup.js';
import { toTapeCells } from '../../words/to-tape.js';
import { whereWords } from '../../words/where.js';
import { countOf, pairWords, spare } from '../../words/words.js';
import { button, el, mark, newId, write } from '../dom.js';
import { factsOf } from '../facts.js';
import type { Page, Panel } from '../page.js';
import { typedReading } from '../typed-reading.js';
import { solverBlock } from './solver-block.js';
import { capital } from './verdict.js';

/** Rules told of. */
const SHOWN = 5;

/** What is typed, by what it is called: it outlives the file's being read again. */
const kept = new Map<string, string>();

export function asBuiltPanel(page: Page): Panel {
  const form = el('form', { class: 'rows' });
  const told = el('p', { class: 'told', attrs: { role: 'status' } });
  let fields: readonly Field[] = [];
  let place: Pick<Page['state'], 'position' | 'options' | 'depths'> | undefined;
  const what = button('What to tape here', () => {
    const { position, options, depths } = page.state;
    const asked = { position, options, depths };
    block.ask({ kind: 'to tape', place: asked }, (found) => {
      place = asked;
      fields = found.map((one) => fieldOf(one, page));
      form.replaceChildren(
        el('p', {}, `Meant: ${whereWords(asked.position, page.telling).join(', ')}.`),
        el('p', { class: 'hint' }, HINT),
        ...fields.map(({ element }) => element),
        el('button', { class: 'go', attrs: { type: 'submit' } }, 'Where is it really?'),
        told,
      );
      return [el('p', {}, `${countOf(found.length, 'reading')} to take, above.`)];
    });
  });
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const read = fields.flatMap((field) => field.read());
    const wrong = read.find((one) => one === 'wrong');
    const readings = read.filter((one): one is MeasuredReading => one !== 'wrong');
    if (wrong !== undefined) write(told, 'A reading cannot be read: see beside it.');
    else if (readings.length === 0) write(told, 'Type what the tape reads first.');
    if (wrong !== undefined || readings.length === 0 || !place) return;
    write(told, '');
    block.ask({ kind: 'as built', place, readings }, (found) => [builtCard(found, page)]);
  });
  const block = solverBlock(page, what);
  const element = el(
    'div',
    { class: 'rows' },
    el(
      'p',
      { class: 'hint' },
      'Put the engine here where it is meant to be. Once it really hangs, tape it, and see where it came to.',
    ),
    form,
    block.element,
    el('p', { class: 'care' }, HANGING_CAUTION),
  );
  return { element, update: () => undefined };
}

const HINT =
  'Type what the tape reads, at rest; an error of your own after +-. Leave out what you cannot reach.';

interface Field {
  readonly element: HTMLElement;
  /** What is typed as a reading, if anything. */
  read(): readonly (MeasuredReading | 'wrong')[];
}

function fieldOf(one: ToTape, { scenario, telling }: Page): Field {
  const [id, hintId] = [newId(), newId()];
  const [what, how, reads] = toTapeCells(one, telling);
  const called = one.wanted.name;
  const input = el('input', {
    id,
    attrs: { type: 'text', autocomplete: 'off', maxlength: 60, 'aria-describedby': hintId },
    on: { input: () => kept.set(called, input.value) },
  });
  input.value = kept.get(called) ?? '';
  const hint = el('p', { id: hintId, class: 'hint' });
  const should = `${capital(how)}; should read ${reads}`;
  write(hint, should);
  return {
    element: el(
      'div',
      { class: 'field' },
      el('label', { attrs: { for: id } }, capital(what)),
      input,
      hint,
    ),
    read: () => {
      const text = input.value.trim();
      const typed = text === '' ? undefined : typedReading(one, text, scenario);
      const problem = typed && 'problem' in typed ? typed.problem : undefined;
      mark(input, 'aria-invalid', problem === undefined ? undefined : 'true');
      write(hint, problem === undefined ? should : `${capital(problem)}. ${should}`);
      if (typed === undefined) return [];
      return 'reading' in typed ? [typed.reading] : ['wrong'];
    },
  };
}

/** A name, and what is said under it. */
type Term = readonly [term: string, pieces: readonly string[]];

/** Where it sits, or else could, and how far that is from what was meant. */
function placeTerms(found: AsBuilt, telling: Page['telling']): readonly Term[] {
  const { stance, rivals } = found.estimate;
  const off = offWords(stance, found.meant, telling);
  return [
    ['Sits', sitsWords(found, telling)],
    ...rivals.slice(0, 2).map((rival): Term => ['Or else', offWords(rival, stance, telling)]),
    ['Off by', off.length === 0 ? ['nothing that can be told'] : off],
  ];
}

/** Go on or set it again; where it sits, how well that is known, and which readings were not believed. */
function builtCard(found: AsBuilt, { telling }: Page): HTMLElement {
  const { estimate, built, within, readings, unused, next } = found;
  const { label, text } = builtHeadline(found, telling);
  const isTold = estimate.open.length === 0;
  const called = (i: number) => readingWords(readings[i]!, telling);
  const doubted = (i: number) => `${called(i)} ${contradictedWords(found, i, telling)}`;
  const said: readonly Term[] = [
    ...(isTold ? placeTerms(found, telling) : []),
    ['Known to', [`${withinWords(within, telling)} (95 in 100)`]],
    ['Left out', estimate.doubtful.map(doubted)],
    ['At odds', estimate.atOdds.map(doubted)],
    ['Not used', unused.map(({ reading, why }) => `${called(reading)}: ${unusedWords(why)}`)],
    ['Unchecked', uncheckedWords(found, telling)],
    ['Not told', estimate.open.map((one) => freeWords(one).replace(/ \(.*\)$/, ''))],
    ['Tape next', next.map((one) => readingWords(one, telling))],
    [found.verdict === 'set again' ? 'To do' : 'To true', againWords(found, telling)],
  ];
  const told = said.filter(([, pieces]) => pieces.length > 0);
  const facts = factsOf(told.map(([term]) => term));
  facts.tell(told.map(([, pieces]) => pieces.join('; ')));
  const rules = built?.rules.slice(0, SHOWN) ?? [];
  return el(
    'div',
    { class: 'card' },
    el('p', { class: 'lead' }, `${capital(label.toLowerCase())} ${capital(text)}`),
    facts.element,
    ...(rules.length === 0
      ? []
      : [
          el('h3', {}, 'Tightest there'),
          el(
            'ul',
            { class: 'where' },
            ...rules.map((one) => {
              const { margin } = one.reading;
              const size = `${spare(margin, telling.units)}, give or take ${sureWords(one, telling)}`;
              return el('li', {}, `${pairWords(one.reading, telling)}: ${size}`);
            }),
          ),
        ]),
  );
}
