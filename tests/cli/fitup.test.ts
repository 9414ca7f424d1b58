/** `berth mockup` and `berth asbuilt`: what they say, what they refuse, and how they end. */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { berth } from './world.js';

const DEMO = 'scenarios/orchard-hauler.yaml';
const TAPED = 'scenarios/taped/orchard-hauler.yaml';
const PLACE = [
  '--at',
  'setback=20 13/16,offset=1 3/8,height=7/16,pitch=4',
  ...[
    'oil filter=remote',
    'fan=electric pusher',
    'headers=block huggers',
    'mounts=biscuit',
  ].flatMap((option) => ['--option', option]),
];

const folder = mkdtempSync(join(tmpdir(), 'berth-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Three upright posts under a box, a wall behind. */
const BAY = `
berth: 1
units: mm
driver: left
datums: { chassis: { axle: { x: 0 }, centre: { y: 0 }, rail top: { z: 0 } }, engine: { nose: { x: -100, y: 0, z: 0 }, tail: { x: 100, y: 0, z: 0 } } }
position: { setback: [-50, 50], offset: [-50, 50], height: [-50, 50], pitch: [-3, 3] }
engine: { block: { kind: block, box: { x: [-100, 100], y: [-100, 100], z: [-100, 100] } } }
chassis: { wall: { kind: firewall, box: { x: [130, 140], y: [-300, 300], z: [-300, 300] } }, sill: { kind: crossmember, box: { x: [-200, 200], y: [-50, 50], z: [-160, -150] } } }
rules: [{ between: [engine, chassis], gap: 10 }]
mock-up:
  adjusters:
    left: { frame: [-100, -100, -400], engine: [-100, -100, -100], thread: M16, range: [250, 350], now: 300 }
    right: { frame: [-100, 100, -400], engine: [-100, 100, -100], thread: M16, hand: left, range: [250, 350], now: 300 }
    rear: { frame: [100, 0, -400], engine: [100, 0, -100], thread: M16, hand: turnbuckle, range: [250, 350], now: 300 }
`;
const at = (place: string) => ['--at', place];
const HERE = at('setback=0,offset=0,height=8,pitch=0');
const mockup = (argv: readonly string[], bay = BAY) =>
  berth(['mockup', '-', '--plain', ...argv], { stdin: bay });
const asbuilt = (sheet: string, argv: readonly string[] = HERE, bay = BAY) => {
  const file = join(folder, 'sheet.yaml');
  writeFileSync(file, `measured: 1\n${sheet}`);
  return berth(['asbuilt', '-', '--measured', file, '--plain', ...argv], { stdin: bay });
};

describe('berth mockup', () => {
  it('of the demo, where it sets the engine', async () => {
    const { status, out } = await berth(['mockup', DEMO, '--plain', ...PLACE]);
    expect(out).toMatchSnapshot();
    expect(status).toBe(0);
    const lines = out.split('\n');
    expect(lines.length).toBeLessThanOrEqual(25);
    expect(lines.every((line) => line.length <= 80)).toBe(true);
  });

  it('says which motions nothing holds, and how to hold them', async () => {
    const { status, out } = await mockup(HERE);
    expect(status).toBe(0);
    expect(out).toMatch(/^OPEN ALL THE WAY\. 3 moves; least gap 26 mm, block - wall\.\n/);
    expect(out).toMatch(/Not held {2}setback \(a bar or strap fore and aft\);/);
    // A rod of 2 mm pitch, a turnbuckle of two: 8 mm is 4 turns and 2.
    expect(out).toMatch(/left +300 +308 +4 longer/);
    expect(out).toMatch(/rear +300 +308 +2 longer/);
  });

  it('says that every adjuster is as it is to be', async () => {
    const { out } = await mockup(at('setback=0,offset=0,height=0,pitch=0'));
    expect(out).toMatch(/^SET\. /);
  });

  it('ends with 1 where an adjuster cannot reach, or the engine would touch', async () => {
    const far = await mockup(at('setback=0,offset=0,height=60,pitch=0'));
    expect(far.status).toBe(1);
    expect(far.out).toMatch(
      /^OUT OF RANGE\. left must be 360 mm, is 350 mm at the most, and 2 others\.\n/,
    );
    const near = await mockup(at('setback=40,offset=0,height=0,pitch=0'));
    expect(near.status).toBe(1);
    expect(near.out).toMatch(/^TOUCHES\. Where it is to sit: block - wall\.\n/);
  });

  it('gives lengths alone where it is not said how long they are now', async () => {
    const { out, status } = await mockup(HERE, BAY.replace(/, now: 300/g, ''));
    expect(status).toBe(0);
    expect(out).toMatch(/^LENGTHS\. 3 adjusters, in range; lengths now are not in the file\.\n/);
    expect(out).not.toMatch(/Order/);
  });

  it('gives the same to programs', async () => {
    const { out } = await mockup([...HERE, '--json']);
    const told = JSON.parse(out) as {
      verdict: string;
      adjusters: { name: string; turns: number; quarterTurn: Record<string, number> }[];
      order: { moves: { turn: { adjuster: string; turns: number }[] }[] };
    };
    expect(told.verdict).toBe('open');
    expect(told.adjusters.map(({ name, turns }) => [name, turns])).toEqual([
      ['left', 4],
      ['right', 4],
      ['rear', 2],
    ]);
    // A quarter turn of the rear one lifts its end by 1 mm, 200 mm behind the front posts.
    expect(told.adjusters[2]!.quarterTurn).toMatchObject({
      setback: 0,
      height: 0.5,
      pitch: expect.closeTo(-(180 / Math.PI) / 200, 3) as number,
    });
    const turned = told.order.moves.flatMap(({ turn }) => turn);
    for (const { name, turns } of told.adjusters) {
      const own = turned.filter(({ adjuster }) => adjuster === name);
      expect(own.reduce((sum, one) => sum + one.turns, 0)).toBeCloseTo(turns, 4);
    }
  });

  it('refuses a file without a mock-up', async () => {
    const { status, err } = await mockup(HERE, BAY.slice(0, BAY.indexOf('mock-up')));
    expect(status).toBe(2);
    expect(err).toMatch(/this file has no mock-up/);
  });
});

/** As the engine stands at 0, 0, 8, 0 and level. */
const TRUE_SHEET = `
points:
  - { of: nose, is: 100 ahead of axle }
  - { of: nose, is: 0 right of centre }
  - { of: nose, is: 8 above rail top }
  - { of: tail, is: 0 right of centre }
angles: { pitch: 0, roll: 0 }
gaps:
  - { between: [block, wall], measured: fore-aft, reads: 30 }
  - { between: [block, wall], reads: 30 }
  - { between: [block, sill], reads: 58 }
adjusters: { left: 308, right: 308, rear: 308 }
`;

describe('berth asbuilt', () => {
  it('of the demo, as taped, a misread fraction left out', async () => {
    const { status, out } = await berth([
      'asbuilt',
      DEMO,
      '--measured',
      TAPED,
      '--plain',
      ...PLACE,
    ]);
    expect(out).toMatchSnapshot();
    expect(status).toBe(0);
    const lines = out.split('\n');
    expect(lines.length).toBeLessThanOrEqual(25);
    expect(lines.every((line) => line.length <= 80)).toBe(true);
  });

  it('says which motions too few readings do not tell, and what to tape next', async () => {
    const { status, out } = await asbuilt('adjusters: { left: 308, right: 308, rear: 308 }');
    expect(status).toBe(3);
    expect(out).toMatch(/^UNDETERMINED\. 3 readings do not tell setback, offset, yaw\.\n/);
    expect(out).toMatch(/^Tape next/m);
    // What it asks for is enough.
    const asked = /^Tape next ([^]*?)\n(?! )/m.exec(out)![1]!;
    const more = `
adjusters: { left: 308, right: 308, rear: 308 }
points: [${asked
      .replace(/\s+/g, ' ')
      .split('; ')
      .map((one) => one.trim())
      .filter((one) => one.startsWith('nose'))
      .map((one) =>
        one.includes('fore-aft')
          ? '{ of: nose, is: 100 ahead of axle }'
          : one.includes('side')
            ? '{ of: nose, is: 0 right of centre }'
            : '{ of: nose, is: 8 above rail top }',
      )
      .join(', ')}]
gaps: [${asked.includes('block - wall') ? '{ between: [block, wall], reads: 30 }' : ''}]
`;
    const then = await asbuilt(more);
    expect(then.out).not.toMatch(/do not tell (setback|offset)/);
  });

  it('goes on, sets again, or is in doubt', async () => {
    const good = await asbuilt(TRUE_SHEET, HERE);
    expect(good.out).toMatch(/^GO ON(, IF READ RIGHT)?\. /);
    expect(good.status).toBe(0);
    const tight = BAY.replace('gap: 10', 'gap: 30');
    const doubt = await asbuilt(TRUE_SHEET, HERE, tight);
    expect(doubt.out).toMatch(/^IN DOUBT\. nothing to spare|^IN DOUBT\. under 1 mm/);
    expect(doubt.status).toBe(3);
    const short = await asbuilt(TRUE_SHEET, HERE, BAY.replace('gap: 10', 'gap: 45'));
    expect(short.out).toMatch(/^NOT KEPT AS MEANT EITHER\. short 1\d mm, \+-/);
    expect(short.status).toBe(1);
  });

  it('says first what no adjuster moves', async () => {
    const back = TRUE_SHEET.replace('100 ahead', '95 ahead').replace(/reads: 30/g, 'reads: 25');
    const { out } = await asbuilt(back);
    expect(out).toMatch(/^To true {3}push it 5 mm forward \(no adjuster does\)/m);
  });

  it('says that a rule is not kept where it was meant either', async () => {
    const { out, status } = await asbuilt(TRUE_SHEET, HERE, BAY.replace('gap: 10', 'gap: 45'));
    expect(status).toBe(1);
    expect(out).toMatch(/^NOT KEPT AS MEANT EITHER\. /);
    expect(out).toMatch(/^To do .*not kept where it was meant either/m);
  });

  it('tells which side is up by the side of the driver', async () => {
    const leaning = TRUE_SHEET.replace('roll: 0', 'roll: 0.6').replace(
      'adjusters: { left: 308, right: 308, rear: 308 }',
      'adjusters: { left: 307, right: 309, rear: 308 }',
    );
    const left = await asbuilt(leaning);
    expect(left.out).toMatch(/0\.6 deg passenger side up/);
    const right = await asbuilt(leaning, HERE, BAY.replace('driver: left', 'driver: right'));
    expect(right.out).toMatch(/0\.6 deg driver side up/);
  });

  it('says why a reading tells nothing', async () => {
    const { out } = await asbuilt(
      TRUE_SHEET.replace(
        'gaps:',
        'gaps:\n  - { between: [block, sill], measured: fore-aft, reads: 5 }',
      ),
    );
    expect(out).toMatch(/^Not used {2}block - sill, fore-aft: no rule measures it so;?$/m);
  });

  it('says which adjusters to turn from where it really is', async () => {
    const high = TRUE_SHEET.replace(/308/g, '310')
      .replace('8 above', '10 above')
      .replace('58', '60');
    const { out } = await asbuilt(high, [...HERE, '--json']);
    const told = JSON.parse(out) as { turns: Record<string, number>; position: { height: number } };
    expect(told.position.height).toBeCloseTo(10, 3);
    expect(told.turns).toEqual({ left: -1, right: -1, rear: -0.5 });
  });

  it('refuses what it cannot read, with the place in the sheet', async () => {
    const bad = await asbuilt('gaps: [{ between: [block, wal], reads: 30 }]');
    expect(bad.status).toBe(2);
    expect(bad.err).toMatch(/sheet\.yaml:2:.*there is nothing called 'wal' here/);
    const both = await berth(['asbuilt', '-', '--measured', '-'], { stdin: BAY });
    expect(both.status).toBe(2);
    expect(both.err).toMatch(/only one of the two files can be standard input/);
    const none = await berth(['asbuilt', DEMO], {});
    expect(none.status).toBe(2);
  });
});
