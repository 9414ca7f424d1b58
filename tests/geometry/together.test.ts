/** What is asked of many places at once is what each of them says by itself. */

import { expect, test } from 'vitest';
import { coreContains, coreContainsAll } from '../../src/geometry/contains.js';
import { createGap, gapBetween } from '../../src/geometry/gap.js';
import { overlapsAt } from '../../src/geometry/overlap/places.js';
import { between, FLAT_FACED, randomShape, seeded, SORTS } from './random.js';

test('overlaps at several displacements are the signed gaps there; apart is told as apart', () => {
  const random = seeded(11);
  const at = new Float64Array(48);
  const found = new Float64Array(16);
  const gap = createGap();
  let overlapping = 0;
  let apart = 0;
  for (let n = 0; n < 100; n++) {
    const a = randomShape(random, FLAT_FACED, 60);
    const b = randomShape(random, FLAT_FACED, 60);
    for (let i = 0; i < 48; i++) at[i] = between(random, -80, 80);
    if (!overlapsAt(a, b, at, 16, found)) continue;
    for (let k = 0; k < 16; k++) {
      gapBetween(a, b, at[3 * k]!, at[3 * k + 1]!, at[3 * k + 2]!, gap);
      const cores = gap.upper + a.ball + b.ball;
      if (found[k]! <= 0) {
        expect(Math.abs(found[k]! - cores)).toBeLessThan(1e-7);
        overlapping++;
      } else {
        expect(found[k]).toBeLessThan(cores + 1e-7);
        apart++;
      }
    }
  }
  expect(Math.min(overlapping, apart)).toBeGreaterThan(100);
});

test('a sliding point stays in a solid exactly where it does at every corner of its slide', () => {
  const random = seeded(12);
  const seen = [0, 0];
  for (let n = 0; n < 2000; n++) {
    const shape = randomShape(random, SORTS, 60);
    const [x, y, z] = [0, 1, 2].map((k) => shape.center[k]! + between(random, -20, 20));
    const slide = Float64Array.from({ length: 12 }, () => between(random, -6, 6));
    let all = true;
    for (let corner = 0; corner < 16; corner++) {
      const p = [x!, y!, z!];
      for (let k = 0; k < 12; k++)
        p[k % 3]! += slide[k]! * (corner & (1 << Math.floor(k / 3)) ? 1 : -1);
      all &&= coreContains(shape, p[0]!, p[1]!, p[2]!, 0);
    }
    expect(coreContainsAll(shape, x!, y!, z!, slide, 0)).toBe(all);
    seen[all ? 1 : 0]!++;
  }
  expect(Math.min(...seen)).toBeGreaterThan(50);
});
