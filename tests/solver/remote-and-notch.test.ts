/**
 * Common practice of the trade (no source): an engine is centred where it can be; a filter that meets
 * the crossmember goes remote, which cures most of it, and a small notch may still be needed.
 */

import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import type { Wants } from '../../src/model/asked/wants.js';
import { why } from '../../src/solver/explaining/why.js';
import type { WhyAnswer } from '../../src/solver/explaining/why.js';
import { solve, TOLERANCE } from '../support/solve.js';

const IN = 25.4;
const CENTRED = { offset: { min: 0, max: 0 } };
const { scenario } = readScenario(readFileSync('tests/bays/remote-and-notch.yaml', 'utf8'), 'yaml');

function ask(wants: Partial<Wants> = {}): WhyAnswer {
  const whole = { ranges: CENTRED, options: [], ...wants };
  const steps = why(scenario!, { wants: whole, tolerance: TOLERANCE });
  let step = steps.next();
  while (!step.done) step = steps.next('go');
  return step.value;
}

const remote = { options: [{ choice: 'oil filter', option: 'remote' }] };

it('fits beside the centre as it stands', () => {
  const { main } = solve(scenario!, { allowed: [[0]] });
  expect(main.fits).toBe('yes');
  expect(Math.abs(main.optimum.position.offset)).toBeGreaterThan(3 * IN);
});

it('will not centre: the filter is on the crossmember', () => {
  const { possible, reasons, complete } = ask();
  expect({ possible, complete }).toEqual({ possible: 'no', complete: true });
  const [first] = reasons;
  expect(first!.parts).toContain('front crossmember');
  expect(first!.rules[0]!.between).toEqual(['oil filter', 'front crossmember']);
});

it('lacks less with a remote filter: most of it is cured', () => {
  const shorts = [ask(), ask(remote)].map(({ reasons }) =>
    Math.max(...reasons.map(({ short }) => short!.most)),
  );
  expect(shorts[1]).toBeLessThan(shorts[0]! / 2);
  // Between the hood and the crossmember the sump lacks 7/32, half of it at either.
  expect(shorts[1]! / IN).toBeCloseTo(7 / 64, 2);
  const rules = ask(remote).reasons[0]!.rules.map(({ between }) => between.join(' - '));
  expect(rules).toContain('sump - front crossmember');
  expect(rules.join()).not.toContain('oil filter');
});

it('is cured by a remote filter and a notch of just what is left, and by nothing smaller', () => {
  const { remedies, remediesComplete } = ask();
  expect(remediesComplete).toBe(true);
  expect(remedies).toHaveLength(1);
  const [{ options, cuts, shallowest, placement }] = remedies as [(typeof remedies)[number]];
  expect(options).toEqual([1]);
  expect(cuts.map(({ trim, depth }) => [trim.part, trim.cut, depth / IN])).toEqual([
    ['front crossmember', 'down', 0.25],
  ]);
  expect(shallowest).toBe(true);
  expect(placement.optimum.position.offset).toBe(0);
  // 1/4 less 7/32, shared by the two rules that bind.
  expect(placement.optimum.margin / IN).toBeCloseTo(1 / 64, 4);
  const again = ask(remote);
  expect(again.remedies.map((one) => one.cuts[0]!.depth)).toEqual([0.25 * IN]);
  expect(ask({ options: [{ choice: 'oil filter', option: 'on the block' }] })).toMatchObject({
    remedies: [],
    remediesComplete: true,
  });
});
