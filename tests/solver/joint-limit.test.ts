/** Joint angles as limits: rows above their slack, and places proved under them against dense search. */

import { describe, expect, test } from 'vitest';
import { drivelineChecks, isKept } from '../../src/geometry/driveline/checks.js';
import { drivelineAt } from '../../src/geometry/driveline/standing.js';
import type { Position, Scenario } from '../../src/model/scenario.js';
import { boxOf } from '../../src/solver/box.js';
import { limitSlack, readyLimit, slackOver } from '../../src/solver/measuring/limits.js';
import { LIMIT_SLACK } from '../../src/solver/decision.js';
import { measureAt } from '../../src/solver/measuring/measure.js';
import { Rows } from '../../src/solver/rows.js';
import { between, seeded } from '../geometry/random.js';
import { scenarioOf } from '../support/doc.js';
import type { BayDoc } from '../support/doc.js';
import { solve } from '../support/solve.js';

const RIDE = { at: [2300, 60, -120], up: 1 };
const BUMP = { at: [2295, 60, -20], up: 2 };

/** A block between two walls, a floor and a lid, its driveline running back to an axle off centre. */
function bayWith(angles: object, more: object = {}): Scenario {
  const doc: BayDoc & { driveline: object } = {
    units: 'mm',
    position: { setback: [0, 60], offset: [-40, 40], height: [-40, 40], pitch: [0, 6] },
    engine: { block: { box: { x: [-500, 0], y: [-250, 250], z: [-150, 250] } } },
    chassis: {
      'left wall': { box: { x: [-600, 100], y: [-420, -400], z: [-300, 300] } },
      'right wall': { box: { x: [-600, 100], y: [400, 420], z: [-300, 300] } },
      floor: { box: { x: [-600, 100], y: [-400, 400], z: [-260, -240] } },
      lid: { box: { x: [-600, 100], y: [-400, 400], z: [330, 350] } },
    },
    rules: [{ between: ['engine', 'chassis'], gap: 10 }],
    driveline: {
      output: { at: [900, 0, -10] },
      pinion: { ride: RIDE },
      'top speed': { shaft: 3000 },
      angles,
      ...more,
    },
  };
  return scenarioOf(doc);
}

describe('rows of joint limits', () => {
  test('lie above the slack all over their box, and the bound of it below', () => {
    const random = seeded(41);
    const scenario = bayWith(
      { least: 1, most: 3, within: 0.5 },
      { pinion: { ride: RIDE, bump: BUMP } },
    );
    const limits = scenario.limits.map((limit) => readyLimit(scenario, limit));
    expect(limits.length).toBe(5);
    let rowsSeen = 0;
    for (let n = 0; n < 300; n++) {
      const small = n % 2 === 0 ? 1 : 0.05;
      const half = [30, 40, 40, 0.05].map((w) => small * between(random, 0, w));
      const mid = [30, 0, 0, 0.05].map(
        (v, k) => v + between(random, -1, 1) * [20, 30, 30, 0.04][k]!,
      );
      const [lo, hi] = [mid.map((v, k) => v - half[k]!), mid.map((v, k) => v + half[k]!)];
      const box = boxOf(lo, hi);
      for (const limit of limits) {
        if (limit.kind !== 'joint') throw new Error('a joint was asked for');
        const rows = new Rows();
        limit.addRows(box, LIMIT_SLACK, rows);
        rowsSeen += rows.count;
        const { least, most } = limit.slackOver(lo, hi);
        expect(slackOver(limit, [], lo, hi)).toBe(least);
        for (let i = 0; i < 20; i++) {
          const u = Float64Array.from([0, 1, 2, 3], () => between(random, -1, 1));
          const slack = limitSlack(
            limit,
            [],
            mid.map((v, k) => v + half[k]! * u[k]!),
          );
          expect(slack).toBeGreaterThanOrEqual(least - 1e-12);
          expect(slack).toBeLessThanOrEqual(most + 1e-12);
          // Rows weigh a radian as so many millimetres, and a row is above the side of the slack it stands for.
          for (let r = 0; r < rows.count; r++)
            expect(rows.at(r, u) / 500).toBeGreaterThanOrEqual(slack - 1e-12);
        }
      }
    }
    expect(rowsSeen).toBeGreaterThan(1000);
  });
});

describe('a place under joint limits', () => {
  const DENSE = 9;
  /** The best margin of a dense grid, of positions whose driveline is kept. */
  function densest(scenario: Scenario): { best: number; kept: number } {
    const { setback, offset, height, pitch } = scenario.position;
    let [best, kept] = [-Infinity, 0];
    const at = (range: { min: number; max: number }, i: number) =>
      range.min + ((range.max - range.min) * i) / (DENSE - 1);
    for (let n = 0; n < DENSE ** 4; n++) {
      const [a, b, c, d] = [0, 1, 2, 3].map((k) => Math.floor(n / DENSE ** k) % DENSE);
      const x: Position = {
        setback: at(setback, a!),
        offset: at(offset, b!),
        height: at(height, c!),
        pitch: at(pitch, d!),
      };
      const driveline = scenario.driveline!;
      const checks = drivelineChecks(driveline, drivelineAt(driveline, x));
      if (!checks.every(isKept)) continue;
      kept++;
      // By hand: the walls, floor and lid against the turned block's corners.
      const corners = [-500, 0].flatMap((px) =>
        [-150, 250].map((pz) => x.height - px * Math.sin(x.pitch) + pz * Math.cos(x.pitch)),
      );
      const gaps = [
        400 - 250 - Math.abs(x.offset),
        Math.min(...corners) + 240,
        330 - Math.max(...corners),
      ];
      best = Math.max(best, Math.min(...gaps) - 10);
    }
    return { best, kept };
  }

  test.each<[string, object, object]>([
    ['angles at the most', { most: 2 }, {}],
    [
      'angles at the least',
      { least: 5, most: 9 },
      { pinion: { ride: { at: [2300, 60, -20], up: 1 } } },
    ],
    ['two that must agree', { most: 6, within: 0.1 }, {}],
    ['a joint of constant velocity', { most: 6, within: 2.5 }, { joints: 'constant velocity' }],
    ['one joint', { most: 1.9 }, { joints: 'one' }],
  ])('with %s: proved, kept, and beaten by no position of a grid', (_, angles, more) => {
    const scenario = bayWith(angles, more);
    const free = solve({ ...scenario, limits: [] }, { only: 'main', tolerance: 0.1 }).main;
    const { main } = solve(scenario, { only: 'main', tolerance: 0.1 });
    const { best, kept } = densest(scenario);
    expect(kept).toBeGreaterThan(0);
    expect(main.best).toBe('proved');
    // The limit takes something, or it would not be tried at all.
    expect(main.bound).toBeLessThan(free.optimum.margin);
    expect(best).toBeLessThanOrEqual(main.bound + 1e-6);
    for (const { position } of [main.optimum, main.setting]) {
      const checks = drivelineChecks(
        scenario.driveline!,
        drivelineAt(scenario.driveline!, position),
      );
      expect(checks.filter((check) => !isKept(check))).toEqual([]);
      expect(measureAt(scenario, [], position).limits.every(({ met }) => met)).toBe(true);
    }
  });

  test('where no position keeps them there is none', () => {
    const { main } = solve(bayWith({ least: 9, most: 9.5 }), { only: 'main' });
    expect(main.fits).toBe('no');
    expect(main.best).toBe('proved');
  });
});
