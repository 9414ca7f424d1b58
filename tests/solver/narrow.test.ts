/** What is cut off a box has no place in it that every row lets reach what is asked. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createNarrowed, narrow } from '../../src/solver/bounding/narrow.js';
import { Rows } from '../../src/solver/rows.js';
import { cases } from '../support/times.js';

const ends = [-1, 1];
const CORNERS = ends.flatMap((a) =>
  ends.flatMap((b) => ends.flatMap((c) => ends.map((d) => [a, b, c, d]))),
);
const even = (most: number) => fc.integer({ min: -1e6, max: 1e6 }).map((n) => (most * n) / 1e6);
const slope = fc.oneof({ weight: 1, arbitrary: fc.constant(0) }, { weight: 3, arbitrary: even(9) });
const row = fc.record({
  value: even(9),
  slopes: fc.tuple(slope, slope, slope, slope),
  hard: fc.boolean(),
});
const point = fc.tuple(...[0, 1, 2, 3].map(() => even(1)));

function rowsOf(all: readonly { value: number; slopes: number[]; hard: boolean }[]): Rows {
  const rows = new Rows();
  for (const { value, slopes, hard } of all) {
    const at = rows.add(0, hard);
    rows.values[at] = value;
    rows.slopes.set(slopes, 4 * at);
  }
  return rows;
}

describe('narrowing a box', () => {
  it('keeps every place where every row reaches its mark, and no end that one row rules out', () => {
    const count = { kept: 0, cut: 0, tight: 0 };
    fc.assert(
      fc.property(
        fc.array(row, { maxLength: 6 }),
        fc.array(point, { minLength: 20 }),
        (all, places) => {
          const rows = rowsOf(all);
          const [soft, hard] = [1, 0];
          const out = createNarrowed();
          narrow(rows, soft, hard, out);
          const mark = (r: number): number => (all[r]!.hard ? hard : soft);
          for (const u of [...places, ...CORNERS].map((p) => Float64Array.from(p))) {
            const useful = all.every((_, r) => rows.at(r, u) >= mark(r));
            const inside = u.every((v, k) => v >= out.low[k]! && v <= out.high[k]!);
            if (useful) {
              expect(inside).toBe(true);
              count.kept++;
            } else if (!inside) count.cut++;
          }
          if (all.every(({ hard: isHard }) => isHard)) expect(out.soft).toBe(false);
          // One row alone: each end left is one that it reaches.
          const one = createNarrowed();
          narrow(rowsOf(all.slice(0, 1)), soft, hard, one);
          const [first] = all;
          if (!first || rows.values[0]! + rows.spread(0) < mark(0)) return;
          first.slopes.forEach((steep, k) => {
            const far = first.slopes.reduce(
              (sum, s, j) => sum + (j === k ? 0 : Math.abs(s)),
              first.value,
            );
            const end = steep > 0 ? one.low[k]! : one.high[k]!;
            if (Math.abs(end) === 1 || Math.abs(steep) < 1e-3) return;
            expect(far + steep * end).toBeCloseTo(mark(0), 6);
            count.tight++;
          });
        },
      ),
      { numRuns: cases(400), seed: 19 },
    );
    expect(Math.min(count.kept, count.cut, count.tight)).toBeGreaterThan(200);
  });

  it('lets what one row cuts off tell another', () => {
    // u0 >= 0 by the first; then u1 <= 0 by the second, and u2 >= 0 by the third.
    const rows = rowsOf([
      { value: 0, slopes: [1, 0, 0, 0], hard: true },
      { value: 0, slopes: [-1, -1, 0, 0], hard: true },
      { value: 2, slopes: [0, 1, 1, 0], hard: false },
    ]);
    const out = createNarrowed();
    narrow(rows, 2, 0, out);
    const near = (is: Float64Array, should: readonly number[]): void =>
      should.forEach((v, k) => expect(is[k]).toBeCloseTo(v, 6));
    near(out.low, [0, -1, 0, -1]);
    near(out.high, [1, 0, 1, 1]);
    expect(out.soft).toBe(true);
  });

  it('cuts nothing where nothing is in hand yet, nor by a row that lies flat', () => {
    const out = createNarrowed();
    narrow(rowsOf([{ value: 1, slopes: [1, 0, 0, 0], hard: false }]), -Infinity, 0, out);
    expect([[...out.low], [...out.high], out.soft]).toEqual([
      [-1, -1, -1, -1],
      [1, 1, 1, 1],
      false,
    ]);
    narrow(rowsOf([{ value: 1, slopes: [1e-12, 0, 0, 0], hard: false }]), 1, 0, out);
    expect([[...out.low], [...out.high], out.soft]).toEqual([
      [-1, -1, -1, -1],
      [1, 1, 1, 1],
      false,
    ]);
  });
});
