import { minOf } from '../../model/extremes.js';
import { extent, support } from '../../geometry/reach.js';
import type { OptionSet } from '../../model/scenario.js';
import type { PositionBox } from '../box.js';
import type { ReadyLimit } from './limits.js';
import type { Rows } from '../rows.js';

const point = new Float64Array(3);

/** First-order hard rows of a limit on a height, a joint or a load about the middle of a small box, `pad` mm inside it. */
export function limitModelRow(
  limit: ReadyLimit,
  set: OptionSet,
  box: PositionBox,
  pad: number,
  rows: Rows,
): void {
  if (limit.kind === 'joint') limit.addModelRows(box, pad, rows);
  if (limit.kind === 'weight') limit.addModelRows(set, box, pad, rows);
  if (limit.kind !== 'height') return;
  const { min, max } = limit.limit;
  const solids = limit.solids(set).map((solid) => solid.at(box.mid[3]!, 0));
  const lows = solids.map((shape) => -extent(shape, 0, 0, -1));
  const lowest = minOf(lows);
  solids.forEach((shape, i) => {
    support(shape, 0, 0, -1, point);
    const height = lows[i]! + box.mid[2]! - limit.above;
    const turn = -point[0]! * box.half[3]!;
    if (min > -Infinity) hardRow(rows, height - min - pad, box.half[2]!, turn);
    if (max < Infinity && lows[i] === lowest)
      hardRow(rows, max - height - pad, -box.half[2]!, -turn);
  });
}

function hardRow(rows: Rows, value: number, up: number, turn: number): void {
  const row = rows.add(-1, true);
  rows.values[row] = value;
  rows.slopes[4 * row + 2] = up;
  rows.slopes[4 * row + 3] = turn;
}
