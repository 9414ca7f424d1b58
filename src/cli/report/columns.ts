/** A table as lines of a report. */

import { maxOf } from '../../model/extremes.js';
import { columns, pad } from '../../words/text.js';
import type { Line } from './lines.js';

/** Columns of a label, and between two columns. */
const FIRST = 10;
const APART = 2;

/** Rows under their heads, the first column as wide as a label. */
export function columnLines(
  heads: readonly string[],
  rows: readonly (readonly string[])[],
): Line[] {
  const table = [heads, ...rows];
  const widths = heads.map((_, c) => maxOf(table.map((row) => columns(row[c]!))) + APART);
  return table.map((row) => ({
    label: '',
    text: row
      .map((cell, c) => pad(cell, Math.max(c === 0 ? FIRST : 0, widths[c]!)))
      .join('')
      .trimEnd(),
    flush: true,
  }));
}
