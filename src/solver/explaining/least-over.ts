/**
 * A certified lower bound on one contact's gap over a whole box of positions.
 *
 * Along any unit direction n the extents of the two solids stand apart by the least over engine points p
 * and chassis points q of `n . (t + R(pitch) Rock(rock) p - q)`, and the gap is never less than that. Two
 * ways to carry n over the box are tried: standing still, which suits a face of the chassis, and
 * turning with the engine, which suits one of its own. Either way the term of a pair of points is affine
 * in the displacement t, and in pitch and in rock a sinusoid that bends by at most the distance of p, or of
 * q - t where n turns, from the axis; so its least over an interval is at least the least at the ends
 * less half the square of the half width times that distance. Millimetres and radians.
 */

import * as trig from '../../model/trig.js';
import { createGap, gapBetween } from '../../geometry/gap.js';
import type { Gap } from '../../geometry/gap.js';
import { createMovedGap, movedGap, TURN_TOLERANCE } from '../../geometry/motion/moved-gap.js';
import { createRockedGap, ROCK_TOLERANCE } from '../../geometry/motion/rocked-gap.js';
import { REACH_TOLERANCE, rockedAxisGap } from '../../geometry/motion/rocked-reach.js';
import { extent } from '../../geometry/reach.js';
import { attitude } from '../../geometry/rotation.js';
import type { Shape } from '../../geometry/shape.js';
import type { Contact } from '../measuring/contact.js';
import { alongAxis } from '../measuring/fixed.js';

/** Slots of a cell: the four coordinates of a position, then the angle of rock. */
export const CELL = 5;
const ROCK_SLOT = 4;

/** A box of positions, and the part of the rock looked at; rock stays 0 where it is not cut up. */
export interface Cell {
  readonly lo: Float64Array;
  readonly hi: Float64Array;
}

/** What is known of a contact over a cell; caller-allocated. */
export interface Over {
  /** No gap in the cell is less. */
  least: number;
  /** Gaps at the cell's middle, and at the corner where the bound is least, are at most these. */
  middle: number;
  atCorner: number;
  /** That corner: the place to look for a gap too small. */
  readonly corner: Float64Array;
  /** How far the bound may lie under the least gap on account of each slot's width: where to cut. */
  readonly loss: Float64Array;
}

export function createOver(): Over {
  return {
    least: 0,
    middle: 0,
    atCorner: 0,
    corner: new Float64Array(CELL),
    loss: new Float64Array(CELL),
  };
}

/** A contact's cell over a box: its rock is cut up only where that is its one motion. */
export function cellOf(c: Contact, lo: ArrayLike<number>, hi: ArrayLike<number>): Cell {
  const rock = cutsRock(c) ? c.rock : 0;
  return { lo: Float64Array.of(...four(lo), -rock), hi: Float64Array.of(...four(hi), rock) };
}

/** By how much a gap as measured may lie under the true one. */
export function bracketOf(c: Contact): number {
  if (c.motion) return TURN_TOLERANCE;
  if (c.rock === 0) return FINE;
  return c.axis < 0 ? ROCK_TOLERANCE : REACH_TOLERANCE;
}

/** The same where nothing moves, millimetres. */
const FINE = 2e-6;

const gap = createGap();
const there = createGap();
const moved = createMovedGap();
const reached = { ...createRockedGap(), px: 0, py: 0, pz: 0 };
const turn = new Float64Array(9);
const mid = new Float64Array(CELL);
const half = new Float64Array(CELL);

/** Bound a contact's gap over a cell. */
export function leastOver(c: Contact, cell: Cell, out: Over): void {
  for (let k = 0; k < CELL; k++) {
    mid[k] = (cell.lo[k]! + cell.hi[k]!) / 2;
    half[k] = (cell.hi[k]! - cell.lo[k]!) / 2;
  }
  out.loss.fill(0);
  out.middle = Infinity;
  out.atCorner = Infinity;
  if (c.axis >= 0) alongDirection(c, ...alongAxis(c.axis, c.sign), out);
  else if (c.motion) whileMoving(c, out);
  else atOneMoment(c, out);
}

