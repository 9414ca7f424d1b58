/** The report of `berth mounts`: is all open, what to make, what each mount carries. */

import { degrees, tape } from '../../model/text/tape.js';
import { lengthOf, minus } from '../../model/vector.js';
import * as trig from '../../model/trig.js';
import type { MountGap } from '../../solver/fitup/mount-gaps.js';
import {
  cutWords,
  faultWords,
  leanWords,
  MOUNT_CAUTION,
  mountGapWords,
  pieceWords,
  vectorWords,
} from '../../words/mounts.js';
import { loadCells, loadNotes, NO_LOADS } from '../../words/mount-loads.js';
import { name } from '../../words/text.js';
import { whereWords } from '../../words/where.js';
import { isInsideTapeError, spare, unit } from '../../words/words.js';
import type { Telling } from '../../words/words.js';
import { isClear, leansOf } from '../json/mounts.js';
import type { MountsAnswer } from '../json/mounts.js';
import { placeDoubt } from '../asking/where-asked.js';
import { columnLines } from './columns.js';
import { list, paragraph } from './lines.js';
import type { Line } from './lines.js';
import { stockLines } from './mount-stock.js';
import { setLines } from './set-lines.js';

/** Millimetres to spare beyond which even --all tells of no gap. */
const NEAR = 100;
/** How many gaps are told beside those of the passages, without `--all`. */
const TOLD = 1;
/** Lines of what is not clear, without `--all`. */
const SHUT = 6;

export function mountsReport(
  answer: MountsAnswer,
  warnings: readonly string[],
  telling: Telling,
  all: boolean,
): Line[] {
  const { look } = telling;
  const { position, found } = answer;
  const doubt = placeDoubt(found);
  return [
    mountsHeadline(answer, telling),
    ...shutLines(answer, telling, all),
    ...setLines('Engine', whereWords(position, telling), look),
    ...(doubt === '' ? [] : paragraph('', doubt, look)),
    ...sizeLines(answer, telling),
    ...(all ? detailLines(answer, telling) : []),
    ...cutLines(answer, telling, all),
    ...loadLines(answer, telling),
    { label: '', text: MOUNT_CAUTION, flush: true },
    ...warnings.flatMap((text, w) => paragraph(w === 0 ? 'Warning' : '', text, look)),
  ];
}

/** Whether all can be made and stays open. */
export function mountsHeadline(answer: MountsAnswer, telling: Telling): Line {
  const { standings, gaps } = answer;
  const { units, look } = telling;
  const faulty = standings.filter(({ faults }) => faults.length > 0);
  if (faulty.length > 0) {
    const [first] = faulty;
    const text = `${name(first!.mount.name, look, 24)}: ${faultWords(first!.faults[0]!, units)}.`;
    return { label: 'CANNOT BE MADE.', text, tone: 'bad' };
  }
  const tightest = gaps.find((gap) => !isClear(gap)) ?? gaps.find(isTold);
  if (!tightest) {
    return { label: 'CLEAR.', text: 'There is nothing near the mounts.', tone: 'good' };
  }
  const at = `${mountGapWords(tightest, look)}, ${spare(tightest.margin, units)}`;
  return isClear(tightest)
    ? { label: 'CLEAR.', text: `Tightest: ${at}.`, tone: 'good' }
    : { label: 'NOT CLEAR.', text: `${at}.`, tone: 'bad' };
}

/** Whether a gap that is kept is news: not that of a tube to the frame that it stands on. */
function isTold({ margin, isOwn }: MountsAnswer['gaps'][number]): boolean {
  return !isOwn && Number.isFinite(margin);
}

/** The cut list, what stays open, and what is drawn off what it is fixed to. */
export function cutLines(answer: MountsAnswer, telling: Telling, all: boolean): readonly Line[] {
  return [
    ...stockLines(answer.standings, telling, all),
    ...openLines(answer, telling, all),
    ...list('Check', contactWords(answer, telling), '; ', telling.look).lines,
  ];
}

/** What is not clear, but for what the headline says. */
export function shutLines(answer: MountsAnswer, telling: Telling, all: boolean): readonly Line[] {
  const { lines, shorter } = list('Not clear', closed(answer, telling), '; ', telling.look);
  return all || lines.length <= SHUT ? lines : shorter!(SHUT);
}

/** Every fault but the headline's, and every gap that is not kept. */
function closed({ standings, gaps }: MountsAnswer, { units, look }: Telling): string[] {
  const faults = standings.flatMap(({ mount, faults: own }) =>
    own.map((fault) => `${name(mount.name, look, 24)}: ${faultWords(fault, units)}`),
  );
  const shut = gaps
    .filter((gap) => !isClear(gap))
    .map((gap) => `${mountGapWords(gap, look)}, ${spare(gap.margin, units)}`);
  // The headline has said the first of what it speaks of.
  return faults.length > 0 ? [...faults.slice(1), ...shut] : shut.slice(1);
}

/** Columns of a mount's name. */
const CALLED = 12;

