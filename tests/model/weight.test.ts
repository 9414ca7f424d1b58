/** What a file says of weights, and everything that can be wrong with it. */

import { describe, expect, it } from 'vitest';
import { parseMass } from '../../src/model/text/mass.js';
import { readScenario } from '../../src/model/read.js';
import { frontShare } from '../../src/model/fitup/weight.js';

const FILE = `berth: 1
units: in
driver: left
datums: { chassis: { front axle: { x: 1 } } }
position: { setback: [20, 24], offset: 0, height: 0, pitch: [0, 4] }
engine:
  block: { box: { x: [-20, 0], y: [-10, 10], z: [-4, 8] } }
  filter: { box: { x: [-18, -14], y: [-10, -6], z: [-9, -4] } }
chassis:
  rail: { box: { x: [-20, 100], y: [-16, -14], z: [-6, 0] } }
rules: [{ between: [engine, chassis], gap: 1/2 }]
choices: { filter: { on: {}, remote: { remove: [filter] } } }
limits:
  - { quantity: front axle load, max: 1850, why: springs }
weight:
  axles: { front: 0, rear: 111 behind front axle }
  before: { front: 1780 lb, rear: 1430 }
  out:
    old engine: { weight: 640 lb, at: [6, 0, 4] }
  in:
    engine: { weight: 260 kg, at: [-11, 0, 4], side: engine }
    filter: { weight: 2, at: [-16, -8, -6], part: filter }
    battery: { weight: 40 lb, at: [96, 10, 2], side: chassis }
`;

const POUND = 0.45359237;

/** The file with one piece of it put otherwise. */
function but(good: string, bad: string): ReturnType<typeof readScenario> {
  if (!FILE.includes(good)) throw new Error(`no '${good}'`);
  return readScenario(FILE.replace(good, bad), 'yaml');
}

describe('weight', () => {
  it('is read in the units of the file unless it has its own', () => {
    const { scenario, problems } = readScenario(FILE, 'yaml');
    expect(problems).toEqual([]);
    expect(scenario?.weight).toEqual({
      axles: { front: 0, rear: 2844.8 },
      before: { front: 1780 * POUND, rear: 1430 * POUND },
      out: [{ name: 'old engine', side: 'chassis', mass: 640 * POUND, at: [152.4, 0, 101.6] }],
      in: [
        { name: 'engine', side: 'engine', mass: 260, at: [-279.4, 0, 101.6] },
        {
          name: 'filter',
          side: 'engine',
          mass: 2 * POUND,
          at: [-406.4, -203.2, expect.closeTo(-152.4, 9)],
          part: 'filter',
        },
        { name: 'battery', side: 'chassis', mass: 40 * POUND, at: [2438.4, 254, 50.8] },
      ],
    });
  });

  it('does without the rear axle and without anything out', () => {
    const rear = but(', rear: 1430', '').scenario?.weight;
    expect(rear?.before).toEqual({ front: 1780 * POUND });
    const out = but('  out:\n    old engine: { weight: 640 lb, at: [6, 0, 4] }\n', '');
    expect(out.scenario?.weight?.out).toEqual([]);
  });

  const BAD: readonly (readonly [good: string, bad: string, path: string, code: string])[] = [
    ['640 lb', '0 lb', 'weight/out/old engine/weight', 'bad number'],
    ['640 lb', '-640 lb', 'weight/out/old engine/weight', 'bad number'],
    ['640 lb', '640 in', 'weight/out/old engine/weight', 'bad number'],
    ['640 lb', 'heavy', 'weight/out/old engine/weight', 'bad number'],
    ['640 lb', '[640]', 'weight/out/old engine/weight', 'wrong type'],
    ['front: 1780 lb', 'front: 0', 'weight/before/front', 'bad number'],
    ['rear: 1430', 'rear: -1', 'weight/before/rear', 'bad number'],
    ['front: 1780 lb, ', '', 'weight/before/front', 'missing'],
    ['front: 0, rear: 111 behind front axle', 'front: 112, rear: 0', 'weight/axles', 'bad range'],
    ['front: 0, rear: 111 behind', 'front: 0, rear: -1 behind', 'weight/axles/rear', 'bad length'],
    ['front: 0, rear: 111', 'front: 112, rear: 111', 'weight/axles', 'bad range'],
    ['640 lb', '3300 lb', 'weight/out', 'bad number'],
    ['front: 1780 lb, rear: 1430', 'front: 600 lb, rear: 2600', 'weight/out', 'bad number'],
    ['at: [6, 0, 4]', 'at: [1000, 0, 4]', 'weight/out', 'bad number'],
    ['side: chassis }', '}', 'weight/in/battery/side', 'missing'],
    ['side: chassis }', 'side: frame }', 'weight/in/battery/side', 'unknown name'],
    ['part: filter }', 'part: filtre }', 'weight/in/filter/part', 'unknown name'],
    ['part: filter }', 'part: filter, side: chassis }', 'weight/in/filter/side', 'bad option'],
    ['at: [96, 10, 2]', 'at: [96 +- 1, 10, 2]', 'weight/in/battery/at/0', 'bad length'],
    ['at: [96, 10, 2]', 'at: [96, 10]', 'weight/in/battery/at', 'wrong type'],
    ['out:', 'of:', 'weight/of', 'unknown key'],
    [FILE.slice(FILE.indexOf('  in:')), '  in: {}\n', 'weight/in', 'missing'],
    [FILE.slice(FILE.indexOf('weight:')), 'weight: 1780 lb\n', 'weight', 'wrong type'],
  ];

  it.each(BAD)('says what is wrong: %s, %s', (good, bad, path, code) => {
    const { scenario, problems } = but(good, bad);
    expect(scenario).toBeUndefined();
    expect(problems.map((one) => `${one.path.join('/')}: ${one.code}`)).toEqual([
      `${path}: ${code}`,
    ]);
    expect(problems[0]!.line).toBeGreaterThan(0);
  });

  it('says every mistake at once, and the nearest part', () => {
    const bad = FILE.replace('640 lb', '0').replace('part: filter', 'part: filtre');
    const { problems } = readScenario(bad, 'yaml');
    expect(problems).toMatchObject([{ line: 19 }, { line: 22, nearest: 'filter' }]);
  });
});

