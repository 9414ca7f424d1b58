import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import { solve } from '../support/solve.js';

/** The place at offset 0 is short by 1 3/4; a contact without a row once let its box be split for ever. */
it('a bay whose worst contact has no row yet is proved in few boxes', () => {
  const text = readFileSync('scenarios/orchard-hauler.yaml', 'utf8');
  const { scenario } = readScenario(text, 'yaml');
  const { main, effort } = solve(scenario!, {
    only: 'place',
    pins: { offset: { min: 0, max: 0 } },
    allowed: scenario!.choices.map(() => [0]),
  });
  expect(main.best).toBe('proved');
  expect(main.optimum.margin / 25.4).toBeLessThan(-1.7);
  // 151 as measured; over 30,000 before.
  expect(effort.boxes).toBeLessThan(600);
});
