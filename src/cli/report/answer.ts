/** The answer of `berth place` as a person in a garage reads it: 24 lines first, then the rest. */

import type { Kind } from '../../model/kinds.js';
import { guessedParts } from '../../model/options.js';
import { tape } from '../../model/tape.js';
import type { Units } from '../../model/tape.js';
import type { PlaceAnswer, Placement, Standing } from '../../solver/answer.js';
import { others } from './compare.js';
import { headline, verdict, whyUndecided } from './headline.js';
import { fold, list, paragraph, whole } from './lines.js';
import type { Line, Section } from './lines.js';
import { next } from './next.js';
import type { Asked } from './next.js';
import { allLines, shortLines, tightSections, withBinding } from './rules.js';
import { tapeWords } from './tapes.js';
import { clean, name } from './text.js';
import type { Look } from './text.js';
import { limitWords, whereWords } from './where.js';
import { changes, workWords } from './words.js';
import type { Telling } from './words.js';

/** What a person sees before the screen scrolls. */
export const FIRST_SCREEN = 24;

export const CAUTION: Line = {
  label: '',
  text: 'Space only, not strength. Have cuts and mounts reviewed; local codes rule.',
  flush: true,
};

export interface Report {
  readonly answer: PlaceAnswer;
  readonly asked: Asked;
  readonly notDrawn: readonly Kind[];
  /** The scenario's warnings, one line each. */
  readonly warnings: readonly string[];
  /** Every rule, not only the tightest. */
  readonly all: boolean;
}

/** The whole report; the first 24 lines hold the answer, and what was cut from them follows. */
export function placeReport(report: Report, told: Telling): Line[] {
  const { answer, asked } = report;
  const { look } = told;
  const telling = { ...told, guessed: guessedParts(told.scenario, answer.main.options) };
  const said = verdict(answer);
  const { standing, exact } = shown(answer.main);
  const rules = withBinding(standing, answer.main.optimum);
  const where = whereWords(standing.position, telling);
  if (exact) where.push('to these decimals: no tape mark near it fits');
  const doing = doPieces(answer.main, telling);
  const why = said === 'undecided' ? 'Why' : 'Stopped';
  const isOpen = said === 'undecided' || answer.stopped !== undefined;
  const asking = said === 'fits' ? [] : next(asked, answer, telling);
  const { shown: first, cut } = fold(
    [
      whole([headline(answer, asked, telling)]),
      whole(isOpen ? paragraph(why, whyUndecided(answer, asked), look) : []),
      whole(missedAim(answer, asked, telling)),
      whole(list(SET[said], where, ', ', look).lines),
      list('Tape', tapeWords(standing.position, telling), ' | ', look, { least: 1, yields: 1 }),
      list('Do', doing, '; ', look, { least: 2, yields: 8 }),
      ...tightSections(rules, telling),
      list('Limits', limitWords(standing, telling), '; ', look, { least: 1, yields: 8 }),
      ...others(answer, telling),
      list('Next', asking, '; ', look, { least: 1, yields: 4 }),
      list('Not drawn', report.notDrawn, ', ', look, { least: 1, yields: 2 }),
      guessedSection(telling),
      whole([CAUTION]),
    ],
    FIRST_SCREEN,
  );
  return [
    ...first,
    ...cut.flatMap((section) => section.lines),
    ...workLines(answer.main, telling),
    ...leastWorkLines(answer, telling),
    ...(report.all ? allLines(rules, telling) : shortLines(rules, telling)),
    ...about(report, telling),
  ];
}

/** How many parts are guessed, and which; nothing where none is. */
export function guessedSection({ guessed = [], look }: Telling): Section {
  const names = guessed.map((part) => name(part, look));
  const count = `${names.length} part${names.length === 1 ? '' : 's'}`;
  const pieces = names.map((part, i) => (i === 0 ? `${count}: ${part}` : part));
  return list('Guessed', pieces, ', ', look, { least: 1, yields: 1 });
}

