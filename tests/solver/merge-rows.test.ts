import fc from 'fast-check';
import { expect, test } from 'vitest';
import { rowAbove } from '../../src/solver/bounding/merge-rows.js';
import { Rows } from '../../src/solver/rows.js';

const number = fc.double({ min: -100, max: 100, noNaN: true });
const row = fc.tuple(number, fc.tuple(number, number, number, number));
const corners = [...Array(16).keys()].map((n) =>
  Float64Array.from([1, 2, 4, 8], (bit) => (n & bit ? 1 : -1)),
);

test('a merged row lies above each of its rows, and touches one at some corner', () => {
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 5 }), (list) => {
      const rows = new Rows();
      const ids = list.map(([value, slopes]) => {
        const id = rows.add(0, false);
        rows.values[id] = value;
        rows.slopes.set(slopes, 4 * id);
        return id;
      });
      const merged = rowAbove(rows, ids);
      const over = (id: number, u: Float64Array): number => rows.at(id, u) - rows.at(merged, u);
      const most = Math.max(...ids.flatMap((id) => corners.map((u) => over(id, u))));
      // Affine functions over a box differ most at a corner, so corners decide.
      expect(most).toBeLessThan(1e-9);
      expect(most).toBeGreaterThan(-1e-9);
    }),
    { numRuns: 2000 },
  );
});
