import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { notDrawn } from '../../src/model/notdrawn.js';
import { guessedParts } from '../../src/model/options.js';
import { readScenario } from '../../src/model/read.js';
import { rulebookRules } from '../../src/model/rulebook.js';
import type { Scenario } from '../../src/model/scenario.js';
import { jsonSchema, scenarioSchema } from '../../src/model/schema.js';
import { ORCHARD } from './orchard.js';

/** 1 in = 25.4 mm exactly (NIST SP 811), with one rounding. */
const inches = (n: number) => (n * 127) / 5;
const IN = 25.4;
const DEGREE = Math.PI / 180;

function read(text: string): Scenario {
  const { scenario, problems } = readScenario(text, 'auto');
  expect(problems).toEqual([]);
  return scenario!;
}

describe('the example of the contract', () => {
  const s = read(ORCHARD);
  const part = (name: string) => s.parts.find((one) => one.name === name)!;

  it('has its lengths in millimetres and angles in radians', () => {
    expect(s.position.setback).toEqual({ min: inches(20), max: inches(32) });
    expect(s.position.pitch).toEqual({ min: 0, max: 5 * DEGREE });
    expect(s.rock).toBe(2 * DEGREE);
    expect(s.worth).toBe(3.175);
    expect(s.datums.chassis.find(({ name }) => name === 'floor')).toEqual({
      name: 'floor',
      z: inches(-24),
    });
  });

  it('has its parts in order, the mirror image after what it mirrors', () => {
    expect(s.parts.map(({ name }) => name)).toEqual([
      'block',
      'fan',
      'oil filter',
      'left header',
      'right header',
      'radiator',
      'front crossmember',
    ]);
    expect(part('left header').solids).toHaveLength(2);
    expect(part('right header')).toEqual({
      ...part('left header'),
      name: 'right header',
      mirrored: true,
    });
    expect(part('fan').solids).toEqual([
      {
        shape: 'cylinder',
        axis: 'x',
        from: inches(-30),
        to: inches(-28),
        center: [0, inches(3)],
        diameter: inches(17),
      },
    ]);
    expect(part('oil filter').comesOut!.z).toEqual({ min: inches(-4), max: 0 });
    expect(part('radiator').sweep!.x).toEqual({ min: 0, max: 12.7 });
  });

  it('has the rule book after its own rules', () => {
    expect(s.rules.slice(2)).toEqual(rulebookRules());
    expect(s.rules[0]).toEqual({
      between: [
        { level: 'part', name: 'fan' },
        { level: 'part', name: 'radiator' },
      ],
      gap: inches(2),
      measured: 'fore-aft',
      facing: 'ahead',
      comingOut: false,
      why: 'a flexing frame brings the core to the fan',
      origin: { from: 'file' },
      path: ['rules', 0],
    });
    expect(s.rules[1]).toMatchObject({ gap: 12.7, measured: 'nearest' });
  });

  it('has its limits, choices and trims', () => {
    expect(s.limits).toMatchObject([
      { quantity: { of: 'pitch' }, min: 2 * DEGREE, max: 4 * DEGREE, why: 'driveline' },
    ]);
    expect(s.choices.map(({ name, options }) => [name, options.map((one) => one.name)])).toEqual([
      ['oil filter', ['on the block', 'remote']],
      ['front plate', ['none', 'motor plate']],
    ]);
    expect(s.choices[0]!.options[1]).toMatchObject({
      remove: ['oil filter'],
      hours: 1.5,
      cost: 90,
    });
    expect(s.choices[1]!.options[1]!.move).toEqual([{ part: 'fan', by: [-9.525, 0, 0] }]);
    expect(s.trims).toEqual([
      {
        part: 'front crossmember',
        cut: 'down',
        over: { y: { min: inches(4), max: inches(10) } },
        upTo: IN,
        hours: 2,
        cost: 0,
        plus: { hours: 3, cost: 0, per: IN },
      },
    ]);
  });

  it('lists what a bay usually has and nobody drew', () => {
    const missing = notDrawn(s);
    expect(missing).toEqual(expect.arrayContaining(['starter', 'firewall', 'steering shaft']));
    for (const kind of ['block', 'radiator', 'header', 'brake booster', 'electric fan'] as const) {
      expect(missing).not.toContain(kind);
    }
  });

  it('is the same scenario as JSON', () => {
    const json = JSON.stringify(parse(ORCHARD), undefined, 2);
    for (const format of ['json', 'yaml', 'auto'] as const) {
      expect(readScenario(json, format)).toEqual({ scenario: s, problems: [] });
    }
  });

  it('is the same bay in millimetres once every number is turned into them', () => {
    const own = read(ORCHARD.replace('units: in ', 'units: mm '));
    expect(own.position.setback).toEqual({ min: 20, max: 32 });
    expect(own.trims[0]!.plus!.per).toBe(IN);
    expect(own.worth).toBe(0.125);
    expect(own.rock).toBe(s.rock);
  });
});

