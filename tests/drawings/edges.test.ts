import { beforeAll, describe, expect, it } from 'vitest';
import Module from 'manifold-3d';
import type { ManifoldToplevel } from 'manifold-3d';
import { outerEdges } from '../../src/drawings/edges.js';
import { outlineOf } from '../../src/drawings/outline.js';
import type { Outline } from '../../src/drawings/outline.js';
import { viewOf } from '../../src/drawings/view.js';
import { randomShape, seeded, SORTS } from '../geometry/random.js';

/** The area that edges run round with it on their left, by Green's theorem. */
function areaIn(runs: readonly (readonly (readonly [number, number])[])[]): number {
  let sum = 0;
  for (const run of runs) {
    for (let i = 1; i < run.length; i++) {
      const [a, b] = [run[i - 1]!, run[i]!];
      sum += (a[0] * b[1] - b[0] * a[1]) / 2;
    }
  }
  return sum;
}

describe('outer edges', () => {
  let wasm: ManifoldToplevel;
  beforeAll(async () => {
    wasm = await Module();
    wasm.setup();
  });
  const unionArea = (outlines: readonly Outline[]): number => {
    const all = outlines.map((outline) =>
      wasm.CrossSection.ofPolygons([outline.map(([u, v]): [number, number] => [u, v])]),
    );
    return wasm.CrossSection.union(all).area();
  };

  it('run round what random outlines cover together, as a solid modeller unites them', () => {
    const random = seeded(4001);
    let fewer = 0;
    for (let n = 0; n < 150; n++) {
      const outlines = Array.from({ length: 2 + (n % 5) }, () =>
        outlineOf(randomShape(random, SORTS, 90), viewOf('top')),
      );
      const edges = areaIn(outerEdges(outlines));
      const united = unionArea(outlines);
      expect(Math.abs(edges - united)).toBeLessThan(1e-4 * united + 0.01);
      const each = outlines.reduce((sum, outline) => sum + unionArea([outline]), 0);
      if (united < each - 1) fewer++;
    }
    expect(fewer).toBeGreaterThan(75);
  });

  it('draw the seam of boxes side by side no more than once, and what two share once', () => {
    const box = (u: number, v: number, w: number, h: number): Outline => [
      [u, v],
      [u + w, v],
      [u + w, v + h],
      [u, v + h],
    ];
    const beside = outerEdges([box(0, 0, 10, 10), box(10, 0, 10, 10)]);
    const length = beside.reduce(
      (sum, run) =>
        sum +
        run.slice(1).reduce((s, p, i) => s + Math.hypot(p[0] - run[i]![0], p[1] - run[i]![1]), 0),
      0,
    );
    expect(length).toBeCloseTo(70, 4);
    const twice = outerEdges([box(0, 0, 10, 10), box(0, 0, 10, 10)]);
    expect(twice.map((run) => run.length)).toEqual([5]);
  });
});
