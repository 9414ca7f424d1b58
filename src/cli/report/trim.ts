/** The report of `berth trim`: the cheapest cuts, and for every face what each depth gains. */

import { tape } from '../../model/tape.js';
import type { Trim } from '../../model/scenario.js';
import type { Wants } from '../../model/wants.js';
import type { CurvePoint, TrimAnswer, TrimCurve } from '../../solver/explaining/trimming.js';
import { CAUTION } from './answer.js';
import { remedyWords, wantedWords } from './blockers.js';
import { list, paragraph } from './lines.js';
import type { Line } from './lines.js';
import { clean, name } from './text.js';
import { countOf, pairWords, spare, unit } from './words.js';
import type { Telling } from './words.js';

export interface TrimReport {
  readonly answer: TrimAnswer;
  readonly wants: Wants;
  readonly warnings: readonly string[];
  readonly withOptions: boolean;
}

/** Points of a curve that are told; JSON has them all. */
const FIRST = 4;
/** Millimetres of margin below which a point of a curve is not worth a word: 1/64 in. */
const LEAST_TOLD = 25.4 / 64;

export function trimReport(report: TrimReport, telling: Telling): Line[] {
  const { answer, wants, warnings } = report;
  const { look, scenario } = telling;
  return [
    headline(report),
    ...list('Wanted', wantedWords(wants, telling), ', ', look).lines,
    ...(answer.cheapest === undefined
      ? []
      : paragraph('Cheapest', remedyWords(answer.cheapest, answer, telling), look)),
    ...answer.curves.flatMap((curve) => curveLines(curve, telling)),
    ...hourLines(answer, telling),
    ...(answer.stopped === undefined
      ? []
      : paragraph('Stopped', `after ${countOf(answer.effort.boxes, 'box', 'boxes')}`, look)),
    CAUTION,
    ...paragraph('File', clean(scenario.title, look), look),
    ...warnings.flatMap((text, i) => paragraph(i === 0 ? 'Warnings' : '', text, look)),
  ];
}

function headline({ answer, withOptions }: TrimReport): Line {
  const { uncut, cheapest, cheapestProved } = answer;
  if (uncut === 'yes')
    return { label: 'NO CUT NEEDED.', text: 'It can be had as asked.', tone: 'good' };
  if (cheapest !== undefined) {
    const proved = cheapestProved
      ? 'Proved the least work on the tape marks.'
      : 'The least work found so far.';
    if (cheapest.cuts.length > 0) return { label: 'CUT.', text: proved, tone: 'good' };
    return { label: 'NO CUT NEEDED.', text: `Other options do it. ${proved}`, tone: 'good' };
  }
  if (!cheapestProved)
    return { label: 'UNDECIDED.', text: 'No cut found so far that reaches it.', tone: 'open' };
  const tried = withOptions ? ', whatever the options' : ' with the options as asked';
  return { label: 'NO CUT REACHES IT', text: `${tried.trimStart()}. Proved.`, tone: 'bad' };
}

/** `down, notch: short 7/16 uncut; 1/4 leaves ..., then ... takes over; deeper than 3/8 gains nothing`. */
function curveLines({ trim, points, enough, best }: TrimCurve, telling: Telling): readonly Line[] {
  const { look, units } = telling;
  const uncut = points[0]!;
  const label = trimWords(trim, telling);
  if (best === undefined) {
    const said =
      uncut.margin > -Infinity
        ? `${spare(uncut.margin, units)} however deep`
        : 'no place within the wish';
    return paragraph('Face', `${label}: cutting gains nothing; ${said}`, look);
  }
  const told = turningPoints(points.filter(({ depth }) => depth <= enough));
  const said = told.map((point, i) => pointWords(point, told[i + 1], telling));
  const more =
    trim.upTo > enough + 1e-6 ? [`deeper than ${size(enough, telling)} gains nothing`] : [];
  return list('Face', [`${label}: ${said[0]!}`, ...said.slice(1), ...more], '; ', look).lines;
}

/** The ends, and where the rules in charge change; the most telling where there are many. */
function turningPoints(points: readonly CurvePoint[]): CurvePoint[] {
  const charge = ({ binding }: CurvePoint): string =>
    binding
      .map(({ between }) => between.join())
      .sort()
      .join('|');
  const turns: CurvePoint[] = [];
  points.forEach((point, i) => {
    const after = points[i + 1];
    const last = turns.at(-1);
    if (after !== undefined && last && point.margin - last.margin < LEAST_TOLD) return;
    if (!last || after === undefined || charge(after) !== charge(point)) turns.push(point);
  });
  if (turns.length <= FIRST) return turns;
  return [...turns.slice(0, FIRST - 1), turns.at(-1)!];
}

/** What a depth leaves, and which rule takes over beyond it; at the deepest, which holds it there. */
function pointWords(point: CurvePoint, after: CurvePoint | undefined, telling: Telling): string {
  const at = point.depth === 0 ? 'uncut' : `${size(point.depth, telling)} deep`;
  const left = point.margin === -Infinity ? 'no place' : spare(point.margin, telling.units);
  const known = point.binding.map(({ between }) => between.join());
  const fresh = after?.binding.find(({ between }) => !known.includes(between.join()));
  const rule = after === undefined ? point.binding[0] : fresh;
  if (rule === undefined) return `${at} ${left}`;
  return `${at} ${left}, ${after === undefined ? 'held by' : 'then'} ${pairWords(rule, telling)}`;
}

function hourLines({ curves }: TrimAnswer, telling: Telling): Line[] {
  const gaining = curves.filter(({ best }) => best !== undefined);
  const most = gaining.sort((a, b) => b.best!.perHour - a.best!.perHour)[0];
  if (most?.best === undefined) return [];
  const gain = tape(most.best.perHour, telling.units, { round: 'down' });
  const rate = gain === '0' ? 'under a mark' : `${gain}${unit(telling.units)}`;
  const text = `${trimWords(most.trim, telling)}, ${size(most.best.depth, telling)} deep: ${rate} of margin an hour`;
  return paragraph('Best hour', text, telling.look);
}

function trimWords({ part, cut, over }: Trim, { look }: Telling): string {
  return `${name(part, look)}, ${over === undefined ? 'cut' : 'notched'} ${cut}`;
}

function size(depth: number, { units }: Telling): string {
  return tape(depth, units, { round: 'up' }) + unit(units);
}