/** Said where the aim asked for could not be had, and the roomiest place stands in its stead. */
function missedAim(answer: PlaceAnswer, asked: Asked, { look, units }: Telling): Line[] {
  if (answer.aimMissed === undefined) return [];
  const keep = `${tape(asked.keep, units, { round: 'up' })} to spare`;
  const found = answer.aimMissed === 'no' ? `no place leaves ${keep}` : `none found leaves ${keep}`;
  return paragraph('Asked', `${found}; this is the roomiest instead`, look);
}

/** The standing a report is about: the setting, or the optimum where only that fits. */
function shown(placement: Placement): {
  readonly standing: Standing;
  readonly exact: boolean;
} {
  const exact = placement.optimum.fits && !placement.setting.fits;
  return { standing: exact ? placement.optimum : placement.setting, exact };
}

/** What to do to the bay, and that nothing is cut. */
export function doPieces(
  placement: Pick<Placement, 'options' | 'hours' | 'cost'>,
  telling: Telling,
): string[] {
  const done = changes(placement.options, telling).map(({ what }) => what);
  if (done.length === 0) return ['nothing, as it stands', 'cut nothing'];
  const work = workWords(placement.hours, placement.cost);
  if (work !== '') done.push(`${done.pop()!} (${done.length > 0 ? 'in all ' : ''}${work})`);
  return [...done, 'cut nothing'];
}

const SET = { fits: 'Set', 'does not fit': 'Least bad', undecided: 'Best yet' } as const;

/** What each change takes, where there are several. */
function workLines(placement: Placement, telling: Telling): Line[] {
  const done = changes(placement.options, telling).filter(({ work }) => work !== '');
  if (done.length < 2) return [];
  const each = done.map(({ what, work }) => `${what}, ${work}`);
  return [...list('Work', each, ' | ', telling.look).lines];
}

/** Where the least work puts the engine, where that is not the main answer. */
function leastWorkLines(answer: PlaceAnswer, telling: Telling): Line[] {
  const { leastWork, main } = answer;
  if (leastWork === undefined || leastWork.options.join() === main.options.join()) return [];
  const where = whereWords(shown(leastWork).standing.position, telling).join(', ');
  const does = doPieces(leastWork, telling).join('; ');
  return paragraph('Less work', `${does}; set ${where}`, telling.look);
}

function about(report: Report, telling: Telling): Line[] {
  const { answer, warnings } = report;
  const { look, scenario, units } = telling;
  const step = units === 'in' ? 1 / 64 : 0.01;
  const tolerance = `${tape(answer.tolerance, units, { round: 'up', step })} ${units}`;
  const { boxes, gaps, lps } = answer.effort;
  const effort = `${boxes} boxes, ${gaps} gaps, ${lps} linear programs`;
  const search = `proved to ${tolerance}; ${moreWork(answer, units)}${effort}`;
  return [
    ...remark('File', scenario.title, look),
    ...remark('Origin', scenario.origin, look),
    ...paragraph('Search', search, look),
    ...warnings.flatMap((text, index) =>
      paragraph(index === 0 ? 'Warning' : '', clean(text, look), look),
    ),
  ];
}

/** What more work could still buy: the answer takes the least work within the file's `worth`. */
function moreWork({ aim, main, bestBound, tolerance }: PlaceAnswer, units: Units): string {
  const more = bestBound - main.optimum.margin;
  if (aim !== 'margin' || !Number.isFinite(more) || bestBound - main.bound <= tolerance) return '';
  return `more work buys at most ${tape(more, units, { round: 'up' })} more; `;
}

/** The file's own words, two lines at most, where it has any. */
export function remark(label: string, text: string, look: Look): Line[] {
  const said = clean(text, look);
  return said === '' ? [] : paragraph(label, said, look).slice(0, 2);
}
