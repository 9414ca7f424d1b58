/** The report of `berth blockers`: can it be had, what is in the way, and what would remedy it. */

import type { Wants } from '../../model/asked/wants.js';
import type { Effort, Stopped } from '../../solver/answer.js';
import type { WhyAnswer } from '../../solver/explaining/why.js';
import { clean } from '../../words/text.js';
import { whereWords } from '../../words/where.js';
import { leftWords, placeOf, reasonWords, remedyWords, wantedWords } from '../../words/why.js';
import { changes, countOf } from '../../words/words.js';
import type { Telling } from '../../words/words.js';
import { CAUTION, FIRST_SCREEN } from './answer.js';
import { list, paragraph } from './lines.js';
import type { Line } from './lines.js';
import { setLines } from './set-lines.js';
import { stoppedBy } from './stopped.js';

export interface BlockersReport {
  readonly answer: WhyAnswer;
  readonly wants: Wants;
  readonly warnings: readonly string[];
  /** Every reason and every remedy, not only the first. */
  readonly all: boolean;
}

/** Reasons and remedies told unless all are asked for; fewer where they do not fit on a screen. */
const FIRST = 3;

export function blockersReport(report: BlockersReport, telling: Telling): Line[] {
  if (report.all) return linesOf(report, Infinity, telling);
  for (let most = FIRST; most > 1; most--) {
    const lines = linesOf(report, most, telling);
    if (lines.length <= FIRST_SCREEN) return lines;
  }
  return linesOf(report, 1, telling);
}

/** @param most reasons, and remedies, that are told. */
function linesOf(report: BlockersReport, most: number, telling: Telling): Line[] {
  const { answer, wants, warnings } = report;
  const { look, scenario } = telling;
  return [
    headline(answer, telling),
    ...list('Wanted', wantedWords(wants, telling), ', ', look).lines,
    ...(answer.placement ? placeLines(answer, telling) : []),
    ...reasonLines(answer, most, telling),
    ...remedyLines(answer, most, telling),
    ...(answer.stopped === undefined
      ? []
      : paragraph(
          'Stopped',
          `${stoppedWords(answer.stopped, answer.effort)}; what follows from more is not known`,
          look,
        )),
    CAUTION,
    ...paragraph('File', clean(scenario.title, look), look),
    ...warnings.flatMap((text, i) => paragraph(i === 0 ? 'Warnings' : '', text, look)),
  ];
}

function stoppedWords(stopped: Stopped, effort: Effort): string {
  return `${stoppedBy(stopped)}, after ${countOf(effort.boxes, 'box', 'boxes')}`;
}

function headline(answer: WhyAnswer, telling: Telling): Line {
  const { possible, placement, set, remedies, remediesComplete, wish } = answer;
  const stands = changes(set, telling).length === 0 ? 'as the bay stands' : 'with these options';
  if (possible === 'yes') {
    const left = placement ? leftWords(placement, wish.margin, telling) : '';
    return {
      label: 'POSSIBLE.',
      text: `Proved: it can be had ${stands}, with ${left}.`,
      tone: 'good',
    };
  }
  if (possible === 'undecided')
    return {
      label: 'UNDECIDED.',
      text: `Not settled whether it can be had ${stands}.`,
      tone: 'open',
    };
  const found = `${countOf(remedies.length, 'remedy', 'remedies')}${remediesComplete ? '' : ' found so far'}`;
  const told =
    remedies.length === 0 && remediesComplete ? 'nothing the file offers remedies it' : found;
  return { label: 'IMPOSSIBLE', text: `${stands}. Proved; ${told}.`, tone: 'bad' };
}

function placeLines({ placement, wish }: WhyAnswer, telling: Telling): Line[] {
  const shown = placeOf(placement!, wish.margin);
  return [...setLines('Set', whereWords(shown.position, telling), telling.look)];
}

function reasonLines(
  { reasons, complete, possible }: WhyAnswer,
  most: number,
  telling: Telling,
): Line[] {
  if (possible !== 'no') return [];
  const lines = reasons.slice(0, most).flatMap((reason, i) => {
    return paragraph(i === 0 ? 'Because' : 'and', reasonWords(reason, telling), telling.look);
  });
  const left = reasons.length - most;
  const more = left > 0 ? `${countOf(left, 'more reason')} (--all); ` : '';
  const alone =
    reasons.length === 1
      ? 'there is no other reason'
      : 'each alone prevents it; there are no others';
  const rest = complete ? alone : 'there may be others: the search for them was cut off';
  return [...lines, ...paragraph('', more + rest, telling.look)];
}

function remedyLines(answer: WhyAnswer, most: number, telling: Telling): Line[] {
  const { remedies, remediesComplete, possible } = answer;
  if (possible === 'yes') return [];
  const lines = remedies
    .slice(0, most)
    .flatMap((remedy, i) =>
      paragraph(i === 0 ? 'Remedy' : 'or', remedyWords(remedy, answer, telling), telling.look),
    );
  const left = remedies.length - most;
  const more = left > 0 ? `${countOf(left, 'more remedy', 'more remedies')} (--all); ` : '';
  const rest = remediesComplete
    ? remedies.length === 0
      ? 'no option and no trim of the file makes it possible'
      : 'no smaller change does it'
    : 'there may be others: the search for them was cut off';
  const label = lines.length === 0 ? 'Remedy' : '';
  return [...lines, ...paragraph(label, more + rest, telling.look)];
}
