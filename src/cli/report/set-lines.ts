/** Where the engine sits, as lines of a report. */

import type { Look } from '../../words/text.js';
import { list } from './lines.js';
import type { Line } from './lines.js';

/** What the position is the position of. */
const ENGINE_DATUM = "crank centreline at the block's rear face";

/** The position on as many lines, with what is measured where that leaves room for it. */
export function setLines(label: string, where: readonly string[], look: Look): readonly Line[] {
  const { lines } = list(label, where, ', ', look);
  const told = list(
    label,
    [...where.slice(0, -1), `${where.at(-1)!} (${ENGINE_DATUM})`],
    ', ',
    look,
  );
  return told.lines.length <= Math.max(2, lines.length) ? told.lines : lines;
}
