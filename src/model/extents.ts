/**
 * Boxes that hold a part, straight from its sizes: exact for a part at rest in its own frame,
 * enclosing (never too small) once an engine part's motions and positions are taken in.
 */

import { cornersOf, pointAt } from './corners.js';
import { historyOf } from './part-history.js';
import { AXES } from './scenario.js';
import type { Axis, Box, Part, Range, Scenario, Solid, Tilt, Vec3 } from './scenario.js';

/** Extents of one solid in its own frame, tilt and spread included: exact. Millimetres. */
export function solidExtents(solid: Solid): Box {
  const { spread } = solid;
  return spread === undefined ? extentsOf(solid) : grown(extentsOf(solid), (i) => spread[i]!);
}

function extentsOf(solid: Solid): Box {
  switch (solid.shape) {
    case 'box':
    case 'hull':
    case 'prism':
    case 'panel':
    case 'rail':
      return around(cornersOf(solid), 0, solid.tilt);
    case 'ball':
      return around([solid.center], solid.diameter / 2, solid.tilt);
    case 'tube':
      return around([solid.from, solid.to], solid.diameter / 2, solid.tilt);
    case 'cylinder': {
      const [u, v] = solid.center;
      const middles = around(
        [solid.from, solid.to].map((w) => pointAt(solid.axis, w, u, v)),
        0,
        solid.tilt,
      );
      const along = turned(
        pointAt(solid.axis, 1, 0, 0),
        solid.tilt && { ...solid.tilt, at: [0, 0, 0] },
      );
      // A disc reaches r sin(angle between its normal and the axis) along an axis.
      return grown(
        middles,
        (i) => (solid.diameter / 2) * Math.sqrt(Math.max(0, 1 - along[i]! ** 2)),
      );
    }
  }
}

/** Extents of a part as drawn, in its own frame, mirrored where it is a mirror image: exact. */
export function partExtents(part: Part): Box {
  const box = union(part.solids.map(solidExtents));
  return part.mirrored ? { ...box, y: { min: -box.y.max, max: -box.y.min } } : box;
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
      const motion = comingOut ? part.comesOut : part.sweep;
      return motion === undefined ? partExtents(part) : sum(partExtents(part), motion);
    });
  if (boxes.length === 0) return undefined;
  // Moves of the options chosen sum, at most one option from each choice.
  return effects.reduce((box, options) => {
    const moves = options.map(({ move }) => move);
    return sum(box, around([[0, 0, 0], ...moves], 0));
  }, union(boxes));
}

/**
 * A box in the chassis frame that holds an engine box over every position the search may take, and
 * every turn of the rock: rocked about the crankshaft, then pitched about the engine datum.
 */
export function enginePathExtents(s: Scenario, box: Box, rocking: boolean): Box {
  const rock = rocking ? s.rock : 0;
  const { pitch, setback, offset, height } = s.position;
  const rocked = turnedOver(box, 'y', 'z', { min: -rock, max: rock });
  // Pitch is right-handed about +Y: z towards x, the tail (x positive) going down.
  const pitched = turnedOver(rocked, 'z', 'x', pitch);
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
  const radius = Math.hypot(u, v);
  const phase = Math.atan2(v, u) + shift;
  const from = by.min + phase;
  const to = by.max + phase;
  const ends = [radius * Math.cos(from), radius * Math.cos(to)];
  const full = 2 * Math.PI;
  const passes = (angle: number) => Math.ceil((from - angle) / full) * full + angle <= to;
  return {
    min: passes(Math.PI) ? -radius : Math.min(...ends),
    max: passes(0) ? radius : Math.max(...ends),
  };
}

function hullOf(ranges: readonly Range[]): Range {
  return {
    min: Math.min(...ranges.map(({ min }) => min)),
    max: Math.max(...ranges.map(({ max }) => max)),
  };
}

function union(boxes: readonly Box[]): Box {
  return {
    x: hullOf(boxes.map(({ x }) => x)),
    y: hullOf(boxes.map(({ y }) => y)),
    z: hullOf(boxes.map(({ z }) => z)),
  };
}

function around(points: readonly Vec3[], radius: number, tilt?: Tilt): Box {
  const placed = points.map((point) => turned(point, tilt));
  const along = (i: number): Range => {
    let [min, max] = [Infinity, -Infinity];
    for (const point of placed) {
      min = Math.min(min, point[i]!);
      max = Math.max(max, point[i]!);
    }
    return { min, max };
  };
  return grown({ x: along(0), y: along(1), z: along(2) }, () => radius);
}

function grown(box: Box, by: (axis: number) => number): Box {
  const [x, y, z] = AXES.map((axis, i) => ({
    min: box[axis].min - by(i),
    max: box[axis].max + by(i),
  }));
  return { x: x!, y: y!, z: z! };
}

function turned(point: Vec3, tilt: Tilt | undefined): Vec3 {
  return tilt === undefined ? point : turnedAbout(point, tilt);
}

/** A point turned in place. */
export function turnedAbout(point: Vec3, tilt: Tilt): Vec3 {
  const i = AXES.indexOf(tilt.about);
  const [j, k] = [(i + 1) % 3, (i + 2) % 3];
  const [u, v] = [point[j]! - tilt.at[j]!, point[k]! - tilt.at[k]!];
  const [cos, sin] = [Math.cos(tilt.by), Math.sin(tilt.by)];
  const moved: [number, number, number] = [...point];
  moved[j] = tilt.at[j]! + u * cos - v * sin;
  moved[k] = tilt.at[k]! + u * sin + v * cos;
  return moved;
}
