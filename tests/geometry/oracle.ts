/**
 * An independent measure of gaps and overlaps: manifold-3d, a general-purpose solid modeller. It knows
 * flat facets only, so curved solids are given as the hull of points on their surface (inscribed).
 */

import Module, { type Manifold, type ManifoldToplevel } from 'manifold-3d';
import type { Facing, Solid, Vec3 } from '../../src/model/scenario.js';

const SEGMENTS = 64;

export async function openOracle(): Promise<Oracle> {
  const wasm = await Module();
  wasm.setup();
  return new Oracle(wasm);
}

/** A solid of the oracle and how far its facets may lie inside the true surface, mm. */
export interface Faceted {
  readonly body: Manifold;
  readonly inside: number;
}

export class Oracle {
  constructor(private readonly wasm: ManifoldToplevel) {}

  faceted(solid: Solid, turn: Float64Array, shift: Vec3 = [0, 0, 0]): Faceted {
    const { points, inside } = surfaceOf(solid);
    const turned = points.map(([x, y, z]): [number, number, number] => [
      turn[0]! * x + turn[1]! * y + turn[2]! * z + shift[0],
      turn[3]! * x + turn[4]! * y + turn[5]! * z + shift[1],
      turn[6]! * x + turn[7]! * y + turn[8]! * z + shift[2],
    ]);
    return { body: this.wasm.Manifold.hull(turned), inside };
  }

  /** Volume of what the two have in common, the second moved by `by`, mm^3. */
  shared(a: Manifold, b: Manifold, by: Vec3 = [0, 0, 0]): number {
    const moved = b.translate([by[0], by[1], by[2]]);
    const common = a.intersect(moved);
    const volume = common.volume();
    common.delete();
    moved.delete();
    return volume;
  }
}

function surfaceOf(solid: Solid): { points: Vec3[]; inside: number } {
  switch (solid.shape) {
    case 'box': {
      const ends = (r: { min: number; max: number }): number[] => [r.min, r.max];
      const points = ends(solid.x).flatMap((x) =>
        ends(solid.y).flatMap((y) => ends(solid.z).map((z): Vec3 => [x, y, z])),
      );
      return { points, inside: 0 };
    }
    case 'hull':
      return { points: [...solid.points], inside: 0 };
    case 'prism': {
      const points = solid.profile.flatMap((at) =>
        [solid.from, solid.to].map((value) => placedOn(solid.axis, value, at)),
      );
      return { points, inside: 0 };
    }
    case 'cylinder': {
      const r = solid.diameter / 2;
      const points: Vec3[] = [];
      for (let k = 0; k < SEGMENTS; k++) {
        const t = (2 * Math.PI * k) / SEGMENTS;
        const at = [solid.center[0] + r * Math.cos(t), solid.center[1] + r * Math.sin(t)] as const;
        points.push(placedOn(solid.axis, solid.from, at), placedOn(solid.axis, solid.to, at));
      }
      return { points, inside: r * (1 - Math.cos(Math.PI / SEGMENTS)) };
    }
    case 'ball':
      return roundAbout([solid.center], solid.diameter / 2);
    case 'tube':
      return roundAbout([solid.from, solid.to], solid.diameter / 2);
    case 'panel':
      return { points: sheet(solid), inside: 0 };
    case 'rail': {
      const points = [solid.from, solid.to].flatMap(({ x, inside, outside, top, bottom }) => [
        [x, inside, top] as const,
        [x, outside, top] as const,
        [x, outside, bottom] as const,
        [x, inside, bottom] as const,
      ]);
      return { points, inside: 0 };
    }
  }
}

const BACK: Readonly<Record<Facing, readonly [number, 1 | -1]>> = {
  ahead: [0, -1],
  behind: [0, 1],
  left: [1, -1],
  right: [1, 1],
  below: [2, -1],
  above: [2, 1],
};

/**
 * The corners of a panel's two faces. The normal is worked out from the outline's shadows on the
 * three planes of the axes (shoelace sums), not from cross products.
 */
function sheet({ corners, thick, behind }: Extract<Solid, { shape: 'panel' }>): Vec3[] {
  const shadow = (i: number, j: number) =>
    corners.reduce((sum, a, k) => {
      const b = corners[(k + 1) % corners.length]!;
      return sum + (a[i]! - b[i]!) * (a[j]! + b[j]!);
    }, 0);
  const normal = [shadow(1, 2), shadow(2, 0), shadow(0, 1)];
  const length = Math.hypot(...normal);
  const [axis, way] = behind === undefined ? [0, 1] : BACK[behind];
  const sense = normal[axis]! * way < 0 ? -1 : 1;
  const shares = behind === undefined ? [-0.5, 0.5] : [0, sense];
  return shares.flatMap((share) =>
    corners.map((c): Vec3 => {
      const at = (i: 0 | 1 | 2) => c[i] + (share * thick * normal[i]!) / length;
      return [at(0), at(1), at(2)];
    }),
  );
}

function placedOn(axis: 'x' | 'y' | 'z', value: number, at: readonly [number, number]): Vec3 {
  if (axis === 'x') return [value, at[0], at[1]];
  return axis === 'y' ? [at[0], value, at[1]] : [at[0], at[1], value];
}

const RINGS = 10;

/** Points of a globe about each centre. The facets' corners are under a step apart each way. */
function roundAbout(centers: readonly Vec3[], r: number): { points: Vec3[]; inside: number } {
  const points: Vec3[] = [];
  for (const c of centers) {
    for (let i = 0; i <= RINGS; i++) {
      const high = (Math.PI * i) / RINGS;
      const around = i === 0 || i === RINGS ? 1 : 2 * RINGS;
      for (let k = 0; k < around; k++) {
        const t = (2 * Math.PI * k) / around;
        points.push([
          c[0] + r * Math.sin(high) * Math.cos(t),
          c[1] + r * Math.sin(high) * Math.sin(t),
          c[2] + r * Math.cos(high),
        ]);
      }
    }
  }
  // A facet spans at most one step each way, so no point of it is more than half a diagonal from a
  // corner seen from the centre.
  const half = (Math.SQRT2 * Math.PI) / RINGS / 2;
  return { points, inside: r * (1 - Math.cos(half)) };
}
