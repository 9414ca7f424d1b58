/**
 * How the pair of points of a row may slide along their solids as the engine moves over a box, so that
 * they stay across from each other.
 */

import { coreContainsAll } from '../../geometry/contains.js';
import type { Shape } from '../../geometry/shape.js';
import type { PositionBox } from '../box.js';
import type { Contact } from '../measuring/contact.js';
import { chassisAt, engineAt } from '../measuring/motion.js';
import type { Probe } from '../measuring/probe.js';

/** Millimetres by which a sliding witness may pass a face of its solid: room for rounding. */
const SLIDE_OUT = 1e-9;
/** Sines: edges nearer to parallel than the one, or to square with n than the other, count as that. */
const PARALLEL = 0.01;
const ACROSS = 1e-6;

/** What `chooseSlide` finds: how either point slides, three numbers a coordinate. */
export const slideB = new Float64Array(12);
export const slideA = new Float64Array(12);
/** What is to be followed: how the engine's point moves across n. */
const sideways = new Float64Array(12);

/**
 * Let the chassis point follow the engine point sideways, or the engine point stay behind, or each
 * along an edge, whichever keeps both in their solids throughout the box. Fills the slides and
 * returns 1, or 0 where nothing may slide.
 * @param columns how the engine's point (px, py, pz at the middle) moves over the box: three numbers a
 * coordinate.
 */
export function chooseSlide(
  c: Contact,
  box: PositionBox,
  w: Probe,
  columns: Float64Array,
  px: number,
  py: number,
  pz: number,
): 0 | 1 {
  const { nx, ny, nz } = w;
  for (let k = 0; k < 4; k++) {
    const along = nx * columns[3 * k]! + ny * columns[3 * k + 1]! + nz * columns[3 * k + 2]!;
    slideB[3 * k] = columns[3 * k]! - along * nx;
    slideB[3 * k + 1] = columns[3 * k + 1]! - along * ny;
    slideB[3 * k + 2] = columns[3 * k + 2]! - along * nz;
  }
  slideA.fill(0);
  const chassis = chassisAt(c, w);
  if (chassisFollows(chassis, w)) return 1;
  for (let k = 0; k < 12; k++) {
    slideA[k] = -slideB[k]!;
    slideB[k] = 0;
  }
  const engine = engineAt(c, box.mid[3]!, w);
  if (engineFollows(engine, px, py, pz)) return 1;
  for (let k = 0; k < 12; k++) sideways[k] = -slideA[k]!;
  if (slideAlongBoth(chassis, engine, w, px, py, pz)) return 1;
  return slideAlongEdges(chassis, engine, w, px, py, pz) ? 1 : 0;
}

/**
 * Where an edge of each solid crosses the other's, with `sideways` what is to be followed: each point
 * keeps to its own edge, and together they follow it all.
 */
function slideAlongBoth(
  chassis: Shape,
  engine: Shape,
  w: Probe,
  px: number,
  py: number,
  pz: number,
): boolean {
  for (let b = 0; b < chassis.edges.length; b += 3) {
    if (!isAcross(chassis, b, w)) continue;
    for (let a = 0; a < engine.edges.length; a += 3) {
      if (!isAcross(engine, a, w)) continue;
      const sine = tripleOf(chassis.edges, b, engine.edges, a, w);
      if (Math.abs(sine) < PARALLEL) continue;
      for (let k = 0; k < 12; k += 3) {
        // Sideways is so much of the one edge and so much of the other.
        const along = tripleOf(sideways, k, engine.edges, a, w) / sine;
        const back = tripleOf(sideways, k, chassis.edges, b, w) / sine;
        for (let i = 0; i < 3; i++) {
          slideB[k + i] = along * chassis.edges[b + i]!;
          slideA[k + i] = back * engine.edges[a + i]!;
        }
      }
      if (chassisFollows(chassis, w) && engineFollows(engine, px, py, pz)) return true;
    }
  }
  return false;
}

function isAcross({ edges }: Shape, e: number, { nx, ny, nz }: Probe): boolean {
  return Math.abs(edges[e]! * nx + edges[e + 1]! * ny + edges[e + 2]! * nz) <= ACROSS;
}

/** (u x v) . n, for the vectors that start at these places. */
function tripleOf(
  u: Float64Array,
  i: number,
  v: Float64Array,
  j: number,
  { nx, ny, nz }: Probe,
): number {
  return (
    (u[i + 1]! * v[j + 2]! - u[i + 2]! * v[j + 1]!) * nx +
    (u[i + 2]! * v[j]! - u[i]! * v[j + 2]!) * ny +
    (u[i]! * v[j + 1]! - u[i + 1]! * v[j]!) * nz
  );
}

/** Follow `sideways` in part, along each edge of either solid that lies across n. */
function slideAlongEdges(
  chassis: Shape,
  engine: Shape,
  w: Probe,
  px: number,
  py: number,
  pz: number,
): boolean {
  for (const onChassis of [true, false]) {
    const edges = onChassis ? chassis.edges : engine.edges;
    for (let e = 0; e < edges.length; e += 3) {
      if (!isAcross(onChassis ? chassis : engine, e, w)) continue;
      const ex = edges[e]!;
      const ey = edges[e + 1]!;
      const ez = edges[e + 2]!;
      slideA.fill(0);
      slideB.fill(0);
      const slide = onChassis ? slideB : slideA;
      for (let k = 0; k < 4; k++) {
        const along = ex * sideways[3 * k]! + ey * sideways[3 * k + 1]! + ez * sideways[3 * k + 2]!;
        const s = onChassis ? along : -along;
        slide[3 * k] = s * ex;
        slide[3 * k + 1] = s * ey;
        slide[3 * k + 2] = s * ez;
      }
      if (onChassis ? chassisFollows(chassis, w) : engineFollows(engine, px, py, pz)) return true;
    }
  }
  slideA.fill(0);
  slideB.fill(0);
  return false;
}

function chassisFollows(chassis: Shape, w: Probe): boolean {
  return coreContainsAll(chassis, w.bx, w.by, w.bz, slideB, SLIDE_OUT);
}

function engineFollows(engine: Shape, px: number, py: number, pz: number): boolean {
  return coreContainsAll(engine, px, py, pz, slideA, SLIDE_OUT);
}
