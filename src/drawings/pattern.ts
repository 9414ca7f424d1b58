/**
 * A flat pattern at full size as SVG: cut lines whole, scribe lines broken, holes with their centres, and a line of
 * known length by which a printer's scale is checked. Drawn in millimetres of paper, one to one.
 */

import { boundsOf } from '../geometry/mounts/patterns.js';
import type { Pattern, Run } from '../geometry/mounts/patterns.js';
import type { Flat } from '../geometry/mounts/plate.js';
import { inUnits } from '../model/text/tape.js';
import type { Units } from '../model/text/tape.js';
import { detailWords, materialWords, MOUNT_CAUTION, patternWords } from '../words/mounts.js';
import { escaped, FACE, fitted, TEXT_SIZE } from './text.js';

export interface PatternDrawing {
  readonly svg: string;
  /** Millimetres. */
  readonly size: readonly [number, number];
}

/** What tells a pattern of ours from any other file. */
export const PATTERN_MARK = 'data-berth-pattern';

/** The line to check a printer by. */
export const CHECK_LINE: Readonly<Record<Units, { readonly mm: number; readonly words: string }>> =
  {
    in: { mm: 101.6, words: '4 in' },
    mm: { mm: 100, words: '100 mm' },
  };

const MARGIN = 10;
const LINE = 1.5 * TEXT_SIZE;
/** Millimetres of paper at the least: the check line and the longest note beside it. */
const LEAST_WIDTH = 150;
const CUT = 'stroke="#000" stroke-width="0.35"';
const SCRIBE = 'stroke="#000" stroke-width="0.2" stroke-dasharray="2 1.2"';
const HOLE = 'stroke="#000" stroke-width="0.25"';

export function patternDrawing(pattern: Pattern, mount: string, units: Units): PatternDrawing {
  const [[left, right], [low, high]] = boundsOf(pattern);
  const title = patternWords(pattern, mount);
  const width = Math.max(right - left, LEAST_WIDTH) + 2 * MARGIN;
  const head = headWords(pattern, title, units);
  const top = MARGIN + head.length * LINE + ARROW;
  const height = top + (high - low) + 3 * LINE + MARGIN;
  const place = ([x, y]: Flat): Flat => [MARGIN + x - left, top + high - y];
  const parts = [
    ...head.map((words, i) => text(MARGIN, MARGIN + (i + 0.6) * LINE, words, width, i === 0)),
    ...arrow([MARGIN + 3, top - 3], pattern.up),
    ...pattern.cut.map((run) => path(run, place, `class="cut" ${CUT}`)),
    ...pattern.scribe.map((run) => path(run, place, `class="scribe" ${SCRIBE}`)),
    ...pattern.holes.flatMap(({ at, diameter }) => hole(place(at), diameter)),
    ...pattern.notes.map(({ at, text: words }) => {
      const [x, y] = place(at);
      return text(x + 0.8, y, words, width, false);
    }),
    ...checkLine([MARGIN, top + (high - low) + LINE], units),
    text(MARGIN, height - MARGIN, MOUNT_CAUTION, width, false),
  ];
  const [wide, tall] = [width, height].map((mm) => `${inUnits(mm, units).toFixed(6)}${units}`);
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${wide}" height="${tall}" viewBox="0 0 ${exact(width)} ${exact(height)}" role="img" ${PATTERN_MARK}="1" font-family="${FACE}" font-size="${TEXT_SIZE}" fill="none" stroke-linecap="round" stroke-linejoin="round">
<title>${escaped(title)}</title>
<rect width="${exact(width)}" height="${exact(height)}" fill="#fff"/>
${parts.join('\n')}
</svg>
`;
  return { svg, size: [width, height] };
}

function headWords(pattern: Pattern, title: string, units: Units): string[] {
  const seen = pattern.piece.endsWith('plate') ? '; seen from the tube' : '';
  return [
    title,
    `${materialWords(pattern, units)}${seen}.`,
    ...detailWords(pattern, units).map((words) => `${words}.`),
    'Full size. Whole line: cut. Broken line: scribe.',
  ];
}

/** Room for the arrow above the pattern. */
const ARROW = 14;

function arrow([x, y]: Flat, words: string): string[] {
  const tip = y - 8;
  const style = 'stroke="#000" stroke-width="0.3"';
  return [
    `<path d="M${exact(x)} ${exact(y)}V${exact(tip)}M${exact(x - 1.5)} ${exact(tip + 3)}L${exact(x)} ${exact(tip)}L${exact(x + 1.5)} ${exact(tip + 3)}" ${style}/>`,
    text(x + 3, y - 4, words, LEAST_WIDTH, false),
  ];
}

function path({ points, closed }: Run, place: (at: Flat) => Flat, style: string): string {
  const along = points.map((point) => place(point).map(exact).join(' '));
  return `<path d="M${along.join('L')}${closed ? 'Z' : ''}" ${style}/>`;
}

function hole([x, y]: Flat, diameter: number): string[] {
  const arm = Math.max(2, diameter / 2 + 1.5);
  return [
    `<circle class="hole" cx="${exact(x)}" cy="${exact(y)}" r="${exact(diameter / 2)}" ${HOLE}/>`,
    `<path d="M${exact(x - arm)} ${exact(y)}H${exact(x + arm)}M${exact(x)} ${exact(y - arm)}V${exact(y + arm)}" stroke="#000" stroke-width="0.15"/>`,
  ];
}

function checkLine([x, y]: Flat, units: Units): string[] {
  const { mm, words } = CHECK_LINE[units];
  const end = x + mm;
  return [
    `<path class="check" d="M${exact(x)} ${exact(y - 2)}V${exact(y + 2)}M${exact(x)} ${exact(y)}H${exact(end)}M${exact(end)} ${exact(y - 2)}V${exact(y + 2)}" stroke="#000" stroke-width="0.2"/>`,
    text(end + 3, y, `${words}: measure it`, LEAST_WIDTH + 2 * MARGIN, false),
  ];
}

/** Text from x on, in the middle of y, no wider than what is left of the paper. */
function text(x: number, y: number, words: string, paper: number, bold: boolean): string {
  const room = paper - MARGIN - x;
  const said = fitted(words, bold ? room / BOLD : room);
  const weight = bold ? ' font-weight="bold"' : '';
  return `<text x="${exact(x)}" y="${exact(y + 0.36 * TEXT_SIZE)}" fill="#000"${weight}>${escaped(said)}</text>`;
}

/** How much wider bold text may be. */
const BOLD = 1.16;

/** To a ten-thousandth of a millimetre. */
function exact(value: number): string {
  return String(Math.round(value * 1e4) / 1e4 + 0);
}
