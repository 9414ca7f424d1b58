import { describe, expect, it } from 'vitest';
import { FLATNESS, hullOf } from '../../src/geometry/building/hull.js';
import {
  attitude,
  axisRotation,
  pitchRotation,
  rockRotation,
} from '../../src/geometry/rotation.js';
import { coreContains } from '../../src/geometry/contains.js';
import { placed } from '../../src/geometry/placed.js';
import { across, crossOf } from '../../src/geometry/overlap/parting.js';
import { extent, support } from '../../src/geometry/reach.js';
import { shapeOf } from '../../src/geometry/shape.js';
import type { Box, Solid, Vec3 } from '../../src/model/scenario.js';
import { between, direction, point, randomTurn, seeded, solid, SORTS } from './random.js';

const boxSolid: Solid = {
  shape: 'box',
  x: { min: 0, max: 2 },
  y: { min: 1, max: 4 },
  z: { min: -5, max: -1 },
};
const corners = (points: Float64Array): string[] =>
  Array.from({ length: points.length / 3 }, (_, k) =>
    [...points.subarray(3 * k, 3 * k + 3)]
      .map((v) => (Math.round(v * 1e9) / 1e9 + 0).toString())
      .join(' '),
  ).sort();

describe('rotation', () => {
  const turned = (r: Float64Array, p: Vec3): number[] =>
    [0, 3, 6].map((i) => r[i]! * p[0] + r[i + 1]! * p[1] + r[i + 2]! * p[2]);
  it('positive pitch puts the tail down', () => {
    const [x, y, z] = turned(pitchRotation(0.1, new Float64Array(9)), [100, 5, 0]);
    expect(y).toBe(5);
    expect(x).toBeCloseTo(100 * Math.cos(0.1), 12);
    expect(z).toBeCloseTo(-100 * Math.sin(0.1), 12);
  });
  it('rock is right-handed about X, and comes before pitch', () => {
    expect(turned(rockRotation(Math.PI / 2, new Float64Array(9)), [0, 1, 0])[2]).toBeCloseTo(1, 15);
    const p: Vec3 = [3, -4, 5];
    const rocked = turned(rockRotation(0.3, new Float64Array(9)), p) as unknown as Vec3;
    const both = turned(pitchRotation(-0.2, new Float64Array(9)), rocked);
    turned(attitude(-0.2, 0.3, new Float64Array(9)), p).forEach((v, k) => {
      expect(v).toBeCloseTo(both[k]!, 14);
    });
  });
});

