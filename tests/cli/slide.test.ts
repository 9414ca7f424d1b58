/** `berth slide` and `berth compare --frontier`: what they say, what they refuse, and how they end. */

import { describe, expect, it } from 'vitest';
import { plot } from '../../src/cli/report/plot.js';
import { columns, PLAIN_LOOK } from '../../src/words/text.js';
import { fileOf } from '../support/doc.js';
import type { BayDoc } from '../support/doc.js';
import { berth } from './world.js';

const DEMO = 'scenarios/orchard-hauler.yaml';
const BAY: BayDoc = {
  units: 'mm',
  position: { setback: [-20, 60], offset: [-5, 5], height: 0, pitch: 0 },
  engine: {
    block: { box: { x: [0, 200], y: [-50, 50], z: [-50, 50] } },
    filter: { box: { x: [200, 225], y: [-10, 10], z: [-10, 10] } },
  },
  chassis: {
    core: { box: { x: [-20, -10], y: [-40, 40], z: [-100, 100] } },
    'wall, "the"': { box: { x: [240, 250], y: [-40, 40], z: [-100, 100] } },
  },
  rules: [{ between: ['engine', 'chassis'], gap: 10 }],
  choices: { filter: { stays: {}, goes: { remove: ['filter'], hours: 2, cost: 50 } } },
};
const typed = (argv: readonly string[], doc: BayDoc = BAY) =>
  berth([argv[0]!, '-', ...argv.slice(1)], { stdin: fileOf(doc) });
const setback = ['slide', '--along', 'setback', '--plain'];

describe('berth slide', () => {
  it('says how far either way it fits, and where the best lies', async () => {
    const { status, out } = await typed([...setback, '--steps', '9']);
    expect(status).toBe(0);
    expect(out).toMatch(/^FITS from 0 back to 30 back; best 15 back, 15 mm to spare\.\n/);
    expect(out).toContain('In charge until 15 back: block - core\n');
    expect(out).toContain('          until 60 back: block - wall, "the"\n');
  });

  it('says where nothing fits, and takes the options given', async () => {
    const { status, out } = await typed([...setback, '--steps', '3', '--from', '40']);
    expect(status).toBe(1);
    expect(out).toMatch(/^DOES NOT FIT along here: short 10 mm at best, at 40 back\. Proved\.\n/);
    const kept = await typed([...setback, '--steps', '3', '--option', 'filter=stays']);
    expect(kept.out).toMatch(
      /^FITS from [01] back to [45] back; best [23] back, [23] mm to spare\.\n/,
    );
  });

  it('prints the same as data, and a line a point', async () => {
    const more = ['--steps', '5', '--from', '0', '--to', '40'];
    const { out } = await typed(['slide', '--along', 'setback', '--json', ...more]);
    const told = JSON.parse(out) as { points: { at: number; margin: number }[] };
    expect(told).toMatchObject({ along: 'setback', fits: 'yes', proved: true, fitsFrom: 0 });
    expect(told.points.map(({ at }) => at)).toEqual(expect.arrayContaining([0, 10, 20, 30, 40]));
    for (const { at, margin } of told.points) {
      expect(Math.abs(margin - Math.min(at, 30 - at))).toBeLessThan(0.4);
    }
    const csv = (await typed(['slide', '--along', 'setback', '--csv', ...more])).out;
    const [head, ...lines] = csv.trimEnd().split('\n');
    expect(head).toBe('at,margin,bound,fits,best,setback,offset,height,pitch,binds');
    expect(lines).toHaveLength(told.points.length);
    expect(lines.at(-1)).toMatch(/^40,-10,.*,no,proved,40,.*,"block - wall, ""the"""$/);
  });

  it.each([
    ['no such coordinate', ['slide', '--along', 'ofset'], 'nearest:  offset'],
    ['nothing to slide along', ['slide', '--along', 'height'], 'the file pins height'],
    ['ends the wrong way round', [...setback, '--from', '9', '--to', '3'], '--from must be less'],
    ['an end outside', [...setback, '--to', '61'], 'outside the range'],
    ['one step', [...setback, '--steps', '1'], 'whole number from 2'],
    ['half a step', [...setback, '--steps', '2.5'], 'whole number from 2'],
    ['two shapes of data', [...setback, '--json', '--csv'], 'not both'],
    ['an unknown option', [...setback, '--option', 'filter=gos'], 'nearest:  goes'],
    ['a trade of cases', ['compare', '--frontier', '--case', 'a: offset=0'], 'leave out --case'],
  ])('refuses %s', async (_, argv, said) => {
    const { status, out, err } = await typed(argv);
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toContain(said);
  });

  it('is undecided when stopped', async () => {
    const slid = await berth(['slide', DEMO, '--along', 'offset', '--time-limit', '0.001']);
    expect(slid.status).toBe(3);
    expect(slid.out).toMatch(/^UNDECIDED\./);
    const traded = await berth(['compare', DEMO, '--frontier'], {
      onBreath: (world, count) => count === 1 && world.interrupt(),
    });
    expect(traded.status).toBe(3);
    expect(traded.out).toContain('stopped when asked');
  });
});

