/**
 * A certified lower bound on the gap of a moving pair over a cell of states, from a direction that parts
 * the solids well at one state of it.
 *
 * The direction may stay put, ride with A or ride with B. Along it, the gap of any two points of the
 * cores is a sinusoid in each angle by itself and linear in the lift. Where f'' <= M over a width w, f is
 * at least its chord less M w^2 / 8; taken one angle after the other, the least over the cell is at least
 * the least at its corners less the sum of those terms. At a corner the least over all points is a
 * matter of supports.
 */

import * as trig from '../../model/trig.js';
import { extent } from '../reach.js';
import type { Shape } from '../shape.js';
import { cellsBound, cellsHigh, cellsLeast, cellsLow } from './motion-cells.js';
import {
  LIFT,
  ROCK,
  standing,
  STATES,
  TURN_A,
  TURN_B,
  turns,
  type MovingPair,
} from './moving-pair.js';
import type { TurningShape } from './turning-shape.js';

/** Position of A's frame: pitch, then the shift. */
export type Pose = readonly [pitch: number, sx: number, sy: number, sz: number];

/** A direction that was good at a state: n in the world, and the state. */
export interface Hint {
  nx: number;
  ny: number;
  nz: number;
  readonly state: Float64Array;
}

const STAYS = 0;
const RIDES_A = 1;
const RIDES_B = 2;
type Manner = typeof STAYS | typeof RIDES_A | typeof RIDES_B;

const corner = new Float64Array(STATES);
const least = new Float64Array(STATES);
/** The direction in its own frame, in the world, and in the engine's frame before it pitches. */
const own = new Float64Array(3);
const world = new Float64Array(3);
const level = new Float64Array(3);
const inner = new Float64Array(3);
/** Greatest angle or lift from the hint's state to any of the cell. */
const span = new Float64Array(STATES);

/** Raise the bound of a cell to what the hint proves, trying each manner in which it may ride. */
export function sharpen(
  pair: MovingPair,
  pose: Pose,
  hint: Hint,
  cell: number,
  fixedDirection: boolean,
): void {
  for (let k = 0; k < STATES; k++) {
    const z = hint.state[k]!;
    span[k] = Math.max(
      Math.abs(cellsHigh[STATES * cell + k]! - z),
      Math.abs(cellsLow[STATES * cell + k]! - z),
    );
  }
  sharpenBy(STAYS, pair, pose, hint, cell);
  if (fixedDirection) return;
  if (turns(pair.a) || pair.rock > 0) sharpenBy(RIDES_A, pair, pose, hint, cell);
  if (turns(pair.b)) sharpenBy(RIDES_B, pair, pose, hint, cell);
}

function sharpenBy(manner: Manner, pair: MovingPair, pose: Pose, hint: Hint, cell: number): void {
  toOwn(manner, pair, pose, hint);
  const bound = leastAtCorners(manner, pair, pose, cell) - bulges(manner, pair, pose, hint, cell);
  if (!(bound > cellsBound[cell]!)) return;
  cellsBound[cell] = bound;
  cellsLeast.set(least, STATES * cell);
}

/** The hint's direction in the frame it rides with, into `own`. */
function toOwn(manner: Manner, pair: MovingPair, pose: Pose, hint: Hint): void {
  own[0] = hint.nx;
  own[1] = hint.ny;
  own[2] = hint.nz;
  if (manner === RIDES_A) {
    turnAbout(1, -pose[0], own);
    turnAbout(0, -hint.state[ROCK]!, own);
    if (turns(pair.a)) turnWith(pair.a, -hint.state[TURN_A]!, own);
  } else if (manner === RIDES_B && turns(pair.b)) {
    turnWith(pair.b, -hint.state[TURN_B]!, own);
  }
}

