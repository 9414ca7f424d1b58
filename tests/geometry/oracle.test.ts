import { beforeAll, describe, expect, it } from 'vitest';
import { createGap, gapBetween } from '../../src/geometry/gap.js';
import type { Vec3 } from '../../src/model/scenario.js';
import { openOracle, type Oracle } from './oracle.js';
import { direction, FLAT_FACED, randomPlaced, seeded, SORTS, type Sort } from './random.js';

let oracle: Oracle;
beforeAll(async () => {
  oracle = await openOracle();
});

const gap = createGap();

/** Every pair drawn is measured by both; the callback judges, and its caller counts. */
function pairs(
  seed: number,
  count: number,
  sorts: readonly Sort[],
  spread: number,
  judge: (with_: {
    ours: typeof gap;
    theirs: { a: ReturnType<Oracle['faceted']>; b: ReturnType<Oracle['faceted']> };
    random: () => number;
  }) => void,
): void {
  const random = seeded(seed);
  for (let i = 0; i < count; i++) {
    const a = randomPlaced(random, sorts, spread);
    const b = randomPlaced(random, sorts, spread);
    const shift: Vec3 = [20 * random() - 10, 20 * random() - 10, 20 * random() - 10];
    gapBetween(a.shape, b.shape, ...shift, gap);
    const theirs = {
      a: oracle.faceted(a.solid, a.turn, shift),
      b: oracle.faceted(b.solid, b.turn),
    };
    judge({ ours: gap, theirs, random });
    theirs.a.body.delete();
    theirs.b.body.delete();
  }
}

describe('against manifold-3d', () => {
  it('flat-faced solids apart agree to 1e-6 relative', () => {
    let apart = 0;
    pairs(11, 3000, FLAT_FACED, 150, ({ ours, theirs }) => {
      if (ours.upper < 1e-6) return;
      apart++;
      const distance = theirs.a.body.minGap(theirs.b.body, 1e4);
      expect(Math.abs(ours.lower - distance)).toBeLessThan(1e-6 * Math.max(1, distance));
      expect(Math.abs(ours.upper - distance)).toBeLessThan(1e-6 * Math.max(1, distance));
    });
    expect(apart).toBeGreaterThan(1500);
  });

  it('curved solids apart agree within the error of their facets', () => {
    let apart = 0;
    pairs(12, 200, SORTS, 200, ({ ours, theirs }) => {
      if (ours.upper < 1e-3) return;
      apart++;
      const distance = theirs.a.body.minGap(theirs.b.body, 1e4);
      const facets = theirs.a.inside + theirs.b.inside;
      // Inscribed facets can only stand farther off, by no more than they are inside.
      expect(distance).toBeGreaterThan(ours.lower - 1e-6 * Math.max(1, distance));
      expect(distance).toBeLessThan(ours.upper + facets + 1e-6 * Math.max(1, distance));
    });
    expect(apart).toBeGreaterThan(100);
  });

  it('overlap is told alike', () => {
    let overlapping = 0;
    let apart = 0;
    pairs(13, 700, SORTS, 70, ({ ours, theirs }) => {
      const facets = theirs.a.inside + theirs.b.inside;
      const volume = oracle.shared(theirs.a.body, theirs.b.body);
      if (ours.lower > 1e-3) {
        apart++;
        expect(volume).toBeLessThan(1e-9);
      } else if (ours.upper < -(facets + 1e-2)) {
        overlapping++;
        expect(volume).toBeGreaterThan(0);
      }
    });
    expect(overlapping).toBeGreaterThan(200);
    expect(apart).toBeGreaterThan(100);
  });

  it('the parting move parts flat-faced solids, and no shorter one does', () => {
    let tried = 0;
    pairs(14, 250, FLAT_FACED, 60, ({ ours, theirs, random }) => {
      if (ours.upper > -0.5) return;
      tried++;
      const { nx, ny, nz } = ours;
      const { a, b } = theirs;
      const out = (d: Vec3, by: number): number =>
        oracle.shared(b.body, a.body, [d[0] * by, d[1] * by, d[2] * by]);
      expect(out([nx, ny, nz], -ours.lower + 1e-4)).toBeLessThan(1e-6);
      expect(out([nx, ny, nz], -0.99 * ours.upper)).toBeGreaterThan(0);
      for (let k = 0; k < 16; k++) {
        expect(out(direction(random), -0.99 * ours.upper)).toBeGreaterThan(0);
      }
    });
    expect(tried).toBeGreaterThan(80);
  });

  it('the parting move parts curved solids, and none shorter by more than the facets does', () => {
    let tried = 0;
    pairs(
      15,
      100,
      ['cylinder', 'cylinder', 'tube', 'box', 'hull'],
      50,
      ({ ours, theirs, random }) => {
        const facets = theirs.a.inside + theirs.b.inside;
        const shorter = -ours.upper - facets - 0.01;
        if (shorter < 0.5) return;
        tried++;
        const { a, b } = theirs;
        const out = (d: Vec3, by: number): number =>
          oracle.shared(b.body, a.body, [d[0] * by, d[1] * by, d[2] * by]);
        const n: Vec3 = [ours.nx, ours.ny, ours.nz];
        expect(out(n, -ours.lower + 1e-4)).toBeLessThan(1e-6);
        expect(out(n, shorter)).toBeGreaterThan(0);
        for (let k = 0; k < 10; k++) expect(out(direction(random), shorter)).toBeGreaterThan(0);
      },
    );
    expect(tried).toBeGreaterThan(30);
  });
});