it('reads the study bay', () => {
  const text = readFileSync(new URL('../bays/study.json', import.meta.url), 'utf8');
  const { scenario, problems } = readScenario(text, 'json');
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  expect(scenario!.parts).toHaveLength(14 + 9);
  expect(scenario!.rules).toHaveLength(5);
  expect(scenario!.rulebook).toBe('none');
});

const SMALL = `
berth: 1
units: mm
driver: right
position: { setback: 0, offset: [-10, 10], height: 0, pitch: 0 }
engine:
  pump:
    solids:
      - { box: { x: [0, 10], y: [0, 10], z: [0, 10] }, tilt: { about: z, by: 45, at: [5, 5, 0] } }
      - { ball: { center: [0, 0, 0], diameter: 4 } }
      - { hull: { points: [[0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]] } }
    sweep: { y: [-1, 3] }
    comes out: { y: [0, 9] }
    mirror: other pump
chassis:
  hood: { kind: hood, box: { x: [0, 10], y: [-9, 9], z: [100, 110] } }
rules:
  - { between: [pump, hood], gap: 5, coming out: true }
  - { between: [engine, { kind: hood }], gap: 1, measured: up-down }
  - { between: [other pump, hood], gap: ignore, why: it bolts there }
choices:
  spacer:
    none:
    350: { move: { pump: { z: 2 } } }
    200:
      replace: { hood: { box: { x: [0, 10], y: [-9, 9], z: [105, 110] } } }
      add: { chassis: { scoop: { kind: hood, box: { x: [0, 1], y: [0, 1], z: [200, 201] } } } }
      rules: [{ between: [pump, scoop], gap: 2 }]
      limits: [{ quantity: offset, max: 5 }]
  hinge:
    old: {}
    new: { needs: { spacer: 200 }, rules out: { spacer: none } }
`.replaceAll(': 200 }', ": '200' }");

describe('a small file with the rest of the contract', () => {
  const s = read(SMALL);

  it('mirrors sweep and way out too', () => {
    const [pump, other] = s.parts;
    expect(pump!.sweep!.y).toEqual({ min: -1, max: 3 });
    expect(other!.sweep!.y).toEqual({ min: -3, max: 1 });
    expect(other!.comesOut!.y).toEqual({ min: -9, max: 0 });
    expect(other!.solids).toBe(pump!.solids);
    expect(pump!.solids[0]!.tilt).toEqual({ about: 'z', by: 45 * DEGREE, at: [5, 5, 0] });
  });

  it('keeps options in the order of the file, whatever their names', () => {
    expect(s.choices[0]!.options.map(({ name }) => name)).toEqual(['none', '350', '200']);
  });

  it('reads every effect of an option', () => {
    const [, , option] = s.choices[0]!.options;
    expect(option!.replace[0]).toMatchObject({ name: 'hood', side: 'chassis', kind: 'hood' });
    expect(option!.add[0]).toMatchObject({ name: 'scoop', side: 'chassis' });
    expect(option!.rules[0]).toMatchObject({
      origin: { from: 'option', choice: 'spacer', option: '200' },
      path: ['choices', 'spacer', '200', 'rules', 0],
    });
    expect(option!.limits[0]).toMatchObject({ quantity: { of: 'offset' }, min: -Infinity, max: 5 });
    const { needs, rulesOut } = s.choices[1]!.options[1]!;
    expect(needs).toEqual([{ choice: 'spacer', option: '200' }]);
    expect(rulesOut).toEqual([{ choice: 'spacer', option: 'none' }]);
  });

  it('has what is not given as said', () => {
    expect(s).toMatchObject({
      title: 'Untitled',
      rake: 0,
      rock: 0,
      worth: 3.175,
      rulebook: 'none',
    });
    expect(s.rules[2]).not.toHaveProperty('measured');
    expect(s.rules[0]!.comingOut).toBe(true);
  });
});

