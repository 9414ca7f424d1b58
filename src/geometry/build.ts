/** From a solid of the model to a shape: tilt, spread, mirror, move, sweep, then facets and edges. */

import { cornersOf, pointAt } from '../model/corners.js';
import { AXES, type Axis, type Box, type Solid, type Vec3 } from '../model/scenario.js';
import { acrossOf, hullOf } from './hull.js';
import { axisRotation } from './rotation.js';
import type { Shape } from './shape.js';

type V = [number, number, number];

/** A solid on its way: a centre with generators (half edges), or loose points. */
interface Draft {
  center: V;
  generators: V[];
  points: V[];
  axis: V;
  disc: number;
  ball: number;
}

/** Sine between directions at or below which they count as parallel. */
const PARALLEL = 1e-12;
/** Least volume of three unit generators that is still handled as a box. */
const SLENDER = 1e-6;

export function buildShape(
  solid: Solid,
  mirrored: boolean,
  move: Vec3 | undefined,
  sweep: Box | undefined,
): Shape {
  const draft = draftOf(solid);
  if (solid.tilt !== undefined) tilt(draft, solid.tilt.about, solid.tilt.by, solid.tilt.at);
  if (solid.spread !== undefined) addSweep(draft, boxOf(solid.spread));
  if (mirrored) {
    const flip = (v: V): V => [v[0], -v[1], v[2]];
    draft.center = flip(draft.center);
    draft.generators = draft.generators.map(flip);
    draft.points = draft.points.map(flip);
    draft.axis = flip(draft.axis);
  }
  if (move !== undefined) shift(draft, [...move]);
  if (sweep !== undefined) addSweep(draft, sweep);
  return finish(draft);
}

function draftOf(solid: Solid): Draft {
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

function along(axis: number, length: number): V {
  const v: V = [0, 0, 0];
  v[axis] = length;
  return v;
}

function tilt(draft: Draft, about: Axis, by: number, at: Vec3): void {
  const a = along(AXES.indexOf(about), 1);
  const r = axisRotation(a[0], a[1], a[2], by, new Float64Array(9));
  const turned = (v: V): V => [
    r[0]! * v[0] + r[1]! * v[1] + r[2]! * v[2],
    r[3]! * v[0] + r[4]! * v[1] + r[5]! * v[2],
    r[6]! * v[0] + r[7]! * v[1] + r[8]! * v[2],
  ];
  shift(draft, [-at[0], -at[1], -at[2]]);
  draft.center = turned(draft.center);
  draft.generators = draft.generators.map(turned);
  draft.points = draft.points.map(turned);
  draft.axis = turned(draft.axis);
  shift(draft, [...at]);
}

function shift(draft: Draft, by: V): void {
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

function finish(draft: Draft): Shape {
  const generators = draft.generators.filter((g) => norm(g) > 0);
  const plain = draft.points.length === 0 && isPlain(generators);
  let points: number[] = draft.points.length === 0 ? [...draft.center] : draft.points.flat();
  for (const g of generators) points = spread(points, g);
  const all = [...points, ...draft.center];
  if (!all.every(Number.isFinite)) throw new RangeError('shapeOf: a coordinate is not finite');
  const facets = plain ? boxFacets(generators, points) : hullOf(points);
  const vertices = facets.points;
  const center = Float64Array.from(plain ? draft.center : middle(vertices));
  let reach = 0;
  for (let i = 0; i < vertices.length; i += 3) {
    const d = Math.hypot(
      vertices[i]! - center[0]!,
      vertices[i + 1]! - center[1]!,
      vertices[i + 2]! - center[2]!,
    );
    reach = Math.max(reach, d);
  }
  const slots = new Float64Array(9);
  if (plain) generators.forEach((g, i) => slots.set(g, 3 * i));
  return {
    points: vertices,
    count: vertices.length / 3,
    axis: Float64Array.from(draft.axis),
    disc: draft.disc,
    ball: draft.ball,
    normals: facets.normals,
    offsets: offsetsOf(facets.normals, vertices),
    edges: facets.edges,
    center,
    radius: reach + draft.disc + draft.ball,
    generatorCount: plain ? generators.length : -1,
    generators: slots,
  };
}

/** Whether at most three generators span a box, parallelogram or segment without being near flat. */
function isPlain(generators: readonly V[]): boolean {
  if (generators.length > 3) return false;
  const [a, b, c] = generators.map((g) => unit(g));
  if (a === undefined || b === undefined) return true;
  const area = cross(a, b);
  return c === undefined ? norm(area) > SLENDER : Math.abs(dot(area, c)) > SLENDER;
}

/** Normals in opposite pairs and edge directions of a box, parallelogram, segment or point. */
function boxFacets(
  generators: readonly V[],
  points: readonly number[],
): { points: Float64Array; normals: Float64Array; edges: Float64Array } {
  const e = generators.map((g) => unit(g));
  let across: V[];
  if (e.length === 3) across = [cross(e[0]!, e[1]!), cross(e[1]!, e[2]!), cross(e[2]!, e[0]!)];
  else if (e.length === 2) {
    const n = cross(e[0]!, e[1]!);
    across = [n, cross(e[0]!, n), cross(e[1]!, n)];
  } else if (e.length === 1) across = [...acrossOf(e[0]!), e[0]!];
  else across = [along(0, 1), along(1, 1), along(2, 1)];
  const normals = across.flatMap((v) => {
    const n = unit(v);
    return [...n, -n[0], -n[1], -n[2]];
  });
  return {
    points: Float64Array.from(points),
    normals: Float64Array.from(normals),
    edges: Float64Array.from(e.flat()),
  };
}

function spread(points: readonly number[], g: V): number[] {
  return [...points.map((v, i) => v - g[i % 3]!), ...points.map((v, i) => v + g[i % 3]!)];
}

function middle(points: Float64Array): V {
  return [0, 1, 2].map((axis) => {
    let low = Infinity;
    let high = -Infinity;
    for (let i = axis; i < points.length; i += 3) {
      low = Math.min(low, points[i]!);
      high = Math.max(high, points[i]!);
    }
    return (low + high) / 2;
  }) as V;
}

function offsetsOf(normals: Float64Array, points: Float64Array): Float64Array {
  return Float64Array.from({ length: normals.length / 3 }, (_, f) => {
    let best = -Infinity;
    for (let i = 0; i < points.length; i += 3) {
      best = Math.max(
        best,
        normals[3 * f]! * points[i]! +
          normals[3 * f + 1]! * points[i + 1]! +
          normals[3 * f + 2]! * points[i + 2]!,
      );
    }
    return best;
  });
}

function cross(a: V, b: V): V {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

function dot(a: V, b: V): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function norm(v: V): number {
  return Math.hypot(v[0], v[1], v[2]);
}

function unit(v: V): V {
  const length = norm(v);
  return [v[0] / length, v[1] / length, v[2] / length];
}
