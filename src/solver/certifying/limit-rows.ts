/** Rows of the limits that hold in a box, each with the limit it is of, as a certificate writes them down. */

import type { Four, LimitRow } from '../../model/certificate.js';
import { COORDINATES } from '../../model/scenario.js';
import type { Limit, Scenario } from '../../model/scenario.js';
import type { PositionBox } from '../box.js';
import { JOINT_LEVER } from '../measuring/joint-limit.js';
import { heightRows, isSettled } from '../measuring/height-limit.js';
import { LIMIT_SLACK } from '../decision.js';
import type { View } from '../measuring/view.js';
import { Rows } from '../rows.js';

/** By which a row is lifted, in units of its own, so that whoever checks it may round outward. */
const LIFT = 1e-6;
const COORDINATE_LIFT = 1e-8;

/** The file's limits, then those that options bring, in the file's order: a certificate counts them so. */
export function limitNumbers(s: Scenario): ReadonlyMap<Limit, number> {
  const all = [
    ...s.limits,
    ...s.choices.flatMap(({ options }) => options.flatMap(({ limits }) => limits)),
  ];
  return new Map(all.map((limit, i) => [limit, i]));
}

const rows = new Rows();

/** The rows of heights, joints and loads over a box; coordinates only where it sticks out past their ends. */
export function provedLimitRows(
  { limits, domains }: View,
  box: PositionBox,
  numbers: ReadonlyMap<Limit, number>,
): LimitRow[] {
  const found: LimitRow[] = [];
  for (const limit of limits) {
    rows.clear();
    let scale = 1;
    if (limit.kind === 'height') {
      if (!isSettled(limit, domains)) continue;
      heightRows(
        limit,
        domains.map((domain) => domain[0]!),
        box,
        rows,
      );
    } else if (limit.kind === 'joint') {
      scale = JOINT_LEVER;
      limit.addRows(box, LIMIT_SLACK, rows);
    } else if (limit.kind === 'weight') {
      scale = limit.lever;
      limit.addRows(domains, box, LIMIT_SLACK, rows);
    } else {
      found.push(...coordinateRows(limit.limit, limit.coordinate, box, numbers));
      continue;
    }
    const number = numbers.get(limit.limit)!;
    for (let row = 0; row < rows.count; row++) {
      const slopes = [...rows.slopes.subarray(4 * row, 4 * row + 4)] as unknown as Four;
      found.push({ limit: number, value: rows.values[row]! + LIFT, slopes, scale });
    }
  }
  return found;
}

/** Room to either end of a coordinate's limit, where the box reaches past it. */
function coordinateRows(
  limit: Limit,
  k: number,
  { mid, half }: PositionBox,
  numbers: ReadonlyMap<Limit, number>,
): LimitRow[] {
  const number = numbers.get(limit)!;
  const row = (way: 1 | -1, end: number): LimitRow => ({
    limit: number,
    // Straight, so that only rounding is to be made up for: more would let pass what is cut off.
    value: way * (mid[k]! - end) + COORDINATE_LIFT * (1 + half[k]! / 1000),
    slopes: COORDINATES.map((_, i) => (i === k ? way * half[k]! : 0)) as unknown as Four,
    scale: 1,
  });
  return [
    ...(mid[k]! - half[k]! < limit.min ? [row(1, limit.min)] : []),
    ...(mid[k]! + half[k]! > limit.max ? [row(-1, limit.max)] : []),
  ];
}
