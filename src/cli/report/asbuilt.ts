/** The report of `berth asbuilt`: go on or set it again, where the engine really sits, what is left there. */

import { maxOf } from '../../model/extremes.js';
import { tape } from '../../model/text/tape.js';
import type { AsBuilt } from '../../solver/fitup/as-built.js';
import type { BuiltLimit, BuiltReading } from '../../solver/fitup/sureness.js';
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
import { pad } from '../../words/text.js';
import { limitWords } from '../../words/where.js';
import { countOf, pairWords, spare } from '../../words/words.js';
import type { Telling } from '../../words/words.js';
import { list, paragraph } from './lines.js';
import type { Line } from './lines.js';

/** Rules shown. */
const SHOWN = 5;

export function asBuiltReport(
  found: AsBuilt,
  warnings: readonly string[],
  telling: Telling,
): Line[] {
  const { look } = telling;
  const { estimate, built, within, readings, unused, next } = found;
  const { doubtful, atOdds } = estimate;
  const called = (i: number) => readingWords(readings[i]!, telling);
  const used = readings.length - doubtful.length - unused.length;
  return [
    builtHeadline(found, telling),
    ...(estimate.open.length > 0 ? [] : placeLines(found, telling)),
    ...paragraph(
      'Known to',
      `${withinWords(within, telling)} (95 in 100; ${countOf(used, 'reading')})`,
      look,
    ),
    ...list(
      'Left out',
      doubtful.map((i) => `${called(i)} ${contradictedWords(found, i, telling)}`),
      '; ',
      look,
    ).lines,
    ...list(
      'At odds',
      atOdds.map((i) => `${called(i)} ${contradictedWords(found, i, telling)}`),
      '; ',
      look,
    ).lines,
    ...list(
      'Not used',
      unused.map(({ reading, why }) => `${called(reading)}: ${unusedWords(why)}`),
      '; ',
      look,
    ).lines,
    ...list('Unchecked', uncheckedWords(found, telling), '; ', look).lines,
    ...(built ? table(built.rules, telling) : []),
    ...(built ? list('Limits', limitPieces(built.limits, telling), '; ', look).lines : []),
    ...list(
      'Not told',
      estimate.open.map((one) => freeWords(one).replace(/ \(.*\)$/, '')),
      ', ',
      look,
    ).lines,
    ...list(
      'Tape next',
      next.map((one) => readingWords(one, telling)),
      '; ',
      look,
    ).lines,
    ...list(
      found.verdict === 'set again' ? 'To do' : 'To true',
      againWords(found, telling),
      '; ',
      look,
    ).lines,
    { label: '', text: HANGING_CAUTION, flush: true },
    ...warnings.flatMap((text, w) => paragraph(w === 0 ? 'Warning' : '', text, look)),
  ];
}

/** Where it sits, or else could, and how far that is from what was meant. */
function placeLines(found: AsBuilt, telling: Telling): readonly Line[] {
  const { look } = telling;
  const { estimate, meant } = found;
  const { stance, rivals } = estimate;
  const off = offWords(stance, meant, telling);
  return [
    ...list('Sits', sitsWords(found, telling), ', ', look).lines,
    ...rivals
      .slice(0, 2)
      .flatMap((rival) => list('Or else', offWords(rival, stance, telling), ', ', look).lines),
    ...list('Off by', off.length === 0 ? ['nothing that can be told'] : off, ', ', look).lines,
  ];
}

/** Every limit that is not kept, and whether a tape can tell so. */
function limitPieces(limits: readonly BuiltLimit[], telling: Telling): string[] {
  return limits.flatMap(({ reading, kept }) =>
    limitWords({ limits: [reading] }, telling).map((words) =>
      kept === 'no' ? words : `${words}: within what can be told`,
    ),
  );
}

function table(rules: readonly BuiltReading[], telling: Telling): Line[] {
  const { units } = telling;
  const rows = rules
    .slice(0, SHOWN)
    .map((one) => [
      tape(one.reading.atRest, units, { round: 'down' }),
      tape(one.reading.gap, units, { round: 'down' }),
      tape(one.reading.needed, units, { round: 'up' }),
      spare(one.reading.margin, units),
      sureWords(one, telling),
      pairWords(one.reading, telling),
    ]);
  const all = [['at rest', 'moving', 'needs', 'spare', '+-', ''], ...rows];
  const widths = all[0]!.map((_, c) => maxOf(all.map((row) => row[c]!.length)));
  const lines = all.map((row) => ({
    label: '',
    text: `  ${row.map((cell, c) => pad(cell, widths[c]! + 2)).join('')}`.trimEnd(),
    flush: true,
  }));
  if (rules.length === 0) return [];
  const more = rules.length - SHOWN;
  return more <= 0
    ? lines
    : [...lines, { label: '', text: `  ${more} more have more`, flush: true }];
}