it('a word names a part before a group, a kind and a side', () => {
  const renamed = SMALL.replaceAll('hood', 'radiator').replace(
    'engine:\n',
    'engine:\n  engine: { box: { x: [0, 1], y: [0, 1], z: [0, 1] } }\n',
  );
  const { scenario } = readScenario(renamed, 'auto');
  expect(scenario!.rules[0]!.between[1]).toEqual({ level: 'part', name: 'radiator' });
  expect(scenario!.rules[1]!.between).toEqual([
    { level: 'part', name: 'engine' },
    { level: 'kind', name: 'radiator' },
  ]);
});

it('reads panels as they are written, and rails as one solid between two stations', () => {
  const s = read(
    SMALL.replace(
      'kind: hood, box: { x: [0, 10], y: [-9, 9], z: [100, 110] } }',
      `kind: hood, panel: { corners: [[0, -9, 99], [0, 9, 100], [10, 9, 110], [10, -9, 110]], thick: 2, behind: above } }
  left rail:
    kind: frame rail
    mirror: right rail
    rail:
      stations:
        - { x: 0, inside: -20, outside: -22, top: 0, bottom: -5 }
        - { x: 10, inside: -20, outside: -21, top: 1, bottom: -5 }
        - { x: 40, inside: -18, outside: -21, top: 1, bottom: -1 }`,
    ).replace('rules:', 'rules:\n  - { between: [engine, chassis], gap: 1 }'),
  );
  const solidsOf = (name: string) => s.parts.find((part) => part.name === name)!.solids;
  expect(solidsOf('hood')).toEqual([
    {
      shape: 'panel',
      corners: [
        [0, -9, 99],
        [0, 9, 100],
        [10, 9, 110],
        [10, -9, 110],
      ],
      thick: 2,
      behind: 'above',
    },
  ]);
  const middle = { x: 10, inside: -20, outside: -21, top: 1, bottom: -5 };
  expect(solidsOf('left rail')).toEqual([
    {
      shape: 'rail',
      from: { x: 0, inside: -20, outside: -22, top: 0, bottom: -5 },
      to: middle,
    },
    {
      shape: 'rail',
      from: middle,
      to: { x: 40, inside: -18, outside: -21, top: 1, bottom: -1 },
    },
  ]);
  expect(s.parts.find(({ name }) => name === 'right rail')).toMatchObject({ mirrored: true });
});

it('keeps what is guessed, in the mirror image too, and not in what replaces it', () => {
  const s = read(
    SMALL.replace(
      '    sweep: { y: [-1, 3] }',
      '    guess: true\n    sweep: { y: [-1, 3] }',
    ).replace('hood: { kind: hood,', 'hood: { kind: hood, guess: true,'),
  );
  expect(s.parts.map(({ guess }) => guess)).toEqual([true, true, true]);
  expect(guessedParts(s, [0, 0])).toEqual(['pump', 'other pump', 'hood']);
  expect(guessedParts(s, [2, 0])).toEqual(['pump', 'other pump']);
  expect(read(SMALL.replace('hood,', 'hood, guess: false,'))).toEqual(read(SMALL));
});

