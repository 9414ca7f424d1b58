/** Rules as rows: what a tape reads, what use leaves, what is needed, and what that leaves over. */

import { maxOf } from '../../model/extremes.js';
import { DUST, inUnits, neededStyle, tape, tapeSize } from '../../model/text/tape.js';
import type { TapeStyle, Units } from '../../model/text/tape.js';
import type { Reading } from '../../solver/answer.js';
import type { Line } from './lines.js';
import { columns, fit, pad } from '../../words/text.js';
import {
  guessedOf,
  pairWords,
  settled,
  shareRangeWords,
  shareWords,
  wantsWords,
} from '../../words/words.js';
import type { Telling } from '../../words/words.js';

/** What a row says after its four sizes: whether the rule binds, or where it wants the engine. */
export type Remark = 'binds' | 'wants';

/** Rows start left of other text, so that there is room for names. */
const INDENT = '  ';

const TITLES = ['at rest', 'moving', 'needs'] as const;

/** Where the engine wants to go takes the room of the gap at rest. */
const WANTING = ['gap', 'needs'] as const;

/** After a size: a little more than that, a little less; and what the heading says of them. */
const OVER = '+';
const UNDER = '-';
const MARKS = '(+ a bit over, - a bit under)';

/** A rule's name is told apart in this many columns; the remark gives way before that. */
const LEAST_NAME = 24;

/**
 * A heading and one row a reading, as drawn; the last size is `spare`, or `short` where all are short,
 * and after it the guaranteed one where there are measuring errors.
 */
export function table(readings: readonly Reading[], remark: Remark, telling: Telling): Line[] {
  if (readings.length === 0) return [];
  const drawn = readings.map((reading) => ({ ...reading, ...reading.drawn }));
  const short = drawn.every((reading) => settled(reading.margin) < 0);
  const titles = remark === 'wants' ? WANTING : TITLES;
  const rows = drawn.map((reading) => [
    ...sizes(reading, short, telling).slice(-1 - titles.length),
    ...worst(reading, telling),
  ]);
  const isShared = readings.some(({ share }) => share !== undefined);
  const remarks = readings.map((reading) => remarkOf(reading, remark, isShared, telling));
  const isMarked = rows.some((row) => row.some((cell) => /\d[+-]$/.test(cell)));
  const isWorst = readings[0]!.guaranteed !== undefined;
  const heads: string[] = [...titles, short ? 'short' : 'spare', ...(isWorst ? ['worst'] : [])];
  const widths = heads.map((head, c) =>
    Math.max(head.length, maxOf(rows.map((row) => row[c]!.length))),
  );
  const sized = (row: readonly string[]) =>
    INDENT + row.map((cell, c) => pad(cell, widths[c]! + 2)).join('');
  const room = telling.look.width - sized(heads).length;
  const said = remarks.some((text) => text !== '');
  const widest = Math.max(remark.length, maxOf(remarks.map(columns)));
  const extra = said ? Math.min(widest, Math.max(0, room - LEAST_NAME - 2)) + 2 : 0;
  const line = (row: readonly string[], after: string, rule: (width: number) => string): string => {
    const noted = said ? pad(fit(after, extra - 2, telling.look), extra) : '';
    return sized(row) + noted + rule(room - extra);
  };
  return [
    { label: '', text: line(heads, remark, () => (isMarked ? MARKS : '')).trimEnd(), flush: true },
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
  const atRest = Number.isFinite(reading.atRest)
    ? tape(reading.atRest, units, { round: 'down' })
    : 'none';
  return [atRest, ...gapAndNeed(reading, margin, units), left];
}

/** What is to spare in the worst case of the measuring errors; below 0 where it is short. */
function worst({ guaranteed }: Reading, { units }: Telling): string[] {
  if (guaranteed === undefined) return [];
  return [
    Number.isFinite(guaranteed) ? tape(settled(guaranteed), units, { round: 'down' }) : 'none',
  ];
}

/**
 * What is there rounded down, and what is needed as given or rounded up. Where the two so rounded would
 * leave less than is to spare, and might contradict the verdict, the gap is told to the finer mark of
 * the need; where the need is on none, each is marked with where it lies.
 */
function gapAndNeed({ gap, needed }: Reading, margin: number, units: Units): [string, string] {
  const style = neededStyle(needed, units);
  const need = tape(needed, units, style);
  if (!Number.isFinite(gap)) return ['none', need];
  const wanted = tapeSize(needed, units, style);
  const left = tapeSize(margin, units, { round: 'down' });
  const tells = (there: TapeStyle) => tapeSize(gap, units, there) - wanted >= left - DUST;
  const down: TapeStyle = { round: 'down' };
  if (tells(down)) return [tape(gap, units, down), need];
  const finer: TapeStyle = { ...style, round: 'down' };
  if (tells(finer)) return [tape(gap, units, finer), need];
  const isOver = inUnits(gap, units) > tapeSize(gap, units, down) + DUST;
  const isUnder = inUnits(needed, units) < wanted - DUST;
  return [tape(gap, units, down) + (isOver ? OVER : ''), need + (isUnder ? UNDER : '')];
}

function remarkOf(reading: Reading, remark: Remark, isShared: boolean, telling: Telling): string {
  if (remark === 'wants') return wantsWords(reading.slope, telling.scenario);
  // Level with the tightest, but room given there alone gains nothing.
  if (!reading.binding) return '';
  const { share = isShared ? 0 : undefined, shareRange } = reading;
  return shareRange === undefined ? shareWords(share) : shareRangeWords(shareRange);
}