describe('shapes of solids', () => {
  it('a box has 8 points, 6 normals, 3 edges, and still has after a sweep', () => {
    const sweep: Box = { x: { min: -1, max: 3 }, y: { min: 0, max: 0 }, z: { min: 0, max: 2 } };
    const swept = shapeOf(boxSolid, { sweep });
    expect(swept.count).toBe(8);
    expect(swept.normals.length).toBe(18);
    expect(swept.edges.length).toBe(9);
    expect(extent(swept, 1, 0, 0)).toBe(5);
    expect(extent(swept, -1, 0, 0)).toBe(1);
    expect(extent(swept, 0, 0, 1)).toBe(1);
  });

  it('tilts, then mirrors, then moves, then sweeps', () => {
    const sweep: Box = { x: { min: 0, max: 0 }, y: { min: 0, max: 10 }, z: { min: 0, max: 0 } };
    const tube: Solid = {
      shape: 'tube',
      from: [0, 0, 0],
      to: [0, 0, 4],
      diameter: 0,
      tilt: { about: 'x', by: Math.PI / 2, at: [0, 0, 0] },
    };
    // Tilted a quarter turn about X, +Z goes to -Y; mirrored it is at +Y; moved by 1 along Y.
    const shape = shapeOf(tube, { mirrored: true, move: [0, 1, 0] });
    expect(corners(shape.points)).toEqual(['0 1 0', '0 5 0']);
    expect(corners(shapeOf(tube, { mirrored: true, move: [0, 1, 0], sweep }).points)).toEqual([
      '0 1 0',
      '0 15 0',
    ]);
  });

  it('a sweep is the Minkowski sum, whatever the solid and the tilt', () => {
    const random = seeded(50);
    let checked = 0;
    for (let i = 0; i < 240; i++) {
      const base = solid(random, SORTS[i % SORTS.length]!, 50);
      const made: Solid =
        i % 2 === 0
          ? base
          : { ...base, tilt: { about: 'y', by: between(random, -2, 2), at: point(random, 9) } };
      const range = () =>
        random() < 0.3 ? { min: 0, max: 0 } : { min: -20 * random(), max: 20 * random() };
      const sweep: Box = { x: range(), y: range(), z: range() };
      const still = shapeOf(made);
      const swept = shapeOf(made, { sweep });
      for (let k = 0; k < 30; k++) {
        const d = direction(random);
        const by = (['x', 'y', 'z'] as const).reduce(
          (sum, axis, n) => sum + Math.max(sweep[axis].min * d[n]!, sweep[axis].max * d[n]!),
          0,
        );
        expect(extent(swept, ...d)).toBeCloseTo(extent(still, ...d) + by, 9);
        checked++;
      }
      for (let f = 0; f < swept.offsets.length; f++) {
        const n = swept.normals.subarray(3 * f, 3 * f + 3);
        expect(Math.hypot(...n)).toBeCloseTo(1, 12);
      }
    }
    expect(checked).toBe(7200);
  });

  it('support points are in the shape and as far out as its extent; all is within its radius', () => {
    const random = seeded(51);
    const out = new Float64Array(3);
    for (let i = 0; i < 400; i++) {
      const shape = placed(
        shapeOf(solid(random, SORTS[i % SORTS.length]!, 50)),
        randomTurn(random),
      );
      for (let k = 0; k < 20; k++) {
        const toAxis = k < 4 && shape.disc > 0;
        const e = direction(random);
        const d = toAxis
          ? (shape.axis.map((v, n) => v + e[n]! * 10 ** (-5 * k)) as unknown as Vec3)
          : e;
        const length = Math.hypot(...d);
        const reach = support(shape, ...d, out) / length;
        expect(reach + shape.ball).toBeCloseTo(
          extent(shape, d[0] / length, d[1] / length, d[2] / length),
          9,
        );
        expect(coreContains(shape, out[0]!, out[1]!, out[2]!, 1e-9)).toBe(true);
        const off = Math.hypot(...out.map((v, n) => v - shape.center[n]!));
        expect(off + shape.ball).toBeLessThanOrEqual(shape.radius + 1e-9);
      }
    }
  });

  it('containment: never true outside, true inside, with cylinders swept too', () => {
    const random = seeded(52);
    let inside = 0;
    let outside = 0;
    const around = Array.from({ length: 200 }, () => direction(random));
    for (let i = 0; i < 240; i++) {
      const made = solid(random, SORTS[i % SORTS.length]!, 20);
      const range = () =>
        random() < 0.5 ? { min: 0, max: 0 } : { min: -20 * random(), max: 20 * random() };
      const shape = placed(
        shapeOf(made, { sweep: { x: range(), y: range(), z: range() } }),
        randomTurn(random),
      );
      for (let k = 0; k < 40; k++) {
        const p = point(random, 90);
        const far = around.some(
          (d) => d[0] * p[0] + d[1] * p[1] + d[2] * p[2] > extent(shape, ...d) - shape.ball + 1e-9,
        );
        const contained = coreContains(shape, ...p, 0);
        if (far) {
          outside++;
          expect(contained).toBe(false);
        } else if (contained) inside++;
      }
    }
    expect(inside).toBeGreaterThan(300);
    expect(outside).toBeGreaterThan(3000);
  });

  it('containment: a cylinder swept across itself holds all that its disc passes over, and no more', () => {
    const random = seeded(53);
    const disc: Solid = {
      shape: 'cylinder',
      axis: 'z',
      from: -5,
      to: 5,
      center: [0, 0],
      diameter: 20,
    };
    for (let i = 0; i < 60; i++) {
      const along = [30 * random(), i % 2 === 0 ? 0 : 30 * random()] as const;
      const still = { min: 0, max: 0 };
      const sweep = { x: { min: 0, max: along[0] }, y: { min: 0, max: along[1] }, z: still };
      const shape = shapeOf(disc, { sweep });
      for (let k = 0; k < 20; k++) {
        const [angle, z] = [2 * Math.PI * random(), 10 * random() - 5];
        const at = (r: number, s: number, t: number) =>
          [s * along[0] + r * Math.cos(angle), t * along[1] + r * Math.sin(angle), z] as const;
        expect(coreContains(shape, ...at(10 * random(), random(), random()), 1e-9)).toBe(true);
        // From the far end in the quarter that looks outwards, a hair past the rim.
        const [out, up] = [Math.cos(angle) > 0 ? 1 : 0, Math.sin(angle) > 0 ? 1 : 0];
        expect(coreContains(shape, ...at(10.001, out, up), 0)).toBe(false);
      }
    }
  });

  it('a turned copy reuses its buffers and equals a fresh one', () => {
    const shape = shapeOf(boxSolid);
    const first = placed(shape, axisRotation(0, 0, 1, 1, new Float64Array(9)));
    const turn = axisRotation(1, 0, 0, 2, new Float64Array(9));
    const fresh = placed(shape, turn);
    const buffer = first.points;
    const again = placed(shape, turn, first);
    expect(again.points).toBe(buffer);
    expect(again).toEqual(fresh);
  });
});