describe('berth compare --frontier', () => {
  it('says the least work that fits and the most that work can buy', async () => {
    const tight: BayDoc = {
      ...BAY,
      engine: { ...BAY.engine, filter: { box: { x: [200, 235], y: [-10, 10], z: [-10, 10] } } },
    };
    const { status, out } = await typed(['compare', '--frontier', '--plain'], tight);
    expect(status).toBe(0);
    expect(out).toMatch(
      /^FITS FROM 2 h, cost 50: 15 mm to spare; more work buys no more\. Proved\.\n/,
    );
    const told = await typed(['compare', '--frontier', '--json'], tight);
    expect(JSON.parse(told.out)).toMatchObject({
      best: 'proved',
      frontier: [
        { options: { filter: 'stays' }, hours: 0, cost: 0 },
        { options: { filter: 'goes' }, hours: 2, cost: 50, margin: 15 },
      ],
    });
    const free = await typed(['compare', '--frontier', '--plain']);
    expect(free.out).toMatch(
      /^FITS AS IT STANDS, 2 mm to spare; at most 15 mm for 2 h, cost 50\.\n/,
    );
  });
});

describe('shipped scenarios', () => {
  it.each([
    'compare --frontier',
    'slide --along offset --steps 12',
    'slide --along setback --steps 8',
  ])('read well: %s', async (command) => {
    const [first, ...more] = command.split(' ');
    const { out } = await berth([first!, 'scenarios/narrow-rails.yaml', ...more, '--plain']);
    expect(out).toMatchSnapshot();
    for (const line of out.split('\n')) expect(columns(line), line).toBeLessThanOrEqual(80);
    expect(out.split('\n').findIndex((line) => line.startsWith('Space only'))).toBeLessThan(24);
  });
});

describe('a drawing', () => {
  const words = (value: number) => String(value);
  const drawn = (line: { x: number; y: number }[], how: 'level' | 'straight') =>
    plot({ line, drawn: how, marks: [], xWords: words, yWords: words, xTitle: 'x' }, PLAIN_LOOK);

  it('keeps to its width, whatever it is of', () => {
    const one = [{ x: 0, y: 0 }];
    const holed = [...one, { x: 1, y: -Infinity }, { x: 2, y: -3 }];
    for (const line of [
      one,
      holed,
      [
        { x: 0, y: 5 },
        { x: 9, y: 5 },
      ],
    ]) {
      for (const how of ['level', 'straight'] as const) {
        const lines = drawn(line, how);
        expect(lines).toHaveLength(13);
        for (const text of lines) expect(text.length).toBeLessThanOrEqual(80);
      }
    }
    expect(drawn([], 'straight')).toEqual([]);
  });

  it('puts the most on top and the least at the bottom', () => {
    const lines = drawn(
      [
        { x: 0, y: -2 },
        { x: 10, y: 2 },
      ],
      'straight',
    );
    expect(lines[0]).toMatch(/^ {2}2 .*\*$/);
    expect(lines[10]).toMatch(/^ {2}-2 +\|\*/);
    expect(lines[12]).toMatch(/0 +x +10$/);
  });
});