/** Heads and rows of a table. */
interface Cells {
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

function sizeLines(answer: MountsAnswer, telling: Telling): Line[] {
  const { ways, tubes } = sizeCells(answer, telling);
  return [
    ...columnLines(ways.heads, ways.rows),
    ...(tubes.rows.length === 0 ? [] : columnLines(tubes.heads, tubes.rows)),
  ];
}

/** From pad to boss and from pad to support, and the tubes: a row each. */
export function sizeCells(
  { standings, mounts, loads }: MountsAnswer,
  telling: Telling,
): { readonly ways: Cells; readonly tubes: Cells } {
  const { units, look } = telling;
  const size = (mm: number): string => tape(mm, units, { round: 'nearest' }) + unit(units);
  const called = (text: string): string => name(text, look, CALLED);
  const vectors = standings.map(({ mount, vector }) => ({ name: mount.name, vector }));
  const stood = mounts.supports.flatMap(({ name: own, pad: from }) => {
    const { at } = loads.supports.find((support) => support.name === own)!;
    return from ? [{ name: own, vector: minus(at, from) }] : [];
  });
  const ways = [...vectors, ...stood].map(({ name: own, vector }) => [
    called(own),
    vectorWords(vector, telling),
    size(lengthOf(vector)),
  ]);
  const tubes = standings.flatMap(({ mount, pieces }) => {
    if (!pieces) return [];
    const { tube, tilt } = pieces;
    const [x, y, z] = tube.axis;
    return [
      [
        called(mount.name),
        size(tube.length),
        degrees(trig.atan2(z, trig.hypot(x, y))),
        leanWords(trig.atan2(x, Math.abs(y))),
        cutWords(tube.cuts.base, units),
        cutWords(tube.cuts.upper, units),
        degrees(Math.abs(tube.round)),
        degrees(tilt),
      ],
    ];
  });
  const heads = ['Tube', 'centre', 'up', 'plan', 'base cut', 'top cut', 'round', 'tilt'];
  return {
    ways: { heads: ['', 'pad to boss', 'true'], rows: ways },
    tubes: { heads, rows: tubes },
  };
}

/** Each gusset's corner and third edge, and how each tube leans off plumb. */
function detailLines({ standings }: MountsAnswer, { units, look }: Telling): Line[] {
  const size = (mm: number): string => tape(mm, units, { round: 'nearest' }) + unit(units);
  const words = standings.flatMap(({ mount, pieces }) => {
    if (!pieces) return [];
    const lean = leansOf(pieces.tube.axis, (radians) => degrees(Math.abs(radians)));
    const called = name(mount.name, look, 24);
    return [
      `${called} tube off plumb ${lean.sideView} deg in side view, ${lean.frontView} in front view`,
      ...pieces.gussets.map(
        ({ end, number, angle, slant }) =>
          `${called} ${end} gusset ${number} ${degrees(angle)} deg, third edge ${size(slant)}`,
      ),
    ];
  });
  return [...list('Angles', words, '; ', look).lines];
}

/** Every passage by its tightest gap, then the tightest of the rest, and what rocked. */
function openLines({ gaps, standings }: MountsAnswer, telling: Telling, all: boolean): Line[] {
  const { units, look, scenario } = telling;
  const open = gaps.filter((gap) => isClear(gap) && isTold(gap));
  const [tightest] = open;
  const passages = open.filter(({ other }) => other.of === 'passage');
  const first = passages.filter(
    (gap, i) => passages.findIndex((one) => keyOf(one) === keyOf(gap)) === i,
  );
  const rest = open.filter((gap) => !first.includes(gap));
  const near = rest.filter(({ margin }) => margin < NEAR);
  const told = all ? near : rest.slice(0, TOLD);
  const far =
    all && near.length < rest.length ? [`${rest.length - near.length} others farther`] : [];
  // Where all is clear, the headline has said the tightest.
  const isSaid = (gap: MountGap): boolean => gap === tightest && gaps.every(isClear);
  const words = [...first, ...told]
    .filter((gap) => all || !isSaid(gap))
    .map((gap) => `${mountGapWords(gap, look)}, ${spare(gap.margin, units)}`);
  const soft = standings.filter(({ mount }) => mount.insulator).length;
  const rock = degrees(scenario.rock);
  const held =
    soft === 0
      ? 'solid mounts: the engine does not rock against them'
      : scenario.rock === 0
        ? 'the file gives the engine no rock'
        : `the engine rocks ${rock} deg against ${soft === standings.length ? 'them' : 'those on rubber'}`;
  return [...list('Open', [...words, ...far, held], '; ', look).lines];
}

function keyOf({ other }: MountsAnswer['gaps'][number]): string {
  return other.of === 'mount' ? '' : other.name;
}

/** Plates drawn off what they are fixed to, by more than a tape can err. */
function contactWords({ contacts }: MountsAnswer, { units, look }: Telling): string[] {
  return contacts
    .filter(({ gap }) => !isInsideTapeError(gap, units))
    .map(({ piece, part, gap }) => {
      const size = tape(Math.abs(gap), units, { round: 'nearest' }) + unit(units);
      const how = gap > 0 ? `stands ${size} off` : `is drawn ${size} inside`;
      return `${pieceWords(piece, look)} ${how} ${name(part, look)}`;
    });
}

/** What each carries, and what that is of. */
function loadLines(answer: MountsAnswer, telling: Telling): Line[] {
  const { look } = telling;
  const cells = loadCells(answer, telling);
  if (!cells) return paragraph('Loads', NO_LOADS, look);
  return [
    ...columnLines(cells[0]!, cells.slice(1)),
    ...list('', loadNotes(answer, telling), '; ', look).lines,
  ];
}
