/** Under the field of a drawing: what the lines mean, the scale bar, the gaps by letter, the parts by number. */

import { neededStyle, tape } from '../model/text/tape.js';
import type { Units } from '../model/text/tape.js';
import type { Dimension } from './dimensions.js';
import { n } from './paper.js';
import type { Paper } from './paper.js';
import { scaleBar } from './scale.js';
import type { Seen } from './seen.js';
import { LINES } from './styles.js';
import type { Subject } from './subject.js';
import { fitted, textWidth } from './text.js';
import type { Window } from './window.js';

const LINE = 4.8;
/** Rows and columns of the parts by number. */
const ROWS = 5;
const COLUMNS = 5;

export interface Key {
  readonly subject: Subject;
  readonly window: Window;
  /** Where it begins, millimetres from the top. */
  readonly top: number;
  readonly shown: readonly Dimension[];
  readonly tagged: readonly Seen[];
  readonly all: readonly Seen[];
}

/** Millimetres that the key of so many gaps takes. */
export function keyHeight(gaps: number): number {
  return LINE * (1.3 + (gaps === 0 ? 0 : gaps + 1) + ROWS) + 2;
}

export function writeKey(paper: Paper, key: Key): void {
  let y = key.top + LINE * 0.7;
  lineRow(paper, key, y);
  y += LINE * 1.1;
  if (key.shown.length > 0) {
    gapRows(paper, key, y);
    y += LINE * (key.shown.length + 1);
  }
  paper.line([0.3, y - LINE / 2], [paper.width - 0.3, y - LINE / 2], LINES.rule);
  const width = (paper.width - 1) / COLUMNS;
  key.tagged.forEach((one, i) => {
    const [column, row] = [Math.floor(i / ROWS), i % ROWS];
    const x = 0.5 + column * width;
    paper.text(x, y + LINE * row, String(one.tag), { bold: true });
    paper.text(x + 8.5, y + LINE * row, fitted(nameOf(one), width - 10));
  });
}

function nameOf({ part }: Seen): string {
  return part.guess ? `${part.name} (guess)` : part.name;
}

/** Samples of the lines, and the scale bar at the right. */
function lineRow(paper: Paper, { subject, window, all }: Key, y: number): void {
  const uses: [string, string, boolean][] = [
    [LINES.engine, 'engine', true],
    [LINES.chassis, 'chassis', true],
    [LINES.motion, 'in motion', all.some(({ motions }) => motions.length > 0)],
    [LINES.datum, 'datum', true],
    [LINES.comesOut, 'comes out', all.some(({ comesOut }) => comesOut.length > 0)],
    [LINES.removed, 'cut off', all.some(({ removed }) => removed.length > 0)],
  ];
  let x = 0.5;
  for (const [style, words, used] of uses) {
    if (!used) continue;
    paper.line([x, y], [x + 9, y], style);
    paper.text(x + 10.5, y, words);
    x += 13 + textWidth(words);
  }
  paper.text(x, y, 'hatched: the tightest');
  const bar = scaleBar(window.scale, subject.units, 45);
  const words = bar.words;
  const left = paper.width - 1.5 - textWidth(words) - bar.paper;
  const part = bar.paper / bar.parts;
  for (let k = 0; k < bar.parts; k++) {
    const fill = k % 2 === 0 ? '#000' : '#fff';
    paper.add(
      `<rect x="${n(left + k * part)}" y="${n(y - 0.8)}" width="${n(part)}" height="1.6" fill="${fill}" ${LINES.rule}/>`,
    );
  }
  paper.text(paper.width - 0.5 - textWidth(words), y, words);
}

/** What is left, rounded down; what is missing, rounded up. */
function spareOf(margin: number, units: Units): string {
  const size = tape(Math.abs(margin), units, { round: margin < 0 ? 'up' : 'down' });
  return margin < 0 && size !== '0' ? `short ${size}` : size;
}

/** A row a gap: which pair, at rest, in motion, needed, and what that leaves. */
function gapRows(paper: Paper, { subject, shown, all }: Key, top: number): void {
  const { units } = subject;
  const columns = [0.5, 9, 150, 176, 203, 228];
  const heads = ['', 'Gap between', 'at rest', 'in use', 'needs', 'spare'];
  heads.forEach((head, c) => paper.text(columns[c]!, top, head, { bold: true }));
  shown.forEach((dimension, i) => {
    const y = top + LINE * (i + 1);
    const { reading, letter } = dimension;
    const tags = reading.between.map((name) => all.find(({ part }) => part.name === name)?.tag);
    const [first, second] = reading.between.map((name, k) => `${name} (${tags[k] ?? '-'})`);
    const how = reading.measured === 'nearest' ? '' : `, ${reading.measured}`;
    const out = reading.comingOut ? ', room to come out' : '';
    const seen = dimension.slanted ? ', seen at a slant' : '';
    const tight = reading.binding ? ' *' : '';
    const pair = fitted(`${first!} to ${second!}${how}${out}${seen}`, 138);
    const down = (mm: number) => tape(mm, units, { round: 'down' });
    const need = tape(reading.needed, units, neededStyle(reading.needed, units));
    const cells = [
      letter,
      pair,
      down(reading.atRest),
      down(reading.gap),
      need,
      `${spareOf(reading.margin, units)}${tight}`,
    ];
    cells.forEach((cell, c) => paper.text(columns[c]!, y, cell, { bold: c === 0 }));
  });
}