/** The direction at a state: `world`, `level` and, before rocking, `inner`. */
function directAt(manner: Manner, pair: MovingPair, pitch: number, state: Float64Array): void {
  if (manner === RIDES_A) {
    inner.set(own);
    if (turns(pair.a)) turnWith(pair.a, state[TURN_A]!, inner);
    level.set(inner);
    turnAbout(0, state[ROCK]!, level);
    world.set(level);
    turnAbout(1, pitch, world);
    return;
  }
  world.set(own);
  if (manner === RIDES_B && turns(pair.b)) turnWith(pair.b, state[TURN_B]!, world);
  level.set(world);
  turnAbout(1, -pitch, level);
  inner.set(level);
  turnAbout(0, -state[ROCK]!, inner);
}

/** The least separation along the direction over the cell's corners; that corner into `least`. */
function leastAtCorners(manner: Manner, pair: MovingPair, pose: Pose, cell: number): number {
  let bound = Infinity;
  const from = STATES * cell;
  for (let bits = 0; bits < 1 << STATES; bits++) {
    if (!isCorner(pair, from, bits)) continue;
    for (let k = 0; k < STATES; k++) {
      corner[k] = bits & (1 << k) ? cellsHigh[from + k]! : cellsLow[from + k]!;
    }
    directAt(manner, pair, pose[0], corner);
    const apart =
      world[0]! * pose[1] +
      world[1]! * pose[2] +
      world[2]! * pose[3] +
      level[2]! * corner[LIFT]! -
      extent(standing(pair.a, corner[TURN_A]!), -inner[0]!, -inner[1]!, -inner[2]!) -
      extent(standing(pair.b, corner[TURN_B]!), world[0]!, world[1]!, world[2]!);
    if (apart >= bound) continue;
    bound = apart;
    least.set(corner);
  }
  return bound;
}

/** Slots of no width have one end, and turns that go together one corner for both. */
function isCorner(pair: MovingPair, from: number, bits: number): boolean {
  for (let k = 0; k < STATES; k++) {
    if (bits & (1 << k) && cellsLow[from + k] === cellsHigh[from + k]) return false;
  }
  return !pair.together || !(bits & (1 << TURN_A)) === !(bits & (1 << TURN_B));
}

/** The sum of the terms by which the least over the cell may lie under the least at its corners. */
function bulges(manner: Manner, pair: MovingPair, pose: Pose, hint: Hint, cell: number): number {
  const { a, b } = pair;
  const from = STATES * cell;
  const width = (k: number): number => cellsHigh[from + k]! - cellsLow[from + k]!;
  const [wa, wr, wb] = [width(TURN_A), width(ROCK), width(TURN_B)];
  const [da, dr, db] = [span[TURN_A]!, span[ROCK]!, span[TURN_B]!];
  const radiusA = turns(a) ? a.radius : 0;
  const radiusB = turns(b) ? b.radius : 0;
  // The part of the direction across each axis, at the hint's state.
  directAt(manner, pair, pose[0], hint.state);
  const acrossA = turns(a) ? acrossTurn(inner, a) : 0;
  const acrossX = across(level, 0);
  const acrossB = turns(b) ? acrossTurn(world, b) : 0;
  let sum = 0;
  if (manner === STAYS) {
    sum += Math.min(1, acrossA + dr) * radiusA * wa * wa;
    sum += acrossX * pair.rockRadius * wr * wr;
    sum += acrossB * radiusB * wb * wb;
  } else if (manner === RIDES_A) {
    const moves = db * radiusB + span[LIFT]!;
    if (turns(a)) {
      const far =
        farFromTurnA(pair, a, pose, hint) + moves + dr * (farFromX(pair, pose, hint) + moves);
      sum += acrossA * far * wa * wa;
    }
    if (wr > 0) sum += Math.min(1, acrossX + da) * (farFromX(pair, pose, hint) + moves) * wr * wr;
    sum += Math.min(1, acrossB + da + dr) * radiusB * wb * wb;
    if (pair.together) sum += 2 * radiusB * wa * wb;
  } else if (turns(b)) {
    const moves = da * radiusA + dr * pair.rockRadius + span[LIFT]!;
    sum += acrossB * (farFromTurnB(pair, b, pose, hint) + moves) * wb * wb;
    sum += Math.min(1, acrossA + dr + db) * radiusA * wa * wa;
    sum += Math.min(1, acrossX + db) * pair.rockRadius * wr * wr;
    if (pair.together) sum += 2 * radiusA * wa * wb;
  }
  return sum / 8;
}