describe('a limit on the front axle load', () => {
  it('is read in the units of weight', () => {
    const { scenario } = but('max: 1850', 'min: 800 kg, max: 1850');
    expect(scenario?.limits).toMatchObject([
      { quantity: { of: 'front axle load' }, min: 800, max: 1850 * POUND, why: 'springs' },
    ]);
  });

  const BAD: readonly (readonly [good: string, bad: string, path: string, code: string])[] = [
    ['max: 1850', 'max: 0', 'limits/0/max', 'bad number'],
    ['max: 1850', 'max: 1850 in', 'limits/0/max', 'bad number'],
    ['max: 1850', 'min: 1900, max: 1850', 'limits/0/min', 'bad limit'],
    ['max: 1850', 'max: 1850, above: rail', 'limits/0/above', 'bad limit'],
    ['front axle load', 'front axel load', 'limits/0/quantity', 'unknown name'],
    [FILE.slice(FILE.indexOf('weight:')), '', 'limits/0/quantity', 'missing'],
    // The weights are at fault, which is all that is said.
    ['640 lb', '0', 'weight/out/old engine/weight', 'bad number'],
  ];

  it.each(BAD)('says what is wrong: %s, %s', (good, bad, path, code) => {
    const { problems } = but(good, bad);
    expect(problems.map((one) => `${one.path.join('/')}: ${one.code}`)).toEqual([
      `${path}: ${code}`,
    ]);
  });
});

describe('a weight as written', () => {
  it('converts pounds exactly', () => {
    // NIST SP 811 (2008), appendix B.8: pound (avoirdupois) to kilogram, 4.535 923 7 E-01, exact.
    expect(parseMass('1 lb', 'kg')).toEqual({ kg: 0.45359237 });
    expect(parseMass(1, 'lb')).toEqual({ kg: 0.45359237 });
    expect(parseMass('2 1/2 lbs', 'kg')).toEqual({ kg: 2.5 * 0.45359237 });
    expect(parseMass('260 KG', 'lb')).toEqual({ kg: 260 });
    expect(parseMass('-3', 'kg')).toEqual({ kg: -3 });
  });

  it.each(['', 'lb', '1,780 lb', '5 st', '1e9 kg', '1 lb 3', '1/0 lb', 'x'.repeat(80)])(
    'is not %j',
    (text) => expect(parseMass(text, 'lb')).toHaveProperty('problem'),
  );

  it.each([NaN, Infinity])('is not %j', (n) => {
    expect(parseMass(n, 'kg')).toHaveProperty('problem');
  });
});

it('shares a load between the axles by its place between them', () => {
  const axles = { front: 100, rear: 2900 };
  expect([100, 800, 1500, 2900, -600, 3600].map((x) => frontShare(axles, x))).toEqual([
    1, 0.75, 0.5, 0, 1.25, -0.25,
  ]);
});
