import { expect, it } from 'vitest';
import { allDomains, partUnder, workOf } from '../../src/model/options.js';
import { readScenario } from '../../src/model/read.js';
import { withCutSteps } from '../../src/model/trims.js';

const { scenario } = readScenario(
  `
berth: 1
title: cuts
units: in
driver: left
origin: o
position: { setback: 0, offset: 0, height: [0, 4], pitch: 0 }
engine: { pan: { box: { x: [0, 1], y: [0, 1], z: [0, 1] } } }
chassis: { beam: { box: { x: [0, 1], y: [0, 1], z: [-3, -1] } } }
rules: [{ between: [pan, beam], gap: 1 }]
choices: { cut 1: { a: {}, b: {} } }
trims:
  - { part: beam, cut: down, up to: 1/8, hours: 2, plus: { hours: 4, per: 1 in } }
  - { part: beam, cut: up, up to: 1, hours: 1, cost: 5 }
`,
  'yaml',
);

it('cuts stand among options in quarters of their depth, on marks, each once', () => {
  const s = withCutSteps(scenario!, 'in');
  const [, shallow, deep] = s.choices;
  expect(s.choices.map(({ name }) => name)).toEqual(['cut 1', 'trim cut 1', 'cut 2']);
  expect(shallow!.options.map(({ name }) => name.replace(/ \(.*/, ''))).toEqual([
    'none',
    'beam 1/16 down',
    'beam 1/8 down',
  ]);
  expect(shallow!.options.map(({ hours }) => hours)).toEqual([0, 2.25, 2.5]);
  expect(deep!.options.map(({ cost }) => cost)).toEqual([0, 5, 5, 5, 5]);
  expect(allDomains(s).map((options) => options.length)).toEqual([2, 3, 5]);
  const cut = partUnder(s, 'beam', [0, 2, 3])!.part.solids[0]!;
  const { z } = cut as Extract<typeof cut, { shape: 'box' }>;
  expect(z.min / 25.4).toBeCloseTo(-3 + 3 / 4, 9);
  expect(z.max / 25.4).toBeCloseTo(-1 - 1 / 8, 9);
  expect(workOf(s, [0, 2, 3])).toEqual({ hours: 3.5, cost: 5 });
});
