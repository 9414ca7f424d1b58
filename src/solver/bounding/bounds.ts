/**
 * Rows that overestimate a contact's margin everywhere in a box of positions: affine in setback,
 * offset, height and pitch, valid at every position of the box.
 *
 * Notation: the box is mid + half u, u in [-1, 1]^4; p is a point of the engine solid relative to the
 * engine datum at the box's middle pitch, R the turn from there, D = half[3] the half width of pitch.
 * A turn by t moves p by `t J p` to first order, J p = (p_z, 0, -p_x), and what is left over is
 * `(cos t - 1) q + (sin t - t) J p` with q = (p_x, 0, p_z).
 */

import * as trig from '../../model/trig.js';
import { createGap, gapBetween } from '../../geometry/gap.js';
import { overlapsAt } from '../../geometry/overlap/places.js';
import type { Shape } from '../../geometry/shape.js';
import type { Contact } from '../measuring/contact.js';
import type { PositionBox } from '../box.js';
import { chassisAt, engineAt } from '../measuring/motion.js';
import type { Probe } from '../measuring/probe.js';
import type { Rows } from '../rows.js';
import { chooseSlide, slideA, slideB } from './slides.js';

/** What that may come to where faces meet at an edge (as sharp as 0.1 degree); added to the row. */
const SLIDE_SLACK = 1e-6;

/** What counts of a row that is steeper than the gap at its witness; steers the search only. */
const STEEPER = 0.1;
const CORNERS = 16;
/** Values at the corners; bit k of the index set means u[k] = +1. */
const cornerValue = new Float64Array(CORNERS);
/** How the engine's point moves over the box: three numbers a coordinate, for u from 0 to 1. */
const columns = new Float64Array(12);
/** The columns, slides taken off. */
const moves = new Float64Array(12);
/** How far the engine solid is moved at each corner, xyz. */
const shift = new Float64Array(3 * CORNERS);
const gap = createGap();

/**
 * The row of an axis rule: the engine's witness point against the chassis solid's far face.
 * `f(t) = n . R(t) p` is `P cos t + Q sin t`: where P > 0 the cosine is under its tangent at the middle,
 * else under its chord.
 */
export function axisRow(c: Contact, box: PositionBox, w: Probe, rows: Rows): number {
  const row = rows.add(c.id, false);
  const { mid } = box;
  const x = mid[0]!;
  const y = mid[1]!;
  const z = mid[2]!;
  const pitch = mid[3]!;
  const cos = trig.cos(pitch);
  const sin = trig.sin(pitch);
  const px = w.ex * cos + w.ez * sin;
  const pz = -w.ex * sin + w.ez * cos;
  const D = box.half[3]!;
  const P = w.nx * px + w.nz * pz;
  const Q = w.nx * pz - w.nz * px;
  const turned = P > 0 ? P : P * trig.cos(D);
  rows.values[row] =
    w.nx * x +
    w.ny * (y + w.ey) +
    w.nz * z +
    turned +
    Math.abs(Q) * (D - trig.sin(D)) -
    c.engine.shape.ball -
    w.bx -
    c.needed;
  const i = 4 * row;
  rows.slopes[i] = w.nx * box.half[0]!;
  rows.slopes[i + 1] = w.ny * box.half[1]!;
  rows.slopes[i + 2] = w.nz * box.half[2]!;
  rows.slopes[i + 3] = Q * D;
  rows.blame[i + 3] = (Math.abs(P) * D * D) / 2;
  return row;
}

/**
 * The row of a nearest rule from one pair of points, apart: gap <= |R p + t - b| - balls.
 *
 * Points slide along their solids with the engine where they can do so throughout the box (checked at
 * its corners, which suffices: solids are convex and the slide is affine). The distance of what is
 * left is convex in u, and in the cosine's defect, so an affine function above its corner values is
 * above it. Returns the row, or -1 where the points pass each other in the box, so that only
 * `cornerRow` is any good.
 */
