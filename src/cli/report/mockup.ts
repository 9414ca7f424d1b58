/** The report of `berth mockup`: what to turn, by how much, in which order, and what a little more does. */

import { COORDINATES } from '../../model/scenario.js';
import { stanceVector } from '../../model/stance.js';
import { exactDegrees, tape } from '../../model/tape.js';
import type { Where } from '../where-asked.js';
import { placeDoubt } from '../where-asked.js';
import {
  eighths,
  freeWords,
  handWords,
  HANGING_CAUTION,
  moveWords,
  plusWords,
  stepCells,
} from '../../words/fitup.js';
import { fit, name, pad } from '../../words/text.js';
import { whereWords } from '../../words/where.js';
import { countOf, unit } from '../../words/words.js';
import type { Telling } from '../../words/words.js';
import { list, paragraph } from './lines.js';
import type { Line } from './lines.js';
import { setLines } from './set-lines.js';
import type { Hindrance } from '../../solver/fitup/moves.js';
import type { SetUp } from '../../solver/fitup/set-up.js';

export interface MockupAnswer {
  readonly where: Where;
  readonly found: SetUp;
}

/** What stands in the way of setting the mock-up, the gravest first. */
export type MockupVerdict = 'touches' | 'out of range' | 'open' | 'no order found' | 'lengths only';

export function mockupVerdict({ touching, adjusters, now }: SetUp): MockupVerdict {
  if (adjusters.some(({ inRange }) => !inRange)) return 'out of range';
  if (touching.length > 0) return 'touches';
  if (!now) return 'lengths only';
  return now.order.found ? 'open' : 'no order found';
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

export function mockupHeadline(found: SetUp, telling: Telling): Line {
  const { look, units } = telling;
  const pair = (between: readonly [string, string]) =>
    between.map((part) => name(part, look, 24)).join(' - ');
  const size = (mm: number) => tape(mm, units, { round: 'down' }) + unit(units);
  const { touching, adjusters, now } = found;
  switch (mockupVerdict(found)) {
    case 'out of range': {
      const [first] = adjusters.filter(({ inRange }) => !inRange);
      const { range, name: called } = first!.adjuster;
      const isLong = first!.length > range.max;
      const may = isLong
        ? `${size(range.max)} at the most`
        : `${tape(range.min, units, { round: 'up' })}${unit(units)} at the least`;
      const must = tape(first!.length, units, { round: isLong ? 'up' : 'down' }) + unit(units);
      const more = adjusters.filter(({ inRange }) => !inRange).length - 1;
      const rest = more === 0 ? '' : `, and ${countOf(more, 'other')}`;
      return {
        label: 'OUT OF RANGE.',
        text: `${name(called, look, 24)} must be ${must}, is ${may}${rest}.`,
        tone: 'bad',
      };
    }
    case 'touches': {
      const more = touching.length > 1 ? `, and ${countOf(touching.length - 1, 'other pair')}` : '';
      return {
        label: 'TOUCHES.',
        text: `Where it is to sit: ${pair(touching[0]!)}${more}.`,
        tone: 'bad',
      };
    }
    case 'lengths only':
      return {
        label: 'LENGTHS.',
        text: `${countOf(adjusters.length, 'adjuster')}, in range. How long each is now is not in the file.`,
        tone: 'good',
      };
    case 'open': {
      const { moves } = now!.order;
      if (moves.length === 0) {
        return { label: 'SET.', text: 'Every adjuster is as long as it is to be.', tone: 'good' };
      }
      const leasts = moves.flatMap(({ least }) => (least ? [least] : []));
      const least = leasts.reduce((a, b) => (b.gap < a.gap ? b : a), leasts[0]!);
      const gap =
        least === undefined
          ? ''
          : least.gap < 0
            ? `; ${pair(least.between)} touches at first and gets no worse`
            : `; least gap ${size(least.gap)}, ${pair(least.between)}`;
      return {
        label: 'OPEN ALL THE WAY.',
        text: `${countOf(moves.length, 'move')}${gap}.`,
        tone: 'good',
      };
    }
    case 'no order found':
      return {
        label: 'NO ORDER FOUND.',
        text: `${hindered(now!.order.hindrance, found, telling)}; hoist it clear, or move it in part by hand.`,
        tone: 'open',
      };
  }
}

function hindered(
  hindrance: Hindrance | undefined,
  { adjusters }: SetUp,
  { look }: Telling,
): string {
  if (hindrance?.of === 'gap') {
    return `${hindrance.between.map((part) => name(part, look, 24)).join(' - ')} closes on the way`;
  }
  if (hindrance?.of === 'range') {
    return `${name(adjusters[hindrance.adjuster]!.adjuster.name, look, 24)} comes to its end on the way`;
  }
  return 'turned one by one they bind';
}

/** Heads, then a row an adjuster: how long it is and is to be, its turns, and what a quarter turn does. */
export function mockupCells(found: SetUp, telling: Telling): string[][] {
  const { units, look } = telling;
  const known = found.now !== undefined;
  const mark = { round: 'nearest', step: units === 'in' ? 1 / 64 : 0.5 } as const;
  const length = (mm: number) => tape(mm, units, mark);
  const heads = ['', ...(known ? ['now'] : []), 'set to', ...(known ? ['turns'] : [])];
  const rows = found.adjusters.map(({ adjuster, length: at, turns, quarter, follows }) => [
    fit(name(adjuster.name, look), 18, look) + (follows.length > 0 ? ' *' : ''),
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
  const bound = isBound ? '; * binds alone' : '';
  return `right: a quarter turn longer; ${plusWords(telling)}${bound}`;
}

function table(found: SetUp, telling: Telling): Line[] {
  const all = mockupCells(found, telling);
  const heads = all[0]!.slice(0, -COORDINATES.length);
  const widths = all[0]!.map((_, c) => Math.max(...all.map((row) => row[c]!.length)));
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
    ...(now?.off === undefined ? [] : paragraph('Lengths', contradiction(now.off, telling), look)),
    ...list('Not held', free.map(freeWords), '; ', look).lines,
    ...paragraph('', spareWords(found, telling), look).filter(({ text }) => text !== ''),
  ];
}

function orderPieces(found: SetUp, telling: Telling): string[] {
  return found.now!.order.moves.map((move, k) => `${k + 1} ${moveWords(move, found, telling)}`);
}

/** How near the engine comes, with turns set to an eighth. */
function landsWords({ now, target }: SetUp, { units }: Telling): string {
  const [a, b] = [stanceVector(now!.lands), stanceVector(target)];
  const apart = a.map((value, k) => value - b[k]!);
  const way = Math.hypot(apart[0]!, apart[1]!, apart[2]!);
  const turn = Math.max(...[...apart.subarray(3)].map(Math.abs));
  const step = units === 'in' ? 1 / 64 : 0.5;
  const near = tape(way, units, { round: 'up', step }) + unit(units);
  return `turned to the eighth, within ${near} and ${exactDegrees(Math.ceil((turn * 1800) / Math.PI) * (Math.PI / 1800))} deg of it`;
}

function contradiction(off: number, { units }: Telling): string {
  const by = tape(off, units, { round: 'up' }) + unit(units);
  return `those given as now do not agree, by ${by}: tape them again`;
}

function spareWords({ spare }: SetUp, _telling: Telling): string {
  if (spare === 0) return '';
  return `${countOf(spare, 'adjuster')} more than can be set alone: turn those named together`;
}
