/**
 * Boxes that hold a part, straight from its sizes: exact for a part at rest in its own frame,
 * enclosing (never too small) once an engine part's motions and positions are taken in.
 */

import { maxOf, minOf } from '../extremes.js';
import { cosines, exactly, product } from '../interval.js';
import { historyOf } from '../part-history.js';
import { AXES } from '../scenario.js';
import type { Axis, Box, Part, Range, Scenario, Solid, Turn, Vec3 } from '../scenario.js';
import { skeletonOf } from './skeleton.js';
import { minus } from '../vector.js';
import * as trig from '../trig.js';

/** Extents of one solid in its own frame, tilt and spread included: exact. Millimetres. */
export function solidExtents(solid: Solid, mirrored = false): Box {
  const { points, ball, disc } = skeletonOf(solid, mirrored);
  // A disc reaches r sin(angle between its normal and the axis) along an axis.
  return grown(around(points), (i) => {
    const round = disc === undefined ? 0 : disc.radius * sineOf(disc.normal[i]!);
    return ball + round + (solid.spread?.[i] ?? 0);
  });
}

/** Extents of a part as drawn, in its own frame, mirrored where it is a mirror image: exact. */
export function partExtents(part: Part): Box {
  return union(part.solids.map((solid) => solidExtents(solid, part.mirrored)));
}

/**
 * Encloses a part over the whole of a turn, without its sweep; exact, but for a solid with discs that
 * tilt as it turns.
 */
function turningExtents(part: Part, turn: Turn): Box {
  const [, from, to] = cycleFrom(turn.about);
  const over = (box: Box): Box => turnedOver(box, from, to, turn.by);
  const boxes = part.solids.map((solid) => {
    const { points, ball, disc } = skeletonOf(solid, part.mirrored);
    const swung = union(points.map((point) => over(around([minus(point, turn.at)]))));
    const normal = disc && over(around([disc.normal]));
    const path = grown(moved(swung, turn.at), (i) => {
      return ball + (normal ? disc.radius * sineOf(nearestTo0(normal[AXES[i]!])) : 0);
    });
    const spread = solid.spread ?? [0, 0, 0];
    return sum(path, over(grown(around([[0, 0, 0]]), (i) => spread[i]!)));
  });
  return union(boxes);
}

/** A box moved by every vector of another. */
function sum(a: Box, b: Box): Box {
  return {
    x: { min: a.x.min + b.x.min, max: a.x.max + b.x.max },
    y: { min: a.y.min + b.y.min, max: a.y.max + b.y.max },
    z: { min: a.z.min + b.z.min, max: a.z.max + b.z.max },
  };
}

/**
 * A box that holds every part of this name under any option, in the part's own frame, moved by
 * option and, unless it is coming out (which is at rest), in use. Undefined for an unknown name.
 */
export function reachOf(s: Scenario, name: string, comingOut: boolean): Box | undefined {
  const history = historyOf(s).get(name);
  if (history === undefined) return undefined;
  const effects = [...history.effects.values()].map((byOption) => [...byOption.values()]);
  const variants = [history.base, ...effects.flat().flatMap(({ add, replace }) => [add, replace])];
  const boxes = variants
    .filter((part): part is Part => part !== undefined && part.solids.length > 0)
    .map((part) => {
      const turn = comingOut ? undefined : part.turn;
      const box = turn === undefined ? partExtents(part) : turningExtents(part, turn);
      const motion = comingOut ? part.comesOut : part.sweep;
      return motion === undefined ? box : sum(box, motion);
    });
  if (boxes.length === 0) return undefined;
  // Moves of the options chosen sum, at most one option from each choice.
  return effects.reduce((box, options) => {
    const moves = options.map(({ move }) => move);
    return sum(box, around([[0, 0, 0], ...moves]));
  }, union(boxes));
}

/** How far the engine moves as one: radians of rock each way, and millimetres that it may lift. */
export interface EngineMotion {
  readonly rock: number;
  readonly lift: number;
}

/**
 * A box in the chassis frame that holds an engine box over every position the search may take, and
 * all of the engine's own motion: rocked about the crankshaft, lifted, then pitched about the engine
 * datum.
 */
export function enginePathExtents(s: Scenario, box: Box, { rock, lift }: EngineMotion): Box {
  const { pitch, setback, offset, height } = s.position;
  const rocked = turnedOver(box, 'y', 'z', { min: -rock, max: rock });
  const lifted = { ...rocked, z: { min: rocked.z.min, max: rocked.z.max + lift } };
  // Pitch is right-handed about +Y: z towards x, the tail (x positive) going down.
  const pitched = turnedOver(lifted, 'z', 'x', pitch);
  return sum(pitched, { x: setback, y: offset, z: height });
}

/** Encloses a box turned from axis `from` towards axis `to` by every angle of a range. */
function turnedOver(box: Box, from: Axis, to: Axis, by: Range): Box {
  const corners = [box[from].min, box[from].max].flatMap((u) =>
    [box[to].min, box[to].max].map((v) => ({ u, v })),
  );
  // u cos - v sin = r cos(angle + phase); v cos + u sin is the same a quarter turn behind.
  const u = corners.map((corner) => swing(corner, 0, by));
  const v = corners.map((corner) => swing(corner, -Math.PI / 2, by));
  return { ...box, [from]: hullOf(u), [to]: hullOf(v) };
}

/** Range of r cos(angle + phase + shift) over a range of angles, r and phase those of (u, v). */
function swing({ u, v }: { u: number; v: number }, shift: number, by: Range): Range {
  const radius = trig.hypot(u, v);
  const phase = trig.atan2(v, u) + shift;
  const from = by.min + phase;
  const to = by.max + phase;
  return product(exactly(radius), cosines({ min: from, max: to }));
}

function hullOf(ranges: readonly Range[]): Range {
  return {
    min: minOf(ranges.map(({ min }) => min)),
    max: maxOf(ranges.map(({ max }) => max)),
  };
}

function union(boxes: readonly Box[]): Box {
  return {
    x: hullOf(boxes.map(({ x }) => x)),
    y: hullOf(boxes.map(({ y }) => y)),
    z: hullOf(boxes.map(({ z }) => z)),
  };
}

function around(points: readonly Vec3[]): Box {
  const along = (i: number): Range => {
    let [min, max] = [Infinity, -Infinity];
    for (const point of points) {
      min = Math.min(min, point[i]!);
      max = Math.max(max, point[i]!);
    }
    return { min, max };
  };
  return { x: along(0), y: along(1), z: along(2) };
}

function grown(box: Box, by: (axis: number) => number): Box {
  const [x, y, z] = AXES.map((axis, i) => ({
    min: box[axis].min - by(i),
    max: box[axis].max + by(i),
  }));
  return { x: x!, y: y!, z: z! };
}

function moved(box: Box, [x, y, z]: Vec3): Box {
  return sum(box, { x: exactly(x), y: exactly(y), z: exactly(z) });
}

/** An axis and the two after it, in the order in which a right-handed turn goes. */
function cycleFrom(axis: Axis): readonly [Axis, Axis, Axis] {
  const i = AXES.indexOf(axis);
  return [AXES[i]!, AXES[(i + 1) % 3]!, AXES[(i + 2) % 3]!];
}

function nearestTo0({ min, max }: Range): number {
  return Math.max(min, -max, 0);
}

/** The sine of an angle from its cosine. */
function sineOf(cosine: number): number {
  return Math.sqrt(Math.max(0, 1 - cosine * cosine));
}
