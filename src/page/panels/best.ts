/** The best position, solved in the worker. */

import { allDomains } from '../../model/options.js';
import { button } from '../dom.js';
import type { Page, Panel } from '../page.js';
import { placeCard } from './place-card.js';
import { solverBlock } from './solver-block.js';

export function bestPanel(page: Page): Panel {
  const solve = (allowed: readonly (readonly number[])[]) =>
    block.ask({ kind: 'best', allowed }, (answer) => {
      const { main, asItStands, leastWork, stopped } = answer;
      const early = stopped ? 'Stopped early. ' : '';
      const cards = [placeCard(page, main, early)];
      if (leastWork && leastWork.options.join() !== main.options.join()) {
        cards.push(placeCard(page, leastWork, 'Least work that meets every rule. '));
      }
      if (asItStands && asItStands.options.join() !== main.options.join()) {
        cards.push(placeCard(page, asItStands, 'As the bay stands. '));
      }
      return cards;
    });
  const block = solverBlock(
    page,
    button('Best position with these options', () => {
      solve(page.state.options.map((option) => [option]));
    }),
    button('Best position with any options', () => solve(allDomains(page.scenario))),
  );
  return { element: block.element, update: () => undefined };
}
