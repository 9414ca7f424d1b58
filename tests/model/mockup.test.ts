/** Threads, and what a file says of its mock-up, with everything that can be wrong with it. */

import { describe, expect, it } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import { parseThread } from '../../src/model/fitup/threads.js';

const FILE = `berth: 1
units: in
driver: left
position: { setback: [20, 24], offset: 0, height: 0, pitch: [0, 4] }
engine:
  block: { kind: block, box: { x: [-20, 0], y: [-10, 10], z: [-4, 8] } }
chassis:
  rail: { kind: frame rail, box: { x: [-20, 100], y: [-16, -14], z: [-6, 0] } }
rules: [{ between: [engine, chassis], gap: 1/2 }]
mock-up:
  off: [rail]
  without: [block]
  adjusters:
    front: { frame: [4, -14, -3], engine: [-18, -7, 0], thread: 3/4-10, range: [7, 13], now: 10 1/2 }
    tail: { frame: [50, 0, -8], engine: [26, 0, -3], thread: M16, hand: turnbuckle, range: [100 mm, 250 mm], now: 6 }
`;

function but(good: string, bad: string): readonly string[] {
  if (!FILE.includes(good)) throw new Error(`no '${good}'`);
  const { problems } = readScenario(FILE.replace(good, bad), 'yaml');
  return problems.map(({ line, message, nearest }) => {
    return `${line}: ${message}${nearest === undefined ? '' : ` (${nearest})`}`;
  });
}

describe('a thread', () => {
  it.each([
    // ASME B1.1 and ISO 261 values, as printed in fastener charts.
    ['3/8 UNC', 16],
    ['3/8 UNF', 24],
    ['7/16 UNC', 14],
    ['7/16 UNF', 20],
    ['1/2 UNC', 13],
    ['1/2 UNF', 20],
    ['5/8 UNC', 11],
    ['5/8 UNF', 18],
    ['3/4 UNC', 10],
    ['3/4 UNF', 16],
  ])('%s has %i an inch', (name, count) => {
    const thread = parseThread(name);
    expect(thread).toEqual({
      name: `${name.split(' ')[0]}-${count}`,
      pitch: 25.4 / count,
      standard: true,
    });
  });

  it.each([
    ['M10', 1.5],
    ['M12', 1.75],
    ['M16', 2],
  ])('%s goes %d mm a turn', (name, pitch) => {
    expect(parseThread(name)).toEqual({ name: `${name}x${pitch}`, pitch, standard: true });
  });

  it('may be written otherwise, and out of series', () => {
    expect(parseThread('3/4 - 10 unc')).toEqual(parseThread('3/4-10'));
    expect(parseThread('m16 x 2')).toEqual(parseThread('M16'));
    expect(parseThread('M16x1.5')).toMatchObject({ pitch: 1.5, standard: true });
    expect(parseThread('M16x1.75')).toMatchObject({ pitch: 1.75, standard: false });
    expect(parseThread('1 1/8-12 UNF')).toMatchObject({ pitch: 25.4 / 12, standard: true });
    expect(parseThread('3/4-12')).toMatchObject({ pitch: 25.4 / 12, standard: false });
  });

  it.each([
    '',
    '3/4',
    'M99',
    '11/16 UNC',
    '1/2-13 UNF',
    '0-10',
    '3/0-10',
    '9/8-7',
    'M16x0',
    'M16x90',
    '3/4-0',
    '1/2-1000',
    'pipe',
  ])('is not %j', (text) => {
    expect(parseThread(text)).toHaveProperty('problem');
  });
});

describe('a mock-up', () => {
  it('is read, a turnbuckle going two pitches a turn', () => {
    const { scenario, problems } = readScenario(FILE, 'yaml');
    expect(problems).toEqual([]);
    expect(scenario!.mockup).toEqual({
      off: [{ level: 'part', name: 'rail' }],
      without: [{ level: 'part', name: 'block' }],
      adjusters: [
        {
          name: 'front',
          frame: [101.6, -355.6, -76.2],
          engine: [-457.2, -177.8, 0],
          thread: '3/4-10',
          hand: 'right',
          lead: 2.54,
          range: { min: 177.8, max: 330.2 },
          now: 266.7,
        },
        {
          name: 'tail',
          frame: [1270, 0, -203.2],
          engine: [660.4, 0, -76.2],
          thread: 'M16x2',
          hand: 'turnbuckle',
          lead: 4,
          range: { min: 100, max: 250 },
          now: 152.4,
        },
      ],
    });
  });

  it.each([
    ['thread: 3/4-10', 'thread: 3/4', ['14: this is not a thread that is known here']],
    [
      'thread: M16',
      'thread: M16x1.75',
      ['15: M16x1.75 is in none of the usual series: it is taken as written'],
    ],
    ['range: [7, 13]', 'range: [13, 7]', ['14: the range is the wrong way round']],
    [
      'range: [7, 13]',
      'range: [11, 11]',
      [
        '14: this adjuster cannot be turned: its range has no width',
        '14: this is outside the range of the adjuster',
      ],
    ],
    ['now: 10 1/2', 'now: 14', ['14: this is outside the range of the adjuster']],
    [', now: 10 1/2', '', ['14: how long it is now is said of the others: all of them, or none']],
    ['hand: turnbuckle', 'hand: turnbuckel', ["15: 'turnbuckel' is not known here (turnbuckle)"]],
    ['off: [rail]', 'off: [rial]', ["11: there is nothing called 'rial' here (rail)"]],
    ['without: [block]', 'without: [rail]', ["12: 'rail' rides with the chassis"]],
    [
      'frame: [4, -14, -3]',
      'frame: [4 ahead of axle, -14, -3]',
      ["14: there is no datum of the chassis called 'axle'"],
    ],
  ])('with %s as %s is refused, or warned of', (good, bad, said) => {
    expect(but(good, bad)).toEqual(said);
  });

  it('needs an adjuster', () => {
    const [head] = FILE.split('mock-up:');
    const { problems } = readScenario(`${head!}mock-up: { adjusters: {} }\n`, 'yaml');
    expect(problems.map(({ message }) => message)).toEqual(['there is no adjuster']);
  });
});
