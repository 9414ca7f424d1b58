import { expect, test } from 'vitest';
import { comboIndex } from '../../src/solver/measuring/combo-index.js';
import type { OptionDoc } from '../support/doc.js';
import { scenarioOf } from '../support/doc.js';
import { solve } from '../support/solve.js';

/** Every combination of options of choices of these sizes. */
function combinations(sizes: readonly number[]): number[][] {
  return sizes.reduce<number[][]>(
    (all, size) =>
      all.flatMap((head) => [...Array(size).keys()].map((option) => [...head, option])),
    [[]],
  );
}

test.each([
  { choices: [0], sizes: [66] },
  { choices: [0, 1], sizes: [2, 66] },
  { choices: [1, 3], sizes: [65, 130] },
  { choices: [0, 1, 2, 3, 4, 5, 6, 7, 8], sizes: [2, 2, 2, 2, 2, 2, 2, 2, 2] },
])('each combination of choices of $sizes options has its own index', ({ choices, sizes }) => {
  const combos = combinations(sizes).map((options) => ({ options }));
  const indexOf = comboIndex(choices, combos);
  combos.forEach(({ options }, i) => {
    const set: number[] = Array<number>(10).fill(1);
    choices.forEach((choice, c) => (set[choice] = options[c]!));
    expect(indexOf(set)).toBe(i);
  });
});

test('a combination that cannot be has no index, nor is it taken for another', () => {
  const indexOf = comboIndex([0, 1], [{ options: [0, 2] }, { options: [1, 0] }]);
  expect([indexOf([0, 2]), indexOf([1, 0])]).toEqual([0, 1]);
  for (const set of [
    [0, 0],
    [0, 3],
    [1, 2],
    [2, 0],
  ])
    expect(indexOf(set)).toBe(-1);
});

test('a choice of 66 options beside another: the best of all is found', () => {
  // Each option but the first brings the block 40 mm back, all but; only the first leaves it be.
  const seats: Record<string, OptionDoc> = {};
  for (let i = 0; i < 66; i++) {
    const move = { block: { x: i === 0 ? 0 : 40 - i * 0.001 } };
    seats[`seat ${i}`] = { move, hours: i === 64 ? 0 : 1 };
  }
  const scenario = scenarioOf({
    units: 'mm',
    position: { setback: 0, offset: [-1, 1], height: 0, pitch: 0 },
    engine: { block: { box: { x: [-100, 0], y: [-50, 50], z: [-50, 50] } } },
    chassis: { wall: { box: { x: [60, 100], y: [-50, 50], z: [-50, 50] } } },
    rules: [{ between: ['engine', 'chassis'], gap: 0 }],
    choices: { plate: { none: {}, thin: { move: { block: { x: -30 } }, hours: 1 } }, seats },
    worth: 0,
  });
  const { main } = solve(scenario, { only: 'main' });
  expect(main).toMatchObject({ options: [1, 0], best: 'proved' });
  expect(main.optimum.margin).toBeCloseTo(90, 6);
});
