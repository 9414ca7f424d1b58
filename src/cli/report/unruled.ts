/** What no rule looks at, said beside the verdict: a search is blind to it. */

import { tape } from '../../model/text/tape.js';
import type { Unruled } from '../../solver/measuring/unruled.js';
import { list } from './lines.js';
import type { Line } from './lines.js';
import { name } from '../../words/text.js';
import { countOf, unit } from '../../words/words.js';
import type { Telling } from '../../words/words.js';

/** Of each; the answer for programs and the warnings name them all. */
const MOST_LINES = 2;

/** `2 parts no rule covers: starter, post`, and which pairs stand in each other for all that. */
export function unruledLines({ parts, overlaps }: Unruled, telling: Telling): Line[] {
  const { look, units } = telling;
  const inside = overlaps.map(({ between, depth }) => {
    const [engine, chassis] = between.map((part) => name(part, look));
    return `${engine} stands ${tape(depth, units, { round: 'up' })}${unit(units)} inside ${chassis}`;
  });
  const [first, ...more] = parts.map((part) => name(part, look));
  const named =
    first === undefined ? [] : [`${countOf(parts.length, 'part')} no rule covers: ${first}`];
  return [
    ...list('Overlap', inside, '; ', look).shorter!(MOST_LINES),
    ...list('No rule', [...named, ...more], ', ', look).shorter!(MOST_LINES),
  ];
}

/** `the 53 parts and sizes in this file`, or how many of them the proof is about. */
export function provedFor(
  { standing, covered }: Unruled,
  style: 'full' | 'short' = 'full',
): string {
  if (style === 'short') {
    return covered === standing
      ? `these ${standing} parts and sizes`
      : `${covered} of ${standing} parts`;
  }
  return covered === standing
    ? `the ${standing} parts and sizes in this file`
    : `the ${covered} of ${standing} parts that a rule covers`;
}
