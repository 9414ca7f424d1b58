/** Files whose parts turn and whose engine rocks and lifts, against the same parts stood at every angle. */

import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import { measureAt } from '../../src/solver/measuring/measure.js';
import { between, seeded } from '../geometry/random.js';
import { read } from '../support/taped.js';
import { solve } from '../support/solve.js';

type Triple = readonly [number, number, number];
type By = readonly [number, number];
interface Sample {
  readonly arm: number;
  readonly lever: number;
  readonly lift: number;
}

/** Angles, and shares of the lift, at which the motions are stood. */
const STEPS = 12;
const PITCH = 4;
const LIFT = 30;
const DEGREE = Math.PI / 180;

function bay(about: readonly string[], pivots: readonly Triple[], by: readonly By[]) {
  const file = (arm: object, lever: object, lift: object, height: number, setback: number) => ({
    berth: 1,
    units: 'mm',
    driver: 'left',
    position: { setback, offset: 0, height, pitch: PITCH },
    ...lift,
    engine: {
      lever: { box: { x: [-150, 50], y: [-20, 20], z: [-30, 10] }, ...lever },
      pan: { cylinder: { axis: 'x', from: -100, to: 100, center: [30, -60], diameter: 60 } },
    },
    chassis: {
      arm: { kind: 'steering linkage', box: { x: [-40, 40], y: [100, 300], z: [-10, 15] }, ...arm },
      hood: { kind: 'hood', ball: { center: [0, 0, 250], diameter: 80 } },
    },
    rules: [
      { between: ['engine', 'chassis'], gap: 0 },
      { between: ['lever', 'arm'], gap: 0, measured: 'side-to-side', side: 'right' },
    ],
  });
  const swing = (i: number, angles: By) => ({
    turn: { about: about[i], at: pivots[i], by: angles },
  });
  const stood = (i: number, by: number) => ({ tilt: { about: about[i], at: pivots[i], by } });
  return {
    moving: read(file(swing(0, by[0]!), swing(1, by[1]!), { lift: LIFT }, 0, 0)),
    /** Lifted along the engine's own up, which pitch leans back. */
    still: ({ arm, lever, lift }: Sample) => {
      const [up, back] = [lift * Math.cos(PITCH * DEGREE), lift * Math.sin(PITCH * DEGREE)];
      return read(file(stood(0, arm), stood(1, lever), {}, up, back));
    },
  };
}

function gaps(s: ReturnType<typeof read>): Map<string, number> {
  const { setback, offset, height, pitch } = s.position;
  const at = { setback: setback.min, offset: offset.min, height: height.min, pitch: pitch.min };
  return new Map(
    measureAt(s, [], at).readings.map((one) => [`${one.between.join()} ${one.measured}`, one.gap]),
  );
}

test('no gap told is more than any that standing the parts at an angle finds, nor much less', () => {
  let pairs = 0;
  for (let seed = 1; seed <= 4; seed++) {
    const random = seeded(seed * 7);
    const any = () => 'xyz'[Math.floor(3 * random())]!;
    const range = (): By => [
      -Math.floor(between(random, 0, 20)),
      Math.ceil(between(random, 1, 20)),
    ];
    const pivot = (): Triple => [
      between(random, -50, 50),
      between(random, 0, 150),
      between(random, -50, 50),
    ];
    const by = [range(), range()];
    const { moving, still } = bay([any(), any()], [pivot(), pivot()], by);
    const told = gaps(moving);
    const least = new Map<string, number>();
    const along = ([from, to]: By, k: number) => from + ((to - from) * k) / STEPS;
    for (let a = 0; a <= STEPS; a++) {
      for (let b = 0; b <= STEPS; b++) {
        for (const lift of [0, LIFT / 2, LIFT]) {
          const sample = { arm: along(by[0]!, a), lever: along(by[1]!, b), lift };
          for (const [pair, gap] of gaps(still(sample))) {
            // What the engine does not lift against is met where it stands.
            if (lift > 0 && pair.includes('hood')) continue;
            expect(gap, `${seed}: ${pair}`).toBeGreaterThan(told.get(pair)! - 1e-6);
            least.set(pair, Math.min(gap, least.get(pair) ?? Infinity));
          }
        }
      }
    }
    for (const [pair, gap] of told) {
      pairs++;
      // A step is 3.4 degrees at most, and nothing is farther than 400 mm from its pivot.
      expect(least.get(pair)! - gap, `${seed}: ${pair}`).toBeLessThan(2 * 400 * 1.7 * DEGREE);
    }
  }
  expect(pairs).toBe(20);
}, 120_000);

