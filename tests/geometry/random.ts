/** Seeded random solids of every sort, near one another often enough to touch, overlap and miss. */

import { acrossOf } from '../../src/geometry/building/vectors.js';
import { axisRotation } from '../../src/geometry/rotation.js';
import { placed } from '../../src/geometry/placed.js';
import { shapeOf, type Shape } from '../../src/geometry/shape.js';
import type { Solid, Vec3 } from '../../src/model/scenario.js';

export type Random = () => number;

/** Mulberry32: small, seeded, good enough to scatter solids. */
export function seeded(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export function between(random: Random, low: number, high: number): number {
  return low + (high - low) * random();
}

export function direction(random: Random): Vec3 {
  for (;;) {
    const d = [between(random, -1, 1), between(random, -1, 1), between(random, -1, 1)] as const;
    const length = Math.hypot(...d);
    if (length > 0.1 && length < 1) return [d[0] / length, d[1] / length, d[2] / length];
  }
}

export function point(random: Random, spread: number): Vec3 {
  return [0, 1, 2].map(() => between(random, -spread, spread)) as unknown as Vec3;
}

export type Sort = Solid['shape'];
export const FLAT_FACED: readonly Sort[] = ['box', 'prism', 'hull', 'panel', 'rail'];
export const SORTS: readonly Sort[] = [...FLAT_FACED, 'ball', 'tube', 'cylinder'];

const AXES = ['x', 'y', 'z'] as const;

/** A solid about 100 mm across, somewhere within `spread` of the origin. */
export function solid(random: Random, sort: Sort, spread: number): Solid {
  const c = point(random, spread);
  const size = (): number => between(random, 5, 80);
  const range = (at: number): { min: number; max: number } => {
    const half = size();
    return { min: at - half, max: at + half };
  };
  const axis = AXES[Math.floor(3 * random())]!;
  const i = AXES.indexOf(axis);
  const rest = c.filter((_, k) => k !== i) as [number, number];
  switch (sort) {
    case 'box':
      return { shape: 'box', x: range(c[0]), y: range(c[1]), z: range(c[2]) };
    case 'prism': {
      const n = 3 + Math.floor(6 * random());
      const [rx, ry] = [size(), size()];
      const turn = between(random, 0, 6);
      const profile = Array.from({ length: n }, (_, k) => {
        const t = turn + (2 * Math.PI * k) / n;
        return [rest[0] + rx * Math.cos(t), rest[1] + ry * Math.sin(t)] as const;
      });
      const { min, max } = range(c[i]!);
      return { shape: 'prism', axis, from: min, to: max, profile };
    }
    case 'hull': {
      const points = Array.from({ length: 5 + Math.floor(12 * random()) }, () => {
        const d = point(random, 70);
        return [c[0] + d[0], c[1] + d[1], c[2] + d[2]] as const;
      });
      return { shape: 'hull', points };
    }
    case 'ball':
      return { shape: 'ball', center: c, diameter: 2 * size() };
    case 'tube': {
      const d = point(random, 80);
      return {
        shape: 'tube',
        from: c,
        to: [c[0] + d[0], c[1] + d[1], c[2] + d[2]],
        diameter: size(),
      };
    }
    case 'cylinder': {
      const { min, max } = range(c[i]!);
      return { shape: 'cylinder', axis, from: min, to: max, center: rest, diameter: 2 * size() };
    }
    case 'panel':
      return panel(random, c);
    case 'rail': {
      const station = (x: number) => {
        const [inside, bottom] = [c[1] + size() / 4, c[2] - size() / 4];
        return { x, inside, outside: inside + size(), top: c[2] + size(), bottom };
      };
      return { shape: 'rail', from: station(c[0] - size()), to: station(c[0] + size()) };
    }
  }
}

const SIDES = [
  ['ahead', 'behind'],
  ['left', 'right'],
  ['below', 'above'],
] as const;

/** A sheet of three to six corners across a random direction, some warped, some with a back. */
function panel(random: Random, c: Vec3): Solid {
  const n = direction(random);
  const [u, v] = acrossOf([...n]);
  const count = 3 + Math.floor(4 * random());
  const warp = random() < 0.5 ? 0 : 3;
  const [ru, rv] = [between(random, 20, 80), between(random, 20, 80)];
  const corners = Array.from({ length: count }, (_, k): Vec3 => {
    const t = (2 * Math.PI * k) / count;
    const off = between(random, -warp, warp);
    const at = (i: 0 | 1 | 2) =>
      c[i] + ru * Math.cos(t) * u[i] + rv * Math.sin(t) * v[i] + off * n[i];
    return [at(0), at(1), at(2)];
  });
  const thick = between(random, 0.5, 20);
  const steepest = n.reduce((best, d, i) => (Math.abs(d) > Math.abs(n[best]!) ? i : best), 0);
  const behind = SIDES[steepest]![random() < 0.5 ? 0 : 1];
  return { shape: 'panel', corners, thick, ...(random() < 0.5 ? {} : { behind }) };
}

export interface Placed {
  readonly solid: Solid;
  readonly turn: Float64Array;
  readonly shape: Shape;
}

/** A random solid, usually turned out of line with the axes about the origin, and its shape. */
export function randomPlaced(random: Random, sorts: readonly Sort[], spread: number): Placed {
  const sort = sorts[Math.floor(sorts.length * random())]!;
  const made = solid(random, sort, spread);
  const turn = random() < 0.25 ? axisRotation(0, 0, 1, 0, new Float64Array(9)) : randomTurn(random);
  return { solid: made, turn, shape: placed(shapeOf(made), turn) };
}

export function randomShape(random: Random, sorts: readonly Sort[], spread: number): Shape {
  return randomPlaced(random, sorts, spread).shape;
}

export function randomTurn(random: Random): Float64Array {
  return axisRotation(...direction(random), between(random, -3, 3), new Float64Array(9));
}

/** A box shape from its ranges. */
export function boxShape(
  x: readonly [number, number],
  y: readonly [number, number],
  z: readonly [number, number],
): Shape {
  const [rx, ry, rz] = [x, y, z].map(([min, max]) => ({ min, max }));
  return shapeOf({ shape: 'box', x: rx!, y: ry!, z: rz! });
}
