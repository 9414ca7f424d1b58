import { expect, it } from 'vitest';
import { parseWants } from '../../src/model/asked/wants.js';
import { readScenario } from '../../src/model/read.js';

const { scenario } = readScenario(
  `
berth: 1
title: wants
units: in
driver: left
origin: o
datums: { chassis: { rail top: { z: 2 } }, engine: {} }
position: { setback: [0, 30], offset: [-2, 2], height: [0, 4], pitch: 3 }
engine: { block: { box: { x: [0, 1], y: [0, 1], z: [0, 1] } } }
chassis: { wall: { box: { x: [50, 51], y: [0, 1], z: [0, 1] } } }
rules: [{ between: [block, wall], gap: 1 }]
choices: { oil filter: { on: {}, remote: {} } }
`,
  'yaml',
);
const wants = (...texts: string[]) => parseWants(texts, 'in', scenario!);

it('reads coordinates, places, a margin and options together', () => {
  const { wants: read, problems } = wants('offset=0; setback>=26', 'height<=1/2 above rail top;');
  expect(problems).toEqual([]);
  expect(read.ranges).toEqual({
    offset: { min: 0, max: 0 },
    setback: { min: 26 * 25.4, max: Infinity },
    height: { min: -Infinity, max: 2.5 * 25.4 },
  });
  expect(wants('margin>=1/4;oil filter = remote').wants).toEqual({
    ranges: {},
    options: [{ choice: 'oil filter', option: 'remote' }],
    margin: 6.35,
  });
  expect(wants('setback>=2;setback<=3').wants.ranges.setback).toEqual({ min: 50.8, max: 76.2 });
});

it.each([
  ['', 'bad wish', 'no wish'],
  ['centred', 'bad wish', 'is not a wish'],
  ['ofset=0', 'unknown name', 'neither a coordinate nor a choice'],
  ['offset=x', 'bad wish', 'offset:'],
  ['margin=1', 'bad wish', 'from below'],
  ['margin>=wide', 'bad wish', 'margin:'],
  ['oil filter>=remote', 'bad wish', "takes '='"],
  ['setback>=3;setback<=2', 'excluded', 'both wishes'],
  ['height=1 above rail tp', 'unknown name', 'datum'],
])('%j is a mistake', (text, code, said) => {
  const { problems } = wants(text);
  expect(problems).toHaveLength(1);
  expect(problems[0]!.code).toBe(code);
  expect(problems[0]!.message).toContain(said);
});

it('names the nearest known name', () => {
  expect(wants('oil fliter=remote').problems[0]!.nearest).toBe('oil filter');
  expect(wants('ofset=0').problems[0]!.nearest).toBe('offset');
});

it('refuses roll and yaw, which no search gives the engine, unless a choice is called so', () => {
  for (const [text, name] of [
    ['roll=1', 'roll'],
    ['Yaw<=1', 'yaw'],
  ] as const) {
    const { problems } = wants(text);
    expect(problems).toMatchObject([
      { message: `${name}: a search keeps the engine level from side to side and in line` },
    ]);
  }
  const named = { ...scenario!, choices: [{ ...scenario!.choices[0]!, name: 'roll' }] };
  expect(parseWants(['roll=remote'], 'in', named).problems).toEqual([]);
});
