/** The rules of one standing: the tightest on the first screen, all of them where asked. */

import type { Reading, Standing } from '../../solver/answer.js';
import { keyOf } from '../../solver/measuring/reading-key.js';
import { paragraph, whole } from './lines.js';
import type { Line, Section } from './lines.js';
import { table } from './table.js';
import { clean, name } from '../../words/text.js';
import {
  guessedOf,
  isInsideTapeError,
  marginWords,
  pairWords,
  settled,
} from '../../words/words.js';
import { spare, spareInDoubt } from '../../words/words.js';
import type { Telling } from '../../words/words.js';

/** So many rules stand on the first screen. */
const TIGHTEST = 8;

/** Of those, so many stay when room is short, beside the heading and the count of the rest. */
const LEAST_ROWS = 3;

/** A margin, in millimetres and in words, from which a rule is only counted. */
export const ROOMY = { in: { mm: 25.4, words: '1' }, mm: { mm: 25, words: '25' } } as const;

/** Whether a rule falls short, the decision at zero being what the solver's is. */
export function isShort(reading: Reading): boolean {
  return settled(reading.margin) < 0;
}

/** The readings of a setting, each with what the optimum says of its binding. */
export function withBinding(standing: Standing, optimum: Standing): Reading[] {
  const at = new Map(optimum.readings.map((reading) => [keyOf(reading), reading]));
  return standing.readings.map((reading) => {
    const best = at.get(keyOf(reading));
    if (best === undefined) return reading;
    const { binding, share, shareRange } = best;
    return {
      ...reading,
      binding,
      ...(share === undefined ? {} : { share }),
      ...(shareRange === undefined ? {} : { shareRange }),
    };
  });
}

/** The tightest rule in words, the tightest eight as rows, and a count of the rest. */
export function tightSections(rules: readonly Reading[], telling: Telling): Section[] {
  const { look } = telling;
  const tightest = rules[0];
  if (tightest === undefined) return [whole([{ label: 'Tight', text: 'no rule to keep' }])];
  const short = rules.filter(isShort);
  const free = rules.filter((reading) => !reading.fixed);
  const listed = short.length > 0 ? short : free;
  const remark = short.length > 0 ? 'wants' : 'binds';
  const body = (rows: number): Line[] => {
    const told = listed.slice(0, rows);
    return [
      ...table(told, remark, telling),
      ...rest([...new Set([...listed, ...free])], told, telling),
    ];
  };
  const lines = body(TIGHTEST);
  const shorter = (most: number): Line[] => {
    for (let rows = TIGHTEST - 1; rows > 1; rows--) {
      if (body(rows).length <= most) return body(rows);
    }
    return body(1);
  };
  return [
    whole(paragraph('Tight', tightWords(tightest, telling), look).slice(0, 3)),
    { lines, shorter, least: Math.min(lines.length, LEAST_ROWS + 2), yields: 7 },
    fixedSection(rules, telling),
  ];
}

/** Which of the two rests on a guess, in brackets. */
function guessWords(reading: Reading, telling: Telling): string {
  const guessed = guessedOf(reading, telling).map((part) => name(part, telling.look));
  if (guessed.length === 0) return '';
  return guessed.length === 1 ? ` (${guessed[0]!} is a guess)` : ' (both are guesses)';
}

/** The margin and the pair it is of; its doubt in full where one line holds that. */
export function tightWords(reading: Reading, telling: Telling): string {
  const { units, look } = telling;
  const pair = pairWords(reading, telling) + guessWords(reading, telling);
  if (reading.drawn !== undefined) return `${marginWords(reading, units)}: ${pair}`;
  const full = isInsideTapeError(reading.margin, units) ? ' (inside what a tape can err)' : '';
  const said = `${spare(reading.margin, units)}${full}: ${pair}`;
  const lines = paragraph('Tight', said, look).length;
  return lines === 1 ? said : `${spareInDoubt(reading.margin, units)}: ${pair}`;
}

/** Every rule that falls short, where the first screen could not hold them. */
export function shortLines(rules: readonly Reading[], telling: Telling): Line[] {
  const short = rules.filter(isShort);
  if (short.length <= TIGHTEST) return [];
  return [
    { label: 'All short', text: `${short.length} rules, the worst first` },
    ...table(short, 'wants', telling),
  ];
}

/** Every rule, tightest first, then the reasons, each once. */
export function allLines(rules: readonly Reading[], telling: Telling): Line[] {
  const { look } = telling;
  const free = rules.filter((reading) => !reading.fixed);
  const fixed = rules.filter((reading) => reading.fixed);
  const reasons = new Map<string, Reading>();
  for (const reading of rules) {
    const { why } = reading.rule;
    if (why !== undefined && !reasons.has(why)) reasons.set(why, reading);
  }
  const fixedHead = { label: 'Fixed', text: `${fixed.length}, whatever the position` };
  return [
    { label: 'All rules', text: `${free.length}, tightest first` },
    ...table(free, 'binds', telling),
    ...(fixed.length === 0 ? [] : [fixedHead]),
    ...table(fixed, 'binds', telling),
    ...[...reasons].flatMap(([why, reading], index) => {
      const said = `${pairWords(reading, telling)}: ${clean(why, look)}${source(reading, telling)}`;
      return paragraph(index === 0 ? 'Why' : '', said, look);
    }),
  ];
}

/** `2 more short; 7 more under 1; 112 others have 1 or more (--all)`. */
function rest(all: readonly Reading[], told: readonly Reading[], telling: Telling): Line[] {
  const known = new Set(told);
  const untold = all.filter((reading) => !known.has(reading));
  if (untold.length === 0) return [];
  const roomy = ROOMY[telling.units];
  const short = untold.filter(isShort).length;
  const many = untold.filter((reading) => reading.margin >= roomy.mm).length;
  const few = untold.length - many - short;
  const said = [
    ...(short > 0 ? [`${short} more short`] : []),
    ...(few > 0 ? [`${few} more under ${roomy.words}`] : []),
    ...(many > 0 ? [`${many} others have ${roomy.words} or more`] : []),
  ];
  return [{ label: '', text: `  ${said.join('; ')} (--all)`, flush: true }];
}

/** Rules between parts of one side: no position changes them, so they give way unless short. */
function fixedSection(rules: readonly Reading[], telling: Telling): Section {
  const fixed = rules.filter((reading) => reading.fixed);
  const tightest = fixed[0];
  if (tightest === undefined) return whole([]);
  const count = fixed.length === 1 ? '1 rule' : `${fixed.length} rules, the tightest`;
  const said = `no position changes ${count}: ${marginWords(tightest, telling.units)}, `;
  const lines = paragraph('Fixed', said + pairWords(tightest, telling), telling.look).slice(0, 2);
  return isShort(tightest) ? whole(lines) : { lines, shorter: () => [], least: 0, yields: 6 };
}

function source(reading: Reading, { look }: Telling): string {
  const { origin } = reading.rule;
  return origin.from === 'rule book' ? ` (rule book: ${clean(origin.source, look)})` : '';
}
