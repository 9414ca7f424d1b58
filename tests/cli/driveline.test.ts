/** `berth driveline`: what it says, what it refuses, and how it ends. */

import { describe, expect, it } from 'vitest';
import { fileOf } from '../support/doc.js';
import type { BayDoc } from '../support/doc.js';
import { berth } from './world.js';

const DEMO = 'scenarios/orchard-hauler.yaml';
const AT = ['--at', 'setback=20,offset=0,height=0,pitch=3'];

const BAY: BayDoc & { driveline: object } = {
  units: 'in',
  position: { setback: [-1, 2], offset: [-1, 1], height: 0, pitch: 3 },
  engine: { block: { box: { x: [0, 8], y: [-2, 2], z: [-2, 2] } } },
  chassis: { wall: { box: { x: [12, 13], y: [-2, 2], z: [-2, 2] } } },
  rules: [{ between: ['engine', 'chassis'], gap: 1 }],
  driveline: {
    output: { at: [20, 0, 0] },
    pinion: { ride: { at: [70, 0, -2], up: 3 } },
    'top speed': { shaft: 3000 },
  },
};
const typed = (argv: readonly string[], driveline: object = {}) =>
  berth(['driveline', '-', '--plain', ...argv], {
    stdin: fileOf({ ...BAY, driveline: { ...BAY.driveline, ...driveline } } as BayDoc),
  });

describe('berth driveline', () => {
  it('of the demo, where it sets the engine', async () => {
    const { status, out } = await berth(['driveline', DEMO, '--plain']);
    expect(out).toMatchSnapshot();
    expect(status).toBe(0);
    const lines = out.split('\n');
    expect(lines.length).toBeLessThanOrEqual(25);
    expect(lines.every((line) => line.length <= 80)).toBe(true);
  });

  it('says what is not kept, and ends with 1', async () => {
    const { status, out } = await berth([
      'driveline',
      DEMO,
      '--plain',
      '--at',
      'setback=20,offset=0,height=-6,pitch=3',
    ]);
    expect(status).toBe(1);
    expect(out).toMatch(/^DOES NOT WORK\. /);
    expect(out).toMatch(
      /Not kept {2}front joint at ride .*;\n +pinion joint at ride .*, must be at most 5\.8;\n/,
    );
  });

  it('says so where nothing fits, or the search was stopped', async () => {
    const tight: BayDoc = { ...BAY, rules: [{ between: ['engine', 'chassis'], gap: 40 }] };
    const none = await berth(['driveline', '-', '--plain'], { stdin: fileOf(tight) });
    expect(none.out).toContain('nothing fits: this is the least bad place');
    const cut = await berth(['driveline', DEMO, '--plain', '--time-limit', '0.5'], { tick: 400 });
    expect(cut.out).toContain('not proved: this is the best place found so far');
    const { out } = await berth(['driveline', DEMO, '--json', '--time-limit', '0.5'], {
      tick: 400,
    });
    expect((JSON.parse(out) as { best: string }).best).toBe('undecided');
  });

  it('prints the same as data', async () => {
    const { status, out } = await berth(['driveline', DEMO, '--json', ...AT]);
    const told = JSON.parse(out) as {
      works: boolean;
      position: object;
      states: { state: string; front: { side: number; true: number }; length: number }[];
    };
    expect(told.works).toBe(status === 0);
    expect(told.position).toEqual({ setback: 20, offset: 0, height: 0, pitch: 3 });
    expect(told.states.map(({ state }) => state)).toEqual(['ride', 'bump', 'droop']);
    // The output at 38 back of the engine datum, 3 degrees tail-down; the pinion 108 back, 4 1/2 below.
    const turn = (3 * Math.PI) / 180;
    const [x, z] = [108 - 20 - 38 * Math.cos(turn), -4.5 + 38 * Math.sin(turn)];
    const { front, length } = told.states[0]!;
    expect(length).toBeCloseTo(Math.hypot(x, z), 4);
    expect(front.side).toBeCloseTo(((Math.atan2(-z, x) - turn) * 180) / Math.PI, 4);
    expect(front.true).toBeCloseTo(Math.abs(front.side), 4);
  });

  it('does with the least a file may say', async () => {
    const { status, out } = await typed([]);
    expect(status).toBe(0);
    expect(out).toMatch(/bump and droop are not in the\s+file/);
    expect(out).toContain('the tube is not in the file');
    const metric = await typed(['--units', 'mm']);
    expect(metric.out).toMatch(/Length {4}\d{4} mm from joint to joint/);
  });

  it('tells one joint, and a joint of constant velocity, apart', async () => {
    const one = await typed([], { joints: 'one' });
    expect(one.out).toMatch(/^WORKS\. Joint /);
    expect(one.out).toContain('one with the tube');
    const even = await typed([], { joints: 'constant velocity' });
    expect(even.out).toMatch(/best nose up \d/);
  });

  it.each<[string, object, RegExp]>([
    ['no pinion', { pinion: {} }, /'ride' is missing/],
    ['a wall too thick', { tube: { diameter: 3, wall: 2 } }, /thicker than half/],
    ['no speed', { 'top speed': {} }, /no speed is given/],
    ['two speeds', { 'top speed': { shaft: 1, engine: 1 } }, /two speeds are given/],
    ['an engine speed without gears', { 'top speed': { engine: 4000 } }, /only through its gears/],
    ['a ratio of nothing', { gears: { transmission: [0] } }, /must be more than 0/],
    ['no ratio', { gears: { transmission: [] } }, /no ratio is listed/],
    ['angles the wrong way round', { angles: { least: 4, most: 3 } }, /least is more than most/],
    ['an angle below nothing', { angles: { within: -1 } }, /never less than 0/],
    ['a share above all', { 'critical share': 1.5 }, /this is no share/],
    ['a word for a joint', { joints: 'three' }, /two, one or constant velocity/],
    ['a slip that goes the other way', { slip: { in: -1, out: 1 } }, /must be more than 0/],
    ['an output that points at the ground', { output: { at: [20, 0, 0], down: 80 } }, /steeper/],
  ])('refuses %s, at its place', async (_, driveline, message) => {
    const { status, err } = await typed([], driveline);
    expect(status).toBe(2);
    expect(err).toMatch(message);
    expect(err).toMatch(/:\d+:\d+/);
  });

  it('warns of a pinion ahead of the output', async () => {
    const { out } = await typed(AT.slice(0, 0), { pinion: { ride: { at: [10, 0, 0], up: 0 } } });
    expect(out).toContain('the pinion lies ahead of the output');
  });

  it('refuses a file without one', async () => {
    const { status, err } = await berth(['driveline', 'scenarios/narrow-rails.yaml']);
    expect(status).toBe(2);
    expect(err).toContain('this file has no driveline');
  });
});
