/**
 * Least gap of a moving pair over all its motions, bracketed by cells of states, worst first. Gaps at
 * single states bound it from above; `cell-bound.ts` bounds it from below. Where rock is the only
 * motion, `rocked-gap.ts` does the same faster. Millimetres and radians.
 */

import * as trig from '../../model/trig.js';
import { createGap, gapBetween, type Gap } from '../gap.js';
import { extent, support } from '../reach.js';
import type { Shape } from '../shape.js';
import { sharpen, type Hint, type Pose } from './cell-bound.js';
import {
  addCell,
  cellsBound,
  cellsHigh,
  cellsLeast,
  cellsLow,
  clearCells,
  isFull,
  worstCell,
} from './motion-cells.js';
import {
  LIFT,
  ROCK,
  standing,
  STATES,
  TURN_A,
  TURN_B,
  turns,
  type MotionState,
  type MovingPair,
} from './moving-pair.js';
import { copiesOf } from './turned-copies.js';

/**
 * Default width of the bracket on the least gap over turns, rock and lift, mm. Wider, and honest, only
 * where so many states come equally near that the cap on cells is reached.
 */
export const TURN_TOLERANCE = 0.01;

/**
 * A gap over motions: lower <= least gap over all states <= upper. `upper`, the point pair and n are
 * those at one state; at that state, and not at every other, n parts the solids by at least `lower`.
 */
export interface MovedGap extends Gap, MotionState {}

export function createMovedGap(): MovedGap {
  return { ...createGap(), turnA: 0, rock: 0, turnB: 0, lift: 0 };
}

/** A vehicle axis to measure along: the unit direction from B's side to A's. */
export type Along = readonly [number, number, number];

const state = new Float64Array(STATES);
const work = createGap();
const hint: Hint = { nx: 0, ny: 0, nz: 0, state: new Float64Array(STATES) };
const support3 = new Float64Array(3);

/**
 * Brackets the least signed gap between A, placed at `pose`, and B: nearest, or between their extents
 * along a direction. `upper - lower` <= `tolerance`, unless the bracket of a single gap or the cap on
 * cells is wider.
 */
export function movedGap(
  pair: MovingPair,
  pose: Pose,
  along: Along | undefined,
  tolerance: number,
  out: MovedGap,
): void {
  out.upper = Infinity;
  // Nothing of what was measured before: the same call has the same end to the last digit.
  work.nx = work.ny = work.nz = 0;
  clearCells();
  const root = addCell();
  cellsLow.set(pair.low, STATES * root);
  cellsHigh.set(pair.high, STATES * root);
  sampleMiddle(pair, pose, along, root, out);
  sharpen(pair, pose, hint, root, along !== undefined);
  for (;;) {
    const worst = worstCell();
    const slot = widest(pair, worst);
    const lower = cellsBound[worst]!;
    if (out.upper - lower <= tolerance || isFull() || slot < 0) {
      out.lower = Math.min(lower, out.upper);
      return;
    }
    split(pair, pose, along, worst, slot, out);
  }
}

/** Split a cell in two across its widest slot, each half with the sharpest bound that is soon had. */
function split(
  pair: MovingPair,
  pose: Pose,
  along: Along | undefined,
  cell: number,
  slot: number,
  out: MovedGap,
): void {
  const from = STATES * cell;
  state.set(cellsLeast.subarray(from, from + STATES));
  const other = addCell(cell);
  halve(cell, other, slot);
  if (pair.together && slot === TURN_A) halve(cell, other, TURN_B);
  sample(pair, pose, along, out);
  sharpen(pair, pose, hint, cell, along !== undefined);
  sharpen(pair, pose, hint, other, along !== undefined);
  for (const half of [cell, other]) {
    if (out.upper <= cellsBound[half]!) continue;
    sampleMiddle(pair, pose, along, half, out);
    sharpen(pair, pose, hint, half, along !== undefined);
  }
}

function halve(cell: number, other: number, slot: number): void {
  const middle = (cellsLow[STATES * cell + slot]! + cellsHigh[STATES * cell + slot]!) / 2;
  cellsHigh[STATES * cell + slot] = middle;
  cellsLow[STATES * other + slot] = middle;
}

/** The slot along which the cell's points move most, or -1 where none has any width. */
function widest(pair: MovingPair, cell: number): number {
  let slot = -1;
  let most = 0;
  for (let k = 0; k < STATES; k++) {
    if (pair.together && k === TURN_B) continue;
    const width = cellsHigh[STATES * cell + k]! - cellsLow[STATES * cell + k]!;
    const moves = width * leverOf(pair, k);
    if (moves <= most) continue;
    most = moves;
    slot = k;
  }
  return slot;
}

/** How far a point moves at most for a unit of a slot; 1 mm at least, for axes through points. */
function leverOf(pair: MovingPair, slot: number): number {
  const { a, b } = pair;
  if (slot === LIFT) return 1;
  if (slot === ROCK) return 1 + pair.rockRadius;
  const own = slot === TURN_A ? a : b;
  return 1 + (turns(own) ? own.radius : 0) + (pair.together && turns(b) ? b.radius : 0);
}

function sampleMiddle(
  pair: MovingPair,
  pose: Pose,
  along: Along | undefined,
  cell: number,
  out: MovedGap,
): void {
  const from = STATES * cell;
  for (let k = 0; k < STATES; k++) state[k] = (cellsLow[from + k]! + cellsHigh[from + k]!) / 2;
  sample(pair, pose, along, out);
}

/** The gap at `state`: a hint, and kept in `out` if it is the least so far. */
function sample(pair: MovingPair, pose: Pose, along: Along | undefined, out: MovedGap): void {
  const [pitch, sx, sy, sz] = pose;
  const own = standing(pair.a, state[TURN_A]!);
  const rock = state[ROCK]!;
  const slot = rock === 0 ? 1 : rock === -pair.rock ? 0 : rock === pair.rock ? 2 : 3;
  const a = copiesOf(own).at(slot, own, pitch, rock);
  const b = standing(pair.b, state[TURN_B]!);
  const lift = state[LIFT]!;
  const x = sx + lift * trig.sin(pitch);
  const z = sz + lift * trig.cos(pitch);
  if (along) axisGap(a, b, x, sy, z, along);
  else gapBetween(a, b, x, sy, z, work);
  hint.nx = work.nx;
  hint.ny = work.ny;
  hint.nz = work.nz;
  hint.state.set(state);
  if (work.upper < out.upper) keep(out);
}

/** The gap between two extents along d, into `work`; b is a point of B's reach. */
function axisGap(a: Shape, b: Shape, x: number, y: number, z: number, d: Along): void {
  work.nx = d[0];
  work.ny = d[1];
  work.nz = d[2];
  support(a, -d[0], -d[1], -d[2], support3);
  work.ax = support3[0]! + x;
  work.ay = support3[1]! + y;
  work.az = support3[2]! + z;
  support(b, d[0], d[1], d[2], support3);
  work.bx = support3[0]!;
  work.by = support3[1]!;
  work.bz = support3[2]!;
  const near = d[0] * x + d[1] * y + d[2] * z - extent(a, -d[0], -d[1], -d[2]);
  work.lower = near - extent(b, d[0], d[1], d[2]);
  work.upper = work.lower;
  work.coresOverlap = work.upper + a.ball + b.ball < 0;
}

function keep(out: MovedGap): void {
  Object.assign(out, work);
  out.turnA = state[TURN_A]!;
  out.rock = state[ROCK]!;
  out.turnB = state[TURN_B]!;
  out.lift = state[LIFT]!;
}