/** An axis rule has its one direction; only pitch, and what bends in it, is left to cut up. */
function alongDirection(c: Contact, nx: number, ny: number, nz: number, out: Over): void {
  const low = partedAlong(c, nx, ny, nz, mid[3]! - half[3]!);
  const high = half[3]! > 0 ? partedAlong(c, nx, ny, nz, mid[3]! + half[3]!) : low;
  const sag = (c.reach * trig.squared(half[3]!)) / 2;
  out.least = Math.min(low, high) - sag;
  out.loss[3] = sag;
  const n = [nx, ny, nz];
  for (let k = 0; k < 3; k++) {
    out.least += n[k]! * mid[k]! - Math.abs(n[k]!) * half[k]!;
    out.corner[k] = mid[k]! - Math.sign(n[k]!) * half[k]!;
  }
  out.corner[3] = mid[3]! + (low <= high ? -half[3]! : half[3]!);
}

/** Turns and lift: by the direction at the middle, or by how far anything travels. */
function whileMoving(c: Contact, out: Over): void {
  movedGap(c.motion!, [mid[3]!, mid[0]!, mid[1]!, mid[2]!], undefined, TURN_TOLERANCE, moved);
  out.middle = moved.upper;
  const travels =
    moved.lower - trig.hypot(half[0]!, half[1]!, half[2]!) - c.reach * Math.min(2, half[3]!);
  alongDirection(c, moved.nx, moved.ny, moved.nz, out);
  out.least = Math.max(out.least, travels);
  for (let k = 0; k < 3; k++) out.loss[k] = half[k]!;
  out.loss[3] = c.reach * half[3]!;
}

/** At rest, or rocking: by the direction at the middle of the cell, rock being one more coordinate. */
function atOneMoment(c: Contact, out: Over): void {
  gapAt(c, mid, gap);
  out.middle = gap.upper;
  const { nx, ny, nz } = gap;
  standingAlong(c, nx, ny, nz, out);
  turningAlong(c, nx, ny, nz, out);
  gapAt(c, out.corner, there);
  out.atCorner = there.upper;
  // Where the nearest points part another way at the corner, half of what that way gains is lost.
  const dx = there.nx - nx;
  const dy = there.ny - ny;
  const dz = there.nz - nz;
  const px = gap.ax - mid[0]!;
  const py = gap.ay - mid[1]!;
  const pz = gap.az - mid[2]!;
  const lost = [dx, dy, dz, dx * pz - dz * px, dz * py - dy * pz];
  for (let k = 0; k < CELL; k++) out.loss[k]! += (Math.abs(lost[k]!) * half[k]!) / 2;
}

function gapAt(c: Contact, cell: Float64Array, out: Gap): void {
  const [x, y, z, pitch, rock] = cell as unknown as [number, number, number, number, number];
  out.nx = out.ny = out.nz = 0;
  gapBetween(c.engine.at(pitch, rock), c.chassis, x, y, z, out);
}

/** The bound by a direction that stands still. */
function standingAlong(c: Contact, nx: number, ny: number, nz: number, out: Over): void {
  const n = [nx, ny, nz];
  const { shape } = c.engine;
  const apart = worstEnd(out, (pitch, rock) => leastReach(shape, pitch, rock, nx, ny, nz));
  const radius = half[ROCK_SLOT]! > 0 ? rockRadius(shape) : 0;
  const sagPitch = (c.reach * trig.squared(half[3]!)) / 2;
  const sagRock = (radius * trig.squared(half[ROCK_SLOT]!)) / 2;
  out.least = apart - extent(c.chassis, nx, ny, nz) - sagPitch - sagRock;
  for (let k = 0; k < 3; k++) {
    out.least += n[k]! * mid[k]! - Math.abs(n[k]!) * half[k]!;
    out.corner[k] = mid[k]! - Math.sign(n[k]!) * half[k]!;
  }
  out.loss[3]! += sagPitch;
  out.loss[ROCK_SLOT]! += sagRock;
}

/** Betters the bound, where it can, by the direction that turns with the engine. */
function turningAlong(c: Contact, nx: number, ny: number, nz: number, out: Over): void {
  if (half[3]! === 0 && half[ROCK_SLOT]! === 0) return;
  attitude(mid[3]!, mid[ROCK_SLOT]!, turn);
  const m = [0, 1, 2].map((k) => turn[k]! * nx + turn[3 + k]! * ny + turn[6 + k]! * nz);
  const reach = -extent(c.engine.shape, -m[0]!, -m[1]!, -m[2]!);
  const before = { least: out.least, loss: [out.loss[3]!, out.loss[ROCK_SLOT]!] };
  const [pitch, rock] = [out.corner[3]!, out.corner[ROCK_SLOT]!];
  out.loss.fill(0);
  const apart = worstEnd(out, (atPitch, atRock) => {
    attitude(atPitch, atRock, turn);
    const n = [0, 1, 2].map(
      (k) => turn[3 * k]! * m[0]! + turn[3 * k + 1]! * m[1]! + turn[3 * k + 2]! * m[2]!,
    ) as [number, number, number];
    const moves = n.reduce((sum, v, k) => sum + v * mid[k]! - Math.abs(v) * half[k]!, 0);
    return moves - extent(c.chassis, ...n);
  });
  const far = farFrom(c.chassis) / 2;
  const least = apart + reach - far * (trig.squared(half[3]!) + trig.squared(half[ROCK_SLOT]!));
  if (least > before.least) {
    out.least = least;
    out.loss[3]! += far * trig.squared(half[3]!);
    out.loss[ROCK_SLOT]! += far * trig.squared(half[ROCK_SLOT]!);
    return;
  }
  out.corner[3] = pitch;
  out.corner[ROCK_SLOT] = rock;
  out.loss[3] = before.loss[0]!;
  out.loss[ROCK_SLOT] = before.loss[1]!;
}

