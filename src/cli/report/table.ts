/** Rules as rows: what a tape reads, what use leaves, what is needed, and what that leaves over. */

import { tape } from '../../model/tape.js';
import type { Reading } from '../../solver/answer.js';
import type { Line } from './lines.js';
import { columns, fit, pad } from './text.js';
import { guessedOf, pairWords, settled, shareWords, wantsWords } from './words.js';
import type { Telling } from './words.js';

/** What a row says after its four sizes: whether the rule binds, or where it wants the engine. */
export type Remark = 'binds' | 'wants';

/** Rows start left of other text, so that there is room for names. */
const INDENT = '  ';

const TITLES = ['at rest', 'moving', 'needs'] as const;

/** Where the engine wants to go takes the room of the gap at rest. */
const WANTING = ['gap', 'needs'] as const;

/** A rule's name is told apart in this many columns; the remark gives way before that. */
const LEAST_NAME = 24;

/** A heading and one row a reading; the last size is `spare`, or `short` where all are short. */
export function table(readings: readonly Reading[], remark: Remark, telling: Telling): Line[] {
  if (readings.length === 0) return [];
  const short = readings.every((reading) => settled(reading.margin) < 0);
  const titles = remark === 'wants' ? WANTING : TITLES;
  const rows = readings.map((reading) => sizes(reading, short, telling).slice(-1 - titles.length));
  const remarks = readings.map((reading) => remarkOf(reading, remark, telling));
  const heads: string[] = [...titles, short ? 'short' : 'spare'];
  const widths = heads.map((head, c) =>
    Math.max(head.length, ...rows.map((row) => row[c]!.length)),
  );
  const sized = (row: readonly string[]) =>
    INDENT + row.map((cell, c) => pad(cell, widths[c]! + 2)).join('');
  const room = telling.look.width - sized(heads).length;
  const said = remarks.some((text) => text !== '');
  const widest = Math.max(remark.length, ...remarks.map(columns));
  const extra = said ? Math.min(widest, Math.max(0, room - LEAST_NAME - 2)) + 2 : 0;
  const line = (row: readonly string[], after: string, rule: (width: number) => string): string => {
    const noted = said ? pad(fit(after, extra - 2, telling.look), extra) : '';
    return sized(row) + noted + rule(room - extra);
  };
  return [
    { label: '', text: line(heads, remark, () => '').trimEnd(), flush: true },
    ...readings.map((reading, r) => ({
      label: '',
      text: line(rows[r]!, remarks[r]!, (width) => pairIn(width, reading, telling)),
      flush: true,
    })),
  ];
}

/** The pair cut to a width, but never what says that it rests on a guess. */
function pairIn(width: number, reading: Reading, telling: Telling): string {
  const mark = guessedOf(reading, telling).length > 0 ? ' (guess)' : '';
  return fit(pairWords(reading, telling), width - mark.length, telling.look) + mark;
}

function sizes(reading: Reading, short: boolean, { units }: Telling): string[] {
  const margin = settled(reading.margin);
  const left = short
    ? tape(-margin, units, { round: 'up' })
    : tape(margin, units, { round: 'down' });
  return [
    length(reading.atRest, 'down', units),
    length(reading.gap, 'down', units),
    length(reading.needed, 'up', units),
    left,
  ];
}

function length(mm: number, round: 'down' | 'up', units: Telling['units']): string {
  return Number.isFinite(mm) ? tape(mm, units, { round }) : 'none';
}

function remarkOf(reading: Reading, remark: Remark, telling: Telling): string {
  if (remark === 'wants') return wantsWords(reading.slope, telling.scenario);
  return reading.binding ? shareWords(reading.share) : '';
}
