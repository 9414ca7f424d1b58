import { describe, expect, it } from 'vitest';
import { createGap, gapBetween } from '../../src/geometry/gap.js';
import { shapeOf, type Shape } from '../../src/geometry/shape.js';
import type { Vec3 } from '../../src/model/scenario.js';
import { boxShape } from './random.js';

function measure(a: Shape, b: Shape) {
  const gap = createGap();
  gapBetween(a, b, 0, 0, 0, gap);
  const round = a.disc > 0 || b.disc > 0;
  expect(gap.upper - gap.lower).toBeLessThan(round ? 3e-6 : 1e-8);
  return gap;
}

const ballAt = (center: Vec3, radius: number): Shape =>
  shapeOf({ shape: 'ball', center, diameter: 2 * radius });

/** A square plate of no thickness, `half` to a side, in the plane n . p = d, about its foot point. */
function plate(n: Vec3, d: number, half: number): Shape {
  const nn = n[0] ** 2 + n[1] ** 2 + n[2] ** 2;
  const length = Math.sqrt(nn);
  const foot = n.map((v) => (v * d) / nn);
  const seed = Math.abs(n[0]) < 0.6 * length ? [1, 0, 0] : [0, 1, 0];
  const cross = (p: readonly number[], q: readonly number[]): number[] => [
    p[1]! * q[2]! - p[2]! * q[1]!,
    p[2]! * q[0]! - p[0]! * q[2]!,
    p[0]! * q[1]! - p[1]! * q[0]!,
  ];
  const scaled = (v: number[]): number[] => v.map((x) => (x * half) / Math.hypot(...v));
  const u = scaled(cross(n, seed));
  const v = scaled(cross(n, u));
  const points = [-1, 1].flatMap((i) =>
    [-1, 1].map((j) => foot.map((x, k) => x + i * u[k]! + j * v[k]!) as unknown as Vec3),
  );
  return shapeOf({ shape: 'hull', points });
}

// Each value's source stands in its test's name.
describe('worked examples', () => {
  it('axis-aligned boxes apart by 3, 4, 12 are 13 apart (derived: Pythagoras)', () => {
    const gap = measure(boxShape([0, 2], [0, 2], [0, 2]), boxShape([5, 9], [6, 7], [14, 20]));
    expect(gap.lower).toBeCloseTo(13, 9);
    expect([gap.ax, gap.ay, gap.az]).toEqual([2, 2, 2]);
    expect([gap.bx, gap.by, gap.bz]).toEqual([5, 6, 14]);
  });

  it('balls (12,0,0) r 5 and (4,0,0) r 2: 1 apart, nearest (7,0,0) and (6,0,0) (derived)', () => {
    const a = ballAt([12, 0, 0], 5);
    const b = ballAt([4, 0, 0], 2);
    const gap = measure(a, b);
    expect(gap.lower).toBeCloseTo(1, 12);
    // The witnesses are on the cores, here the centres; the surfaces are a radius along n from them.
    expect(gap.ax - a.ball * gap.nx).toBeCloseTo(7, 12);
    expect(gap.bx + b.ball * gap.nx).toBeCloseTo(6, 12);
    expect([gap.nx, gap.ny, gap.nz]).toEqual([1, 0, 0]);
  });

  // Point-to-plane exercises as found in school texts; each re-derived as |n.p - d| / |n|.
  const planes: readonly [Vec3, Vec3, number, number][] = [
    [[0, 0, 0], [3, -4, 12], 3, 3 / 13],
    [[3, -2, 1], [2, -1, 2], -3, 13 / 3],
    [[2, 3, -5], [1, 2, -2], 9, 3],
    [[-6, 0, 0], [2, -3, 6], 2, 2],
  ];
  it.each(planes)('point %j to the plane %j . p = %d', (at, n, d, expected) => {
    // The plate is wide enough for the foot of the perpendicular to be on it.
    expect(measure(ballAt(at, 0), plate(n, d, 20)).lower).toBeCloseTo(expected, 10);
  });

  it('planes 10x+2y-2z=5 and 5x+y-z=1 are sqrt(3)/6 apart (school text, re-derived)', () => {
    const gap = measure(plate([10, 2, -2], 5, 20), plate([5, 1, -1], 1, 20));
    expect(gap.lower).toBeCloseTo(Math.sqrt(3) / 6, 10);
  });

  it('the nine-point hull and its mirror image (published example of openGJK)', () => {
    const points: Vec3[] = [
      [0, 5.5, 0],
      [2.3, 1, -2],
      [8.1, 4, 2.4],
      [4.3, 5, 2.2],
      [2.5, 1, 2.3],
      [7.1, 1, 2.4],
      [1, 1.5, 0.3],
      [3.3, 0.5, 0.3],
      [6, 1.4, 0.2],
    ];
    const mirror = points.map(([x, y, z]): Vec3 => [-x, -y, -z]);
    const gap = measure(
      shapeOf({ shape: 'hull', points }),
      shapeOf({ shape: 'hull', points: mirror }),
    );
    expect(gap.lower).toBeCloseTo(3.653649722, 9);
    const expected = [1.025173, 1.490318, 0.255463];
    [gap.ax, gap.ay, gap.az].forEach((v, k) => expect(v).toBeCloseTo(expected[k]!, 6));
    [gap.bx, gap.by, gap.bz].forEach((v, k) => expect(v).toBeCloseTo(-expected[k]!, 6));
  });

  it('a box 3 into another by its least side parts by 3 (derived)', () => {
    const gap = measure(
      boxShape([0, 50], [0, 60], [0, 70]),
      boxShape([10, 30], [57, 90], [20, 90]),
    );
    expect(gap.lower).toBeCloseTo(-3, 12);
    expect([gap.nx, gap.ny, gap.nz].map((v) => v + 0)).toEqual([0, -1, 0]);
    expect(gap.coresOverlap).toBe(true);
  });

  it('a cylinder against a box: side, cap and rim (derived)', () => {
    const cylinder = shapeOf({
      shape: 'cylinder',
      axis: 'x',
      from: 0,
      to: 100,
      center: [0, 0],
      diameter: 50,
    });
    expect(measure(cylinder, boxShape([10, 20], [-90, 90], [32, 40])).lower).toBeCloseTo(7, 6);
    expect(measure(cylinder, boxShape([109, 120], [-90, 90], [-9, 9])).lower).toBeCloseTo(9, 6);
    // Rim: 3 beyond the cap, 4 beyond the round.
    expect(measure(cylinder, boxShape([103, 120], [-90, 90], [29, 40])).lower).toBeCloseTo(5, 6);
    // A corner over the round: its distance from the axis less the radius.
    expect(measure(cylinder, boxShape([10, 20], [30, 90], [40, 90])).lower).toBeCloseTo(25, 6);
    // Into the round and into the cap.
    expect(measure(cylinder, boxShape([10, 20], [-90, 90], [20, 90])).upper).toBeCloseTo(-5, 5);
    expect(measure(cylinder, boxShape([98, 120], [-90, 90], [-90, 90])).upper).toBeCloseTo(-2, 5);
  });
});
