/** The report of `berth asbuilt`: go on or set it again, where the engine really sits, what is left there. */

import { stanceFrom, stanceVector } from '../../model/stance.js';
import { tape } from '../../model/tape.js';
import type { AsBuilt, BuiltLimit, BuiltReading } from '../../solver/fitup/as-built.js';
import { offWords, readingWords, readWords, withinWords } from '../../words/built.js';
import { freeWords, HANGING_CAUTION, turnWords } from '../../words/fitup.js';
import { name, pad } from '../../words/text.js';
import { limitWords, whereWords } from '../../words/where.js';
import { countOf, pairWords, spare, unit } from '../../words/words.js';
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
    headline(found, telling),
    ...(estimate.open.length > 0 ? [] : placeLines(found, telling)),
    ...paragraph(
      'Known to',
      `${withinWords(within, telling)} (95 in 100; ${countOf(used, 'reading')})`,
      look,
    ),
    ...list(
      'Left out',
      doubtful.map((i) => `${called(i)} ${contradicted(found, i, telling)}`),
      '; ',
      look,
    ).lines,
    ...list(
      'At odds',
      atOdds.map((i) => `${called(i)} ${contradicted(found, i, telling)}`),
      '; ',
      look,
    ).lines,
    ...list(
      'Not used',
      unused.map(
        (i) => `${called(i)}: a part is off with these options, or no rule measures it so`,
      ),
      '; ',
      look,
    ).lines,
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
    ...turnLines(found, telling),
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
    ...list('Sits', roundedWhere(found, telling), ', ', look).lines,
    ...rivals
      .slice(0, 2)
      .flatMap((rival) => list('Or else', offWords(rival, stance, telling), ', ', look).lines),
    ...list('Off by', off.length === 0 ? ['nothing that can be told'] : off, ', ', look).lines,
  ];
}

function headline({ verdict, built, estimate, readings }: AsBuilt, telling: Telling): Line {
  const { units } = telling;
  const [tightest] = built?.rules ?? [];
  const worst =
    tightest === undefined
      ? 'no rule to keep'
      : `${spare(tightest.reading.margin, units)} give or take ${sure(tightest, telling)}: ${pairWords(tightest.reading, telling)}`;
  switch (verdict) {
    case 'go on':
      return { label: 'GO ON.', text: `${worst}.`, tone: 'good' };
    case 'set again': {
      const missed = built!.limits.some(({ broken }) => broken);
      const isShort = tightest !== undefined && tightest.reading.margin + tightest.within < 0;
      const text = isShort || !missed ? worst : 'a limit is not kept';
      return { label: 'SET IT AGAIN.', text: `${text}.`, tone: 'bad' };
    }
    case 'in doubt':
      return { label: 'IN DOUBT.', text: `${worst}.`, tone: 'open' };
    case 'undetermined': {
      const odds = estimate.atOdds.length > 0;
      if (!odds && estimate.open.length === 0) {
        const text = 'Two places fit as well, and not all is kept at both.';
        return { label: 'UNDETERMINED.', text, tone: 'open' };
      }
      const text = odds
        ? `${estimate.atOdds.map((i) => readingWords(readings[i]!, telling)).join(' and ')} contradict each other: tape both again.`
        : `${countOf(readings.length, 'reading')} ${readings.length === 1 ? 'does' : 'do'} not tell ${estimate.open.map(({ motion }) => motion).join(', ')}.`;
      return { label: 'UNDETERMINED.', text, tone: 'open' };
    }
  }
}

/** What is known of the place, to what a tape can tell of it. */
function roundedWhere({ estimate }: AsBuilt, telling: Telling): string[] {
  const { units } = telling;
  const step = units === 'in' ? 25.4 / 32 : 0.5;
  const tenth = Math.PI / 1800;
  const x = stanceVector(estimate.stance).map((value, k) => {
    const mark = k < 3 ? step : tenth;
    return Math.round(value / mark) * mark;
  });
  return whereWords(stanceFrom(x), telling);
}

/** Every limit that is not kept, and whether a tape can tell so. */
function limitPieces(limits: readonly BuiltLimit[], telling: Telling): string[] {
  return limits.flatMap(({ reading, broken }) =>
    limitWords({ limits: [reading] }, telling).map((words) =>
      broken ? words : `${words}: within what can be told`,
    ),
  );
}

function contradicted({ estimate, readings }: AsBuilt, i: number, { units }: Telling): string {
  const reading = readings[i]!;
  const residual = estimate.residuals.find((one) => one.reading === i)!;
  const is = readWords(reading, reading.value, units);
  return `reads ${is}, the others say ${readWords(reading, residual.expected, units)}`;
}

function sure({ within }: BuiltReading, { units }: Telling): string {
  const step = units === 'in' ? 1 / 32 : 0.5;
  return tape(within, units, { round: 'up', step }) + unit(units);
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
      sure(one, telling),
      pairWords(one.reading, telling),
    ]);
  const all = [['at rest', 'moving', 'needs', 'spare', '+-', ''], ...rows];
  const widths = all[0]!.map((_, c) => Math.max(...all.map((row) => row[c]!.length)));
  const lines = all.map((row) => ({
    label: '',
    text: `  ${row.map((cell, c) => pad(cell, widths[c]! + 2)).join('')}`.trimEnd(),
    flush: true,
  }));
  const more = rules.length - SHOWN;
  return more <= 0
    ? lines
    : [...lines, { label: '', text: `  ${more} more have more`, flush: true }];
}

/** What to turn to bring it to where it was meant. */
function turnLines({ built, verdict }: AsBuilt, { look }: Telling): Line[] {
  const again = built?.again;
  if (!again) return [];
  const turned = again.adjusters.filter(({ turns }) => turns !== 0);
  const pieces = turned.map(
    ({ adjuster, turns }) => `${name(adjuster.name, look, 24)} ${turnWords(turns!)}`,
  );
  const label = verdict === 'set again' ? 'Turn' : 'To true';
  return [...list(label, pieces, '; ', look).lines];
}
