import { beforeAll, describe, expect, it } from 'vitest';
import { boundsOf, CURVE, outlineOf } from '../../src/drawings/outline.js';
import type { Outline } from '../../src/drawings/outline.js';
import { depthOf, onPaper, VIEWS, viewOf } from '../../src/drawings/view.js';
import type { ViewName } from '../../src/drawings/view.js';
import { shapeOf } from '../../src/geometry/shape.js';
import { openOracle } from '../geometry/oracle.js';
import type { Oracle } from '../geometry/oracle.js';
import { randomPlaced, seeded, SORTS } from '../geometry/random.js';

/** Where each view's paper has the vehicle's axes, written out by hand: rows u, v, depth. */
const PAPER: Readonly<Record<ViewName, readonly number[]>> = {
  side: [1, 0, 0, 0, 0, 1, 0, -1, 0],
  top: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  front: [0, -1, 0, 0, 0, 1, -1, 0, 0],
};

function product(a: readonly number[], b: Float64Array): Float64Array {
  return Float64Array.from({ length: 9 }, (_, i) => {
    const [r, c] = [3 * Math.floor(i / 3), i % 3];
    return a[r]! * b[c]! + a[r + 1]! * b[c + 3]! + a[r + 2]! * b[c + 6]!;
  });
}

function reach(points: Outline | readonly (readonly number[])[], angle: number): number {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return Math.max(...points.map(([u, v]) => u * cos + v * sin));
}

describe('views', () => {
  it.each(VIEWS)('%s is seen square on, and not mirrored', (name) => {
    const { u, v, depth } = viewOf(name);
    expect([...u, ...v, ...depth]).toEqual(PAPER[name]);
    const cross = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
    cross.forEach((value, i) => expect(value).toBeCloseTo(depth[i]!, 15));
  });

  it('have the front of the vehicle to the left, up upwards, and from ahead its right on the left', () => {
    const front = [-100, 0, 0];
    expect(onPaper(viewOf('side'), front)[0]).toBeLessThan(0);
    expect(onPaper(viewOf('top'), front)[0]).toBeLessThan(0);
    expect(onPaper(viewOf('side'), [0, 0, 5])[1]).toBe(5);
    expect(onPaper(viewOf('front'), [0, 7, 5])).toEqual([-7, 5]);
    expect(depthOf(viewOf('front'), front)).toBe(100);
    expect(depthOf(viewOf('side'), [0, -9, 0])).toBe(9);
  });
});

describe('outlines of solids', () => {
  let oracle: Oracle;
  beforeAll(async () => {
    oracle = await openOracle();
  });

  it.each(SORTS)('%s: as a solid modeller projects it, all the way round', (sort) => {
    const random = seeded(2300 + SORTS.indexOf(sort));
    for (let n = 0; n < 12; n++) {
      const { solid, turn, shape } = randomPlaced(random, [sort], 120);
      for (const name of VIEWS) {
        const outline = outlineOf(shape, viewOf(name));
        const { body, inside } = oracle.faceted(solid, product(PAPER[name], turn));
        const shadow = body.project();
        const polygon = shadow.toPolygons().flat();
        for (let k = 0; k < 72; k++) {
          const angle = (2 * Math.PI * (k + 0.3)) / 72;
          const [ours, theirs] = [reach(outline, angle), reach(polygon, angle)];
          expect(ours).toBeGreaterThan(theirs - CURVE - 1e-4);
          expect(ours).toBeLessThan(theirs + inside + 1e-4);
        }
        body.delete();
        shadow.delete();
      }
    }
  });

  it('turn left at every corner, and no corner comes twice', () => {
    const random = seeded(77);
    for (let n = 0; n < 200; n++) {
      const { shape } = randomPlaced(random, SORTS, 120);
      const outline = outlineOf(shape, viewOf(VIEWS[n % 3]!));
      expect(outline.length).toBeGreaterThan(2);
      outline.forEach((point, i) => {
        const [before, after] = [outline.at(i - 1)!, outline[(i + 1) % outline.length]!];
        const cross =
          (point[0] - before[0]) * (after[1] - point[1]) -
          (point[1] - before[1]) * (after[0] - point[0]);
        expect(cross).toBeGreaterThan(0);
      });
    }
  });

  it('know a cylinder along the line of sight as a circle, and across it as a box', () => {
    const shape = shapeOf({
      shape: 'cylinder',
      axis: 'x',
      from: -30,
      to: 50,
      center: [10, 20],
      diameter: 60,
    });
    const circle = outlineOf(shape, viewOf('front'));
    for (const [u, v] of circle) expect(Math.hypot(u + 10, v - 20)).toBeCloseTo(30, 9);
    const { low, high } = boundsOf([outlineOf(shape, viewOf('side'))]);
    [...low, ...high].forEach((v, i) => expect(v).toBeCloseTo([-30, -10, 50, 50][i]!, 9));
    expect(outlineOf(shape, viewOf('side'))).toHaveLength(4);
    // A tube seen along its length: two centres in one place.
    const tube = shapeOf({ shape: 'tube', from: [0, 3, 4], to: [90, 3, 4], diameter: 8 });
    for (const [u, v] of outlineOf(tube, viewOf('front'))) {
      expect(Math.hypot(u + 3, v - 4)).toBeCloseTo(4, 9);
    }
  });
});
