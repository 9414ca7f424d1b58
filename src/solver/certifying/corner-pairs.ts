/** What each end of a box is bounded by: a pair of points of its own, or a body that holds the overlap there. */

import { maxOf } from '../../model/extremes.js';
import { createGap, gapBetween } from '../../geometry/gap.js';
import type { Vec3 } from '../../model/scenario.js';
import type { PositionBox } from '../box.js';
import type { Contact } from '../measuring/contact.js';
import { chassisAt, engineAt } from '../measuring/motion.js';
import type { Probe } from '../measuring/probe.js';
import { depthAt, grownBody } from './inner-body.js';
import type { Grown } from './inner-body.js';
import { endOf, followed, pitched } from './point-pairs.js';
import type { Moving } from './point-pairs.js';

export const CORNERS = 8;

const gap = createGap();

/** What each end of setback, offset and height is bounded by: a pair of points, or the body (-1). */
export interface Ended {
  readonly pairs: readonly Moving[];
  readonly corners: readonly number[];
  readonly inner?: Grown;
}

/** A pair for each end of setback, offset and height where the solids are apart, and one body for all others. */
export function cornerPairs(c: Contact, box: PositionBox, w: Probe): Ended | undefined {
  const pitch = box.mid[3]!;
  const engine = engineAt(c, pitch, w);
  const chassis = chassisAt(c, w);
  const pairs: Moving[] = [];
  const corners: number[] = [];
  const deep: Vec3[] = [];
  for (let corner = 0; corner < CORNERS; corner++) {
    const twin = twinOf(corner, box);
    if (twin < corner) {
      corners.push(corners[twin]!);
      continue;
    }
    const x = endOf(corner, box);
    gap.nx = gap.ny = gap.nz = 0;
    gapBetween(engine, chassis, x[0], x[1], x[2], gap);
    if (gap.coresOverlap && gap.upper + c.engine.shape.ball + c.chassis.ball < -SHALLOW) {
      corners.push(-1);
      deep.push(x);
      continue;
    }
    let from = x;
    if (gap.coresOverlap) {
      // Touching, to speak of: the points nearest to each other once they are drawn apart a little.
      from = [x[0] + ASUNDER * gap.nx, x[1] + ASUNDER * gap.ny, x[2] + ASUNDER * gap.nz];
      gapBetween(engine, chassis, from[0], from[1], from[2], gap);
    }
    const a: Vec3 = [gap.ax, gap.ay, gap.az];
    const own = pitched([a[0] - from[0], a[1] - from[1], a[2] - from[2]], -pitch);
    const n = { nx: gap.nx, ny: gap.ny, nz: gap.nz };
    const b: Vec3 = [gap.bx, gap.by, gap.bz];
    corners.push(pairs.length);
    pairs.push(followed(c, box, { ...w, ...n }, own, b, [0, 0, 0, box.half[3]!]));
  }
  if (deep.length === 0) return { pairs, corners };
  const inner = bodyFor(c, box, w, deep);
  return inner && { pairs, corners, inner };
}

/**
 * A body that holds the places all over the box's pitch, its engine points turned to the middle of it. Where
 * edges of the two solids come to lie parallel in the box, one grown at that end has no triangle that goes flat.
 */
function bodyFor(
  c: Contact,
  box: PositionBox,
  w: Probe,
  places: readonly Vec3[],
): Grown | undefined {
  const D = box.half[3]!;
  for (const u of D === 0 ? [0] : [0, -1, 1]) {
    const grown = grownBody(engineAt(c, box.mid[3]! + u * D, w), chassisAt(c, w), places);
    if (!grown) continue;
    const pairs = grown.pairs.map(([a, b]) => [pitched(a, -u * D), b] as const);
    const body = { pairs, facets: grown.facets };
    if (places.every((x) => maxOf(depths(body, box, x)) < NOT_IN_IT)) return body;
  }
  return undefined;
}

/** The lowest-numbered end with the same place: coordinates of no width have one. */
function twinOf(corner: number, { half }: PositionBox): number {
  let twin = corner;
  for (let k = 0; k < 3; k++) if (half[k] === 0) twin &= ~(1 << k);
  return twin;
}

/** Millimetres by which a row above a body is lifted, so that it need not be cut fine to be checked. */
const BODY_LIFT = 2e-4;

/** Millimetres: a place no deeper than this in a body may as well be on it. */
const SHALLOW = 1e-3;

/** By which solids that all but touch are drawn apart to find where, millimetres. */
const ASUNDER = 0.01;

/** A row above a place that a body does not hold says nothing. */
const NOT_IN_IT = 1e9;

/** Pitches at which a body is looked at between the ends of its box. */
const LOOKS = [-0.75, -0.5, -0.25, 0, 0.25, 0.5, 0.75];

/** The gap by the body at one end, at the least and the greatest pitch: the line between is above it, and lifted so. */
export function depths(inner: Grown, { half }: PositionBox, x: Vec3): readonly [number, number] {
  const D = half[3]!;
  const at = (u: number): number => {
    const depth = depthAt(inner, x, (p) => pitched(p, u * D));
    return depth > SHALLOW / 2 ? -depth : NOT_IN_IT;
  };
  const [low, high] = [at(-1), at(1)];
  if (D === 0) return [low, high];
  let over = 0;
  for (const u of LOOKS) over = Math.max(over, at(u) - (low + ((high - low) * (u + 1)) / 2));
  const lift = 1.1 * over + BODY_LIFT;
  return [low + lift, high + lift];
}
