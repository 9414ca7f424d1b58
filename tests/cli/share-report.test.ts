/** Shares at a tie, in a row and for programs. */

import { describe, expect, it } from 'vitest';
import { gapsJson } from '../../src/cli/json/answer.js';
import { table } from '../../src/cli/report/table.js';
import { at, reading, RULED, scenario, standing, telling } from './sample.js';

/** Rows that bind with these shares, the tightest. */
function binding(least: number, most: number) {
  const range = { binding: true, share: most, shareRange: { least, most } };
  return reading('fan', 'radiator', 2, 0.25, range);
}

describe('shares that are not one number', () => {
  it('say what room given gains and room taken costs', () => {
    const said = (least: number, most: number) =>
      table([binding(least, most)], 'binds', telling())[1]!;
    expect(said(0, 0.5).text).toContain('0 to half');
    expect(said(0.2, 1).text).toContain('20% to all');
  });

  it('are told to programs as the least and the most', () => {
    const there = standing(at(25, 0, 2, 3), [binding(0, 0.5)]);
    const numbers = { scenario: scenario(), units: 'in' } as const;
    const told = gapsJson(there, [0, 0], { hours: 0, cost: 0 }, [], RULED, numbers);
    expect(told).toMatchObject({ rules: [{ share: { least: 0, most: 0.5 } }] });
  });
});
