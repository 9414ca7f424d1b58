/** Writes the present place into the file as a named case, on request alone. */

import { button, el, newId, write } from '../dom.js';
import type { Page, Panel } from '../page.js';
import { wantsOf } from '../wants-of.js';
import type { Saved } from '../saving.js';

export interface Keeping {
  /** Whether it goes into the file itself, or into a copy. */
  readonly isLive: boolean;
  save(name: string, wants: string): Promise<Saved>;
  /** The file reads otherwise now. */
  saved(text: string): void;
  /** What became of it, kept beyond the panel: the file's new text makes another. */
  tell(words: string): void;
  readonly told: string;
}

export function savePanel(page: Page, keeping: Keeping): Panel {
  const id = newId();
  const called = el('input', { id, attrs: { type: 'text', maxlength: 60, autocomplete: 'off' } });
  const wants = el('code', { class: 'wants' });
  const told = el('p', { class: 'told', attrs: { role: 'status' } });
  const cuts = el('p', { class: 'hint' });
  const press = button(
    keeping.isLive ? 'Write it into the file' : 'Download the changed file',
    () => {
      const name = called.value.trim();
      if (name === '') {
        keeping.tell('Give it a name first.');
        called.focus();
        return;
      }
      press.disabled = true;
      void keeping.save(name, wantsOf(page.scenario, page.state)).then((result) => {
        press.disabled = false;
        if ('message' in result) {
          keeping.tell(`Not written: ${result.message}.`);
          return;
        }
        const where = keeping.isLive ? 'It is in the file now' : 'The copy has it';
        keeping.saved(result.text);
        keeping.tell(`${where}, as the case '${name}'.`);
      });
    },
  );
  const element = el(
    'div',
    {},
    el(
      'p',
      {},
      'The file gets this place as a case by that name. Its comments and their order stay as they are.',
    ),
    el('div', { class: 'own' }, el('label', { attrs: { for: id } }, 'Name'), called, press),
    wants,
    cuts,
    told,
  );
  return {
    element,
    update: () => {
      write(wants, wantsOf(page.scenario, page.state));
      write(told, keeping.told);
      const isCut = page.state.depths.some((depth) => depth > 0);
      write(cuts, isCut ? 'Cuts are not part of a case: note them beside it.' : '');
    },
  };
}
