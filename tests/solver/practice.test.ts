/**
 * The common practice of the trade, on bays of our own: each value here is 'common practice, no source'.
 */

import { describe, expect, test } from 'vitest';
import { requestFor, solve } from '../support/solve.js';
import { scenarioOf } from '../support/doc.js';
import type { BayDoc } from '../support/doc.js';

const IN = 25.4;
/** In inches, how near a margin must come to what the sizes say: the printed position's rounding. */
const DIGITS = 4;
/** Of a bay where nothing is squeezed, only the tolerance is proved. */
const WITHIN = 1 / 64;

function bay(more: Partial<BayDoc>): BayDoc {
  return {
    units: 'in',
    position: { setback: 24, offset: 0, height: 0, pitch: 0 },
    engine: {},
    chassis: {},
    rulebook: 'common practice',
    rules: [],
    ...more,
  };
}

/** Snout 26 in ahead of the rear face; the firewall is 25 in behind the fan motor at 0. */
const FAN_BAY = bay({
  position: { setback: [24, 30], offset: 0, height: 0, pitch: 0 },
  engine: {
    block: { kind: 'block', box: { x: [-20, 0], y: [-9, 9], z: [-4, 9] } },
    'water pump': {
      kind: 'water pump',
      cylinder: { axis: 'x', from: -26, to: -20, center: [0, 5], diameter: 5 },
    },
  },
  chassis: {
    'puller fan': {
      kind: 'electric fan',
      cylinder: { axis: 'x', from: -4, to: 0, center: [0, 5], diameter: 16 },
    },
    radiator: { kind: 'radiator', box: { x: [-7, -4.5], y: [-14, 14], z: [-6, 18] } },
    firewall: { kind: 'firewall', box: { x: [27.4, 28.4], y: [-25, 25], z: [-5, 25] } },
  },
  choices: {
    fan: {
      puller: {},
      pusher: {
        replace: {
          'puller fan': {
            kind: 'electric fan',
            cylinder: { axis: 'x', from: -11, to: -7.5, center: [0, 5], diameter: 16 },
          },
        },
        hours: 1,
      },
    },
  },
});

describe('a puller fan needs an inch to the pump snout, and the block an inch to the firewall', () => {
  test('a bay 0.6 in too short in all is short 0.3 at each end', () => {
    const { asItStands } = solve(scenarioOf(FAN_BAY));
    expect(asItStands).toMatchObject({ fits: 'no', best: 'proved' });
    expect(asItStands!.optimum.margin / IN).toBeCloseTo(-0.3, DIGITS);
    const tight = asItStands!.optimum.readings.filter(({ binding }) => binding);
    expect(tight.map(({ between }) => between.join(' - ')).sort()).toEqual([
      'block - firewall',
      'water pump - puller fan',
    ]);
    expect(tight.map(({ needed }) => needed / IN)).toEqual([1, 1]);
  });

  test('with the block held an inch off the firewall the fan is short the whole 0.6 in', () => {
    const held = { setback: { min: 26.4 * IN, max: 26.4 * IN } };
    const { asItStands } = solve(scenarioOf(FAN_BAY), { pins: held });
    expect(asItStands!.optimum.margin / IN).toBeCloseTo(-0.6, DIGITS);
    expect(asItStands!.optimum.readings[0]!.between).toEqual(['water pump', 'puller fan']);
  });

  test('without room, a pusher fan ahead of the radiator', () => {
    const { main, leastWork } = solve(scenarioOf(FAN_BAY));
    expect(main).toMatchObject({ fits: 'yes', options: [1], hours: 1 });
    expect(leastWork!.options).toEqual([1]);
  });
});

describe('a filter that meets the crossmember', () => {
  const doc = bay({
    position: { setback: 24, offset: [-2, 3], height: 0, pitch: 0 },
    engine: {
      block: { kind: 'block', box: { x: [-20, 0], y: [-8, 8], z: [-4, 9] } },
      'oil filter': {
        kind: 'oil filter',
        cylinder: { axis: 'z', from: -6, to: -2, center: [-17, -7.25], diameter: 3.5 },
      },
    },
    chassis: {
      'left horn': { kind: 'crossmember', box: { x: [0, 12], y: [-16, -8.4], z: [-9, 0] } },
      'right horn': { kind: 'crossmember', box: { x: [0, 12], y: [12, 16], z: [-9, 0] } },
    },
    rulebook: 'none',
    rules: [
      { between: ['engine', 'left horn'], gap: 0.5, measured: 'side-to-side', side: 'left' },
      { between: ['engine', 'right horn'], gap: 0.5, measured: 'side-to-side', side: 'right' },
    ],
    choices: {
      'oil filter': {
        'on the block': {},
        remote: { remove: ['oil filter'], hours: 1.5, cost: 90 },
      },
    },
  });

  test('keeps the engine off centre; a remote filter cures most of it, a notch the rest', () => {
    const scenario = scenarioOf(doc);
    const centred = (option: number): number => {
      const { wishes } = solve(scenario, { allowed: [[option]] });
      const wish = wishes.find(({ aim }) => aim === 'centre')!;
      return wish.standing!.margin / IN;
    };
    // Filter to horn: -9 against -8.4 with 1/2 needed; block to horn: -8 against -8.4.
    expect(centred(0)).toBeCloseTo(-1.1, DIGITS);
    expect(centred(1)).toBeCloseTo(-0.1, DIGITS);
    const { main, asItStands } = solve(scenario);
    expect(asItStands!.optimum.margin / IN).toBeGreaterThan(1.2 - WITHIN);
    expect(main.optimum.position.offset).toBeGreaterThan(0);
  });
});

