/** From a solid of the model to what a shape is made of: tilted, spread, mirrored, moved and swept. */

import { cornersOf, pointAt } from '../../model/solids/corners.js';
import {
  AXES,
  type Axis,
  type Box,
  type Solid,
  type Tilt,
  type Vec3,
} from '../../model/scenario.js';
import { axisRotation } from '../rotation.js';
import { along, cross, norm, type V } from './vectors.js';

/** A solid on its way: a centre with generators (half edges), or loose points. */
export interface Draft {
  center: V;
  generators: V[];
  points: V[];
  axis: V;
  disc: number;
  ball: number;
}

/** Sine between generators at or below which they count as parallel. */
const PARALLEL = 1e-12;

/** What is done to a solid, in this order, after its own tilt and spread; frame as in `shapeOf`. */
export interface Handling {
  readonly mirrored?: boolean;
  readonly move?: Vec3;
  /** One angle of a part's turn. */
  readonly turn?: Tilt;
  readonly sweep?: Box;
}

/** The draft of a solid, tilted and then handled. */
export function draftOf(solid: Solid, how: Handling): Draft {
  const draft = drawn(solid);
  if (solid.tilt !== undefined) tilt(draft, solid.tilt.about, solid.tilt.by, solid.tilt.at);
  if (solid.spread !== undefined) addSweep(draft, boxOf(solid.spread));
  if (how.mirrored === true) turn(draft, (v) => [v[0], -v[1], v[2]]);
  if (how.move !== undefined) shift(draft, how.move);
  if (how.turn !== undefined) tilt(draft, how.turn.about, how.turn.by, how.turn.at);
  if (how.sweep !== undefined) addSweep(draft, how.sweep);
  return draft;
}

/** The solid as the file draws it. */
function drawn(solid: Solid): Draft {
  const draft: Draft = {
    center: [0, 0, 0],
    generators: [],
    points: [],
    axis: [0, 0, 0],
    disc: 0,
    ball: 0,
  };
  switch (solid.shape) {
    case 'box': {
      const ranges = [solid.x, solid.y, solid.z];
      draft.center = ranges.map((r) => (r.min + r.max) / 2) as V;
      draft.generators = ranges.map((r, i) => along(i, (r.max - r.min) / 2));
      return draft;
    }
    case 'cylinder': {
      const i = AXES.indexOf(solid.axis);
      draft.center = [...pointAt(solid.axis, (solid.from + solid.to) / 2, ...solid.center)];
      draft.generators = [along(i, (solid.to - solid.from) / 2)];
      draft.axis = along(i, 1);
      draft.disc = solid.diameter / 2;
      return draft;
    }
    case 'prism':
    case 'hull':
    case 'panel':
    case 'rail':
      draft.points = cornersOf(solid).map((p) => [...p]);
      return draft;
    case 'ball':
      draft.center = [...solid.center];
      draft.ball = solid.diameter / 2;
      return draft;
    case 'tube':
      draft.center = solid.from.map((v, i) => (v + solid.to[i]!) / 2) as V;
      draft.generators = [solid.to.map((v, i) => (v - solid.from[i]!) / 2) as V];
      draft.ball = solid.diameter / 2;
      return draft;
  }
}

function tilt(draft: Draft, about: Axis, by: number, at: Vec3): void {
  const a = along(AXES.indexOf(about), 1);
  const r = axisRotation(a[0], a[1], a[2], by, new Float64Array(9));
  shift(draft, [-at[0], -at[1], -at[2]]);
  turn(draft, (v) => [
    r[0]! * v[0] + r[1]! * v[1] + r[2]! * v[2],
    r[3]! * v[0] + r[4]! * v[1] + r[5]! * v[2],
    r[6]! * v[0] + r[7]! * v[1] + r[8]! * v[2],
  ]);
  shift(draft, at);
}

/** Turns or mirrors all of a draft about the origin. */
function turn(draft: Draft, turned: (v: V) => V): void {
  draft.center = turned(draft.center);
  draft.generators = draft.generators.map(turned);
  draft.points = draft.points.map(turned);
  draft.axis = turned(draft.axis);
}

function shift(draft: Draft, by: Vec3): void {
  const moved = (v: V): V => [v[0] + by[0], v[1] + by[1], v[2] + by[2]];
  draft.center = moved(draft.center);
  draft.points = draft.points.map(moved);
}

function addSweep(draft: Draft, sweep: Box): void {
  AXES.forEach((name, i) => {
    const { min, max } = sweep[name];
    shift(draft, along(i, (min + max) / 2));
    if (max === min) return;
    const half = along(i, (max - min) / 2);
    const parallel = draft.generators.findIndex((g) => isParallel(g, half));
    if (parallel < 0) draft.generators.push(half);
    else draft.generators[parallel] = lengthened(draft.generators[parallel]!, half);
  });
}

/** The box of these half widths about the origin. */
function boxOf(half: Vec3): Box {
  const [x, y, z] = half.map((d) => ({ min: -d, max: d }));
  return { x: x!, y: y!, z: z! };
}

function isParallel(g: V, h: V): boolean {
  return norm(cross(g, h)) <= PARALLEL * norm(g) * norm(h) && norm(g) > 0;
}

function lengthened(g: V, by: V): V {
  const f = 1 + norm(by) / norm(g);
  return [g[0] * f, g[1] * f, g[2] * f];
}
