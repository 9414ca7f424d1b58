/**
 * Least reach along a direction while the engine rocks, as `rocked-gap.ts` has it: for gaps that are
 * measured along an axis. Millimetres and radians; rock is at most a quarter turn.
 */

import * as trig from '../../model/trig.js';
import { support } from '../reach.js';
import type { Shape } from '../shape.js';
import {
  addCell,
  cellHigh,
  cellLow,
  clearCells,
  isSettled,
  splitCell,
  worstCell,
} from './angle-cells.js';
import { leastOverTurn, turnOver } from './turning.js';

/** How close the bracket of `rockedAxisGap` is brought, mm, where a disc tilts as it rocks. */
export const REACH_TOLERANCE = 1e-6;

/** Least reach of A along a direction over its rock, and where: a point of A's core, unturned. */
export interface RockedReach {
  lower: number;
  upper: number;
  angle: number;
  px: number;
  py: number;
  pz: number;
}

const point = new Float64Array(3);

/**
 * Brackets the least of d . world point over all of A (ball included) and every rock angle, without
 * the shift: add d . shift and take off B's extent along d for a gap. d is the unit world direction
 * from B's side to A's. Points alone are exact to rounding.
 */
export function rockedAxisGap(
  a: Shape,
  pitch: number,
  rock: number,
  dx: number,
  dy: number,
  dz: number,
  out: RockedReach,
): void {
  const c = trig.cos(pitch);
  const s = trig.sin(pitch);
  const mx = c * dx - s * dz;
  const mz = s * dx + c * dz;
  out.upper = Infinity;
  reachAt(a, mx, dy, mz, 0, out);
  if (!(rock > 0)) {
    out.lower = out.upper;
    return;
  }
  reachAt(a, mx, dy, mz, -rock, out);
  reachAt(a, mx, dy, mz, rock, out);
  bottoms(a, mx, dy, mz, rock, out);
  clearCells();
  addCell(-rock, rock, boundOver(a, mx, dy, mz, -rock, rock));
  for (;;) {
    const worst = worstCell();
    if (isSettled(out, worst, REACH_TOLERANCE)) return;
    const low = cellLow[worst]!;
    const high = cellHigh[worst]!;
    const middle = (low + high) / 2;
    reachAt(a, mx, dy, mz, middle, out);
    splitCell(
      worst,
      middle,
      boundOver(a, mx, dy, mz, low, middle),
      boundOver(a, mx, dy, mz, middle, high),
    );
  }
}

/** A certified lower bound on the reach at every angle of a cell. */
function boundOver(
  a: Shape,
  mx: number,
  my: number,
  mz: number,
  low: number,
  high: number,
): number {
  turnOver(low, high);
  return leastOverTurn(a, mx, my, mz, 0, 0, 0, 0, 1) - a.ball;
}

/** Tries the angles, if any are in range, at which a single point of A reaches its least. */
function bottoms(
  a: Shape,
  mx: number,
  my: number,
  mz: number,
  rock: number,
  out: RockedReach,
): void {
  const p = a.points;
  for (let i = 0; i < p.length; i += 3) {
    const cosine = my * p[i + 1]! + mz * p[i + 2]!;
    const sine = mz * p[i + 1]! - my * p[i + 2]!;
    const angle = trig.atan2(-sine, -cosine);
    if (Math.abs(angle) < rock) reachAt(a, mx, my, mz, angle, out);
  }
}

/** The least reach at one angle; kept in `out` if it is the least so far. */
function reachAt(
  a: Shape,
  mx: number,
  my: number,
  mz: number,
  angle: number,
  out: RockedReach,
): void {
  const c = trig.cos(angle);
  const s = trig.sin(angle);
  const qy = c * my + s * mz;
  const qz = -s * my + c * mz;
  const reach = -support(a, -mx, -qy, -qz, point) - a.ball;
  if (reach >= out.upper) return;
  out.upper = reach;
  out.angle = angle;
  out.px = point[0]!;
  out.py = point[1]!;
  out.pz = point[2]!;
}