test('lift and rock at a part come to what a hand works out', () => {
  const file = (more: object, kind = 'brake booster') =>
    read({
      berth: 1,
      units: 'mm',
      driver: 'left',
      position: { setback: 0, offset: 0, height: 0, pitch: 0 },
      ...more,
      engine: {
        cover: {
          tube: {
            through: [
              [-100, 0, 300],
              [100, 0, 300],
            ],
            diameter: 200,
          },
        },
      },
      chassis: {
        above: { kind, box: { x: [-500, 500], y: [-500, 500], z: [500, 520] } },
        beside: { kind: 'heater', box: { x: [-500, 500], y: [200, 220], z: [-500, 500] } },
      },
      rules: [
        { between: ['cover', 'above'], gap: 0, measured: 'up-down' },
        { between: ['cover', 'beside'], gap: 0 },
      ],
    });
  const [up, side] = ['cover,above up-down', 'cover,beside nearest'];
  const still = gaps(file({}));
  expect([still.get(up), still.get(side)]).toEqual([100, 100]);
  expect(gaps(file({ lift: '1 in' })).get(up)).toBeCloseTo(100 - 25.4, 1);
  expect(gaps(file({ lift: '1 in' })).get(side)).toBeCloseTo(100, 1);
  expect(gaps(file({ lift: '1 in' }, 'hood')).get(up)).toBe(100);
  // The cover's farthest point is 400 from the crankshaft, its middle 300: 40 there are 30 here.
  const rocked = file({ rock: { by: 40, at: 'cover' } });
  expect(rocked.rock).toBeCloseTo(Math.asin(0.1), 9);
  expect(gaps(rocked).get(side)).toBeCloseTo(70, 2);
});

test('an option that moves a part takes its pivot along', () => {
  const arm = (x: number) => ({
    tube: {
      through: [
        [x, 0, 0],
        [x + 100, 0, 0],
      ],
      diameter: 20,
    },
    turn: { about: 'z', at: [x, 0, 0], by: [-30, 30] },
  });
  const file = (x: number, more: object) =>
    read({
      berth: 1,
      units: 'mm',
      driver: 'left',
      position: { setback: 0, offset: 0, height: 0, pitch: 0 },
      engine: { ball: { ball: { center: [60, 200, 0], diameter: 40 } } },
      chassis: { arm: arm(x) },
      rules: [{ between: ['engine', 'chassis'], gap: 0 }],
      ...more,
    });
  const at = { setback: 0, offset: 0, height: 0, pitch: 0 };
  const moved = file(0, {
    choices: { arm: { back: { move: { arm: { x: 40 } } }, 'as it is': {} } },
  });
  const margin = (s: ReturnType<typeof read>, set: number[]) => measureAt(s, set, at).margin;
  expect(margin(moved, [0])).toBeCloseTo(margin(file(40, {}), []), 6);
  expect(margin(moved, [1])).toBeCloseTo(margin(file(0, {}), []), 6);
  expect(Math.abs(margin(moved, [0]) - margin(moved, [1]))).toBeGreaterThan(1);
});

test('a mirror image turns as it is seen in the mirror', () => {
  for (const about of ['x', 'y', 'z']) {
    const s = read({
      berth: 1,
      units: 'mm',
      driver: 'left',
      position: { setback: 0, offset: 0, height: 0, pitch: 0 },
      engine: {
        right: { mirror: 'left', ball: { center: [80, 210, 60], diameter: 40 } },
      },
      chassis: {
        'right arm': {
          mirror: 'left arm',
          box: { x: [10, 110], y: [120, 150], z: [-10, 10] },
          turn: { about, at: [10, 120, 0], by: [-5, 40] },
        },
      },
      rules: [{ between: ['engine', 'chassis'], gap: 0 }],
    });
    const told = gaps(s);
    const [right, left] = [
      told.get('right,right arm nearest')!,
      told.get('left,left arm nearest')!,
    ];
    expect(left, about).toBeCloseTo(right, 1);
    const still = gaps({ ...s, parts: s.parts.map(({ turn: _, ...part }) => part) });
    expect(right, about).toBeLessThan(still.get('right,right arm nearest')! - 0.5);
  }
});

test('an axle that articulates below a lifted engine that rocks is settled in few boxes', () => {
  const text = readFileSync(new URL('../bays/grader.yaml', import.meta.url), 'utf8');
  const { scenario, problems } = readScenario(text, 'yaml');
  expect(problems).toEqual([]);
  const { main, effort } = solve(scenario!, { only: 'main' });
  expect(main.best).toBe('proved');
  // Without blame for what bends away from a row's witness it took 45,000.
  expect(effort.boxes).toBeLessThan(3000);
  const tight = main.optimum.readings.filter(({ binding }) => binding);
  expect(tight.map(({ between }) => between[1]).sort()).toEqual(['booster', 'idler arm']);
  expect(tight.every(({ gap, atRest }) => gap < atRest - 10)).toBe(true);
});
