/** The oil pan: shallow but for its sump, which is where and as deep as the answers say. */

import { box, part } from '../drawing.js';
import type { DrawnPart, Pair } from '../drawing.js';
import type { Sump } from '../sizes.js';

/** Where along the pan the sump is, as shares from its front. */
const STRETCH: Readonly<Record<Sump, Pair>> = {
  front: [0, 0.45],
  middle: [0.3, 0.7],
  rear: [0.5, 1],
};

/**
 * @param x front and rear of the pan; `rail` the height it hangs from, below the crank (negative).
 * @param depth from the crank's centre down to the lowest point, more than the shallow part's.
 */
export function oilPan(x: Pair, half: number, rail: number, depth: number, sump: Sump): DrawnPart {
  const shallow = Math.max(rail - 3 / 2, -depth + 1 / 2);
  const at = (share: number) => x[0] + share * (x[1] - x[0]);
  const [from, to] = STRETCH[sump];
  const y: Pair = [-half, half];
  const solids = [box([at(from), at(to)], y, [-depth, rail])];
  if (from > 0) solids.unshift(box([x[0], at(from)], y, [shallow, rail]));
  if (to < 1) solids.push(box([at(to), x[1]], y, [shallow, rail]));
  return part('oil pan', 'oil pan', solids, {
    measuredBy: ['sump depth'],
    note: `${sump} sump; where it begins and ends is the template's`,
  });
}
