/** The mounts on the sheet: where each goes, its tube, the cut list, and its patterns at full size. */

import { patternDrawing } from '../../drawings/pattern.js';
import type { PatternDrawing } from '../../drawings/pattern.js';
import { patternsOf } from '../../geometry/mounts/patterns.js';
import type { MountsAnswer } from '../json/mounts.js';
import { cutLines, mountsHeadline, shutLines, sizeCells } from '../report/mounts.js';
import { loadCells, loadNotes } from '../../words/mount-loads.js';
import { MOUNT_CAUTION, patternWords } from '../../words/mounts.js';
import { name } from '../../words/text.js';
import type { Telling } from '../../words/words.js';
import { BLANK, heading, paragraphOf, tableOf, told } from './html.js';

/** Millimetres that both Letter and A4 leave within their margins. */
const PAPER = { wide: 190, tall: 257 };

/** Vectors, tubes and the cut list; with a blank for what the tape reads from pad to boss. */
export function mountsPart(answer: MountsAnswer, telling: Telling): string {
  const head = mountsHeadline(answer, telling);
  const { ways, tubes } = sizeCells(answer, telling);
  return [
    heading('Mounts'),
    paragraphOf(`${head.label} ${head.text}`),
    tableOf(
      [...ways.heads, 'measured'],
      ways.rows.map((row) => [...row, BLANK]),
      'mounts',
    ),
    tubes.rows.length === 0 ? '' : tableOf(tubes.heads, tubes.rows, 'mounts'),
    told([...shutLines(answer, telling, true), ...cutLines(answer, telling, false)]),
    loadsTable(answer, telling),
    paragraphOf('Tape from pad to boss on the vehicle before any steel is cut; angles in degrees.'),
    paragraphOf(MOUNT_CAUTION, 'caution'),
  ].join('\n');
}

/** What each mount and support carries; nothing where the file does not say enough. */
function loadsTable(answer: MountsAnswer, telling: Telling): string {
  const cells = loadCells(answer, telling);
  if (!cells) return '';
  const [heads, ...rows] = cells;
  const notes = loadNotes(answer, telling).join('; ');
  return `${tableOf(heads!, rows, 'mounts')}\n${paragraphOf(`Forces alone, no strength: ${notes}.`)}`;
}

/** Every pattern that a page takes at full size, and the names of those that are too large for one. */
export function patternsPart({ standings }: MountsAnswer, telling: Telling): string {
  const { units, look } = telling;
  const all = standings.flatMap(({ mount, pieces, faults }) =>
    pieces === undefined || faults.length > 0
      ? []
      : patternsOf(pieces).map((pattern) => ({
          called: name(patternWords(pattern, mount.name), look),
          drawing: patternDrawing(pattern, mount.name, units),
        })),
  );
  if (all.length === 0) return '';
  const large = all.filter(({ drawing }) => !fitsPaper(drawing)).map(({ called }) => called);
  const shown = all.filter(({ drawing }) => fitsPaper(drawing));
  return [
    heading('Patterns of the mounts, full size'),
    paragraphOf(
      'Print at 100 %, not fitted to the page, and measure the line on each before you cut by it.',
    ),
    large.length === 0
      ? ''
      : paragraphOf(
          `Too large for a page: ${large.join(', ')}. berth mounts -o writes every pattern as SVG and DXF.`,
        ),
    ...shown.map(({ drawing }) => `<div class="pattern">${drawing.svg}</div>`),
  ].join('\n');
}

function fitsPaper({ size: [wide, tall] }: PatternDrawing): boolean {
  return wide <= PAPER.wide && tall <= PAPER.tall;
}
