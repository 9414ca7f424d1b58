/**
 * Whole answers against `highs`, which is asked the same question as a mixed-integer program with
 * straight directions at one pitch. It never exceeds the truth, and meets it where straight directions
 * suffice.
 */

import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import type { Position, Scenario } from '../../src/model/scenario.js';
import { compileBay } from '../../src/solver/measuring/compile.js';
import { measureAt } from '../../src/solver/measuring/measure.js';
import { seeded } from '../geometry/random.js';
import { scenarioOf } from '../support/doc.js';
import type { RuleDoc } from '../support/doc.js';
import { loadHighs } from '../support/highs.js';
import type { Highs } from '../support/highs.js';
import { straightOf, way, WAYS } from '../support/straight-doc.js';
import type { Spans } from '../support/straight-doc.js';
import { straightBayOf, straightMargin, straightProgram } from '../support/milp.js';
import { MEASURED, randomBay, SIDES } from '../support/random-bays.js';
import { solve } from '../support/solve.js';

/** Millimetres: the tolerances of `highs` through a big constant. */
const THEIRS = 1e-5;
/** Millimetres (1e-6 in): how close two exact answers must come. */
const EXACT = 25.4e-6;
/** Millimetres that rounding a position to 1e-4 mm, or 1e-5 in, can cost. */
const PRINTED = 5e-4;
const IN = 25.4;

let highs: Highs;
beforeAll(async () => {
  highs = await loadHighs();
});

function seedsOf(runs: number, property: (seed: number) => void): void {
  fc.assert(fc.property(fc.integer({ min: 1, max: 1e9 }), property), { numRuns: runs, seed: 5 });
}

function pinnedAt(position: Position): number[] {
  return [position.setback, position.offset, position.height];
}

describe('random bays of boxes at pitch 0', () => {
  test('never under the program, and equal where the binding pairs face one another', () => {
    let equal = 0;
    let above = 0;
    seedsOf(40, (seed) => {
      const { choices: _, worth: __, ...doc } = randomBay({ random: seeded(seed), straight: true });
      const straight = straightOf(doc);
      const theirs = straightProgram(straight).solve(highs);
      const { main } = solve(scenarioOf(doc), { only: 'main', tolerance: 0.02 });
      expect(main.best).toBe('proved');
      expect(main.bound).toBeGreaterThanOrEqual(theirs.margin - THEIRS);
      expect(main.optimum.margin).toBeGreaterThanOrEqual(theirs.margin - 0.02 - THEIRS);
      // Their place, measured here, is at least as good as they say.
      const [setback, offset, height] = theirs.position;
      const there = measureAt(scenarioOf(doc), [], { setback, offset, height, pitch: 0 });
      expect(there.margin).toBeGreaterThanOrEqual(theirs.margin - THEIRS);
      if (
        straightMargin(straight, pinnedAt(main.optimum.position), []) >
        main.optimum.margin - 1e-6
      ) {
        expect(Math.abs(main.optimum.margin - theirs.margin)).toBeLessThanOrEqual(0.02 + THEIRS);
        equal++;
      } else above++;
    });
    expect(equal).toBeGreaterThan(8);
    expect(above).toBeGreaterThan(3);
  });

  test('rules along an axis alone: the same to 1e-6 in', () => {
    let judged = 0;
    seedsOf(25, (seed) => {
      const random = seeded(seed);
      const { choices: _, ...doc } = randomBay({ random, straight: true });
      const rules: RuleDoc[] = [
        {
          between: ['engine', 'chassis'],
          gap: 'ignore',
          measured: 'nearest',
          why: 'straight only',
        },
      ];
      for (const name of Object.keys(doc.engine)) {
        for (const other of Object.keys(doc.chassis)) {
          const side = SIDES[Math.floor(6 * random())]!;
          rules.push({ between: [name, other], gap: 10, measured: MEASURED[side], side });
        }
      }
      const theirs = straightProgram(straightOf({ ...doc, rules })).solve(highs);
      const { main } = solve(scenarioOf({ ...doc, rules }), { only: 'main', tolerance: EXACT });
      expect(Math.abs(main.bound - theirs.margin)).toBeLessThan(2 * EXACT);
      // The position is rounded to what is printed before it is measured.
      expect(main.optimum.margin).toBeLessThan(theirs.margin + THEIRS);
      expect(main.optimum.margin).toBeGreaterThan(theirs.margin - PRINTED);
      judged++;
    });
    expect(judged).toBe(25);
  });
});

