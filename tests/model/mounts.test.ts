/** The section `mounts` of a file: what is read, and every slip said with its place. */

import { describe, expect, it } from 'vitest';
import { readScenario } from '../../src/model/read.js';

const FILE = `berth: 1
units: in
driver: left
position: { setback: 0, offset: 0, height: 0, pitch: 0 }
engine:
  block: { kind: block, box: { x: [-20, 0], y: [-7, 7], z: [-3, 8] } }
chassis:
  left rail: { kind: frame rail, mirror: right rail, box: { x: [-30, 30], y: [-14, -12], z: [-12, -8] } }
rules:
  - { between: [engine, chassis], gap: 0 }
driveline:
  output: { at: [30, 0, 0] }
  pinion: { ride: { at: [90, 0, -2], up: 3 } }
  gears: { transmission: [2.48, 1] }
  top speed: { shaft: 3000 }
mounts:
  plate: 3/16
  gap: 1/4
  make:
    left:
      boss: { on: block, hole: 7/16, holes: [[-12, -7, 0], [-9, -7, 0], [-9, -7, 3]] }
      pad: { on: left rail, at: [-11, -13, -8], face: top }
      insulator: { height: 1/2, diameter: 2 }
      tube: { diameter: 2, wall: 1/8 }
      base plate: { size: [5, 4], holes: [[-2, 1], [2, -1]], hole: 1/2 }
      upper plate: { margin: 1 }
      gussets: { count: 3, on plate: 1, on tube: 1 1/2, first: 30 }
      mirror: right
  supports:
    rear: { at: [20, 0, -3], pad: [20, 0, -9] }
  passages:
    engine: { plug wrench: { ball: { center: [-15, -9, 0], diameter: 1 }, gap: 1/8, why: plugs } }
    chassis: { hose: { tube: { through: [[-30, -10, 0], [0, -10, 0]], diameter: 1 } } }
  supported: { weight: 780 lb, at: [-6, 0, 2] }
  loads: { torque: 400 lbf ft, cylinders: 8 }
`;

function read(change: readonly [string, string] = ['', '']) {
  const [good, bad] = change;
  expect(FILE).toContain(good);
  const at = bad.indexOf('@@');
  const before = `${FILE.slice(0, FILE.indexOf(good))}${bad.slice(0, at)}`.split('\n');
  const place = `${before.length}:${before.at(-1)!.length + 1}`;
  const text = good === '' ? FILE : FILE.replace(good, () => bad.replace('@@', ''));
  return { ...readScenario(text, 'yaml'), place };
}