describe('measuring errors', () => {
  const AXLE = 'front axle: { x: 0 }';
  const RADIATOR = 'x: [-12, -9]';
  const errorsOf = (s: Scenario) =>
    s.measurements.map(({ path, written, error }) => [path.join('/'), written, error]);

  it('are kept with what they are of, and with what is taped from it', () => {
    const s = read(
      ORCHARD.replace(
        AXLE,
        'front axle: { x: 0 +- 1/8 }, cowl: { x: 30 \u00b1 1 mm behind front axle }',
      )
        .replace(RADIATOR, "x: ['12 +/- 1/4 ahead of front axle', 9 ahead of cowl]")
        .replace('diameter: 17', 'diameter: 17 +- 1/16'),
    );
    expect(errorsOf(s)).toEqual([
      ['datums/chassis/front axle/x', '0 +- 1/8', 3.175],
      ['datums/chassis/cowl/x', '30 \u00b1 1 mm behind front axle', 1],
      ['engine/fan/cylinder/diameter', '17 +- 1/16', 1.5875],
      ['chassis/radiator/box/x/0', "'12 +/- 1/4 ahead of front axle'", 6.35],
    ]);
    const taken = (name: string) =>
      s.parts.find((part) => part.name === name)!.solids.map((solid) => solid.taken);
    expect(taken('fan')).toEqual([{ diameter: [2] }]);
    expect(taken('radiator')).toEqual([{ 'x.0': [0, 3], 'x.1': [0, 1] }]);
    expect(taken('block')).toEqual([undefined]);
    expect(s.datums.chassis.find(({ name }) => name === 'cowl')).toMatchObject({
      x: inches(30),
      taken: { x: [0, 1] },
    });
  });

  it('of the file stand for every taped length without its own; a datum at 0 is exact', () => {
    const s = read(
      ORCHARD.replace('rake: 0', 'measuring error: 1/16\nrake: 0').replace(
        'diameter: 17',
        'diameter: 17 +- 0',
      ),
    );
    const paths = errorsOf(s).map(([path]) => String(path));
    expect(paths.filter((path) => path.startsWith('datums'))).toEqual([
      'datums/chassis/floor/z',
      'datums/engine/pulley face/x',
      'datums/engine/carb pad/z',
    ]);
    expect(new Set(s.measurements.map(({ error }) => error))).toEqual(new Set([1.5875]));
    expect(paths).toContain('engine/fan/cylinder/center/0');
    expect(paths).not.toContain('engine/fan/cylinder/diameter');
    // Moves, ranges, gaps and cuts are not measured.
    expect(
      paths.filter((path) => /sweep|comes out|position|rules|limits|trims|move/.test(path)),
    ).toEqual([]);
    // The middle of a tube's legs is measured once and rests in both.
    const header = s.parts.find(({ name }) => name === 'left header')!;
    expect(header.solids[0]!.taken!['to.1']).toEqual(header.solids[1]!.taken!['from.1']);
    expect(Object.keys(header.solids[1]!.taken!)).toHaveLength(7);
  });

  it('that are all 0 leave the scenario as it is without them', () => {
    const zero = read(ORCHARD.replace('rake: 0', 'measuring error: 0\nrake: 0'));
    expect(zero).toEqual(read(ORCHARD));
  });
});

it('heights above a datum, of a datum or a part', () => {
  const pitch = '  - { quantity: pitch, min: 2, max: 4, why: driveline }';
  const s = read(
    ORCHARD.replace(
      pitch,
      `  - { quantity: height above, of: carb pad, above: floor, min: 8 }
  - { quantity: height above, of: block, above: floor, max: 2 ft }`,
    ),
  );
  expect(s.limits).toMatchObject([
    {
      quantity: { of: 'height above', what: { datum: 'carb pad' }, above: 'floor' },
      min: inches(8),
    },
    { quantity: { what: { part: 'block' } }, min: -Infinity, max: inches(24) },
  ]);
});

describe('the schema', () => {
  it('accepts the good files', () => {
    expect(scenarioSchema.safeParse(parse(ORCHARD)).success).toBe(true);
  });

  it('has the keys of the contract, and says something of every one, at every depth', () => {
    const schema = jsonSchema() as { properties: object; required: string[]; $defs: object };
    expect(schema.required).toEqual(['berth', 'units', 'driver', 'position', 'engine', 'chassis']);
    expect(Object.keys(schema.properties)).toEqual(Object.keys(scenarioSchema.shape));
    let counted = 0;
    const walk = (node: unknown, path: string): void => {
      if (typeof node !== 'object' || node === null) return;
      const { properties } = node as { properties?: Record<string, { description?: string }> };
      for (const [key, property] of Object.entries(properties ?? {})) {
        expect(property.description, `${path}.${key}`).toBeTruthy();
        counted++;
      }
      for (const [key, below] of Object.entries(node)) walk(below, `${path}.${key}`);
    };
    walk(schema, '');
    expect(counted).toBeGreaterThan(80);
  });
});
