/** The report of `berth mockup`: what to turn, by how much, in which order, and what a little more does. */

import { maxOf } from '../../model/extremes.js';
import { COORDINATES } from '../../model/scenario.js';
import type { Where } from '../asking/where-asked.js';
import { placeDoubt } from '../asking/where-asked.js';
import {
  adjusterName,
  adjusterTape,
  eighths,
  freeWords,
  handWords,
  HANGING_CAUTION,
  moveWords,
  plusWords,
  stepCells,
} from '../../words/fitup.js';
import { landsWords, mockupAdvice, mockupHeadline, spareWords } from '../../words/mockup.js';
import { pad } from '../../words/text.js';
import { whereWords } from '../../words/where.js';
import type { Telling } from '../../words/words.js';
import { list, paragraph } from './lines.js';
import type { Line } from './lines.js';
import { setLines } from './set-lines.js';
import type { SetUp } from '../../solver/fitup/set-up.js';

export interface MockupAnswer {
  readonly where: Where;
  readonly found: SetUp;
}

export function mockupReport(
  { where, found }: MockupAnswer,
  warnings: readonly string[],
  telling: Telling,
): Line[] {
  const { look } = telling;
  const doubt = placeDoubt(where.found);
  return [
    mockupHeadline(found, telling),
    ...paragraph('Then', mockupAdvice(found), look).filter(({ text }) => text !== ''),
    ...setLines('Engine', whereWords(where.position, telling), look),
    ...(doubt === '' ? [] : paragraph('', doubt, look)),
    ...table(found, telling),
    ...paragraph('Which way', `${handWords(found.adjusters.map((one) => one.adjuster))}`, look),
    ...(found.now ? list('Order', orderPieces(found, telling), '; ', look).lines : []),
    ...mockupLines(found, telling),
    { label: '', text: HANGING_CAUTION, flush: true },
    ...warnings.flatMap((text, w) => paragraph(w === 0 ? 'Warning' : '', text, look)),
  ];
}

/** Heads, then a row an adjuster: how long it is and is to be, its turns, and what a quarter turn does. */
export function mockupCells(found: SetUp, telling: Telling): string[][] {
  const { units, look } = telling;
  const known = found.now !== undefined;
  const length = (mm: number) => adjusterTape(mm, units);
  const heads = ['', ...(known ? ['now'] : []), 'set to', ...(known ? ['turns'] : [])];
  const rows = found.adjusters.map(({ adjuster, length: at, turns, quarter, follows }) => [
    adjusterName(adjuster, 18, look) + (follows.length > 0 ? ' *' : ''),
    ...(known ? [length(adjuster.now!)] : []),
    length(at),
    ...(known ? [turnCell(turns!)] : []),
    ...stepCells(quarter, COORDINATES, units),
  ]);
  return [[...heads, 'setback', 'offset', 'height', 'pitch'], ...rows];
}

/** What stands under that table. */
export function mockupNote(found: SetUp, telling: Telling): string {
  const isBound = found.adjusters.some(({ follows }) => follows.length > 0);
  const bound = isBound ? '; * binds' : '';
  return `right: a quarter turn longer; ${plusWords(telling)}${bound}`;
}

function table(found: SetUp, telling: Telling): Line[] {
  const all = mockupCells(found, telling);
  const heads = all[0]!.slice(0, -COORDINATES.length);
  const widths = all[0]!.map((_, c) => maxOf(all.map((row) => row[c]!.length)));
  const lines = all.map((row) => ({
    label: '',
    text: `  ${row.map((cell, c) => pad(cell, widths[c]! + (c < heads.length ? 2 : 1))).join('')}`.trimEnd(),
    flush: true,
  }));
  return [...lines, { label: '', text: `  ${mockupNote(found, telling)}`, flush: true }];
}

function turnCell(turns: number): string {
  if (turns === 0) return '-';
  return `${eighths(turns)} ${turns > 0 ? 'longer' : 'shorter'}`;
}

/** How near it comes, what does not agree, what no adjuster holds, and which can be set only together. */
export function mockupLines(found: SetUp, telling: Telling): Line[] {
  const { look } = telling;
  const { free, now } = found;
  return [
    ...(now ? paragraph('Lands', landsWords(found, telling), look) : []),
    ...list('Not held', free.map(freeWords), '; ', look).lines,
    ...paragraph('', spareWords(found), look).filter(({ text }) => text !== ''),
  ];
}

function orderPieces(found: SetUp, telling: Telling): string[] {
  return found.now!.order.moves.map((move, k) => `${k + 1} ${moveWords(move, found, telling)}`);
}
