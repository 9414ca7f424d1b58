/** The front axle's load in reports, and as a limit that is missed. */

import { describe, expect, it } from 'vitest';
import { fileOf } from '../support/doc.js';
import type { BayDoc } from '../support/doc.js';
import { berth } from './world.js';

const LB = 0.45359237;
const BAY: BayDoc & { weight: object } = {
  units: 'in',
  position: { setback: [0, 20], offset: 0, height: 0, pitch: 0 },
  engine: {
    block: { box: { x: [-2, 0], y: [-2, 2], z: [-2, 2] } },
    pump: { box: { x: [-2, 0], y: [-2, 2], z: [3, 4] } },
  },
  chassis: { wall: { box: { x: [30, 31], y: [-2, 2], z: [-2, 2] } } },
  rules: [{ between: ['engine', 'chassis'], gap: 1 }],
  choices: { pump: { on: {}, off: { remove: ['pump'], hours: 1 } } },
  weight: {
    axles: { front: 0, rear: 100 },
    before: { front: '1000 lb', rear: '1000 lb' },
    out: { old: { weight: '300 lb', at: [10, 0, 0] } },
    in: {
      engine: { weight: '400 lb', at: [-10, 0, 0], side: 'engine' },
      pump: { weight: '20 lb', at: [0, 0, 0], part: 'pump' },
    },
  },
};
const AT = ['--at', 'setback=10.1', '--plain'];
// 1000 - 300 * 0.9 + 400 * 0.999 + 20 * 0.899 = 1147.58 of 2120 lb.

const gaps = (doc: object, ...more: string[]) =>
  berth(['gaps', '-', ...AT, ...more], { stdin: fileOf(doc as BayDoc) });
const axleLine = async (doc: object, ...more: string[]) =>
  (await gaps(doc, ...more)).out.split('\n').find((line) => line.startsWith('Axle'));

describe('the front axle', () => {
  it('is told before and after, heavier rather than lighter', async () => {
    expect(await axleLine(BAY)).toBe(
      'Axle      front 1,000 lb before, 1,148 lb after (50.0 to 54.1 % of the vehicle)',
    );
    expect(await axleLine(BAY, '--units', 'mm', '--at', `setback=${10.1 * 25.4}`)).toBe(
      'Axle      front 454 kg before, 521 kg after (50.0 to 54.1 % of the vehicle)',
    );
  });

  it('goes with the options', async () => {
    expect(await axleLine(BAY, '--option', 'pump=off')).toContain(
      ' 1,130 lb after (50.0 to 53.8 %',
    );
  });

  it('has no share where the rear was not weighed, and no line without weights', async () => {
    const front = { ...BAY, weight: { ...BAY.weight, before: { front: 1000 } } };
    expect(await axleLine(front)).toBe('Axle      front 1,000 lb before, 1,148 lb after');
    const { weight, ...none } = BAY;
    expect(weight).toBeDefined();
    expect(await axleLine(none)).toBeUndefined();
  });

  it('is in the answer for programs, of every place told', async () => {
    const frontAxle = {
      unit: 'lb',
      before: 1000,
      after: 1147.58,
      shareBefore: 0.5,
      shareAfter: 0.541311,
    };
    const told = await gaps(BAY, '--json');
    expect(JSON.parse(told.out)).toMatchObject({ frontAxle });
    const { out } = await berth(['place', '-', '--json'], { stdin: fileOf(BAY) });
    const answer = JSON.parse(out) as Record<string, Record<string, unknown>>;
    // At 0: 1000 - 270 + 400 * 1.1 + 20.
    const first = { unit: 'lb', before: 1000, after: 1190 };
    expect(answer).toMatchObject({
      frontAxle: first,
      setting: { frontAxle: first },
      asItStands: { frontAxle: first, setting: { frontAxle: first } },
      leastWork: { frontAxle: first },
    });
  });

  it('is said where it is not kept, rounded away from the limit', async () => {
    const limit = (ends: object) => ({
      ...BAY,
      limits: [{ quantity: 'front axle load', why: 'tyres', ...ends }],
    });
    const most = await gaps(limit({ max: 1147.5 }));
    expect(most.status).toBe(1);
    expect(most.out).toContain(
      'Limits    front axle load is 1,148 lb, must be at most 1,147.5 lb (tyres)',
    );
    const least = await gaps(limit({ min: `${1147.6 * LB} kg` }));
    expect(least.out).toContain('front axle load is 1,147 lb, must be at least 1,147.6 lb');
    expect((await gaps(limit({ min: 1147, max: 1148 }))).status).toBe(0);
    const asked = ['blockers', '-', '--want', 'setback=10.1', '--want', 'pump=on', '--plain'];
    const stdin = fileOf(limit({ max: 1147.5 }));
    const why = await berth(asked, { stdin });
    expect(why.out).toMatch(/the limit on front axle load \(tyres\)/);
    const json = await berth([...asked, '--json'], { stdin });
    expect(json.out).toContain('"load": "front axle"');
    expect(json.out).toContain('"max": 1147.5');
  });
});
