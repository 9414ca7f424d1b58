import * as trig from '../../model/trig.js';
import { createGap, gapBetween } from '../../geometry/gap.js';
import { createMovedGap, movedGap, TURN_TOLERANCE } from '../../geometry/motion/moved-gap.js';
import type { MotionState, MovingPair } from '../../geometry/motion/moving-pair.js';
import { createRockedGap, ROCK_TOLERANCE, rockedGap } from '../../geometry/motion/rocked-gap.js';
import { rockedAxisGap } from '../../geometry/motion/rocked-reach.js';
import { extent, support } from '../../geometry/reach.js';
import type { Gap } from '../../geometry/gap.js';
import type { Contact } from './contact.js';
import { alongAxis } from './fixed.js';

/**
 * One contact measured at one position. Mutable, caller-allocated.
 *
 * `lower` and `upper` bracket the gap over every motion. The witness is a pair of points on the solids'
 * cores (balls left out) at one moment of the motions: `e` on the engine, in its own frame and already
 * turned, rocked and lifted, `b` on the chassis, with `n` the unit direction that parts them.
 */
export interface Probe extends MotionState {
  lower: number;
  upper: number;
  ex: number;
  ey: number;
  ez: number;
  bx: number;
  by: number;
  bz: number;
  nx: number;
  ny: number;
  nz: number;
  overlap: boolean;
}

export function createProbe(): Probe {
  return {
    lower: 0,
    upper: 0,
    ex: 0,
    ey: 0,
    ez: 0,
    bx: 0,
    by: 0,
    bz: 0,
    nx: 0,
    ny: 0,
    nz: 0,
    turnA: 0,
    rock: 0,
    turnB: 0,
    lift: 0,
    overlap: false,
  };
}

const gap = createGap();
const rocked = createRockedGap();
const moved = createMovedGap();
const axisGap = { lower: 0, upper: 0, angle: 0, px: 0, py: 0, pz: 0 };
const point = new Float64Array(3);

/**
 * Measure a contact in motion at (setback, offset, height) `x, y, z` and `pitch`. A unit vector n in `out`
 * on entry is tried first as the direction that parts the solids: it saves time, no more.
 * @param enough a lower end of the gap, at which the bracket may be left as wide as it is.
 */
export function probe(
  c: Contact,
  x: number,
  y: number,
  z: number,
  pitch: number,
  out: Probe,
  enough = Infinity,
): void {
  if (c.motion) probeMoving(c, c.motion, x, y, z, pitch, out);
  else if (c.axis >= 0) probeAxis(c, x, y, z, pitch, out);
  else probeNearest(c, x, y, z, pitch, out, enough);
}

/** The gap at rest, certified from below: what a tape reads on the still vehicle. */
export function gapAtRest(c: Contact, x: number, y: number, z: number, pitch: number): number {
  const engine = c.engineStill.at(pitch, 0);
  if (c.axis >= 0) {
    const [dx, dy, dz] = c.along ?? alongAxis(c.axis, c.sign);
    const moved = dx * x + dy * y + dz * z;
    return moved - extent(engine, -dx, -dy, -dz) - extent(c.chassisStill, dx, dy, dz);
  }
  gap.nx = gap.ny = gap.nz = 0;
  gapBetween(engine, c.chassisStill, x, y, z, gap);
  return gap.lower;
}

function probeNearest(
  c: Contact,
  x: number,
  y: number,
  z: number,
  pitch: number,
  out: Probe,
  enough: number,
): void {
  let found: Gap = gap;
  if (c.rock > 0) {
    rocked.nx = out.nx;
    rocked.ny = out.ny;
    rocked.nz = out.nz;
    rockedGap(c.engine.shape, c.chassis, pitch, c.rock, x, y, z, ROCK_TOLERANCE, rocked, enough);
    found = rocked;
    out.rock = rocked.angle;
  } else {
    gap.nx = out.nx;
    gap.ny = out.ny;
    gap.nz = out.nz;
    gapBetween(c.engine.at(pitch, 0), c.chassis, x, y, z, gap);
    out.rock = 0;
  }
  writeFound(found, x, y, z, pitch, out);
}

/** A contact with turns or a lift, in either measure. */
function probeMoving(
  c: Contact,
  motion: MovingPair,
  x: number,
  y: number,
  z: number,
  pitch: number,
  out: Probe,
): void {
  const along = c.axis < 0 ? undefined : (c.along ?? alongAxis(c.axis, c.sign));
  movedGap(motion, [pitch, x, y, z], along, TURN_TOLERANCE, moved);
  out.turnA = moved.turnA;
  out.rock = moved.rock;
  out.turnB = moved.turnB;
  out.lift = moved.lift;
  writeFound(moved, x, y, z, pitch, out);
  if (!along) return;
  const far = along[0] * moved.bx + along[1] * moved.by + along[2] * moved.bz;
  out.bx = out.by = out.bz = far + c.chassis.ball;
  out.overlap = out.upper < 0;
}

/** The bracket and the witness; its engine point back in the engine's own frame. */
function writeFound(found: Gap, x: number, y: number, z: number, pitch: number, out: Probe): void {
  out.lower = found.lower;
  out.upper = found.upper;
  out.overlap = found.coresOverlap;
  out.nx = found.nx;
  out.ny = found.ny;
  out.nz = found.nz;
  out.bx = found.bx;
  out.by = found.by;
  out.bz = found.bz;
  const cos = trig.cos(pitch);
  const sin = trig.sin(pitch);
  const px = found.ax - x;
  const pz = found.az - z;
  out.ex = px * cos - pz * sin;
  out.ey = found.ay - y;
  out.ez = px * sin + pz * cos;
}

function probeAxis(c: Contact, x: number, y: number, z: number, pitch: number, out: Probe): void {
  out.nx = c.axis === 0 ? c.sign : 0;
  out.ny = c.axis === 1 ? c.sign : 0;
  out.nz = c.axis === 2 ? c.sign : 0;
  if (c.along !== undefined) [out.nx, out.ny, out.nz] = c.along;
  const { nx, ny, nz } = out;
  const away = extent(c.chassis, nx, ny, nz);
  const moved = nx * x + ny * y + nz * z;
  const cos = trig.cos(pitch);
  const sin = trig.sin(pitch);
  if (c.rock > 0) {
    rockedAxisGap(c.engine.shape, pitch, c.rock, nx, ny, nz, axisGap);
    const cr = trig.cos(axisGap.angle);
    const sr = trig.sin(axisGap.angle);
    out.rock = axisGap.angle;
    out.ex = axisGap.px;
    out.ey = axisGap.py * cr - axisGap.pz * sr;
    out.ez = axisGap.py * sr + axisGap.pz * cr;
    out.lower = moved + axisGap.lower - away;
  } else {
    const engine = c.engine.at(pitch, 0);
    support(engine, -nx, -ny, -nz, point);
    out.rock = 0;
    out.ex = point[0]! * cos - point[2]! * sin;
    out.ey = point[1]!;
    out.ez = point[0]! * sin + point[2]! * cos;
    out.lower = moved - extent(engine, -nx, -ny, -nz) - away;
  }
  // The witness point alone: an upper bound at any pitch it is turned to.
  const wx = out.ex * cos + out.ez * sin;
  const wz = -out.ex * sin + out.ez * cos;
  out.upper = moved + nx * wx + ny * out.ey + nz * wz - c.engine.shape.ball - away;
  out.bx = out.by = out.bz = away;
  out.overlap = out.upper < 0;
}
