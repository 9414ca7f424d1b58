/** The first line of a comparison: which case gains most, or why that is not known. */

import { inUnits, tape } from '../../model/text/tape.js';
import type { Units } from '../../model/text/tape.js';
import type { CaseAnswer, Comparison } from '../../solver/explaining/compare.js';
import { casesVerdict, isOpen, marginOf, ranked } from './case-words.js';
import type { Line } from './lines.js';
import { columns, name, WIDTH } from '../../words/text.js';
import { countOf, spare, unit, workWords } from '../../words/words.js';
import type { Telling } from '../../words/words.js';
import { stoppedBy } from './stopped.js';

/** Names in the first line, from the longest there is room for. */
const NAMES = [36, 24, 16, 10];

/** Which case gains most over the bay as it stands, in one line of 80 columns. */
export function casesHeadline(comparison: Comparison, telling: Telling): Line {
  const { standing, cases } = comparison;
  const said = casesVerdict(comparison);
  const best = ranked(cases.filter(({ clash }) => clash === undefined))[0];
  if (best === undefined) {
    return { label: 'NONE CAN STAND', text: 'beside the options as they are.', tone: 'bad' };
  }
  if (said === 'undecided') return openLine(best, [standing, ...cases], telling);
  const tone = said === 'fits' ? 'good' : 'bad';
  const label = (most: number) => name(best.name, telling.look, most).toUpperCase();
  if (marginOf(best) === -Infinity) {
    return { label: 'NO CASE FITS.', text: 'Proved: none has a place within the limits.', tone };
  }
  const texts = best.gain === undefined ? leaves(best, telling) : gains(best, standing, telling);
  if (best.gain !== undefined && !gainsAny(best.gain, telling.units)) {
    const stands = spare(marginOf(standing), telling.units);
    return {
      label: 'NONE GAINS',
      text: `over the bay as it stands (${stands}); proved for each case.`,
      tone,
    };
  }
  for (const most of NAMES) {
    const text = texts.find((one) => columns(label(most)) + 1 + columns(one) <= WIDTH);
    if (text !== undefined) return { label: label(most), text, tone };
  }
  return { label: label(NAMES.at(-1)!), text: texts.at(-1)!, tone };
}

/** Whether a gain is anything on a tape. */
function gainsAny(gain: number, units: Units): boolean {
  return inUnits(gain, units) >= (units === 'in' ? 1 / 16 : 1);
}

/** The same said at lengths that shorten. */
function gains(best: CaseAnswer, standing: CaseAnswer, { units }: Telling): string[] {
  const gain = tape(best.gain!, units, { round: 'down' }) + unit(units);
  const work = workWords(best.hours, best.cost);
  const price = work === '' ? '' : ` (${work})`;
  const isShort = best.fits === 'no';
  const left = isShort ? `, still ${missing(best, units)}` : '';
  const all = [
    `gains most: ${gain} over the bay as it stands${price}${left}.`,
    `gains most: ${gain} over the bay as it stands${left}.`,
    `gains most: ${gain}${price}${left}.`,
    `gains most: ${gain}${left}.`,
  ];
  return standing.placement === undefined ? all.slice(2) : all;
}

function leaves(best: CaseAnswer, { units }: Telling): string[] {
  const work = workWords(best.hours, best.cost);
  const left = spare(marginOf(best), units);
  return [`leaves most: ${left}${work === '' ? '' : ` (${work})`}.`, `leaves most: ${left}.`];
}

function missing(best: CaseAnswer, units: Units): string {
  if (best.wanted === 0) return spare(marginOf(best), units);
  return `under the ${tape(best.wanted, units, { round: 'up' })}${unit(units)} wanted`;
}

function openLine(best: CaseAnswer, all: readonly CaseAnswer[], { units, look }: Telling): Line {
  const open = all.filter(isOpen).length;
  const most = marginOf(best);
  const found =
    most === -Infinity
      ? 'No place found so far'
      : `Best so far ${name(best.name, look, NAMES[2])}, ${spare(most, units)}`;
  const text = `${found}; ${open} of ${countOf(all.length, 'case')} not proved.`;
  return { label: 'UNDECIDED.', text, tone: 'open' };
}

/** Why a comparison is undecided; empty where it is not. */
export function whyOpen(comparison: Comparison, timeLimit: number | undefined): string {
  if (casesVerdict(comparison) !== 'undecided') return '';
  const boxes = countOf(comparison.effort.boxes, 'box', 'boxes');
  const { stopped } = comparison;
  if (stopped) return `stopped ${stoppedBy(stopped, timeLimit)}, after ${boxes}`;
  return `the search ended with a proof further off than asked, after ${boxes}`;
}
