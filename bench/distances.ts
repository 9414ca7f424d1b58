/**
 * Pair distances against manifold-3d `minGap`: the same pairs to both, answers compared, the least
 * time of several passes taken for each.
 */

import Module, { type Manifold, type ManifoldToplevel } from 'manifold-3d';
import { createGap, gapBetween } from '../src/geometry/gap.js';
import { pitchRotation } from '../src/geometry/rotation.js';
import { placed } from '../src/geometry/placed.js';
import { shapeOf, type Shape } from '../src/geometry/shape.js';
import type { Solid, Vec3 } from '../src/model/scenario.js';
import { seeded } from '../tests/geometry/random.js';

export interface DistanceRow {
  readonly name: string;
  /** Microseconds a pair, ours and manifold-3d's. */
  readonly ours_us: number;
  readonly theirs_us: number;
  readonly ratio: number;
  /** Pairs whose answers were compared; a wrong one throws. */
  readonly checked: number;
}

const FACETS = 64;
/** Farther apart than any pair here, mm. */
const SEARCH = 1e5;

interface Pair {
  readonly a: Shape;
  readonly b: Shape;
  readonly shift: Vec3;
  readonly theirA: Manifold;
  readonly theirB: Manifold;
  /** How far their facets may lie inside the true surface, mm. */
  readonly inside: number;
}

/** Times boxes, and cylinders (of 64 facets there, exact here) against boxes. */
export async function benchDistances(short: boolean): Promise<DistanceRow[]> {
  const wasm = await Module();
  wasm.setup();
  const pairs = short ? 60 : 300;
  const passes = short ? 3 : 15;
  return [
    race('box to box', makePairs(wasm, 'box', pairs), passes),
    race('cylinder to box', makePairs(wasm, 'cylinder', pairs), passes),
  ];
}

function makePairs(wasm: ManifoldToplevel, sort: 'box' | 'cylinder', count: number): Pair[] {
  const random = seeded(7);
  const between = (low: number, high: number): number => low + (high - low) * random();
  const box = (): Solid => {
    const range = () => {
      const at = between(-300, 300);
      const half = between(10, 100);
      return { min: at - half, max: at + half };
    };
    return { shape: 'box', x: range(), y: range(), z: range() };
  };
  const cylinder = (): Solid => {
    const from = between(-400, 300);
    return {
      shape: 'cylinder',
      axis: 'x',
      from,
      to: from + between(20, 200),
      center: [between(-300, 300), between(-300, 300)],
      diameter: between(20, 200),
    };
  };
  const pairs: Pair[] = [];
  while (pairs.length < count) {
    const solid = sort === 'box' ? box() : cylinder();
    const other = box();
    const rotation = pitchRotation(between(0, 0.1), new Float64Array(9));
    const shift: Vec3 = [between(-50, 50), between(-50, 50), between(-50, 50)];
    const a = placed(shapeOf(solid), rotation);
    const b = shapeOf(other);
    const gap = createGap();
    gapBetween(a, b, ...shift, gap);
    // Both must be asked for the same thing, and theirs is 0 for all that overlap.
    if (gap.lower < 1) continue;
    pairs.push({
      a,
      b,
      shift,
      theirA: body(wasm, solid, rotation, shift),
      theirB: body(wasm, other, pitchRotation(0, new Float64Array(9)), [0, 0, 0]),
      inside:
        solid.shape === 'cylinder' ? (solid.diameter / 2) * (1 - Math.cos(Math.PI / FACETS)) : 0,
    });
  }
  return pairs;
}

function body(wasm: ManifoldToplevel, solid: Solid, r: Float64Array, shift: Vec3): Manifold {
  const points: Vec3[] = [];
  if (solid.shape === 'box') {
    for (const x of [solid.x.min, solid.x.max])
      for (const y of [solid.y.min, solid.y.max])
        for (const z of [solid.z.min, solid.z.max]) points.push([x, y, z]);
  } else if (solid.shape === 'cylinder') {
    for (let k = 0; k < FACETS; k++) {
      const t = (2 * Math.PI * k) / FACETS;
      const y = solid.center[0] + (solid.diameter / 2) * Math.cos(t);
      const z = solid.center[1] + (solid.diameter / 2) * Math.sin(t);
      points.push([solid.from, y, z], [solid.to, y, z]);
    }
  }
  return wasm.Manifold.hull(
    points.map(([x, y, z]): [number, number, number] => [
      r[0]! * x + r[1]! * y + r[2]! * z + shift[0],
      r[3]! * x + r[4]! * y + r[5]! * z + shift[1],
      r[6]! * x + r[7]! * y + r[8]! * z + shift[2],
    ]),
  );
}

function race(name: string, pairs: readonly Pair[], passes: number): DistanceRow {
  const gap = createGap();
  const ours = new Float64Array(pairs.length);
  const theirs = new Float64Array(pairs.length);
  // Every call starts cold, so that no pair profits from having been measured before.
  const runOurs = (repeat: number): void => {
    for (let n = 0; n < repeat; n++) {
      for (let i = 0; i < pairs.length; i++) {
        const { a, b, shift } = pairs[i]!;
        gap.nx = gap.ny = gap.nz = 0;
        gapBetween(a, b, shift[0], shift[1], shift[2], gap);
        ours[i] = gap.lower;
      }
    }
  };
  const runTheirs = (): void => {
    pairs.forEach((pair, i) => {
      theirs[i] = pair.theirA.minGap(pair.theirB, SEARCH);
    });
  };
  const REPEAT = 20;
  runOurs(5 * REPEAT);
  runTheirs();
  let oursBest = Infinity;
  let theirsBest = Infinity;
  for (let pass = 0; pass < passes; pass++) {
    oursBest = Math.min(oursBest, timed(() => runOurs(REPEAT)) / REPEAT);
    theirsBest = Math.min(theirsBest, timed(runTheirs));
  }
  let checked = 0;
  pairs.forEach((pair, i) => {
    const slack = 1e-6 * Math.max(1, theirs[i]!);
    const tooNear = theirs[i]! < ours[i]! - slack;
    if (tooNear || theirs[i]! > ours[i]! + pair.inside + slack) {
      throw new Error(`${name}: pair ${i} is ${ours[i]} here and ${theirs[i]} there`);
    }
    checked++;
    pair.theirA.delete();
    pair.theirB.delete();
  });
  const ours_us = (1e3 * oursBest) / pairs.length;
  const theirs_us = (1e3 * theirsBest) / pairs.length;
  return { name, ours_us, theirs_us, ratio: theirs_us / ours_us, checked };
}

function timed(run: () => void): number {
  const start = performance.now();
  run();
  return performance.now() - start;
}
