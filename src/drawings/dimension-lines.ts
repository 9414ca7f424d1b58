/** One gap drawn where it is: witness lines, arrows, and a label with its letter and size. */

import { tape } from '../model/text/tape.js';
import type { Units } from '../model/text/tape.js';
import * as trig from '../model/trig.js';
import type { Dimension } from './dimensions.js';
import type { Field } from './field.js';
import { nearestIn } from './labels.js';
import type { Labels, Place } from './labels.js';
import { BOLD, n } from './paper.js';
import type { Paper } from './paper.js';
import { LINES } from './styles.js';
import { escaped, TEXT_SIZE, textWidth } from './text.js';
import { onPaper } from './view.js';

/** Millimetres of paper: from here on arrows stand between the witness lines. */
const WIDE = 9;
const TAIL = 5;
const HEAD = 1.6;
const TICK = 2.2;

/** The size as a tape reads it at rest, rounded down: `3/8`, `1 5/8 at rest`, `1/2 overlap`. */
function gapWords({ reading, moves }: Dimension, units: Units): string {
  const { atRest, gap } = reading;
  const size =
    atRest < 0
      ? `${tape(-atRest, units, { round: 'up' })} overlap`
      : tape(atRest, units, { round: 'down' });
  const isLess =
    moves && tape(gap, units, { round: 'down' }) !== tape(atRest, units, { round: 'down' });
  return isLess ? `${size} at rest` : size;
}

/**
 * Draws a dimension and its label. The exact sizes, in millimetres, stand in `data-gap` (least over the
 * motions), `data-at-rest` and `data-needed`, and what is drawn between in `data-from` and `data-to`.
 */
export function drawDimension(
  paper: Paper,
  labels: Labels,
  dimension: Dimension,
  { subject, view, window }: Field,
): void {
  const { reading, witness, letter } = dimension;
  const from = window.toPaper(onPaper(view, witness.from));
  const [du, dv] = onPaper(view, witness.along);
  const seen = trig.hypot(du, dv);
  // On paper, y downwards: from the first part's place towards the second's.
  const way: Place = seen > 0 ? [-du / seen, dv / seen] : [1, 0];
  const far = (witness.gap * seen) / window.scale;
  const to: Place = [from[0] + way[0] * far, from[1] + way[1] * far];
  const place = ([x, y, z]: readonly [number, number, number]) => `${x} ${y} ${z}`;
  paper.add(
    `<g class="dimension" data-letter="${letter}" data-gap="${reading.gap}" data-at-rest="${reading.atRest}" data-needed="${reading.needed}" data-from="${place(witness.from)}" data-to="${place(witness.to)}" data-first="${escaped(reading.between[0])}" data-second="${escaped(reading.between[1])}">`,
  );
  witnessLine(paper, labels, from, from, way);
  witnessLine(paper, labels, to, window.toPaper(onPaper(view, witness.to)), way);
  const wide = far > WIDE;
  const [a, b] = far >= 0 ? [from, to] : [to, from];
  if (wide) paper.line(a, b, LINES.dimension);
  arrow(paper, labels, a, wide ? [-way[0], -way[1]] : way, !wide);
  arrow(paper, labels, b, wide ? way : [-way[0], -way[1]], !wide);
  const words = `${letter}  ${gapWords(dimension, subject.units)}`;
  const [w, h] = [textWidth(words) * BOLD + 2, TEXT_SIZE * 1.35];
  const middle: Place = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const placed = labels.place(w, h, middle);
  if (placed) {
    const { box } = placed;
    paper.line(middle, nearestIn(box, middle), LINES.leader);
    paper.box(box, `fill="#fff" ${LINES.dimension}`);
    paper.text(box.x + 1, box.y + h / 2, words, { bold: true });
  }
  paper.add('</g>');
}

/** A line across the way that is measured, from the place itself to where the dimension stands. */
function witnessLine(paper: Paper, labels: Labels, at: Place, own: Place, way: Place): void {
  const across: Place = [-way[1], way[0]];
  const off = (own[0] - at[0]) * across[0] + (own[1] - at[1]) * across[1];
  const [low, high] = [Math.min(off, 0) - TICK, Math.max(off, 0) + TICK];
  const end = (by: number): Place => [at[0] + across[0] * by, at[1] + across[1] * by];
  paper.line(end(low), end(high), LINES.dimension);
  labels.drawn(end(low), end(high), 2);
}

/** An arrow head whose tip is at a place and that points along a way, with or without a tail. */
function arrow(paper: Paper, labels: Labels, tip: Place, way: Place, tail: boolean): void {
  const [wx, wy] = way;
  const back: Place = [tip[0] - wx * HEAD, tip[1] - wy * HEAD];
  const wing = (s: number): string =>
    `${n(back[0] - wy * HEAD * 0.3 * s)} ${n(back[1] + wx * HEAD * 0.3 * s)}`;
  paper.add(`<path d="M${n(tip[0])} ${n(tip[1])}L${wing(1)}L${wing(-1)}Z" fill="#000"/>`);
  if (!tail) return;
  const end: Place = [tip[0] - wx * TAIL, tip[1] - wy * TAIL];
  paper.line(back, end, LINES.dimension);
  labels.drawn(tip, end, 2);
}
