/** Cases side by side against answers asked for one by one. */

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { asItStands, caseOf, optionCases } from '../../src/model/asked/cases.js';
import { readScenario } from '../../src/model/read.js';
import { compareCases } from '../../src/solver/explaining/compare.js';
import { seeded } from '../geometry/random.js';
import { scenarioOf } from '../support/doc.js';
import { randomBay } from '../support/random-bays.js';
import { solve, toEnd, TOLERANCE } from '../support/solve.js';

const request = { tolerance: TOLERANCE };

describe('cases of random bays', () => {
  it('have the margins that a search for each alone proves', () => {
    let compared = 0;
    let pinned = 0;
    for (let seed = 1; seed <= 25; seed++) {
      const scenario = scenarioOf(randomBay({ random: seeded(seed) }));
      const cases = optionCases(scenario);
      if (cases.length === 0) continue;
      const { min, max } = scenario.position.offset;
      const at = (min + max) / 2;
      const centred = { ranges: { offset: { min: at, max: at } }, options: [] };
      const all = [...cases, caseOf(scenario, 'centred', centred)];
      const { standing, cases: found } = toEnd(compareCases(scenario, all, request));
      [asItStands(scenario), ...all].forEach((one, index) => {
        const answer = [standing, ...found][index]!;
        const { main } = solve(scenario, {
          only: 'main',
          allowed: one.set.map((option) => [option]),
          pins: one.ranges,
        });
        expect(answer.name).toBe(one.name);
        expect(answer.fits).toBe(main.fits);
        expect(answer.placement!.best).toBe('proved');
        const { margin } = answer.placement!.optimum;
        expect(Math.abs(margin - main.optimum.margin)).toBeLessThanOrEqual(TOLERANCE);
        expect(margin).toBeLessThanOrEqual(main.bound + 1e-3);
        compared++;
        if (one.name !== 'centred') return;
        expect(answer.placement!.optimum.position.offset).toBeCloseTo(at, 9);
        pinned++;
      });
    }
    expect(compared).toBeGreaterThan(50);
    expect(pinned).toBeGreaterThan(10);
  });

  it('are the same in whatever order they are asked', () => {
    let asked = 0;
    for (let seed = 1; seed <= 12; seed++) {
      const scenario = scenarioOf(randomBay({ random: seeded(seed) }));
      const cases = optionCases(scenario);
      const there = toEnd(compareCases(scenario, cases, request)).cases;
      const back = toEnd(compareCases(scenario, [...cases].reverse(), request)).cases;
      expect([...back].reverse()).toEqual(there);
      asked += cases.length;
    }
    expect(asked).toBeGreaterThan(10);
  });
});

describe('a comparison', () => {
  const bay = scenarioOf({
    units: 'mm',
    position: { setback: [0, 100], offset: 0, height: 0, pitch: 0 },
    engine: {
      block: { box: { x: [0, 200], y: [-50, 50], z: [-50, 50] } },
      filter: { box: { x: [200, 230], y: [-10, 10], z: [-10, 10] } },
    },
    chassis: {
      core: { box: { x: [-20, -10], y: [-100, 100], z: [-100, 100] } },
      firewall: { box: { x: [260, 270], y: [-100, 100], z: [-100, 100] } },
    },
    rules: [{ between: ['engine', 'chassis'], gap: 10 }],
    choices: {
      filter: { stays: {}, goes: { remove: ['filter'], hours: 2, cost: 50 } },
      wall: {
        stands: {},
        back: { move: { firewall: { x: 20 } }, hours: 1, needs: { filter: 'goes' } },
      },
    },
  });

  it('gains what is known by construction', () => {
    // 270 between core and firewall; 230 long with the filter on, 200 without it; 10 needed.
    const { standing, cases } = toEnd(compareCases(bay, optionCases(bay), request));
    expect(standing.placement!.optimum.margin).toBeCloseTo(10, 3);
    expect(cases[0]!.gain).toBeCloseTo(15, 3);
    expect(cases[1]!.gain).toBeCloseTo(25, 3);
    expect(cases[1]).toMatchObject({ hours: 3, brought: [{ choice: 'filter', option: 'goes' }] });
  });

  it('weighs the margin that a case wants', () => {
    const wanting = (margin: number) => caseOf(bay, 'one', { ranges: {}, options: [], margin });
    const { cases } = toEnd(compareCases(bay, [wanting(9.9), wanting(10.5)], request));
    expect(cases.map(({ fits }) => fits)).toEqual(['yes', 'no']);
  });

  it('leaves what it did not come to undecided when it is stopped', () => {
    const scenario = readScenario(
      readFileSync('scenarios/orchard-hauler.yaml', 'utf8'),
      'yaml',
    ).scenario!;
    const cases = optionCases(scenario);
    const stopped = toEnd(compareCases(scenario, cases, request), () => 'asked');
    expect(stopped.stopped).toBe('asked');
    expect(stopped.cases.at(-1)).toMatchObject({ fits: 'undecided' });
    expect(stopped.cases.at(-1)!.placement).toBeUndefined();
  });
});
