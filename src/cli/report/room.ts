/** Room to work: what comes out, which way, and what is nearest to it or in the way. */

import type { Reading } from '../../solver/answer.js';
import { list } from './lines.js';
import type { Section } from './lines.js';
import { isShort, ROOMY } from './rules.js';
import { name } from '../../words/text.js';
import { outWords, spare } from '../../words/words.js';
import type { Telling } from '../../words/words.js';

/**
 * One piece for each part that comes out, the tightest first: `oil filter comes out down, 3/4 to
 * spare at crossmember`; `starter does not come out forward, short 1/2: left rail is in the way`.
 */
export function roomSection(readings: readonly Reading[], telling: Telling): Section {
  const tightest = new Map<string, Reading>();
  for (const reading of [...readings].sort((a, b) => a.margin - b.margin)) {
    const part = reading.withdrawn?.part;
    if (part !== undefined && !tightest.has(part)) tightest.set(part, reading);
  }
  const told = [...tightest.values()];
  const pieces = told.map((reading) => roomWords(reading, telling));
  const isRoomy = told.every((reading) => reading.margin >= ROOMY[telling.units].mm);
  const { lines, shorter } = list('Room', pieces, ' | ', telling.look);
  // What has room enough gives way before anything else.
  return isRoomy
    ? { lines, shorter: (most) => (most === 0 ? [] : shorter!(most)), least: 0, yields: 0 }
    : { lines, shorter: shorter!, least: 1, yields: 6 };
}

function roomWords(reading: Reading, { scenario, units, look }: Telling): string {
  const { part, room } = reading.withdrawn!;
  const [first, second] = reading.between;
  const other = name(first === part ? second : first, look);
  const way = outWords(room, scenario);
  const margin = spare(reading.margin, units);
  return isShort(reading)
    ? `${name(part, look)} does not come out ${way}, ${margin}: ${other} is in the way`
    : `${name(part, look)} comes out ${way}, ${margin} at ${other}`;
}
