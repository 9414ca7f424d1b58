/**
 * Rows for a box throughout which two polytopes overlap. There the signed gap is the greatest
 * separation over a finite list of directions: face normals of both and crosses of their edges. Each
 * direction's separation has an affine function above it, second order in pitch; the greatest of
 * these, lifted over the others, is above the gap.
 *
 * Valid only where the cores overlap at every position of the box, which the caller must know.
 */

import * as trig from '../../model/trig.js';
import type { MotionState } from '../../geometry/motion/moving-pair.js';
import { support } from '../../geometry/reach.js';
import type { Shape } from '../../geometry/shape.js';
import type { Contact } from '../measuring/contact.js';
import { spinRadius } from './bounds.js';
import type { PositionBox } from '../box.js';
import { chassisAt, engineAt } from '../measuring/motion.js';
import type { Rows } from '../rows.js';

/** An affine function over the box: value at its middle and change over half of each width. */
interface Affine {
  value: number;
  readonly slope: [number, number, number, number];
}

/** Below this a cross product is no direction. */
const PARALLEL = 1e-9;
/** A cross that pitch may bring below this length turns too fast to be followed. */
const LEAST_CROSS = 0.05;
/** An edge this close to the pitch axis, or to the plane across it, counts as on it. */
const ON_AXIS = 1e-12;
/** Pairs of edges beyond which the list is too long to be worth its row. */
const MANY_EDGES = 400;

const p = new Float64Array(3);
const b = new Float64Array(3);

/**
 * Add the row; false where it cannot be had: a disc, too many edges, or solids that might part within
 * what the engine's turning can move them.
 * @param state the moment of the motions at which they overlap all over the box.
 */
export function overlapRow(c: Contact, box: PositionBox, state: MotionState, rows: Rows): boolean {
  const engine = engineAt(c, box.mid[3]!, state);
  const chassis = chassisAt(c, state);
  if (engine.disc > 0 || chassis.disc > 0) return false;
  if (engine.edges.length * chassis.edges.length > 9 * MANY_EDGES) return false;
  const turned = turnedList(engine, chassis, box);
  if (turned) {
    addGreatest(c, turned, rows);
    return true;
  }
  const eroded = erodedList(engine, chassis, box);
  const row = addGreatest(c, eroded, rows);
  const balls = engine.ball + chassis.ball;
  if (rows.values[row]! + rows.spread(row) + c.needed + balls <= 0) return true;
  rows.drop();
  return false;
}

/**
 * Every direction as pitch turns it; undefined where two edges turn through parallel in the box.
 */
function turnedList(engine: Shape, chassis: Shape, box: PositionBox): Affine[] | undefined {
  const list: Affine[] = [];
  for (let i = 0; i < chassis.normals.length; i += 3) {
    const [nx, ny, nz] = triple(chassis.normals, i);
    list.push(fixedDirection(engine, chassis, box, nx, ny, nz));
  }
  for (let i = 0; i < engine.normals.length; i += 3) {
    const [nx, ny, nz] = triple(engine.normals, i);
    list.push(turningDirection(engine, chassis, box, -nx, -ny, -nz));
  }
  return crosses(engine, chassis, box, list) ? list : undefined;
}

/**
 * Every direction at the middle pitch. Turning the engine about its own centre by t moves its points by
 * at most r |t| across the pitch axis, so the difference of the solids still holds what is left of
 * it when a disc of that radius, across the axis, is taken off: each facet's depth less r |t| times
 * the part of its normal across the axis. As long as that holds the origin, it bounds the depth.
 */
function erodedList(engine: Shape, chassis: Shape, box: PositionBox): Affine[] {
  const list: Affine[] = [];
  const D = box.half[3]!;
  const cx = engine.center[0]!;
  const cz = engine.center[2]!;
  const spin = spinRadius(engine) * 2 * trig.sin(D / 2);
  const path = trig.hypot(cx, cz) * (1 - trig.cos(D) + (D - trig.sin(D)));
  const add = (nx: number, ny: number, nz: number): void => {
    const near = -support(engine, -nx, -ny, -nz, p);
    const far = support(chassis, nx, ny, nz, b);
    const moved = nx * box.mid[0]! + ny * box.mid[1]! + nz * box.mid[2]!;
    list.push({
      value: near + moved - far + trig.hypot(nx, nz) * (spin + path),
      slope: [nx * box.half[0]!, ny * box.half[1]!, nz * box.half[2]!, (nx * cz - nz * cx) * D],
    });
  };
  for (let i = 0; i < chassis.normals.length; i += 3) add(...triple(chassis.normals, i));
  for (let i = 0; i < engine.normals.length; i += 3) {
    const [nx, ny, nz] = triple(engine.normals, i);
    add(-nx, -ny, -nz);
  }
  for (const { length, u } of edgePairs(engine, chassis)) {
    if (length <= PARALLEL) continue;
    for (const s of [1 / length, -1 / length]) add(s * u[0], s * u[1], s * u[2]);
  }
  return list;
}

/** The row above every function of the list: the greatest, lifted over the others. */
function addGreatest(c: Contact, list: readonly Affine[], rows: Rows): number {
  const top = list.reduce((a, other) => (other.value > a.value ? other : a));
  let lift = 0;
  for (const other of list) {
    let over = other.value - top.value;
    for (let k = 0; k < 4; k++) over += Math.abs(other.slope[k]! - top.slope[k]!);
    lift = Math.max(lift, over);
  }
  const row = rows.add(c.id, false);
  rows.values[row] = top.value + lift - c.engine.shape.ball - c.chassis.ball - c.needed;
  for (let k = 0; k < 4; k++) {
    rows.slopes[4 * row + k] = top.slope[k]!;
    rows.blame[4 * row + k] = lift * weight(list, top, k);
  }
  return row;
}

