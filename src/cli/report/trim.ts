/** The report of `berth trim`: the cheapest cuts, and for every face what each depth gains. */

import { tape } from '../../model/text/tape.js';
import type { Trim } from '../../model/scenario.js';
import type { Reading } from '../../solver/answer.js';
import type { Wants } from '../../model/asked/wants.js';
import type { CurvePoint, TrimAnswer, TrimCurve } from '../../solver/explaining/trimming.js';
import { CAUTION, FIRST_SCREEN } from './answer.js';
import { beforeCutting, depthWords, remedyWords, wantedWords, wayWords } from '../../words/why.js';
import { fold, list, paragraph, whole } from './lines.js';
import type { Line, Section } from './lines.js';
import { clean, name } from '../../words/text.js';
import { countOf, pairWords, spare, unit, workWords } from '../../words/words.js';
import type { Telling } from '../../words/words.js';
import { stoppedBy } from './stopped.js';

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
/** A mark of the tape, and a little: a change of margin as small as this is not a turn to tell. */
const MARK = { in: 25.4 / 15, mm: 1.07 } as const;

export function trimReport(report: TrimReport, telling: Telling): Line[] {
  const { answer, wants, warnings } = report;
  const { look, scenario } = telling;
  const faces = answer.curves.map((curve) => faceSection(curve, answer, telling));
  const sections = [
    whole([headline(report)]),
    list('Wanted', wantedWords(wants, telling), ', ', look),
    whole(cheapestLines(answer, telling)),
    ...faces,
    whole([...hourLines(answer, telling), ...nextLines(report, telling)]),
    whole(stoppedLines(answer, telling)),
    whole([CAUTION]),
    whole(paragraph('File', clean(scenario.title, look), look)),
    whole(warnings.flatMap((text, i) => paragraph(i === 0 ? 'Warnings' : '', text, look))),
  ];
  const { shown, cut } = fold(sections, FIRST_SCREEN);
  return [...shown, ...cut.flatMap(({ lines }) => lines)];
}

function cheapestLines(answer: TrimAnswer, telling: Telling): Line[] {
  const { cheapest } = answer;
  if (cheapest === undefined) return [];
  return paragraph('Cheapest', remedyWords(cheapest, answer, telling), telling.look);
}

/** Options are tried only where they are asked for. */
function nextLines({ answer, withOptions }: TrimReport, { scenario, look }: Telling): Line[] {
  const { uncut, cheapest, cheapestProved } = answer;
  if (
    uncut === 'yes' ||
    cheapest ||
    !cheapestProved ||
    withOptions ||
    scenario.choices.length === 0
  )
    return [];
  return paragraph('Next', 'the same with --with-options: other options may do it', look);
}

function stoppedLines({ stopped, effort, curves }: TrimAnswer, telling: Telling): Line[] {
  if (stopped === undefined) return [];
  const { scenario, look } = telling;
  const done = curves.map(({ trim }) => trim);
  const open = scenario.trims
    .filter((trim) => !done.includes(trim))
    .map((trim) => faceWords(trim, telling));
  const left = open.length === 0 ? '' : `; not worked out: ${open.join('; ')}`;
  return paragraph(
    'Stopped',
    `${stoppedBy(stopped)}, after ${countOf(effort.boxes, 'box', 'boxes')}${left}`,
    look,
  );
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
  const tried = withOptions ? 'whatever the options' : 'with the options as asked';
  return { label: 'NO CUT REACHES IT', text: `${tried}. Proved.`, tone: 'bad' };
}

/** `short 7/16 uncut, held by ...; short 1/8 at 1/4 deep, then held by ...; deeper than 3/8 gains nothing`. */
function faceSection(curve: TrimCurve, { set }: TrimAnswer, telling: Telling): Section {
  const { trim, points, enough } = curve;
  const { look, units } = telling;
  const [uncut, deepest] = [points[0]!, points.at(-1)!];
  const label = faceWords(trim, telling);
  if (!(deepest.margin - uncut.margin > LEAST_TOLD)) {
    const said =
      uncut.margin > -Infinity
        ? `${spare(uncut.margin, units)} however deep`
        : 'no place within the wish';
    return whole(paragraph('Face', `${label}: cutting gains nothing; ${said}`, look));
  }
  if (spare(deepest.margin, units) === spare(uncut.margin, units)) {
    const said = `${spare(uncut.margin, units)} however deep`;
    return whole(
      paragraph('Face', `${label}: cutting gains less than a tape shows; ${said}`, look),
    );
  }
  const told = turningPoints(points.filter(({ depth }) => depth <= enough)).filter(
    ({ margin }, i, all) => i === 0 || !(all[i + 1] && all[i + 1]!.margin - margin < MARK[units]),
  );
  const said = told.map((_, i) => pointWords(trim, told, i, telling));
  const more =
    trim.upTo > enough + 1e-6 ? [`deeper than ${depthWords(enough, telling)} gains nothing`] : [];
  const warned = `${label} (${beforeCutting(trim, set, telling)})`;
  const pieces = [`${warned}: ${said[0]!}`, ...said.slice(1), ...more];
  return list('Face', pieces, '; ', look, { least: 3, yields: 1 });
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

/** What a depth leaves and which rule holds it there; between the ends, which takes over beyond it. */
function pointWords(trim: Trim, told: readonly CurvePoint[], i: number, telling: Telling): string {
  const [before, point, after] = [told[i - 1], told[i]!, told[i + 1]];
  const at = before === undefined ? 'uncut' : `at ${depthWords(point.depth, telling)} deep`;
  const left = point.margin === -Infinity ? 'no place' : spare(point.margin, telling.units);
  const own = point.binding.find(({ between }) => between.includes(trim.part)) ?? point.binding[0];
  const rule =
    before === undefined
      ? own
      : after
        ? freshRule(point, after)
        : (freshRule(before, point) ?? own);
  if (rule === undefined) return `${left} ${at}`;
  return `${left} ${at}, ${before && after ? 'then ' : ''}held by ${pairWords(rule, telling)}`;
}

/** A rule in charge at the second depth whose pair was not at the first. */
function freshRule(first: CurvePoint, second: CurvePoint): Reading | undefined {
  const known = first.binding.map(({ between }) => between.join());
  return second.binding.find(({ between }) => !known.includes(between.join()));
}

/** Where an hour of cutting gains the most: what it gains, and for how much work. */
function hourLines({ curves, set }: TrimAnswer, telling: Telling): Line[] {
  const gaining = curves.filter(({ best }) => best !== undefined);
  const most = gaining.sort((a, b) => b.best!.perHour - a.best!.perHour)[0];
  const point = most?.points.find(({ depth }) => depth === most.best!.depth);
  if (!most || !point) return [];
  const { look, units } = telling;
  const gain = tape(point.margin - most.points[0]!.margin, units, { round: 'down' });
  if (gain === '0') return [];
  const cut = `${faceWords(most.trim, telling)}, ${depthWords(point.depth, telling)} deep`;
  const text = `${cut}: gains ${gain}${unit(units)} for ${workWords(point.hours, point.cost)} (${beforeCutting(most.trim, set, telling)})`;
  return paragraph('Best hour', text, look);
}

/** `firewall, notched back`. */
function faceWords(trim: Trim, telling: Telling): string {
  const how = trim.over === undefined ? 'cut' : 'notched';
  return `${name(trim.part, telling.look)}, ${how} ${wayWords(trim, telling)}`;
}