/** `readScenario` on the study bay's text, changed first if need be. */
function study(change: (doc: Record<string, unknown>) => void = () => {}): Scenario {
  const doc = JSON.parse(readFileSync('tests/bays/study.json', 'utf8')) as Record<string, unknown>;
  change(doc);
  const { scenario, problems } = readScenario(JSON.stringify(doc), 'json');
  if (!scenario) throw new Error(problems.map(({ message }) => message).join('\n'));
  return scenario;
}

function pitchPins(degrees: number) {
  const pitch = (degrees * Math.PI) / 180;
  return { pitch: { min: pitch, max: pitch } };
}

describe('the study bay', () => {
  test.each([0, 1.5, 4])(
    'nearest rules, pinned at %d degrees: never under the program',
    (degrees) => {
      const scenario = study();
      const pins = pitchPins(degrees);
      const bay = compileBay(scenario);
      const straight = straightBayOf(bay, pins.pitch.min);
      const theirs = straightProgram(straight).solve(highs);
      const { main, bestBound } = solve(scenario, { only: 'main', pins, tolerance: 0.005 * IN });
      expect(bestBound).toBeGreaterThanOrEqual(theirs.margin - THEIRS);
      const here = straightMargin(straight, pinnedAt(main.optimum.position), main.options);
      expect(theirs.bound).toBeGreaterThanOrEqual(here - THEIRS);
      if (here > main.optimum.margin - 1e-6) {
        expect(Math.abs(theirs.margin - main.optimum.margin)).toBeLessThan(0.005 * IN + THEIRS);
      }
    },
  );

  test('every pair along its clearest axis, pinned level: the same to 1e-6 in', () => {
    const plain = study();
    const middle = { setback: 1 * IN, offset: 0, height: 0.5 * IN, pitch: 0 };
    const rules = clearestAxes(plain, middle);
    expect(rules.length).toBeGreaterThan(60);
    const scenario = study((doc) => {
      doc['rules'] = [
        { between: ['engine', 'chassis'], gap: 'ignore', measured: 'nearest', why: 'axes only' },
        ...rules,
      ];
    });
    const theirs = straightProgram(straightBayOf(compileBay(scenario), 0)).solve(highs);
    const pins = pitchPins(0);
    const { main, bestBound } = solve(scenario, { only: 'main', pins, tolerance: EXACT });
    expect(Math.abs(bestBound - theirs.margin)).toBeLessThan(2 * EXACT);
    expect(Math.abs(theirs.bound - theirs.margin)).toBeLessThan(EXACT);
    // The two may choose other options of the same margin; ours are worth it or cost less.
    expect(main.optimum.margin).toBeGreaterThan(theirs.margin - scenario.worth - PRINTED);
  });
});

/** A rule for every pair, along the axis on which they stand furthest apart at a position. */
function clearestAxes(scenario: Scenario, at: Position): RuleDoc[] {
  const boxes = (side: 'engine' | 'chassis') =>
    scenario.parts.flatMap(({ name, side: of, solids }) => {
      const [solid] = solids;
      if (of !== side || solid?.shape !== 'box') return [];
      const spans: Spans = (['x', 'y', 'z'] as const).map((k) => [solid[k].min, solid[k].max]);
      return [{ name, spans }];
    });
  return boxes('engine').flatMap((engine) =>
    boxes('chassis').map((chassis): RuleDoc => {
      const gaps = WAYS.map(([side, d]) => {
        const { constant } = way(d, engine.spans, chassis.spans);
        return { side, gap: d[0] * at.setback + d[1] * at.offset + d[2] * at.height + constant };
      });
      const { side } = gaps.reduce((a, b) => (b.gap > a.gap ? b : a));
      return { between: [engine.name, chassis.name], gap: 0.5, measured: MEASURED[side], side };
    }),
  );
}
