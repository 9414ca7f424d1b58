/** A slide against single answers with the coordinate pinned, and against a bay whose ends are known. */

import { describe, expect, it } from 'vitest';
import { allDomains } from '../../src/model/options.js';
import type { Coordinate, Range, Scenario } from '../../src/model/scenario.js';
import { slide } from '../../src/solver/explaining/slide.js';
import type { Slide } from '../../src/solver/explaining/slide.js';
import { seeded } from '../geometry/random.js';
import { scenarioOf } from '../support/doc.js';
import { randomBay } from '../support/random-bays.js';
import { solve, toEnd, TOLERANCE } from '../support/solve.js';

const CLOSE = 25.4 / 64;

function slideOf(scenario: Scenario, along: Coordinate, steps: number, range?: Range): Slide {
  const allowed = allDomains(scenario);
  const asked = { tolerance: TOLERANCE, along, steps, allowed };
  return toEnd(slide(scenario, { ...asked, range: range ?? scenario.position[along] }));
}

describe('a slide of random bays', () => {
  it('has at every point what a search pinned there proves', () => {
    let points = 0;
    let lost = 0;
    let pitched = 0;
    for (let seed = 1; seed <= 24; seed++) {
      const scenario = scenarioOf(randomBay({ random: seeded(seed) }));
      const all = ['setback', 'offset', 'height', 'pitch'] as const;
      const along = all[seed % 4]!;
      const range = scenario.position[along];
      if (range.min === range.max) continue;
      const told = slideOf(scenario, along, 6);
      const allowed = told.options.map((option) => [option]);
      expect(told.proved).toBe(true);
      for (const { at, placement } of told.points) {
        const { main } = solve(scenario, {
          only: 'main',
          allowed,
          pins: { [along]: { min: at, max: at } },
        });
        const isThere = placement.optimum.limits.every(({ met }) => met);
        expect(isThere).toBe(main.optimum.limits.every(({ met }) => met));
        if (!isThere) {
          lost++;
          continue;
        }
        const { margin, position } = placement.optimum;
        expect(position[along]).toBeCloseTo(at, 6);
        expect(Math.abs(margin - main.optimum.margin)).toBeLessThanOrEqual(TOLERANCE + 1e-3);
        expect(margin).toBeLessThanOrEqual(told.best.placement.optimum.margin + TOLERANCE);
        points++;
      }
      if (along === 'pitch') pitched++;
    }
    expect(points).toBeGreaterThan(80);
    expect(pitched).toBeGreaterThan(1);
    expect(lost).toBeGreaterThan(0);
  });
});

describe('a slide between known ends', () => {
  // At setback s the core leaves s, the wall 30 - s, and the rails 12, whatever it is.
  const bay = scenarioOf({
    units: 'mm',
    position: { setback: [-20, 60], offset: [-5, 5], height: 0, pitch: 0 },
    engine: { block: { box: { x: [0, 200], y: [-50, 50], z: [-50, 50] } } },
    chassis: {
      core: { box: { x: [-20, -10], y: [-40, 40], z: [-100, 100] } },
      wall: { box: { x: [240, 250], y: [-40, 40], z: [-100, 100] } },
      left: { box: { x: [-500, 500], y: [-82, -72], z: [-100, 100] } },
      right: { box: { x: [-500, 500], y: [72, 82], z: [-100, 100] } },
    },
    rules: [{ between: ['engine', 'chassis'], gap: 10 }],
  });
  const told = slideOf(bay, 'setback', 17);

  it('finds them to 1/64 in', () => {
    expect(
      told.stretches.map(({ rules }) => rules.map(({ between }) => between[1]).sort()),
    ).toEqual([['core'], ['left', 'right'], ['wall']]);
    const ends = told.stretches.map(({ range }) => range.max);
    expect(Math.abs(ends[0]! - 12)).toBeLessThanOrEqual(CLOSE);
    expect(Math.abs(ends[1]! - 18)).toBeLessThanOrEqual(CLOSE);
    expect(ends[2]).toBe(60);
  });

  it('fits just so far either way', () => {
    expect(told.best.placement.optimum.margin).toBeCloseTo(12, 3);
    expect(told.fits!.min).toBeGreaterThanOrEqual(-1e-4);
    expect(told.fits!.min).toBeLessThanOrEqual(CLOSE);
    expect(told.fits!.max).toBeLessThanOrEqual(30 + 1e-4);
    expect(told.fits!.max).toBeGreaterThanOrEqual(30 - CLOSE);
  });

  it('takes the steps asked for, from end to end, and the best', () => {
    const { points, best } = slideOf(bay, 'setback', 5, { min: 0, max: 40 });
    expect(points.map(({ at }) => at)).toEqual(
      [...new Set([0, 10, 20, 30, 40, best.at])].sort((a, b) => a - b),
    );
    for (const { at, placement } of points) {
      const margin = Math.min(at, 12, 30 - at);
      expect(Math.abs(placement.optimum.margin - margin)).toBeLessThanOrEqual(TOLERANCE);
    }
  });
});
