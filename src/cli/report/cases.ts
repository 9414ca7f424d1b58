/** Cases side by side as a person in a garage reads them: which gains most, then a row each. */

import { maxOf } from '../../model/extremes.js';
import { tape } from '../../model/text/tape.js';
import type { OptionRef } from '../../model/scenario.js';
import { shownOf } from '../../solver/explaining/compare.js';
import type { CaseAnswer, Comparison } from '../../solver/explaining/compare.js';
import { CAUTION, FIRST_SCREEN } from './answer.js';
import { bindsWords, captionPieces, gainWords, isOpen, marginCell, ranked } from './case-words.js';
import { LONGEST_NAME, refWords, shortWhere } from './case-words.js';
import { casesHeadline, whyOpen } from './cases-headline.js';
import { fold, list, paragraph, whole } from './lines.js';
import type { Line, Section } from './lines.js';
import { columns, fit, name, pad } from '../../words/text.js';
import { number, unit } from '../../words/words.js';
import type { Telling } from '../../words/words.js';

export interface CasesReport {
  readonly comparison: Comparison;
  /** Seconds that the person gave it, if any. */
  readonly timeLimit?: number;
  readonly warnings: readonly string[];
}

const TITLES = ['case', 'to spare', 'gain', 'hours', 'cost'] as const;

/** The whole report; its first 24 lines hold the answer. */
export function casesReport(report: CasesReport, telling: Telling): Line[] {
  const { comparison, timeLimit, warnings } = report;
  const { look } = telling;
  const can = comparison.cases.filter(({ clash }) => clash === undefined);
  const why = whyOpen(comparison, timeLimit);
  const sections = [
    whole([casesHeadline(comparison, telling)]),
    whole(why === '' ? [] : paragraph('Why', why, look)),
    rowSection([comparison.standing, ...ranked(can)], comparison.tolerance, telling),
    list('Brought', broughtWords(can, telling), '; ', look, { least: 1, yields: 3 }),
    list('Apart', apartWords(comparison.cases, telling), '; ', look, { least: 1, yields: 2 }),
    list('Set', captionPieces(telling), ', ', look, { least: 1, yields: 1 }),
    whole([CAUTION]),
  ];
  const { shown, cut } = fold(sections, FIRST_SCREEN);
  const warned = warnings.flatMap((text, w) => paragraph(w === 0 ? 'Warning' : '', text, look));
  return [...shown, ...cut.flatMap((section) => section.lines), ...warned];
}

function broughtWords(cases: readonly CaseAnswer[], telling: Telling): string[] {
  return cases
    .filter(({ brought }) => brought.length > 0)
    .map(({ name: called, brought }) => {
      return `${name(called, telling.look, LONGEST_NAME)} needs ${refsWords(brought, telling)}`;
    });
}

/** Cases that cannot stand, and which two options do not go together. */
function apartWords(cases: readonly CaseAnswer[], telling: Telling): string[] {
  return cases.flatMap(({ name: called, clash }) => {
    if (clash === undefined) return [];
    const [one, other] = [refWords(clash.one, telling), refWords(clash.other, telling)];
    const who = name(called, telling.look, LONGEST_NAME);
    return [`${who}${who === one ? '' : `: ${one}`} does not go with ${other}`];
  });
}

function refsWords(refs: readonly OptionRef[], telling: Telling): string {
  return refs.map((ref) => refWords(ref, telling)).join(', ');
}

/**
 * A heading and three lines a case: sizes and name, where, what binds. Where room is short, what binds
 * stands cut beside the name; then where is left out; then the last cases are.
 */
function rowSection(rows: readonly CaseAnswer[], tolerance: number, telling: Telling): Section {
  const { look } = telling;
  const cells = rows.map((row) => cellsOf(row, tolerance, telling));
  const widths = TITLES.map((title, c) =>
    Math.max(title.length, maxOf(cells.map((row) => columns(row[c]!)))),
  );
  const sized = (row: readonly string[]) =>
    `  ${row.map((cell, c) => pad(cell, widths[c]! + 2)).join('')}`;
  const line = (text: string): Line => ({ label: '', text: text.trimEnd(), flush: true });
  const under = (text: string) =>
    text === '' ? [] : [line(fit(`      ${text}`, look.width, look))];
  const room = look.width - columns(sized(TITLES));
  const where = rows.map((row) => under(placeWords(row, telling)));
  const binds = rows.map((row) => holdsBack(row, telling));
  const alone = rows.map((_, r) => line(sized(cells[r]!)));
  const beside = rows.map((_, r) => line(sized(cells[r]!) + fit(binds[r]!, room, look)));
  const heading = line(sized(TITLES));
  const headed = line(`${sized(TITLES)}binds`);
  const full = rows.flatMap((_, r) => {
    const binding = binds[r] === '' ? '' : `${wantWords(rows[r]!, telling)}binds ${binds[r]}`;
    return [alone[r]!, ...where[r]!, ...under(binding)];
  });
  const shorter = (most: number): Line[] => {
    const placed = [headed, ...beside.flatMap((row, r) => [row, ...where[r]!])];
    if (placed.length <= most) return placed;
    if (beside.length < most) return [headed, ...beside];
    const kept = beside.slice(0, Math.max(1, most - 2));
    return [headed, ...kept, line(`  ${beside.length - kept.length} more below`)];
  };
  return { lines: [heading, ...full], shorter, least: 3, yields: 9 };
}

function cellsOf(row: CaseAnswer, tolerance: number, telling: Telling): string[] {
  const { units, look } = telling;
  return [
    name(row.name, look, LONGEST_NAME),
    marginCell(row.placement, isOpen(row), units),
    row.gain === undefined ? '' : gainWords(row.gain, units, tolerance),
    row.hours === 0 ? '' : number(row.hours),
    row.cost === 0 ? '' : number(row.cost),
  ];
}

function holdsBack({ placement }: CaseAnswer, telling: Telling): string {
  if (placement === undefined) return '';
  return bindsWords(shownOf(placement), placement.optimum.readings, telling);
}

function placeWords({ placement }: CaseAnswer, telling: Telling): string {
  if (placement === undefined) return '';
  return shortWhere(shownOf(placement).position, telling).join(', ');
}

/** Whether the margin that a case wants is kept; nothing where it wants none. */
function wantWords({ wanted, fits }: CaseAnswer, { units }: Telling): string {
  if (wanted === 0) return '';
  const kept = { yes: 'has it', no: 'has not', undecided: 'undecided' }[fits];
  return `wants ${tape(wanted, units, { round: 'up' })}${unit(units)}, ${kept}; `;
}
