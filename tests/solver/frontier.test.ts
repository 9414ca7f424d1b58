/** The trade between work and margin against every option set taken by itself. */

import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { allDomains, optionSets, workOf } from '../../src/model/options.js';
import { readScenario } from '../../src/model/read.js';
import type { Scenario } from '../../src/model/scenario.js';
import { frontier } from '../../src/solver/explaining/frontier.js';
import type { Frontier } from '../../src/solver/explaining/frontier.js';
import { compileBay } from '../../src/solver/measuring/compile.js';
import { compareWork } from '../../src/solver/measuring/work.js';
import type { Work } from '../../src/solver/measuring/work.js';
import { seeded } from '../geometry/random.js';
import { scenarioOf } from '../support/doc.js';
import type { RuleDoc } from '../support/doc.js';
import { loadHighs } from '../support/highs.js';
import type { Highs } from '../support/highs.js';
import { straightBayOf, straightProgram } from '../support/milp.js';
import { MEASURED, randomBay, SIDES } from '../support/random-bays.js';
import { solve, toEnd, TOLERANCE } from '../support/solve.js';

/** Millimetres that rounding the printed position costs. */
const PRINTED = 1e-3;

interface Known {
  readonly work: Work;
  readonly margin: number;
}

function frontierOf(scenario: Scenario, tolerance: number): Frontier {
  return toEnd(frontier(scenario, { tolerance, allowed: allDomains(scenario), pins: {} }));
}

/** Every set is beaten by a point of no more work, and every point is the best of its work. */
function expectFrontier({ points, best }: Frontier, sets: readonly Known[], tolerance: number) {
  expect(best).toBe('proved');
  const close = 2 * tolerance + PRINTED;
  for (const { work, margin } of sets) {
    const beaten = points.some(
      (point) => compareWork(point, work) <= 0 && point.optimum.margin >= margin - close,
    );
    expect(beaten, JSON.stringify({ work, margin })).toBe(true);
  }
  points.forEach((point, n) => {
    const alike = sets.filter(({ work }) => compareWork(work, point) === 0);
    const most = Math.max(...alike.map(({ margin }) => margin));
    expect(Math.abs(point.optimum.margin - most)).toBeLessThanOrEqual(close);
    const before = points[n - 1];
    if (!before) return;
    expect(compareWork(before, point)).toBeLessThan(0);
    expect(point.optimum.margin).toBeGreaterThan(before.optimum.margin);
  });
}

describe('the trade of random bays', () => {
  it('is that of all option sets', () => {
    let long = 0;
    let bays = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const scenario = scenarioOf(randomBay({ random: seeded(seed) }));
      if (scenario.choices.length === 0) continue;
      const sets = [...optionSets(scenario)].map((set) => {
        const allowed = set.map((option) => [option]);
        const { main } = solve(scenario, { only: 'main', allowed });
        return { work: workOf(scenario, set), margin: main.optimum.margin };
      });
      const found = frontierOf(scenario, TOLERANCE);
      expectFrontier(found, sets, TOLERANCE);
      bays++;
      if (found.points.length > 1) long++;
    }
    expect(bays).toBeGreaterThan(15);
    expect(long).toBeGreaterThan(4);
  });

  let highs: Highs;
  beforeAll(async () => {
    highs = await loadHighs();
  });

  it('is that of a mixed-integer program a set, where straight directions are all there is', () => {
    const exact = 1e-3;
    let long = 0;
    for (let seed = 1; seed <= 30; seed++) {
      const random = seeded(seed);
      const doc = randomBay({ random, straight: true });
      const ignored = { gap: 'ignore', measured: 'nearest', why: 'straight only' } as const;
      const rules: RuleDoc[] = [{ between: ['engine', 'chassis'], ...ignored }];
      for (const name of Object.keys(doc.engine)) {
        for (const other of Object.keys(doc.chassis)) {
          const side = SIDES[Math.floor(6 * random())]!;
          rules.push({ between: [name, other], gap: 10, measured: MEASURED[side], side });
        }
      }
      const scenario = scenarioOf({ ...doc, rules });
      if (scenario.choices.length === 0) continue;
      const sets = [...optionSets(scenario)].map((set) => {
        const bay = compileBay(scenario, { allowed: set.map((option) => [option]) });
        const { margin } = straightProgram(straightBayOf(bay, 0)).solve(highs);
        return { work: workOf(scenario, set), margin };
      });
      const found = frontierOf(scenario, exact);
      expectFrontier(found, sets, exact);
      if (found.points.length > 1) long++;
    }
    expect(long).toBeGreaterThan(3);
  });
});

describe('the trade', () => {
  it('is undecided when it is stopped, with what was found', () => {
    const text = readFileSync('scenarios/orchard-hauler.yaml', 'utf8');
    const scenario = readScenario(text, 'yaml').scenario!;
    const request = { tolerance: TOLERANCE, allowed: allDomains(scenario), pins: {} };
    const stopped = toEnd(frontier(scenario, request), () => 'asked');
    expect(stopped).toMatchObject({ best: 'undecided', stopped: 'asked' });
  });

  it('has no point where no place meets the limits', () => {
    const scenario = scenarioOf({
      units: 'mm',
      position: { setback: 0, offset: 0, height: [0, 10], pitch: 0 },
      datums: { chassis: { ground: { z: 0 } }, engine: { pad: { z: 0 } } },
      engine: { block: { box: { x: [0, 10], y: [0, 10], z: [0, 10] } } },
      chassis: { wall: { box: { x: [50, 60], y: [0, 10], z: [0, 10] } } },
      rules: [{ between: ['engine', 'chassis'], gap: 1 }],
      limits: [{ quantity: 'height above', of: 'pad', above: 'ground', min: 50 }],
    });
    expect(frontierOf(scenario, TOLERANCE)).toMatchObject({ points: [], best: 'proved' });
  });
});
