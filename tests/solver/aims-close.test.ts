/** Aims on the bays that ship: proved, and in a number of boxes that a person can wait for. */

import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import { solve } from '../support/solve.js';

/** About three times what each takes: a split gone astray takes tens of thousands. */
const MOST_BOXES = 1800;

test.each(
  ['orchard-hauler', 'narrow-rails'].flatMap((bay) =>
    (['centre', 'low', 'back'] as const).map((aim) => [bay, aim] as const),
  ),
)('%s, as near as it goes to %s', (bay, aim) => {
  const { scenario } = readScenario(readFileSync(`scenarios/${bay}.yaml`, 'utf8'), 'auto');
  const answer = solve(scenario!, { aim });
  expect(answer.main).toMatchObject({ fits: 'yes', best: 'proved' });
  expect(answer.aim).toBe(aim);
  expect(answer.wishes.every((wish) => wish.best === 'proved')).toBe(true);
  expect(answer.effort.boxes).toBeLessThan(MOST_BOXES);
});