/** How much of the lift a coordinate's slopes account for. */
function weight(list: readonly Affine[], top: Affine, k: number): number {
  let own = 0;
  let all = 1e-12;
  for (const other of list) {
    for (let d = 0; d < 4; d++) {
      const apart = Math.abs(other.slope[d]! - top.slope[d]!);
      all += apart;
      if (d === k) own += apart;
    }
  }
  return own / all;
}

function triple(from: Float64Array, i: number): [number, number, number] {
  return [from[i]!, from[i + 1]!, from[i + 2]!];
}

/** Every cross of an engine edge with a chassis edge, both ways round, by how pitch turns it. */
function crosses(engine: Shape, chassis: Shape, box: PositionBox, list: Affine[]): boolean {
  for (const { e, c, u, length } of edgePairs(engine, chassis)) {
    const [ux, uy, uz] = u;
    const bothWays = [1 / length, -1 / length];
    if (Math.abs(e[1]) <= ON_AXIS && Math.abs(c[1]) <= ON_AXIS) {
      // Two edges across the pitch axis stay so: their cross is that axis, or nothing.
      for (const s of [1, -1]) list.push(fixedDirection(engine, chassis, box, 0, s, 0));
    } else if (alongAxis(e) || alongAxis(c)) {
      if (length <= PARALLEL) continue;
      const direction = alongAxis(e) ? fixedDirection : turningDirection;
      for (const s of bothWays) list.push(direction(engine, chassis, box, s * ux, s * uy, s * uz));
    } else {
      const least = length - 2 * trig.sin(box.half[3]! / 2);
      if (least < LEAST_CROSS) return false;
      for (const s of bothWays) {
        list.push(anyDirection(engine, chassis, box, s * ux, s * uy, s * uz, least));
      }
    }
  }
  return true;
}

function alongAxis([x, , z]: readonly [number, number, number]): boolean {
  return Math.abs(x) <= ON_AXIS && Math.abs(z) <= ON_AXIS;
}

interface EdgePair {
  readonly e: readonly [number, number, number];
  readonly c: readonly [number, number, number];
  /** e x c, and its length. */
  readonly u: readonly [number, number, number];
  readonly length: number;
}

/** Every engine edge with every chassis edge. */
function* edgePairs(engine: Shape, chassis: Shape): Generator<EdgePair> {
  for (let i = 0; i < engine.edges.length; i += 3) {
    const e = triple(engine.edges, i);
    for (let j = 0; j < chassis.edges.length; j += 3) {
      const c = triple(chassis.edges, j);
      const u = [
        e[1] * c[2] - e[2] * c[1],
        e[2] * c[0] - e[0] * c[2],
        e[0] * c[1] - e[1] * c[0],
      ] as const;
      yield { e, c, u, length: trig.hypot(...u) };
    }
  }
}

/** Separation along a direction that stays put: the engine's support point turns under it. */
function fixedDirection(
  engine: Shape,
  chassis: Shape,
  box: PositionBox,
  nx: number,
  ny: number,
  nz: number,
): Affine {
  support(engine, -nx, -ny, -nz, p);
  const far = support(chassis, nx, ny, nz, b);
  const D = box.half[3]!;
  const P = nx * p[0]! + nz * p[2]!;
  const Q = nx * p[2]! - nz * p[0]!;
  const turned = P > 0 ? P : P * trig.cos(D);
  return {
    value:
      nx * box.mid[0]! +
      ny * (box.mid[1]! + p[1]!) +
      nz * box.mid[2]! +
      turned +
      Math.abs(Q) * (D - trig.sin(D)) -
      far,
    slope: [nx * box.half[0]!, ny * box.half[1]!, nz * box.half[2]!, Q * D],
  };
}

/** Separation along a direction that turns with the engine: the chassis's support point counts. */
function turningDirection(
  engine: Shape,
  chassis: Shape,
  box: PositionBox,
  nx: number,
  ny: number,
  nz: number,
): Affine {
  const near = -support(engine, -nx, -ny, -nz, p);
  support(chassis, nx, ny, nz, b);
  const D = box.half[3]!;
  const dx = box.mid[0]! - b[0]!;
  const dy = box.mid[1]! - b[1]!;
  const dz = box.mid[2]! - b[2]!;
  const A = nx * dx + nz * dz;
  const B = nz * dx - nx * dz;
  const turned = A > 0 ? A : A * trig.cos(D);
  // The direction turns while the engine moves: the product of the two.
  const both = 2 * trig.sin(D / 2) * trig.hypot(nx, nz) * trig.hypot(box.half[0]!, box.half[2]!);
  return {
    value: near + ny * dy + turned + Math.abs(B) * (D - trig.sin(D)) + both,
    slope: [nx * box.half[0]!, ny * box.half[1]!, nz * box.half[2]!, B * D],
  };
}

/** Separation along a cross that pitch turns in its own way: first order in its turning. */
function anyDirection(
  engine: Shape,
  chassis: Shape,
  box: PositionBox,
  nx: number,
  ny: number,
  nz: number,
  least: number,
): Affine {
  const row = fixedDirection(engine, chassis, box, nx, ny, nz);
  const D = box.half[3]!;
  const wx = p[0]! + box.mid[0]! - b[0]!;
  const wy = p[1]! + box.mid[1]! - b[1]!;
  const wz = p[2]! + box.mid[2]! - b[2]!;
  const reach =
    trig.hypot(wx, wy, wz) +
    trig.hypot(box.half[0]!, box.half[1]!, box.half[2]!) +
    trig.hypot(p[0]!, p[2]!) * D;
  row.value += ((2 * trig.sin(D / 2)) / least) * reach;
  return row;
}
