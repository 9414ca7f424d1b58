import { expect, it } from 'vitest';
import { parsePins, pinProblems } from '../../src/model/asked/pins.js';

const NONE = { engine: [], chassis: [] };

it('reads pins in the units of the file or their own', () => {
  const { position, problems } = parsePins('setback=25 1/2 in, pitch=3,offset=-1/4', 'mm', NONE);
  expect(problems).toEqual([]);
  expect(position).toEqual({ setback: 647.7, pitch: (3 * Math.PI) / 180, offset: -0.25 });
});

it('reads places from the chassis datums', () => {
  const engine = [{ name: 'pulley face', x: -26 }];
  const chassis = [
    { name: 'front axle', x: 10 },
    { name: 'rail top', z: -5 },
  ];
  const pins = (text: string) => parsePins(text, 'mm', { engine, chassis });
  expect(pins('setback=20 behind front axle, height=2 below rail top')).toEqual({
    position: { setback: 30, height: -7 },
    problems: [],
  });
  for (const [text, said, nearest] of [
    ['setback=20 behind front axl', 'no datum of the chassis', 'front axle'],
    ['setback=20 behind pulley face', 'is a datum of the engine', undefined],
    ['setback=20 behind rail top', 'fixes no place fore and aft', undefined],
    ['height=20 behind front axle', "'behind' goes fore and aft", undefined],
    ['setback=-2 behind front axle', 'without a sign', undefined],
  ] as const) {
    const { position, problems } = pins(text);
    expect(position).toEqual({});
    expect(problems).toHaveLength(1);
    expect(problems[0]!.message).toContain(said);
    expect(problems[0]!.nearest).toBe(nearest);
  }
});

it('says every mistake at once, with the nearest name', () => {
  const { problems } = parsePins('setbak=3,height,offset=x,pitch=1,pitch=2', 'in', NONE);
  expect(problems.map(({ code, nearest }) => [code, nearest])).toEqual([
    ['unknown name', 'setback'],
    ['bad pin', undefined],
    ['bad pin', undefined],
    ['duplicate', undefined],
  ]);
});

it('says a pin outside its range, ends within', () => {
  const range = { min: 0, max: 10 };
  const ranges = { setback: range, offset: range, height: range, pitch: range };
  expect(pinProblems(ranges, { setback: 0, offset: 10 }, 'mm')).toEqual([]);
  expect(pinProblems(ranges, { setback: -0.1, height: 10.1 }, 'mm')).toMatchObject([
    {
      code: 'bad pin',
      path: ['position', 'setback'],
      read: '-0.1 mm',
      expected: '0 mm to 10 mm',
    },
    { code: 'bad pin', path: ['position', 'height'] },
  ]);
});

it('says a pin against the pin of the file, in the units asked for', () => {
  const range = { min: 0, max: 25.4 * 20.5 };
  const pitch = { min: Math.PI / 60, max: Math.PI / 60 };
  const ranges = { setback: range, offset: range, height: range, pitch };
  expect(pinProblems(ranges, { setback: 25.4 * 21, pitch: 0 }, 'in')).toMatchObject([
    { read: '21 in', expected: '0 in to 20 1/2 in' },
    { read: '0.0 deg', expected: '3.0 deg, as the file pins it' },
  ]);
});
