/** Panels and rails: sizes that can be worked out by hand, and volumes by an independent modeller. */

import { beforeAll, describe, expect, it } from 'vitest';
import { axisRotation } from '../../src/geometry/rotation.js';
import { createGap, gapBetween } from '../../src/geometry/gap.js';
import { extent } from '../../src/geometry/reach.js';
import { shapeOf } from '../../src/geometry/shape.js';
import type { Solid, Vec3 } from '../../src/model/scenario.js';
import { openOracle, type Oracle } from './oracle.js';
import { seeded, solid } from './random.js';

let oracle: Oracle;
beforeAll(async () => {
  oracle = await openOracle();
});

const UPRIGHT = axisRotation(0, 0, 1, 0, new Float64Array(9));

function gapOf(a: Solid, b: Solid, mirrored = false): number {
  const gap = createGap();
  gapBetween(shapeOf(a), shapeOf(b, { mirrored }), 0, 0, 0, gap);
  expect(gap.upper - gap.lower).toBeLessThan(1e-6);
  return gap.lower;
}

const ball = (center: Vec3, diameter = 2): Solid => ({ shape: 'ball', center, diameter });

/** A firewall that leans back by 3 in 5: its face through x = 30, z = 0, rising 4 for every 3 back. */
const FIREWALL: Extract<Solid, { shape: 'panel' }> = {
  shape: 'panel',
  corners: [
    [30, -20, 0],
    [30, 20, 0],
    [60, 20, 40],
    [60, -20, 40],
  ],
  thick: 2,
};

describe('a panel', () => {
  // The face's plane is 4 x - 3 z = 120, its normal 5 long; the ball has a radius of 1.
  it.each([
    ['half to either side', undefined, 1],
    ['all behind', 'behind', 0],
    ['all below, which is the same side', 'below', 0],
    ['all ahead', 'ahead', 2],
  ] as const)('has its metal %s', (_, behind, ahead) => {
    const panel: Solid = { ...FIREWALL, ...(behind === undefined ? {} : { behind }) };
    expect(gapOf(ball([26, 0, 28]), panel)).toBeCloseTo(distance(26, 28) - 1 - ahead, 9);
    expect(gapOf(ball([22, 0, 26]), panel)).toBeCloseTo(distance(22, 26) - 1 - ahead, 9);
  });

  it('is the same whichever way round its corners are given, and as wide mirrored', () => {
    for (const behind of [undefined, 'behind', 'above'] as const) {
      const one: Solid = { ...FIREWALL, ...(behind === undefined ? {} : { behind }) };
      const other: Solid = { ...one, corners: [...FIREWALL.corners].reverse() };
      const at = ball([20, 3, 20]);
      expect(gapOf(at, other)).toBeCloseTo(gapOf(at, one), 9);
      expect(gapOf(at, one, true)).toBeCloseTo(gapOf(ball([20, -3, 20]), one), 9);
    }
  });

  it('holds every corner of a warped one, and its copy through the thickness', () => {
    const warped: Solid = {
      ...FIREWALL,
      corners: FIREWALL.corners.map(([x, y, z], i): Vec3 => [x + (i % 2), y, z]),
    };
    const shape = shapeOf(warped);
    for (const [x, y, z] of warped.corners) {
      expect(gapOf(ball([x, y, z], 1e-6), warped)).toBeLessThan(0);
      expect(extent(shape, x, y, z)).toBeGreaterThan(x * x + y * y + z * z);
    }
  });

  it('flat, has the volume of its area times its thickness', () => {
    const { body } = oracle.faceted(FIREWALL, UPRIGHT);
    expect(body.volume()).toBeCloseTo(40 * 50 * 2, 3);
    body.delete();
  });
});

/** How far (x, z) is from the plane of the firewall's touched face. */
function distance(x: number, z: number): number {
  return Math.abs(4 * (x - 30) - 3 * z) / 5;
}

describe('a rail', () => {
  const RAIL: Solid = {
    shape: 'rail',
    from: { x: 0, inside: 16, outside: 18, top: 0, bottom: -6 },
    to: { x: 40, inside: 13, outside: 16, top: 2, bottom: -2 },
  };

  it('tapers between its stations: gaps by hand to its inner face, its top and its mirror image', () => {
    // The inner face is 3 x + 40 y = 640, 3 a foot in 40; the top is z = x / 20.
    const inner = Math.hypot(3, 40);
    expect(gapOf(ball([20, 5, -1]), RAIL)).toBeCloseTo((640 - 60 - 200) / inner - 1, 9);
    expect(gapOf(ball([20, -5, -1]), RAIL, true)).toBeCloseTo((640 - 60 - 200) / inner - 1, 9);
    expect(gapOf(ball([20, 16, 11]), RAIL)).toBeCloseTo((220 - 20) / Math.hypot(20, 1) - 1, 9);
  });

  it('has the volume of a prismatoid: (first + 4 middle + last) length / 6', () => {
    const { body } = oracle.faceted(RAIL, UPRIGHT);
    expect(body.volume()).toBeCloseTo(((2 * 6 + 4 * 2.5 * 5 + 3 * 4) * 40) / 6, 3);
    body.delete();
  });

  it('has eight corners, six faces, and keeps them where only one size shrinks', () => {
    for (const to of [{ top: -5 }, { bottom: -1 }, { inside: 17.5 }, { outside: 16.1 }]) {
      const shape = shapeOf({ ...RAIL, to: { ...RAIL.from, x: 40, ...to } });
      expect([shape.count, shape.normals.length / 3]).toEqual([8, 6]);
    }
  });
});

it('shapes hold what an independent hull holds, as large each way', () => {
  const random = seeded(61);
  const volumes = { panel: 0, rail: 0 };
  for (let i = 0; i < 200; i++) {
    const sort = i % 2 === 0 ? 'panel' : 'rail';
    const made = solid(random, sort, 50);
    const { body } = oracle.faceted(made, UPRIGHT);
    const box = body.boundingBox();
    const shape = shapeOf(made);
    for (const axis of [0, 1, 2] as const) {
      const along = [0, 0, 0];
      along[axis] = 1;
      const [x, y, z] = along as [number, number, number];
      // The modeller keeps single precision.
      expect(extent(shape, x, y, z)).toBeCloseTo(box.max[axis], 3);
      expect(-extent(shape, -x, -y, -z)).toBeCloseTo(box.min[axis], 3);
    }
    volumes[sort] += body.volume();
    body.delete();
  }
  expect(Math.min(volumes.panel, volumes.rail)).toBeGreaterThan(1e5);
});
