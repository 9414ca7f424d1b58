/** The mock-up's card: how long each adjuster is to be, how far to turn it, and in which order. */

import type { SetUp } from '../../solver/fitup/set-up.js';
import { handWords, HANGING_CAUTION, moveWords } from '../../words/fitup.js';
import type { Telling } from '../../words/words.js';
import { mockupCells, mockupLines, mockupNote } from '../report/mockup.js';
import { mockupHeadline } from '../../words/mockup.js';
import { BLANK, heading, paragraphOf, safe, tableOf, told } from './html.js';

/** With a blank for how long each adjuster is in the end. */
export function mockupCard(found: SetUp, telling: Telling): string {
  const head = mockupHeadline(found, telling);
  const [heads, ...rows] = mockupCells(found, telling);
  const moves = found.now?.order.moves ?? [];
  const items = moves.map((move) => `<li>${safe(moveWords(move, found, telling))}</li>`);
  const which = handWords(found.adjusters.map(({ adjuster }) => adjuster));
  return [
    heading('Mock-up adjusters'),
    paragraphOf(`${head.label} ${head.text}`),
    tableOf(
      [...heads!, 'as built'],
      // Numbered as the file of readings has them.
      rows.map((row, i) => [...row, `${BLANK}${i + 1}`]),
      'adjusters',
    ),
    ...(moves.length === 0
      ? []
      : [
          '<div class="order">',
          paragraphOf('Turn in this order, each to its mark before the next:'),
          `<ol>\n${items.join('\n')}\n</ol>`,
          '</div>',
        ]),
    told([
      ...mockupLines(found, telling),
      { label: 'On the right', text: mockupNote(found, telling).replace(/^right: /, '') },
      { label: 'To lengthen', text: which.replace(/^longer: /, '') },
    ]),
    paragraphOf(HANGING_CAUTION, 'caution'),
  ].join('\n');
}