describe('a steering valve beside the block', () => {
  const doc = bay({
    position: { setback: 24, offset: [-0.25, 0.25], height: 0, pitch: 0 },
    engine: {
      block: { kind: 'block', box: { x: [-20, 0], y: [-8, 8], z: [-4, 9] } },
      'left header': {
        kind: 'header',
        mirror: 'right header',
        box: { x: [-16, -2], y: [-12.5, -10], z: [-3, 6] },
      },
    },
    chassis: {
      'left rail': {
        kind: 'frame rail',
        mirror: 'right rail',
        box: { x: [-10, 50], y: [-15.5, -13.75], z: [-6, 0] },
      },
      'steering valve': {
        kind: 'steering valve',
        box: { x: [12, 18], y: [-13.5, -11.5], z: [-1, 2] },
      },
    },
    rulebook: 'none',
    rules: [{ between: ['engine', 'chassis'], gap: 0.5 }],
    choices: {
      headers: {
        'inside the rails': {},
        'outside the rails': {
          replace: {
            'left header': { kind: 'header', box: { x: [-16, -2], y: [-18, -10], z: [1.5, 6] } },
          },
          hours: 5,
          cost: 420,
        },
      },
      'steering valve': {
        high: {},
        low: { move: { 'steering valve': { z: -6.5 } }, hours: 4, cost: 60 },
      },
    },
  });

  test('left high, headers go outside the rails; lowered, they can go inside, with what the rails leave', () => {
    const scenario = scenarioOf(doc);
    const { asItStands, leastWork } = solve(scenario);
    expect(asItStands!.fits).toBe('no');
    expect(asItStands!.optimum.readings[0]!.between).toEqual(['left header', 'steering valve']);
    expect(leastWork!.options).toEqual([0, 1]);
    // Header to rail: 13.75 - 12.5 with 1/2 needed, on both sides.
    expect(leastWork!.optimum.margin / IN).toBeCloseTo(0.75, DIGITS);
    const outside = solve(scenario, { allowed: [[1], [0]], only: 'main' });
    expect(outside.main.optimum.margin).toBeGreaterThan(asItStands!.optimum.margin);
  });
});

describe('a motor plate between block and pump', () => {
  const doc = bay({
    position: { setback: [24, 30], offset: 0, height: 0, pitch: 0 },
    engine: {
      block: { kind: 'block', box: { x: [-20, 0], y: [-9, 9], z: [-4, 9] } },
      fan: {
        kind: 'mechanical fan',
        cylinder: { axis: 'x', from: -27, to: -25, center: [0, 5], diameter: 17 },
      },
    },
    chassis: {
      radiator: { kind: 'radiator', box: { x: [-7, -4.5], y: [-14, 14], z: [-6, 18] } },
      firewall: { kind: 'firewall', box: { x: [30, 31], y: [-25, 25], z: [-5, 25] } },
    },
    choices: {
      'front plate': {
        none: {},
        'motor plate': { move: { fan: { x: -3 / 8 } }, hours: 3, cost: 160 },
      },
    },
  });
  const scenario = scenarioOf(doc);

  test('pushes the fan forward by its 3/8 in, and costs that at the fan', () => {
    const held = { setback: { min: 26 * IN, max: 26 * IN } };
    const [without, with_] = [0, 1].map((option) => {
      const { main } = solve(scenario, { allowed: [[option]], pins: held, only: 'main' });
      return main.optimum.readings.find(
        ({ between }) => between[0] === 'fan' && between[1] === 'radiator',
      )!;
    });
    expect(without!.needed / IN).toBe(2);
    expect(without!.gap / IN).toBeCloseTo(26 - 27 + 4.5, 9);
    expect((without!.gap - with_!.gap) / IN).toBeCloseTo(3 / 8, 9);
  });

  test('where the engine can move back, half of it', () => {
    const [without, with_] = [0, 1].map(
      (option) => solve(scenario, { allowed: [[option]], only: 'main' }).main.optimum.margin / IN,
    );
    expect(without! - with_!).toBeCloseTo(3 / 16, DIGITS);
  });

  test('is never worth it for the room alone', () => {
    expect(solve(scenario, requestFor(scenario)).main.options).toEqual([0]);
  });
});
