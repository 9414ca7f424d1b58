/** The answer of `berth place` as a person in a garage reads it: 24 lines first, then the rest. */

import type { Kind } from '../../model/kinds.js';
import { guessedParts } from '../../model/options.js';
import { DUST, inUnits, tape } from '../../model/text/tape.js';
import type { Units } from '../../model/text/tape.js';
import * as trig from '../../model/trig.js';
import type { Again } from '../../solver/measuring/again.js';
import type { PlaceAnswer, Placement } from '../../solver/answer.js';
import type { Hoist } from '../../solver/measuring/hoist.js';
import type { Unruled } from '../../solver/measuring/unruled.js';
import { alsoSection, elsewhereWords } from './also.js';
import { others } from './beside.js';
import { headline, verdict, whyUndecided } from './headline.js';
import { hoistSection } from './hoist.js';
import { fold, list, paragraph, whole } from './lines.js';
import type { Line, Section } from './lines.js';
import { next } from './next.js';
import type { Asked } from './next.js';
import { shown } from './shown.js';
import { roomSection } from './room.js';
import { allLines, shortLines, tightSections, withBinding } from './rules.js';
import { tapeWords } from './tapes.js';
import { slackSection, slackStops } from './slack.js';
import { clean, name } from '../../words/text.js';
import type { Look } from '../../words/text.js';
import { unruledLines } from './unruled.js';
import { limitWords, whereWords } from '../../words/where.js';
import { setLines } from './set-lines.js';
import { CAUTION_WORDS, changes, countOf, unit, workWords } from '../../words/words.js';
import type { Telling } from '../../words/words.js';
import { axleSection } from './axle.js';
import { againSection, worstLines } from './worst.js';

/** What a person sees before the screen scrolls. */
export const FIRST_SCREEN = 24;

export const CAUTION: Line = {
  label: '',
  text: CAUTION_WORDS,
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
  readonly unruled: Unruled;
  /** Which measurements to take again, best first; none where none has an error. */
  readonly again: readonly Again[];
  /** The way in to the place shown; absent where the file has no hoist path. */
  readonly hoist?: Hoist;
  /** Lines that a terminal shows at once: what is not of the answer is left out to fit. */
  readonly screen?: number;
}

/**
 * The whole report; the first 24 lines hold the answer, and what was cut from them follows. Where there
 * is but a screen, the answer is all there is, unless everything fits.
 */
export function placeReport(report: Report, told: Telling): Line[] {
  const { answer, asked, unruled } = report;
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
  const asking = said === 'fits' ? [] : next(asked, answer, said === 'undecided', telling);
  const sections = [
    whole([headline(answer, asked, unruled, telling)]),
    whole(worstLines(standing, telling)),
    whole(unruledLines(unruled, telling)),
    whole(isOpen ? paragraph(why, whyUndecided(answer, asked), look) : []),
    whole(missedAim(answer, asked, telling)),
    whole(setLines(SET[said], where, look)),
    list('Tape', tapeWords(standing.position, telling), ' | ', look, { least: 1, yields: 9 }),
    slackSection(said === 'fits' && !exact ? answer.slack : undefined, telling),
    axleSection(answer.main.options, standing, telling),
    list('Do', doing, '; ', look, { least: 2, yields: 8 }),
    ...tightSections(rules, telling),
    list('Limits', limitWords(standing, telling), '; ', look, { least: 1, yields: 8 }),
    roomSection(rules, telling),
    hoistSection(report.hoist, telling),
    alsoSection(answer, telling),
    ...others(answer, telling),
    againSection(report.again, report.all, telling),
    list('Next', asking, '; ', look, { least: 1, yields: 4 }),
    list('Not drawn', report.notDrawn, ', ', look, { least: 1, yields: 2 }),
    guessedSection(telling),
    whole([CAUTION]),
  ];
  const more = [
    ...workLines(answer.main, telling),
    ...leastWorkLines(answer, telling),
    ...(report.all ? slackStops(answer.slack, telling) : []),
    ...(report.all ? allLines(rules, telling) : shortLines(rules, telling)),
    ...about(report, telling),
  ];
  return report.screen === undefined
    ? unrolled(sections, more)
    : onScreen(sections, more, report.warnings.length, report.screen);
}

