/** The trade between work and margin: a first line, a drawing, and a row a set. */

import { maxOf } from '../../model/extremes.js';
import { meetsLimits, shownOf } from '../../solver/explaining/compare.js';
import type { OptionSet } from '../../model/scenario.js';
import type { Frontier } from '../../solver/explaining/frontier.js';
import type { Placement } from '../../solver/answer.js';
import { CAUTION, FIRST_SCREEN } from './answer.js';
import { bindsWords, captionPieces, marginCell, shortWhere } from './case-words.js';
import type { Verdict } from './headline.js';
import { fold, list, paragraph, whole } from './lines.js';
import type { Line, Section } from './lines.js';
import { plot } from './plot.js';
import { columns, fit, name, pad, wrap } from '../../words/text.js';
import { changes, countOf, number, spare, workWords } from '../../words/words.js';
import type { Telling } from '../../words/words.js';
import { stoppedBy } from './stopped.js';

/** Undecided while any proof is open, else whether some set fits. */
export function frontierVerdict({ points, best }: Frontier): Verdict {
  if (best !== 'proved') return 'undecided';
  return points.some(({ fits }) => fits === 'yes') ? 'fits' : 'does not fit';
}

export function frontierReport(
  told: Frontier,
  warnings: readonly string[],
  telling: Telling,
): Line[] {
  const { look, units } = telling;
  const flush = (text: string): Line => ({ label: '', text, flush: true });
  const shown = told.points.map((point) => ({
    x: point.hours,
    y: meetsLimits(point) ? shownOf(point).margin : -Infinity,
  }));
  const drawing = plot(
    {
      line: shown,
      drawn: 'level',
      marks: shown.map((point, n) => ({ ...point, text: String(n + 1) })),
      xWords: (hours) => `${number(hours)} h`,
      yWords: (margin) => spare(margin, units).replace(/ to spare$/, ''),
      xTitle: 'hours of work',
    },
    look,
  );
  const sections = [
    whole([headline(told, telling)]),
    // One set alone needs no drawing.
    whole(told.points.length > 1 ? drawing.map(flush) : []),
    rowSection(told.points, telling),
    whole(stoppedWords(told, telling)),
    list('Set', captionPieces(telling), ', ', look, { least: 1, yields: 1 }),
    whole([CAUTION]),
  ];
  const { shown: first, cut } = fold(sections, FIRST_SCREEN);
  const warned = warnings.flatMap((text, w) => paragraph(w === 0 ? 'Warning' : '', text, look));
  return [...first, ...cut.flatMap((section) => section.lines), ...warned];
}

function headline(told: Frontier, { units, look }: Telling): Line {
  const { points } = told;
  const first = points.find(({ fits }) => fits === 'yes');
  const last = points.at(-1);
  const verdict = frontierVerdict(told);
  if (last === undefined) {
    return verdict === 'undecided'
      ? { label: 'UNDECIDED.', text: 'Nothing found so far.', tone: 'open' }
      : { label: 'DOES NOT FIT.', text: 'Proved: no place meets the limits.', tone: 'bad' };
  }
  const left = (point: Placement) => spare(shownOf(point).margin, units);
  const most = `${left(last)} for ${priceOf(last)}`;
  if (verdict === 'undecided') {
    return { label: 'UNDECIDED.', text: `Best so far ${most}; more may be had.`, tone: 'open' };
  }
  if (first === undefined) {
    const text = `whatever the work: ${most} at best. Proved.`;
    return { label: 'DOES NOT FIT', text, tone: 'bad' };
  }
  const isFree = first.hours === 0 && first.cost === 0;
  const label = isFree ? 'FITS AS IT STANDS,' : `FITS FROM ${priceOf(first)}:`;
  const texts =
    first === last
      ? [`${left(first)}; more work buys no more. Proved.`, `${left(first)}. Proved.`]
      : [
          `${left(first)}; at most ${left(last).replace(' to spare', '')} for ${priceOf(last)}.`,
          `${left(first)}.`,
        ];
  const room = look.width - columns(label) - 1;
  return { label, text: texts.find((one) => columns(one) <= room) ?? texts.at(-1)!, tone: 'good' };
}

function priceOf({ hours, cost }: Placement): string {
  return workWords(hours, cost) || 'no work';
}

function stoppedWords(told: Frontier, { look }: Telling): Line[] {
  if (frontierVerdict(told) !== 'undecided') return [];
  const boxes = countOf(told.effort.boxes, 'box', 'boxes');
  const said = told.stopped
    ? `stopped ${stoppedBy(told.stopped)}`
    : 'the search ended with a proof open';
  return paragraph('Why', `${said}, after ${boxes}; dearer sets were not come to`, look);
}

const TITLES = ['', 'to spare', 'hours', 'cost'] as const;

/** A set each: sizes, what to do, and in full where it goes and what binds. */
function rowSection(points: readonly Placement[], telling: Telling): Section {
  const { look, units } = telling;
  const cells = points.map((point, n) => [
    String(n + 1),
    marginCell(point, point.best !== 'proved', units),
    point.hours === 0 ? '' : number(point.hours),
    point.cost === 0 ? '' : number(point.cost),
  ]);
  const widths = TITLES.map((title, c) =>
    Math.max(title.length, maxOf(cells.map((row) => columns(row[c]!)))),
  );
  const sized = (row: readonly string[]) =>
    `  ${row.map((cell, c) => pad(cell, widths[c]! + 2)).join('')}`;
  const room = look.width - columns(sized(TITLES));
  const line = (text: string): Line => ({ label: '', text: text.trimEnd(), flush: true });
  const heading = line(`${sized(TITLES)}do`);
  const does = points.map((point) => {
    const done = changes(point.options, telling).map(({ what }) => what);
    return done.length === 0 ? 'nothing, as it stands' : done.join('; ');
  });
  const names = points.map(({ options }) => chosenNames(options, telling));
  const short = points.map((_, n) => line(sized(cells[n]!) + fit(names[n]!, room, look)));
  const long = points.flatMap((point, n) => {
    const [first, ...rest] = wrap(does[n]!, room);
    const blank = sized(TITLES.map(() => ''));
    const where = shortWhere(shownOf(point).position, telling).join(', ');
    const binds = bindsWords(shownOf(point), point.optimum.readings, telling);
    return [
      line(sized(cells[n]!) + first!),
      ...rest.map((text) => line(blank + text)),
      line(`      ${where}`),
      ...(binds === '' ? [] : [line(fit(`      binds ${binds}`, look.width, look))]),
    ];
  });
  const shorter = (most: number): Line[] => {
    if (short.length < most) return [heading, ...short];
    const kept = short.slice(0, Math.max(1, most - 2));
    return [heading, ...kept, line(`  ${short.length - kept.length} more below`)];
  };
  return { lines: [heading, ...long], shorter, least: Math.min(3, long.length), yields: 9 };
}

/** The chosen options that differ from the bay as it stands, without their choices. */
function chosenNames(options: OptionSet, { scenario, look }: Telling): string {
  const names = options.flatMap((option, c) => {
    return option === 0 ? [] : [name(scenario.choices[c]!.options[option]!.name, look)];
  });
  return names.length === 0 ? 'nothing, as it stands' : names.join(', ');
}
