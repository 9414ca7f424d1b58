/** A bound must hold whatever multipliers the library gives: here they are spoilt on the way. */

import { expect, test, vi } from 'vitest';
import { createLpResult, solveLp } from '../../src/solver/bounding/lp.js';
import { Rows } from '../../src/solver/rows.js';
import { between, seeded } from '../geometry/random.js';

const spoil = vi.hoisted(() => ({ by: (): number => 1 }));

interface Tableau {
  readonly matrix: Float64Array;
  readonly width: number;
  readonly costRowIndex: number;
}

vi.mock('javascript-lp-solver', async (original) => {
  interface Library {
    readonly Model: new (precision: number) => { tableau: Tableau; solve(): unknown };
  }
  const { default: library } = await original<{ default: Library }>();
  class Spoilt extends library.Model {
    override solve(): unknown {
      const solved = super.solve();
      const { matrix, width, costRowIndex } = this.tableau;
      for (let k = 1; k < width; k++) matrix[costRowIndex * width + k]! *= spoil.by();
      return solved;
    }
  }
  return { default: { ...library, Model: Spoilt } };
});

const FREE = [true, true, true, true];

test.each([
  ['left alone', () => () => 1],
  ['all halved', () => () => 0.5],
  ['all doubled', () => () => 2],
  [
    'each by its own factor',
    (seed: number) => {
      const random = seeded(seed);
      return () => between(random, 0, 3);
    },
  ],
  [
    'some lost',
    (seed: number) => {
      const random = seeded(seed);
      return () => (random() < 0.3 ? 0 : 1);
    },
  ],
])('multipliers %s: no place in the box exceeds the bound', (name, spoiling) => {
  let tight = 0;
  for (let seed = 1; seed <= 150; seed++) {
    const random = seeded(seed);
    spoil.by = spoiling(seed);
    const rows = new Rows();
    const offset = between(random, -200, 200);
    for (let n = 3 + Math.floor(9 * random()); n > 0; n--) {
      const row = rows.add(-1, false);
      rows.values[row] = offset + between(random, -10, 20);
      for (let k = 0; k < 4; k++) rows.slopes[4 * row + k] = between(random, -15, 15);
    }
    const out = createLpResult();
    solveLp(rows, FREE, out);
    const least = (u: Float64Array): number =>
      Math.min(...[...Array(rows.count).keys()].map((row) => rows.at(row, u)));
    const reached = least(out.u);
    expect(out.bound).toBeGreaterThanOrEqual(reached - 1e-9);
    if (out.bound < reached + 1e-6) tight++;
  }
  // Spoilt alike they prove as much as before; else the bound is looser, and no more than that.
  if (/all|alone/.test(name)) expect(tight).toBe(150);
});
