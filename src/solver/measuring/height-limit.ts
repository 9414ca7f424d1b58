/** How high the lowest point of a part may be: its value, its bounds over a box, and its rows. */

import * as trig from '../../model/trig.js';
import { extent, support } from '../../geometry/reach.js';
import { maxOf, minOf } from '../../model/extremes.js';
import type { OptionDomains } from '../../model/options.js';
import type { Limit, OptionSet } from '../../model/scenario.js';
import { stanceFrom } from '../../model/stance.js';
import type { PositionBox } from '../box.js';
import type { Rows } from '../rows.js';
import { Leaning } from './leaning.js';
import { LIMIT_SLACK } from '../decision.js';
import type { EngineSolid } from './pose.js';

const point = new Float64Array(3);

/** A height limit ready to measure: solids by option, and the datum's height. */
export interface HeightLimit {
  readonly kind: 'height';
  readonly limit: Limit;
  readonly choices: readonly number[];
  /** The solids whose lowest point is limited; none when the part is not there. */
  solids(set: OptionSet): readonly EngineSolid[];
  readonly above: number;
}

/** Height of the lowest point of any solid, with the engine leaning. */
export function lowestLeaning(solids: readonly EngineSolid[], at: ArrayLike<number>): number {
  const leaning = new Leaning(stanceFrom(at));
  const down = leaning.amongTurned([0, 0, -1]);
  const pitch = leaning.x[3]!;
  return minOf(solids.map((solid) => -extent(solid.at(pitch, 0), ...down))) + at[2]!;
}

/** Height of the lowest point of any solid at a pitch, with the engine datum at height 0. */
export function lowestAt(solids: readonly EngineSolid[], pitch: number): number {
  return minOf(solids.map((solid) => -extent(solid.at(pitch, 0), 0, 0, -1)));
}

/** The greater of the heights, at two pitches, of the point that is lowest at the first. */
export function lowPointOver(solids: readonly EngineSolid[], at: number, other: number): number {
  let least = Infinity;
  for (const solid of solids) {
    const turned = solid.at(at, 0);
    support(turned, 0, 0, -1, point);
    const turn = other - at;
    const there = -point[0]! * trig.sin(turn) + point[2]! * trig.cos(turn);
    least = Math.min(least, Math.max(point[2]!, there) - turned.ball);
  }
  return least;
}

/** True when the choices that a height limit turns on are all decided. */
export function isSettled(limit: HeightLimit, domains: OptionDomains): boolean {
  return limit.choices.every((c) => domains[c]!.length === 1);
}

/** Hard rows of a height limit over a box; the part must be settled. */
export function heightRows(limit: HeightLimit, set: OptionSet, box: PositionBox, rows: Rows): void {
  const solids = limit.solids(set);
  if (solids.length === 0) return;
  const D = box.half[3]!;
  if (limit.limit.min > -Infinity) {
    for (const solid of solids) {
      for (const at of [-1, 0, 1]) {
        if (at !== 0 && D === 0) continue;
        const turned = solid.at(box.mid[3]! + at * D, 0);
        support(turned, 0, 0, -1, point);
        lowPointRow(box, at * D, point[0]!, point[2]! - turned.ball, limit, rows);
      }
    }
  }
  if (limit.limit.max < Infinity) {
    // The height of a point under pitch bends by at most its distance from the pitch axis, so the
    // lowest of them lies above its chord less this.
    const sag = (maxOf(solids.map((s) => s.reach(0))) * D * D) / 2;
    const front = lowestAt(solids, box.mid[3]! - D);
    const rear = lowestAt(solids, box.mid[3]! + D);
    const low = (front + rear) / 2 - sag;
    const row = rows.add(-1, true);
    rows.values[row] = limit.limit.max - (box.mid[2]! + low - limit.above) + LIMIT_SLACK;
    rows.slopes[4 * row + 2] = -box.half[2]!;
    rows.slopes[4 * row + 3] = -(rear - front) / 2;
    rows.blame[4 * row + 3] = sag;
    rows.tightAtEnds[row] = 1;
  }
}

/** One point's height over the box from above, by the cosine's tangent or chord. */
function lowPointRow(
  box: PositionBox,
  turned: number,
  x: number,
  z: number,
  limit: HeightLimit,
  rows: Rows,
): void {
  const D = box.half[3]!;
  const px = x * trig.cos(-turned) + z * trig.sin(-turned);
  const pz = -x * trig.sin(-turned) + z * trig.cos(-turned);
  const row = rows.add(-1, true);
  const level = pz > 0 ? pz : pz * trig.cos(D);
  rows.values[row] =
    box.mid[2]! +
    level +
    Math.abs(px) * (D - trig.sin(D)) -
    limit.above -
    limit.limit.min +
    LIMIT_SLACK;
  rows.slopes[4 * row + 2] = box.half[2]!;
  rows.slopes[4 * row + 3] = -px * D;
}
