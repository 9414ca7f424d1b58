/**
 * Least gap while the engine rocks: A turns about the X axis of its own frame by every angle in
 * [-rock, rock], then pitches and moves, world point = R_y(pitch) R_x(angle) p + shift.
 *
 * The least gap is bracketed by cells of angle, worst first. Gaps at single angles bound it from above.
 * From below, a direction that parts the solids at one angle still parts them by a known amount at
 * others, whether it stays put (then each point of A traces a sinusoid along it) or turns with A (then
 * each point of B does); sinusoids are minimised exactly over a cell, a disc's term by its chord.
 * Millimetres and radians; rock is at most a quarter turn.
 */

import * as trig from '../../model/trig.js';
import { createGap, gapBetween, type Gap } from '../gap.js';
import { coreExtent } from '../reach.js';
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
import { copiesOf } from './turned-copies.js';
import { leastOverTurn, turnOver } from './turning.js';

/** Default width of the bracket on the least gap over the rock, mm. */
export const ROCK_TOLERANCE = 0.01;

/**
 * A gap over a motion: lower <= least gap over all angles <= upper. `upper`, the point pair and n are
 * those at `angle`; at that angle, and not at every other, n parts the solids by at least `lower`.
 */
export interface RockedGap extends Gap {
  angle: number;
}

export function createRockedGap(): RockedGap {
  return { ...createGap(), angle: 0 };
}

const work = createGap();

/**
 * Brackets the least signed gap between the rocking A (given unturned, in its own frame) and B.
 * `upper - lower` <= `tolerance`, unless the bracket of a single gap or the cap on cells is wider.
 */
export function rockedGap(
  a: Shape,
  b: Shape,
  pitch: number,
  rock: number,
  sx: number,
  sy: number,
  sz: number,
  tolerance: number,
  out: RockedGap,
): void {
  const copies = copiesOf(a);
  if (!(rock > 0)) {
    gapBetween(copies.at(1, a, pitch, 0), b, sx, sy, sz, out);
    out.angle = 0;
    return;
  }
  out.upper = Infinity;
  work.nx = out.nx;
  work.ny = out.ny;
  work.nz = out.nz;
  measure(copies.at(1, a, pitch, 0), b, sx, sy, sz, 0, out);
  let whole = boundOver(a, b, pitch, sx, sy, sz, 0, -rock, rock);
  let before = boundOver(a, b, pitch, sx, sy, sz, 0, -rock, 0);
  let after = boundOver(a, b, pitch, sx, sy, sz, 0, 0, rock);
  measure(copies.at(0, a, pitch, -rock), b, sx, sy, sz, -rock, out);
  whole = Math.max(whole, boundOver(a, b, pitch, sx, sy, sz, -rock, -rock, rock));
  before = Math.max(before, boundOver(a, b, pitch, sx, sy, sz, -rock, -rock, 0));
  measure(copies.at(2, a, pitch, rock), b, sx, sy, sz, rock, out);
  whole = Math.max(whole, boundOver(a, b, pitch, sx, sy, sz, rock, -rock, rock));
  after = Math.max(after, boundOver(a, b, pitch, sx, sy, sz, rock, 0, rock));
  clearCells();
  addCell(-rock, 0, Math.max(whole, before));
  addCell(0, rock, Math.max(whole, after));
  for (;;) {
    const worst = worstCell();
    if (isSettled(out, worst, tolerance)) return;
    const low = cellLow[worst]!;
    const high = cellHigh[worst]!;
    const middle = (low + high) / 2;
    measure(copies.at(3, a, pitch, middle), b, sx, sy, sz, middle, out);
    splitCell(
      worst,
      middle,
      boundOver(a, b, pitch, sx, sy, sz, middle, low, middle),
      boundOver(a, b, pitch, sx, sy, sz, middle, middle, high),
    );
  }
}

/** The gap at one angle into `work`, and into `out` if it is the least so far. */
function measure(
  turned: Shape,
  b: Shape,
  sx: number,
  sy: number,
  sz: number,
  angle: number,
  out: RockedGap,
): void {
  gapBetween(turned, b, sx, sy, sz, work);
  if (work.upper >= out.upper) return;
  out.upper = work.upper;
  out.ax = work.ax;
  out.ay = work.ay;
  out.az = work.az;
  out.bx = work.bx;
  out.by = work.by;
  out.bz = work.bz;
  out.nx = work.nx;
  out.ny = work.ny;
  out.nz = work.nz;
  out.coresOverlap = work.coresOverlap;
  out.angle = angle;
}

/** A certified lower bound on the gap at every angle of a cell, from `work`, measured at `angle`. */
function boundOver(
  a: Shape,
  b: Shape,
  pitch: number,
  sx: number,
  sy: number,
  sz: number,
  angle: number,
  low: number,
  high: number,
): number {
  const { nx, ny, nz } = work;
  const c = trig.cos(pitch);
  const s = trig.sin(pitch);
  const balls = a.ball + b.ball;
  turnOver(low, high);
  // The direction and the shift in the pitched frame, in which rock is a plain turn about X.
  const mx = c * nx - s * nz;
  const mz = s * nx + c * nz;
  const shift = nx * sx + ny * sy + nz * sz;
  const still =
    leastOverTurn(a, mx, ny, mz, 0, 0, 0, 0, 1) + shift - coreExtent(b, nx, ny, nz) - balls;
  // The direction in A's own frame, turning with it: B turns the other way past it.
  const ca = trig.cos(angle);
  const sa = trig.sin(angle);
  const qy = ca * ny + sa * mz;
  const qz = -sa * ny + ca * mz;
  const ridden =
    leastOverTurn(b, mx, qy, qz, pitch, sx, sy, sz, -1) - coreExtent(a, -mx, -qy, -qz) - balls;
  return Math.max(still, ridden);
}
