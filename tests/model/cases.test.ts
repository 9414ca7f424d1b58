import { describe, expect, it } from 'vitest';
import { asItStands, caseOf, caseProblems, optionCases } from '../../src/model/asked/cases.js';
import { readScenario } from '../../src/model/read.js';
import { parseWants } from '../../src/model/asked/wants.js';
import { bay, option } from './sample-bay.js';
import { ORCHARD } from './orchard.js';

const NEEDY = bay({
  position: {
    setback: { min: 0, max: 100 },
    offset: { min: -20, max: 20 },
    height: { min: 0, max: 0 },
    pitch: { min: 0, max: 0.1 },
  },
  choices: [
    { name: 'filter', options: [option('block'), option('remote')] },
    {
      name: 'fan',
      options: [
        option('belt'),
        option('pusher', { needs: [{ choice: 'filter', option: 'remote' }] }),
      ],
    },
    {
      name: 'mounts',
      options: [
        option('biscuit'),
        option('plate', { needs: [{ choice: 'fan', option: 'pusher' }] }),
        option('short', { rulesOut: [{ choice: 'filter', option: 'block' }] }),
      ],
    },
  ],
});

function laid(text: string) {
  const { wants, problems } = parseWants([text], 'mm', NEEDY);
  expect([...problems, ...caseProblems(NEEDY, wants, 'mm')]).toEqual([]);
  return caseOf(NEEDY, 'one', wants);
}

describe('a case', () => {
  it('changes the bay as it stands, and nothing else of it', () => {
    expect(laid('filter=remote')).toEqual({
      name: 'one',
      set: [1, 0, 0],
      brought: [],
      ranges: {},
      margin: 0,
    });
  });

  it('brings along what its options need, and what that needs', () => {
    const { set, brought, clash } = laid('mounts=plate');
    expect(set).toEqual([1, 1, 1]);
    expect(brought).toEqual([
      { choice: 'fan', option: 'pusher' },
      { choice: 'filter', option: 'remote' },
    ]);
    expect(clash).toBeUndefined();
  });

  it('says with what it cannot stand where nothing that it needs helps', () => {
    expect(laid('mounts=short')).toMatchObject({
      set: [0, 0, 2],
      clash: {
        one: { choice: 'mounts', option: 'short' },
        other: { choice: 'filter', option: 'block' },
      },
    });
    expect(laid('mounts=short; filter=remote').clash).toBeUndefined();
  });

  it('keeps its ranges inside those of the file', () => {
    const { ranges, margin } = laid('setback>=60; offset=5; margin>=3');
    expect(ranges).toEqual({ setback: { min: 60, max: 100 }, offset: { min: 5, max: 5 } });
    expect(margin).toBe(3);
  });

  it('is refused outside the ranges, and with options that exclude each other', () => {
    const problems = (text: string) =>
      caseProblems(NEEDY, parseWants([text], 'mm', NEEDY).wants, 'mm');
    expect(problems('setback>=101')).toMatchObject([
      { code: 'bad wish', read: '101 mm', expected: '0 mm to 100 mm' },
    ]);
    expect(problems('offset<=-21')).toMatchObject([{ code: 'bad wish', read: '-21 mm' }]);
    expect(problems('fan=pusher; filter=block')).toMatchObject([{ code: 'excluded' }]);
    expect(problems('fan=pushr')).toMatchObject([{ code: 'unknown name', nearest: 'pusher' }]);
  });
});

it('takes every option by itself', () => {
  expect(optionCases(NEEDY).map(({ name, set }) => [name, set.join('')])).toEqual([
    ['filter: remote', '100'],
    ['fan: pusher', '110'],
    ['mounts: plate', '111'],
    ['mounts: short', '002'],
  ]);
});

it('stands on the first options that go together', () => {
  const [filter, fan, mounts] = NEEDY.choices;
  const turned = { ...fan!, options: [...fan!.options].reverse() };
  const s = bay({ choices: [filter!, turned, mounts!] });
  expect(asItStands(s).set).toEqual([0, 1, 0]);
});

describe('cases of a file', () => {
  const read = (cases: string) => readScenario(`${ORCHARD}${cases}`, 'yaml');

  it('are the same as a map and as a text', () => {
    const { scenario, problems } = read(`cases:
  as text: oil filter=remote; setback>=26; setback<=28; offset=0; margin>=1/4
  as map: { oil filter: remote, setback: [26, 28], offset: 0, margin: 1/4 }
  as signs: { margin: '>= 1/4', oil filter: remote, setback: '>=26', offset: 0 }
`);
    expect(problems).toEqual([]);
    const [text, map, signs] = scenario!.cases;
    expect({ ...map, name: '' }).toEqual({ ...text, name: '' });
    expect(text).toMatchObject({
      name: 'as text',
      options: [{ choice: 'oil filter', option: 'remote' }],
      margin: 6.35,
    });
    expect(text!.ranges.setback!.min).toBeCloseTo(660.4, 9);
    expect(signs!.ranges.setback!.max).toBe(Infinity);
  });

  it.each([
    ['an unknown choice', '{ @@oil fitler: remote }', 'unknown name', 'oil filter'],
    ['an unknown option', '{ oil filter: @@remot }', 'unknown name', 'remote'],
    ['a range outside', '{ offset: @@3 }', 'bad wish', undefined],
    ['no length', '{ setback: @@wide }', 'bad wish', undefined],
    ['a range the wrong way round', '{ setback: @@[28, 26] }', 'excluded', undefined],
    ['a margin from above', "{ margin: @@'<=1/4' }", 'bad wish', undefined],
    ['a text with no wish', '@@nothing much', 'bad wish', undefined],
    ['a list', '@@[oil filter]', 'wrong type', undefined],
  ])('say %s, with its place', (_, spoilt, code, nearest) => {
    const text = `${ORCHARD}cases:\n  one: ${spoilt}\n`;
    const before = text.slice(0, text.indexOf('@@')).split('\n');
    const { problems } = readScenario(text.replace('@@', ''), 'yaml');
    expect(problems).toMatchObject([
      { code, line: before.length, column: before.at(-1)!.length + 1, ...(nearest && { nearest }) },
    ]);
  });
});
