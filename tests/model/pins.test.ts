import { expect, it } from 'vitest';
import { parsePins, pinProblems } from '../../src/model/pins.js';

it('reads pins in the units of the file or their own', () => {
  const { position, problems } = parsePins('setback=25 1/2 in, pitch=3,offset=-1/4', 'mm');
  expect(problems).toEqual([]);
  expect(position).toEqual({ setback: 647.7, pitch: (3 * Math.PI) / 180, offset: -0.25 });
});

it('says every mistake at once, with the nearest name', () => {
  const { problems } = parsePins('setbak=3,height,offset=x,pitch=1,pitch=2', 'in');
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
