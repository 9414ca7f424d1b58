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
  expect(pinProblems(ranges, { setback: 0, offset: 10 })).toEqual([]);
  expect(pinProblems(ranges, { setback: -0.1, height: 10.1 })).toMatchObject([
    { code: 'bad pin', path: ['position', 'setback'] },
    { code: 'bad pin', path: ['position', 'height'] },
  ]);
});