export function witnessRow(c: Contact, box: PositionBox, w: Probe, rows: Rows): number {
  const { mid } = box;
  const x = mid[0]!;
  const y = mid[1]!;
  const z = mid[2]!;
  const pitch = mid[3]!;
  const half = box.half;
  const D = half[3]!;
  const cos = trig.cos(pitch);
  const sin = trig.sin(pitch);
  const px = w.ex * cos + w.ez * sin;
  const pz = -w.ex * sin + w.ez * cos;
  const wx = px + x - w.bx;
  const wy = w.ey + y - w.by;
  const wz = pz + z - w.bz;
  const { nx, ny, nz } = w;

  columns.fill(0);
  columns[0] = half[0]!;
  columns[4] = half[1]!;
  columns[8] = half[2]!;
  columns[9] = pz * D;
  columns[11] = -px * D;
  const slid = chooseSlide(c, box, w, columns, px, w.ey, pz);

  let nearest = nx * wx + ny * wy + nz * wz;
  const base = nearest;
  for (let k = 0; k < 12; k++) moves[k] = columns[k]! + slid * (slideA[k]! - slideB[k]!);
  for (let k = 0; k < 12; k += 3) {
    nearest -= Math.abs(nx * moves[k]! + ny * moves[k + 1]! + nz * moves[k + 2]!);
  }
  if (nearest < 0) return -1;
  const row = rows.add(c.id, false);
  const kappa = 1 - trig.cos(D);
  const balls = c.engine.shape.ball + c.chassis.ball;
  for (let corner = 0; corner < CORNERS; corner++) {
    let vx = wx;
    let vy = wy;
    let vz = wz;
    for (let k = 0; k < 4; k++) {
      const s = corner & (1 << k) ? 1 : -1;
      vx += s * moves[3 * k]!;
      vy += s * moves[3 * k + 1]!;
      vz += s * moves[3 * k + 2]!;
    }
    const flat = vx * vx + vy * vy + vz * vz;
    vx -= kappa * px;
    vz -= kappa * pz;
    cornerValue[corner] = Math.sqrt(Math.max(flat, vx * vx + vy * vy + vz * vz));
  }
  // Rests: the sine's defect, a slide on the turning engine, and the slide's slack.
  let slideLength = 0;
  if (slid) {
    for (let k = 0; k < 4; k++) {
      slideLength += lengthOf(slideA[3 * k]!, slideA[3 * k + 1]!, slideA[3 * k + 2]!);
    }
  }
  const rest =
    lengthOf(px, 0, pz) * (D - trig.sin(D)) + slideLength * D + (slid ? 2 * SLIDE_SLACK : 0);
  affineAbove(rows, row, half);
  rows.values[row]! += rest - balls - c.needed;
  const reach = Math.max(base, 1e-3);
  for (let k = 0; k < 4; k++) {
    const sx = moves[3 * k]!;
    const sy = moves[3 * k + 1]!;
    const sz = moves[3 * k + 2]!;
    const along = nx * sx + ny * sy + nz * sz;
    rows.blame[4 * row + k] =
      Math.max(0, sx * sx + sy * sy + sz * sz - along * along) / (2 * reach);
  }
  rows.blame[4 * row + 3]! += (lengthOf(px, 0, pz) * D * D) / 2 + slideLength * D;
  return row;
}

/**
 * The row of a nearest rule from signed gaps at the box's corners, overlapping or not.
 *
 * At one pitch and one moment of the motions the signed gap is convex in the engine's displacement. The engine turns about
 * its own centre, whose path is affine but for a second-order rest, so the displaced gaps at the
 * corners carry an affine function above; turning about that centre moves no point of the solid
 * further than its radius there times the half width of pitch. Returns how many gaps it took, one a corner
 * at most beside the one that overlaps share.
 * @param w the contact measured somewhere in the box: its moment is the row's.
 */
export function cornerRow(c: Contact, box: PositionBox, w: Probe, rows: Rows): number {
  const { mid } = box;
  const x = mid[0]!;
  const y = mid[1]!;
  const z = mid[2]!;
  const pitch = mid[3]!;
  const half = box.half;
  const D = half[3]!;
  const engine = engineAt(c, pitch, w);
  const chassis = chassisAt(c, w);
  const cx = engine.center[0]!;
  const cz = engine.center[2]!;
  for (let corner = 0; corner < CORNERS; corner++) {
    const turn = corner & 8 ? D : -D;
    shift[3 * corner] = x + (corner & 1 ? half[0]! : -half[0]!) + turn * cz;
    shift[3 * corner + 1] = y + (corner & 2 ? half[1]! : -half[1]!);
    shift[3 * corner + 2] = z + (corner & 4 ? half[2]! : -half[2]!) - turn * cx;
  }
  const measured = gapsAtCorners(engine, chassis, half);
  const row = rows.add(c.id, false);
  affineAbove(rows, row, half);
  const spin = spinRadius(engine) * 2 * trig.sin(D / 2);
  const rest = lengthOf(cx, 0, cz) * (1 - trig.cos(D) + (D - trig.sin(D)));
  rows.values[row]! += spin + rest - c.needed;
  blameBends(box, w, rows, row);
  rows.blame[4 * row + 3]! += spin + rest;
  rows.tightAtEnds[row] = 1;
  return measured;
}