describe('mounts', () => {
  it('are read, with the mirror image and what is not given', () => {
    const { scenario, problems } = read();
    expect(problems).toEqual([]);
    const { make, supports, passages, gap, loads } = scenario!.mounts!;
    const [left, right] = make;
    expect(left).toMatchObject({
      name: 'left',
      pad: { on: 'left rail', normal: [0, 0, 1] },
      base: { thick: 4.7625, hole: 12.7 },
      upper: { margin: 25.4 },
      gussets: { ends: ['base'], first: Math.PI / 6 },
    });
    // From the holes, away from the crankshaft.
    expect(left!.boss.normal.map((one) => one + 0)).toEqual([0, -1, 0]);
    expect(right).toMatchObject({
      name: 'right',
      boss: { on: 'block', normal: [0, 1, 0] },
      pad: { on: 'right rail', at: [-11 * 25.4, 13 * 25.4, -8 * 25.4] },
      // To the right on the left is to the left on the right.
      base: {
        holes: [
          [-2 * 25.4, -25.4],
          [2 * 25.4, 25.4],
        ],
      },
      gussets: { first: -Math.PI / 6 },
    });
    expect(supports.map(({ name }) => name)).toEqual(['rear']);
    expect(passages.map(({ part, gap: needed }) => [part.name, part.side, needed])).toEqual([
      ['plug wrench', 'engine', 3.175],
      ['hose', 'chassis', 0],
    ]);
    expect(gap).toBe(6.35);
    expect(loads).toMatchObject({ braking: 1, bump: 3, side: 1.33 });
    expect(loads.supported!.mass).toBeCloseTo(780 * 0.45359237, 9);
    expect(loads.torque).toMatchObject({ gear: 2.48, factor: 1.33, factorBy: 'cylinders' });
  });

  it.each([
    // 14 CFR 27.361 (aircraft): five or more cylinders 1.33, four 2, three 3.
    ['12', 1.33],
    ['5', 1.33],
    ['4', 2],
    ['3', 3],
  ])('with %s cylinders have the load factor %d', (cylinders, factor) => {
    const { scenario } = read(['cylinders: 8', `cylinders: ${cylinders}`]);
    expect(scenario!.mounts!.loads.torque!.factor).toBe(factor);
  });

  it('take a load factor of their own before that', () => {
    const { scenario } = read(['cylinders: 8', 'cylinders: 2, load factor: 1.8']);
    expect(scenario!.mounts!.loads.torque).toMatchObject({ factor: 1.8, factorBy: 'file' });
  });

  const HOLES = '[[-12, -7, 0], [-9, -7, 0], [-9, -7, 3]]';
  it.each<readonly [string, string, string, string]>([
    ['a hole twice', 'duplicate', HOLES, '[[-12, -7, 0], [-9, -7, 0], @@[-9, -7, 0]]'],
    ['one hole', 'missing', HOLES, '@@[[-12, -7, 0]]'],
    [
      'holes in one line',
      'missing',
      `{ on: block, hole: 7/16, holes: ${HOLES} }`,
      '@@{ hole: 7/16, holes: [[-12, -7, 0], [-9, -7, 0]] }',
    ],
    [
      'holes not in one face',
      'bad range',
      HOLES,
      '@@[[-12, -7, 0], [-9, -7, 0], [-9, -7, 3], [-12, -6, 3]]',
    ],
    [
      'a boss not square to its holes',
      'bad range',
      'hole: 7/16,',
      'hole: 7/16, normal: @@[0, -1, 0.5],',
    ],
    ['a boss that faces nowhere', 'bad number', 'hole: 7/16,', 'hole: 7/16, normal: @@[0, 0, 0],'],
    ['a boss of no part', 'unknown name', 'on: block', 'on: @@blokc'],
    ['a pad on the engine', 'bad option', 'on: left rail', 'on: @@block'],
    [
      'a pad on the centre',
      'bad range',
      '[-11, -13, -8], face: top',
      '[-11, 0, -8], face: @@inside',
    ],
    ['a tube with no bore', 'bad length', 'wall: 1/8', 'wall: @@1'],
    ['a hole off the plate', 'bad range', '[2, -1]]', '@@[2 1/2, -1]]'],
    ['a hole of the plate twice', 'duplicate', '[2, -1]]', '@@[-2, 1]]'],
    [
      'holes with no diameter',
      'missing',
      '{ size: [5, 4], holes: [[-2, 1], [2, -1]], hole: 1/2 }',
      '@@{ size: [5, 4], holes: [[-2, 1], [2, -1]] }',
    ],
    ['a plate of no size', 'bad length', 'size: [5, 4]', 'size: [5, @@0]'],
    ['a plate that is none', 'bad length', 'plate: 3/16', 'plate: @@0.00001'],
    ['half a gusset', 'bad number', 'count: 3', 'count: @@2.5'],
    ['a size and a margin', 'bad option', '{ margin: 1 }', '{ size: [4, 4], @@margin: 1 }'],
    ['a mount twice', 'duplicate', 'mirror: right', 'mirror: @@left'],
    ['a support called as a mount', 'duplicate', '    rear: {', '    @@left: {'],
    [
      'a passage with no solid',
      'missing',
      '{ ball: { center: [-15, -9, 0], diameter: 1 }, gap',
      '@@{ gap',
    ],
    ['a passage with a gap below 0', 'bad length', 'gap: 1/8', 'gap: @@-1/8'],
    ['two passages of a name', 'duplicate', 'chassis: { hose:', 'chassis: { @@plug wrench:'],
    ['a weight in stone', 'bad number', 'weight: 780 lb', 'weight: @@56 stone'],
    ['a torque of nothing', 'bad number', 'torque: 400 lbf ft', 'torque: @@0'],
    ['no cylinders', 'missing', '400 lbf ft, cylinders: 8', '@@400 lbf ft'],
    ['too few cylinders', 'missing', '400 lbf ft, cylinders: 8', '@@400 lbf ft, cylinders: 2'],
    ['half a cylinder', 'bad number', 'cylinders: 8', 'cylinders: @@7.5'],
    ['no gear', 'missing', '{ torque: 400', '{ torque: @@400'],
    ['a push backwards', 'bad number', 'cylinders: 8', 'cylinders: 8, side: @@-1'],
    ['a misspelt key', 'unknown key', 'insulator:', '@@insulatr:'],
    [
      'no mount',
      'missing',
      FILE.slice(FILE.indexOf('  make:'), FILE.indexOf('  supports:')),
      '  make: @@{}\n',
    ],
  ])('say %s', (title, code, good, bad) => {
    const more: readonly [string, string] =
      title === 'no gear'
        ? [
            FILE.slice(FILE.indexOf('driveline:')),
            FILE.slice(FILE.indexOf('mounts:')).replace(good, bad),
          ]
        : [good, bad];
    const { problems, scenario, place } = read(more);
    expect(scenario).toBeUndefined();
    expect(problems.map((one) => [one.code, `${one.line}:${one.column}`])).toEqual([[code, place]]);
  });

  it('say every slip at once', () => {
    const text = FILE.replace('wall: 1/8', 'wall: 2')
      .replace('count: 3', 'count: 0')
      .replace('780 lb', 'heavy');
    const { problems } = readScenario(text, 'yaml');
    expect(problems.map(({ path }) => path.at(-1))).toEqual(['wall', 'count', 'weight']);
  });

  it('change nothing of where the engine goes', () => {
    const without = readScenario(FILE.slice(0, FILE.indexOf('mounts:')), 'yaml').scenario!;
    const { mounts, ...rest } = read().scenario!;
    expect(mounts).toBeDefined();
    expect(rest).toEqual(without);
  });
});