const middle = new Float64Array(3);

/** At the hint's state, how far any of B lies from A's turn axis, A's sweep taken off. */
function farFromTurnA(pair: MovingPair, a: TurningShape, pose: Pose, hint: Hint): number {
  const b = middleOfB(pair, pose, hint);
  turnAbout(0, -hint.state[ROCK]!, middle);
  for (let k = 0; k < 3; k++) middle[k]! -= a.center[k]!;
  return acrossTurn(middle, a) + b.radius + a.swept;
}

/** At the hint's state, how far any of B lies from the axis of rock. */
function farFromX(pair: MovingPair, pose: Pose, hint: Hint): number {
  const b = middleOfB(pair, pose, hint);
  return across(middle, 0) + b.radius;
}

/** B as it stands at the hint's state; its middle, in the frame that rocks, into `middle`. */
function middleOfB(pair: MovingPair, pose: Pose, hint: Hint): Shape {
  const b = standing(pair.b, hint.state[TURN_B]!);
  for (let k = 0; k < 3; k++) middle[k] = b.center[k]! - pose[k + 1]!;
  turnAbout(1, -pose[0], middle);
  middle[2]! -= hint.state[LIFT]!;
  return b;
}

/** At the hint's state, how far any of A lies from B's turn axis, B's sweep taken off. */
function farFromTurnB(pair: MovingPair, b: TurningShape, pose: Pose, hint: Hint): number {
  const a = standing(pair.a, hint.state[TURN_A]!);
  middle.set(a.center);
  turnAbout(0, hint.state[ROCK]!, middle);
  middle[2]! += hint.state[LIFT]!;
  turnAbout(1, pose[0], middle);
  for (let k = 0; k < 3; k++) middle[k]! += pose[k + 1]! - b.center[k]!;
  return acrossTurn(middle, b) + a.radius + b.swept;
}

/** Length of the part of a vector across an axis (0 to 2). */
function across(v: Float64Array, axis: number): number {
  return trig.hypot(v[(axis + 1) % 3]!, v[(axis + 2) % 3]!);
}

const unslanted = new Float64Array(3);

/** Length of the part of a vector across the axis of a solid's turn. */
function acrossTurn(v: Float64Array, { axis, slant }: TurningShape): number {
  if (slant === undefined) return across(v, axis);
  unslanted.set(v);
  rotateBack(slant, unslanted);
  return across(unslanted, axis);
}

/** Turn a vector as an angle of a solid's own turn does. */
function turnWith({ axis, slant }: TurningShape, angle: number, v: Float64Array): void {
  if (slant !== undefined) rotateBack(slant, v);
  turnAbout(axis, angle, v);
  if (slant !== undefined) rotate(slant, v);
}

function rotate(r: Float64Array, v: Float64Array): void {
  const [x, y, z] = [v[0]!, v[1]!, v[2]!];
  for (let k = 0; k < 3; k++) v[k] = r[3 * k]! * x + r[3 * k + 1]! * y + r[3 * k + 2]! * z;
}

function rotateBack(r: Float64Array, v: Float64Array): void {
  const [x, y, z] = [v[0]!, v[1]!, v[2]!];
  for (let k = 0; k < 3; k++) v[k] = r[k]! * x + r[3 + k]! * y + r[6 + k]! * z;
}

/** Turn a vector about an axis (0 to 2), right-handed. */
function turnAbout(axis: number, angle: number, v: Float64Array): void {
  if (angle === 0) return;
  const [j, k] = [(axis + 1) % 3, (axis + 2) % 3];
  const [c, s] = [trig.cos(angle), trig.sin(angle)];
  const [p, q] = [v[j]!, v[k]!];
  v[j] = p * c - q * s;
  v[k] = p * s + q * c;
}