/**
 * The gap at each corner's shift, certified from above; those of cores that overlap are found together.
 * Returns how many gaps that took.
 */
function gapsAtCorners(engine: Shape, chassis: Shape, half: Float64Array): number {
  const together = overlapsAt(engine, chassis, shift, CORNERS, cornerValue);
  const balls = engine.ball + chassis.ball;
  let measured = together ? 1 : 0;
  for (let corner = 0; corner < CORNERS; corner++) {
    const twin = firstTwin(corner, half);
    if (twin < corner) {
      cornerValue[corner] = cornerValue[twin]!;
    } else if (together && cornerValue[corner]! <= 0) {
      cornerValue[corner]! -= balls;
    } else {
      const i = 3 * corner;
      // What parted another corner may not part this one; the way between the centres is a better start.
      gap.nx = gap.ny = gap.nz = 0;
      gapBetween(engine, chassis, shift[i]!, shift[i + 1]!, shift[i + 2]!, gap);
      measured++;
      cornerValue[corner] = gap.upper;
    }
  }
  return measured;
}

/**
 * Where the gap bends along a coordinate, its slope at the witness and the slope from end to end
 * differ: the difference is what splitting there could win. Where the row is the steeper, the gap bends
 * away from the witness: most often elsewhere than where the row is loose.
 */
function blameBends(box: PositionBox, w: Probe, rows: Rows, row: number): void {
  const cos = trig.cos(box.mid[3]!);
  const sin = trig.sin(box.mid[3]!);
  const px = w.ex * cos + w.ez * sin;
  const pz = -w.ex * sin + w.ez * cos;
  const here = [w.nx, w.ny, w.nz, w.nx * pz - w.nz * px];
  for (let k = 0; k < 4; k++) {
    const bend = Math.abs(here[k]! * box.half[k]!) - Math.abs(rows.slopes[4 * row + k]!);
    rows.blame[4 * row + k] = Math.max(bend, -STEEPER * bend);
  }
}

/** The lowest-numbered corner with the same position: coordinates of no width have one end. */
function firstTwin(corner: number, half: Float64Array): number {
  let twin = corner;
  for (let k = 0; k < 4; k++) if (half[k] === 0) twin &= ~(1 << k);
  return twin;
}

/** Slopes by the corners' mean differences, then the value that puts the row above every corner. */
function affineAbove(rows: Rows, row: number, half: Float64Array): void {
  let mean = 0;
  for (let corner = 0; corner < CORNERS; corner++) mean += cornerValue[corner]!;
  mean /= CORNERS;
  for (let k = 0; k < 4; k++) {
    let slope = 0;
    if (half[k]! > 0) {
      for (let corner = 0; corner < CORNERS; corner++) {
        slope += corner & (1 << k) ? cornerValue[corner]! : -cornerValue[corner]!;
      }
    }
    rows.slopes[4 * row + k] = slope / CORNERS;
  }
  let over = 0;
  for (let corner = 0; corner < CORNERS; corner++) {
    let value = mean;
    for (let k = 0; k < 4; k++) {
      value += corner & (1 << k) ? rows.slopes[4 * row + k]! : -rows.slopes[4 * row + k]!;
    }
    over = Math.max(over, cornerValue[corner]! - value);
  }
  rows.values[row] = mean + over;
}

/** Greatest distance from the Y-parallel axis through the solid's centre. */
export function spinRadius(shape: Shape): number {
  let most = 0;
  for (let i = 0; i < shape.count; i++) {
    const x = shape.points[3 * i]! - shape.center[0]!;
    const z = shape.points[3 * i + 2]! - shape.center[2]!;
    most = Math.max(most, x * x + z * z);
  }
  return Math.sqrt(most) + shape.disc + shape.ball;
}

function lengthOf(x: number, y: number, z: number): number {
  return Math.sqrt(x * x + y * y + z * z);
}
