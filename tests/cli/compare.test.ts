/** `berth compare`: what it says, what it refuses, and how it ends. */

import { describe, expect, it } from 'vitest';
import { columns } from '../../src/words/text.js';
import { fileOf } from '../support/doc.js';
import type { BayDoc } from '../support/doc.js';
import { berth } from './world.js';

const DEMO = 'scenarios/orchard-hauler.yaml';
const BAY: BayDoc = {
  units: 'mm',
  position: { setback: [0, 100], offset: [-5, 5], height: 0, pitch: 0 },
  engine: {
    block: { box: { x: [0, 200], y: [-50, 50], z: [-50, 50] } },
    filter: { box: { x: [200, 240], y: [-10, 10], z: [-10, 10] } },
  },
  chassis: {
    core: { box: { x: [-20, -10], y: [-100, 100], z: [-100, 100] } },
    firewall: { box: { x: [240, 250], y: [-100, 100], z: [-100, 100] } },
  },
  rules: [{ between: ['engine', 'chassis'], gap: 10 }],
  choices: {
    filter: { stays: {}, goes: { remove: ['filter'], hours: 2, cost: 50 } },
    wall: {
      stands: {},
      back: { move: { firewall: { x: 20 } }, hours: 1, needs: { filter: 'goes' } },
    },
    prop: { none: {}, tall: { 'rules out': { filter: 'stays' } } },
  },
};
const compare = (more: readonly string[] = [], doc: object = BAY) =>
  berth(['compare', '-', '--plain', ...more], { stdin: fileOf(doc as BayDoc) });

describe('berth compare', () => {
  it('says which option gains most, and which cannot stand', async () => {
    const { status, out } = await compare();
    expect(status).toBe(0);
    expect(out).toMatch(
      /^WALL: BACK gains most: 35 mm over the bay as it stands \(3 h, cost 50\)\./,
    );
    expect(out).toContain('Brought   wall: back needs filter: goes');
    expect(out).toContain('Apart     prop: tall does not go with filter: stays');
  });

  it('takes cases by name, and those of the file where none are typed', async () => {
    const typed = await compare(['--case', 'no filter: filter=goes', '--case', 'offset=0']);
    expect(typed.out).toMatch(/^NO FILTER gains most: 25 mm over/);
    expect(typed.out).toMatch(/\n {2}offset=0 /);
    const kept = await compare([], { ...BAY, cases: { mine: 'filter=goes; offset<=2' } });
    expect(kept.out).toMatch(/^MINE gains most/);
    expect(kept.out).not.toContain('wall:');
  });

  it('prints the same as data', async () => {
    const { status, out } = await compare(['--json', '--case', 'a: filter=goes; margin>=20']);
    expect(status).toBe(1);
    const told = JSON.parse(out) as { best: string; cases: object[]; asItStands: object };
    expect(told).toMatchObject({ best: 'a', fits: 'no', units: 'mm', stopped: null });
    expect(told.cases).toMatchObject([
      {
        name: 'a',
        fits: 'no',
        wanted: 20,
        gain: 25,
        options: { filter: 'goes', wall: 'stands', prop: 'none' },
        hours: 2,
        cost: 50,
        apart: null,
        place: { best: 'proved', margin: 15, setting: { fits: 'yes' } },
      },
    ]);
    expect(told.asItStands).toMatchObject({ place: { margin: -10 } });
  });

  it.each([
    ['an unknown choice', ['--case', 'a: fliter=goes'], "'fliter' is neither"],
    ['the nearest name', ['--case', 'a: filter=gos'], 'nearest:  goes'],
    ['a pin outside', ['--case', 'a: offset=9'], 'wished for outside the range'],
    ['one name twice', ['--case', 'a: offset=1', '--case', 'a: offset=2'], "called 'a'"],
    ['no wish', ['--case', 'a:'], 'no wish is given'],
    ['no units', ['--units', 'ft'], "there is no 'ft'"],
    ['no seconds', ['--time-limit', 'soon'], 'number of seconds'],
  ])('refuses %s', async (_, more, said) => {
    const { status, out, err } = await compare(more);
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toContain(said);
  });

  it('refuses a file without anything to compare', async () => {
    const { choices: _, ...bare } = BAY;
    const { status, err } = await compare([], bare);
    expect(status).toBe(2);
    expect(err).toContain('nothing to compare');
  });

  it('is undecided when stopped, by the clock or by hand', async () => {
    const late = await berth(['compare', DEMO, '--time-limit', '0.001']);
    expect(late.status).toBe(3);
    expect(late.out).toMatch(/^UNDECIDED\./);
    expect(late.out).toContain('stopped by the time limit (0.001 s)');
    const asked = await berth(['compare', DEMO], {
      onBreath: (world, count) => count === 1 && world.interrupt(),
    });
    expect(asked.status).toBe(3);
    expect(asked.out).toContain('stopped when asked');
  });

  it.each(['narrow-rails', 'tower-squeeze'])('reads well on %s', async (name) => {
    const { out } = await berth(['compare', `scenarios/${name}.yaml`, '--plain']);
    expect(out).toMatchSnapshot();
    for (const line of out.split('\n')) expect(columns(line), line).toBeLessThanOrEqual(80);
    expect(out.split('\n').findIndex((line) => line.startsWith('Space only'))).toBeLessThan(24);
  });
});
