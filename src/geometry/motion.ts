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

import { createGap, gapBetween, type Gap } from './gap.js';
import { attitude } from './rotation.js';
import { coreExtent, placed, support, type Shape } from './shape.js';
import { leastOverTurn, turnOver } from './turning.js';

/** Default width of the bracket on the least gap over the rock, mm. */
export const ROCK_TOLERANCE = 0.01;
/** Cells at which splitting stops and the honest bracket is returned. */
const MOST_CELLS = 200;

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

/**
 * Turned copies of a shape at the angles asked for most, with the attitude that each stands at. They
 * are kept for as long as the shape itself, which must therefore never change.
 */
class Turned {
  private readonly shapes: (Shape | undefined)[] = [undefined, undefined, undefined, undefined];
  private readonly stands = new Float64Array(8).fill(NaN);

  at(slot: number, shape: Shape, pitch: number, angle: number): Shape {
    const known = this.shapes[slot];
    if (
      known !== undefined &&
      this.stands[2 * slot] === pitch &&
      this.stands[2 * slot + 1] === angle
    ) {
      return known;
    }
    const turned = placed(shape, attitude(pitch, angle, rotation), known);
    this.shapes[slot] = turned;
    this.stands[2 * slot] = pitch;
    this.stands[2 * slot + 1] = angle;
    return turned;
  }
}

const rotation = new Float64Array(9);
const turnedCopies = new WeakMap<Shape, Turned>();

function copiesOf(shape: Shape): Turned {
  let copies = turnedCopies.get(shape);
  if (copies === undefined) {
    copies = new Turned();
    turnedCopies.set(shape, copies);
  }
  return copies;
}

const work = createGap();
const point = new Float64Array(3);
/** Angle cells not yet settled, with a lower bound on the gap over each. */
const cellLow = new Float64Array(MOST_CELLS);
const cellHigh = new Float64Array(MOST_CELLS);
const cellBound = new Float64Array(MOST_CELLS);

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
  cellLow[0] = -rock;
  cellHigh[0] = 0;
  cellBound[0] = Math.max(whole, before);
  cellLow[1] = 0;
  cellHigh[1] = rock;
  cellBound[1] = Math.max(whole, after);
  let cells = 2;
  for (;;) {
    let worst = 0;
    for (let k = 1; k < cells; k++) if (cellBound[k]! < cellBound[worst]!) worst = k;
    const lower = cellBound[worst]!;
    if (out.upper - lower <= tolerance || cells === MOST_CELLS) {
      out.lower = Math.min(lower, out.upper);
      return;
    }
    const low = cellLow[worst]!;
    const high = cellHigh[worst]!;
    const middle = (low + high) / 2;
    measure(copies.at(3, a, pitch, middle), b, sx, sy, sz, middle, out);
    cellHigh[worst] = middle;
    cellBound[worst] = Math.max(lower, boundOver(a, b, pitch, sx, sy, sz, middle, low, middle));
    cellLow[cells] = middle;
    cellHigh[cells] = high;
    cellBound[cells] = Math.max(lower, boundOver(a, b, pitch, sx, sy, sz, middle, middle, high));
    cells++;
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
  const c = Math.cos(pitch);
  const s = Math.sin(pitch);
  const balls = a.ball + b.ball;
  turnOver(low, high);
  // The direction and the shift in the pitched frame, in which rock is a plain turn about X.
  const mx = c * nx - s * nz;
  const mz = s * nx + c * nz;
  const shift = nx * sx + ny * sy + nz * sz;
  const still =
    leastOverTurn(a, mx, ny, mz, 0, 0, 0, 0, 1) + shift - coreExtent(b, nx, ny, nz) - balls;
  // The direction in A's own frame, turning with it: B turns the other way past it.
  const ca = Math.cos(angle);
  const sa = Math.sin(angle);
  const qy = ca * ny + sa * mz;
  const qz = -sa * ny + ca * mz;
  const ridden =
    leastOverTurn(b, mx, qy, qz, pitch, sx, sy, sz, -1) - coreExtent(a, -mx, -qy, -qz) - balls;
  return Math.max(still, ridden);
}

/** Least reach of A along a direction over its rock, and where: a point of A's core, unturned. */
export interface RockedReach {
  lower: number;
  upper: number;
  angle: number;
  px: number;
  py: number;
  pz: number;
}

/** How close the bracket of `rockedAxisGap` is brought, mm, where a disc tilts as it rocks. */
export const REACH_TOLERANCE = 1e-6;

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
  const c = Math.cos(pitch);
  const s = Math.sin(pitch);
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
  cellLow[0] = -rock;
  cellHigh[0] = rock;
  turnOver(-rock, rock);
  cellBound[0] = leastOverTurn(a, mx, dy, mz, 0, 0, 0, 0, 1) - a.ball;
  let cells = 1;
  for (;;) {
    let worst = 0;
    for (let k = 1; k < cells; k++) if (cellBound[k]! < cellBound[worst]!) worst = k;
    const lower = cellBound[worst]!;
    if (out.upper - lower <= REACH_TOLERANCE || cells === MOST_CELLS) {
      out.lower = Math.min(lower, out.upper);
      return;
    }
    const high = cellHigh[worst]!;
    const middle = (cellLow[worst]! + high) / 2;
    reachAt(a, mx, dy, mz, middle, out);
    cellHigh[worst] = middle;
    turnOver(cellLow[worst]!, middle);
    cellBound[worst] = Math.max(lower, leastOverTurn(a, mx, dy, mz, 0, 0, 0, 0, 1) - a.ball);
    cellLow[cells] = middle;
    cellHigh[cells] = high;
    turnOver(middle, high);
    cellBound[cells] = Math.max(lower, leastOverTurn(a, mx, dy, mz, 0, 0, 0, 0, 1) - a.ball);
    cells++;
  }
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
    const angle = Math.atan2(-sine, -cosine);
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
  const c = Math.cos(angle);
  const s = Math.sin(angle);
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