describe('the direction across two edges', () => {
  it('is a unit vector square to both, all but parallel ones too', () => {
    const random = seeded(54);
    for (const sine of [1, 1e-2, 9e-5, 1e-6, 1e-9, 1e-12]) {
      for (let i = 0; i < 50; i++) {
        const u = direction(random);
        const w = direction(random);
        const lean = w.map((v, k) => v - (w[0] * u[0] + w[1] * u[1] + w[2] * u[2]) * u[k]!);
        const v = u.map((one, k) => one + (sine * lean[k]!) / Math.hypot(...lean));
        const unit = v.map((one) => one / Math.hypot(...v));
        expect(crossOf(Float64Array.from(u), 0, Float64Array.from(unit), 0)).toBe(true);
        expect(Math.hypot(...across)).toBeCloseTo(1, 12);
        const dot = (a: readonly number[]) => a.reduce((sum, one, k) => sum + one * across[k]!, 0);
        expect(Math.abs(dot(u))).toBeLessThan(1e-11);
      }
    }
  });
});

describe('hull of points', () => {
  it('every dimension', () => {
    const dimensions = [
      [[1, 2, 3, 1, 2, 3], 0, 1, 6, 0],
      [[0, 0, 0, 2, 2, 2, 1, 1, 1, 2, 2, 2], 1, 2, 6, 1],
      [[0, 0, 0, 4, 0, 0, 4, 4, 0, 0, 4, 0, 2, 2, 0, 2, 0, 0], 2, 4, 6, 2],
      [[0, 0, 0, 4, 0, 0, 0, 4, 0, 0, 0, 4, 1, 1, 1, 2, 2, 0], 3, 4, 4, 6],
    ] as const;
    for (const [points, dimension, vertices, normals, edges] of dimensions) {
      const hull = hullOf(points);
      expect(hull.dimension).toBe(dimension);
      expect(hull.points.length / 3).toBe(vertices);
      expect(hull.normals.length / 3).toBe(normals);
      expect(hull.edges.length / 3).toBe(edges);
    }
  });

  it('flat is flat to a share of the size, on either side of it', () => {
    for (const size of [1, 1e4]) {
      const lifted = (by: number): Float64Array =>
        Float64Array.from([0, 0, 0, size, 0, 0, size, size, 0, 0, size, by]);
      expect(hullOf(lifted(0.5 * FLATNESS * size)).dimension).toBe(2);
      expect(hullOf(lifted(20 * FLATNESS * size)).dimension).toBe(3);
    }
  });

  it('known solids: cube with points on its faces and edges, octahedron, dodecahedron', () => {
    const grid: number[] = [];
    for (let x = 0; x < 4; x++)
      for (let y = 0; y < 4; y++) for (let z = 0; z < 4; z++) grid.push(x, y, z);
    const cube = hullOf(grid);
    expect([cube.points.length / 3, cube.normals.length / 3, cube.edges.length / 3]).toEqual([
      8, 6, 3,
    ]);
    const octahedron = hullOf([1, 0, 0, -1, 0, 0, 0, 1, 0, 0, -1, 0, 0, 0, 1, 0, 0, -1]);
    expect([
      octahedron.points.length / 3,
      octahedron.normals.length / 3,
      octahedron.edges.length / 3,
    ]).toEqual([6, 8, 6]);
    const f = (1 + Math.sqrt(5)) / 2;
    const dodecahedron: number[] = [];
    for (const i of [-1, 1]) {
      for (const j of [-1, 1]) {
        for (const k of [-1, 1]) dodecahedron.push(i, j, k);
        dodecahedron.push(0, i / f, j * f, i / f, j * f, 0, i * f, 0, j / f);
      }
    }
    const hull = hullOf(dodecahedron);
    expect([hull.points.length / 3, hull.normals.length / 3, hull.edges.length / 3]).toEqual([
      20, 12, 15,
    ]);
  });

  it('random sets, turned, repeated, stretched: facets hold every point and meet Euler', () => {
    const random = seeded(53);
    for (let i = 0; i < 100; i++) {
      const n = 4 + Math.floor(30 * random());
      const stretch = [1, 10 ** between(random, -4, 0), 10 ** between(random, -4, 0)];
      const turn = randomTurn(random);
      const points: number[] = [];
      for (let k = 0; k < n; k++) {
        const p = point(random, 500).map((v, a) => v * stretch[a]!);
        const q = [0, 3, 6].map(
          (r) => turn[r]! * p[0]! + turn[r + 1]! * p[1]! + turn[r + 2]! * p[2]!,
        );
        points.push(...q);
        if (random() < 0.3) points.push(...q);
      }
      const hull = hullOf(points);
      expect(hull.dimension).toBe(3);
      let worst = -Infinity;
      for (let f = 0; f < hull.offsets.length; f++) {
        for (let k = 0; k < points.length; k += 3) {
          const d = [0, 1, 2].reduce(
            (sum, a) => sum + hull.normals[3 * f + a]! * points[k + a]!,
            0,
          );
          worst = Math.max(worst, d - hull.offsets[f]!);
        }
      }
      expect(worst).toBeLessThan(1e-5);
      // Points in general position: all facets are triangles, F = 2V - 4 and E = 3V - 6.
      const vertices = hull.points.length / 3;
      expect(hull.normals.length / 3).toBe(2 * vertices - 4);
      expect(hull.edges.length / 3).toBe(3 * vertices - 6);
    }
  });
});
