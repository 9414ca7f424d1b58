/** What the front axle carries where the engine is now; nothing where the file has no weights. */

import { axleNow } from '../../words/axle.js';
import { el, write } from '../dom.js';
import type { Page, Panel } from '../page.js';

export function axlePanel(page: Page): Panel {
  const element = el('p', { class: 'axle' });
  element.hidden = page.scenario.weight === undefined;
  return {
    element,
    update: () => {
      const { options, position } = page.state;
      write(element, axleNow(options, position, page.telling) ?? '');
    },
  };
}
