/** Which way the large view looks, and how close. */

import { button, el, mark } from '../dom.js';
import type { Page } from '../page.js';
import { LOOKS } from '../state.js';
import type { Looking } from '../state.js';

const CALLED: Readonly<Record<Looking, string>> = {
  side: 'Side',
  top: 'Top',
  front: 'Front',
  turn: 'Turn',
};

export function lookButtons(
  page: Page,
  closer: () => void,
): { readonly element: HTMLElement; update(closer: number): void } {
  const looks = LOOKS.map((looking) => ({
    looking,
    made: button(CALLED[looking], () => page.look(looking), { class: 'look' }),
  }));
  const near = button('Closer', closer, { class: 'look near' });
  const element = el(
    'div',
    { class: 'looks', attrs: { role: 'group', 'aria-label': 'Look from' } },
    ...looks.map(({ made }) => made),
    near,
  );
  return {
    element,
    update: (level) => {
      for (const { looking, made } of looks) {
        mark(made, 'aria-pressed', String(looking === page.state.looking));
      }
      near.disabled = page.state.looking === 'turn';
      const text = level === 2 ? 'All of it' : 'Closer';
      if (near.textContent !== text) near.textContent = text;
    },
  };
}
