/** Figures that follow the engine: rows of a name, a size and what it may be; and facts as a list of terms. */

import { el, mark, write } from './dom.js';
import { spoken } from './spoken.js';

/** A row: its size, more about it, and whether it is not what it may be. */
export interface Figure {
  readonly element: HTMLLIElement;
  show(size: string, more: readonly string[], isShort: boolean): void;
}

export function figureOf(called: string): Figure {
  const left = el('span', { class: 'left' });
  const needs = el('span', { class: 'needs' });
  const said = el('span', { class: 'unseen' });
  const seen = [el('span', { class: 'pair' }, called), left, needs];
  // Seen as figures and heard as words.
  for (const one of seen) one.setAttribute('aria-hidden', 'true');
  const element = el('li', { class: 'figure' }, ...seen, said);
  return {
    element,
    show: (size, more, isShort) => {
      write(left, size);
      write(needs, more.join('; '));
      write(said, spoken([`${called}: ${size}`, ...more].join(', ')));
      mark(element, 'data-short', isShort ? '' : undefined);
    },
  };
}

export interface Facts {
  readonly element: HTMLElement;
  /** One text a term, in their order. */
  tell(values: readonly string[]): void;
}

export function factsOf(terms: readonly string[]): Facts {
  const values = terms.map(() => el('dd', {}));
  const pairs = terms.flatMap((term, i) => [el('dt', {}, term), values[i]!]);
  return {
    element: el('dl', { class: 'facts' }, ...pairs),
    tell: (texts) => texts.forEach((text, i) => write(values[i]!, text)),
  };
}