/** The first screen, and after it what it had no room for. */
function unrolled(sections: readonly Section[], more: readonly Line[]): Line[] {
  const { shown, cut } = fold(sections, FIRST_SCREEN);
  return [...shown, ...cut.flatMap((section) => section.lines), ...more];
}

/** What a screen holds; warnings that it does not are counted, for they doubt the answer. */
function onScreen(
  sections: readonly Section[],
  more: readonly Line[],
  warnings: number,
  screen: number,
): Line[] {
  const full = [...sections.flatMap((section) => section.lines), ...more];
  if (full.length <= screen) return full;
  const warned = { label: 'Warning', text: `${warnings} about this file: add --all to see` };
  const counted = warnings === 0 ? [] : [warned];
  return fold([...sections.slice(0, -1), whole(counted), sections.at(-1)!], screen).shown.slice();
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
  const keep = `${tape(asked.keep, units, { round: 'up' })}${unit(units)} to spare`;
  const asks = asked.keep > 0 ? `leaves ${keep}` : 'keeps every rule';
  const found = answer.aimMissed === 'no' ? `no place ${asks}` : `none found ${asks}`;
  return paragraph('Asked', `${found}; this is the roomiest instead`, look);
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
  const isCut = placement.options.some((option, c) => {
    return (telling.scenario.choices[c]!.options[option]!.cuts ?? []).length > 0;
  });
  return isCut ? done : [...done, 'cut nothing'];
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

/** The file, and how its answer was found and how far it is proved; then the file's warnings. */
export function about(report: Pick<Report, 'answer' | 'warnings'>, telling: Telling): Line[] {
  const { answer, warnings } = report;
  const { look, scenario, units } = telling;
  const proof = verdict(answer) === 'undecided' ? 'not proved' : 'proved';
  const { boxes, gaps, lps } = answer.effort;
  const effort = `${countOf(boxes, 'box', 'boxes')}, ${countOf(gaps, 'gap')}, ${countOf(lps, 'linear program')}`;
  const also = elsewhereWords(answer);
  const search = `${proof} to ${finely(answer.tolerance, units)}; ${moreWork(answer, units)}${also}${effort}`;
  return [
    ...remark('File', scenario.title, look),
    ...remark('Origin', scenario.origin, look),
    ...paragraph('Search', search, look),
    ...warnings.flatMap((text, index) =>
      paragraph(index === 0 ? 'Warning' : '', clean(text, look), look),
    ),
  ];
}

/** A tolerance as fine as it is: a fraction where it is one, else two figures, rounded up. */
function finely(mm: number, units: Units): string {
  const value = inUnits(mm, units);
  const sixtyFourths = value * 64;
  if (units === 'in' && sixtyFourths >= 1 && Math.abs(sixtyFourths % 1) < DUST) {
    return `${tape(mm, units, { round: 'up', step: 1 / 64 })} in`;
  }
  const figure = trig.tenTo(trig.powerOfTen(value) - 1);
  return `${Number((Math.ceil(value / figure - DUST) * figure).toPrecision(2))} ${units}`;
}

/** What more work could still buy: the answer takes the least work within the file's `worth`. */
function moreWork({ aim, main, bestBound, tolerance }: PlaceAnswer, units: Units): string {
  const more = bestBound - main.optimum.margin;
  if (aim !== 'margin' || !Number.isFinite(more) || bestBound - main.bound <= tolerance) return '';
  return `more work buys at most ${tape(more, units, { round: 'up' })}${unit(units)} more; `;
}

/** The file's own words, two lines at most, where it has any. */
export function remark(label: string, text: string, look: Look): Line[] {
  const said = clean(text, look);
  return said === '' ? [] : paragraph(label, said, look).slice(0, 2);
}