/**
 * The least of a function of pitch and rock at the four ends of the cell, its corner there, and what
 * either has lost to ends that both lie under the middle.
 */
function worstEnd(out: Over, of: (pitch: number, rock: number) => number): number {
  const at = (pitch: number, rock: number): number =>
    of(mid[3]! + pitch * half[3]!, mid[ROCK_SLOT]! + rock * half[ROCK_SLOT]!);
  const middle = at(0, 0);
  if (half[3]! > 0) out.loss[3] = Math.max(0, middle - (at(-1, 0) + at(1, 0)) / 2);
  if (half[ROCK_SLOT]! > 0) {
    out.loss[ROCK_SLOT] = Math.max(0, middle - (at(0, -1) + at(0, 1)) / 2);
  }
  let least = Infinity;
  for (const pitch of half[3]! > 0 ? [-1, 1] : [0]) {
    for (const rock of half[ROCK_SLOT]! > 0 ? [-1, 1] : [0]) {
      const value = at(pitch, rock);
      if (value >= least) continue;
      least = value;
      out.corner[3] = mid[3]! + pitch * half[3]!;
      out.corner[ROCK_SLOT] = mid[ROCK_SLOT]! + rock * half[ROCK_SLOT]!;
    }
  }
  return least;
}

/** How far any point of the core can be from the engine datum in the cell. */
function farFrom({ points, disc }: Shape): number {
  let far = 0;
  for (let i = 0; i < points.length; i += 3) {
    const dx = points[i]! - mid[0]!;
    const dy = points[i + 1]! - mid[1]!;
    const dz = points[i + 2]! - mid[2]!;
    far = Math.max(far, dx * dx + dy * dy + dz * dz);
  }
  return Math.sqrt(far) + disc + trig.hypot(half[0]!, half[1]!, half[2]!);
}

/** How far the extents stand apart along n at a pitch, at displacement zero, over every motion. */
function partedAlong(c: Contact, nx: number, ny: number, nz: number, pitch: number): number {
  if (c.motion) {
    movedGap(c.motion, [pitch, 0, 0, 0], [nx, ny, nz], TURN_TOLERANCE, moved);
    return moved.lower;
  }
  rockedAxisGap(c.engine.shape, pitch, c.rock, nx, ny, nz, reached);
  return reached.lower - extent(c.chassis, nx, ny, nz);
}

/** The least of n . R(pitch) Rock(rock) p over the solid: n is turned back instead of the solid. */
function leastReach(
  shape: Shape,
  pitch: number,
  rock: number,
  nx: number,
  ny: number,
  nz: number,
): number {
  const c = trig.cos(pitch);
  const s = trig.sin(pitch);
  const mz = s * nx + c * nz;
  const cr = trig.cos(rock);
  const sr = trig.sin(rock);
  return -extent(shape, s * nz - c * nx, -cr * ny - sr * mz, sr * ny - cr * mz);
}

function cutsRock(c: Contact): boolean {
  return !c.motion && c.axis < 0 && c.rock > 0;
}

function four(x: ArrayLike<number>): number[] {
  return [x[0]!, x[1]!, x[2]!, x[3]!];
}

const radii = new WeakMap<Shape, number>();

/** How far any point of the core is from the crankshaft. */
function rockRadius(shape: Shape): number {
  let radius = radii.get(shape);
  if (radius === undefined) {
    radius = 0;
    for (let i = 0; i < shape.points.length; i += 3) {
      radius = Math.max(radius, trig.hypot(shape.points[i + 1]!, shape.points[i + 2]!));
    }
    radii.set(shape, (radius += shape.disc));
  }
  return radius;
}
