import { describe, expect, it } from 'vitest';
import { gapsJson, placeJson } from '../../src/cli/json/answer.js';
import { FIRST_SCREEN, placeReport } from '../../src/cli/report/answer.js';
import type { Report } from '../../src/cli/report/answer.js';
import { gapsReport } from '../../src/cli/report/gaps.js';
import { print } from '../../src/cli/report/lines.js';
import { columns } from '../../src/words/text.js';
import type { Path, Scenario } from '../../src/model/scenario.js';
import type { Again } from '../../src/solver/measuring/again.js';
import type { PlaceAnswer, Placement, Standing } from '../../src/solver/answer.js';
import {
  asWorst,
  fitting,
  INCH,
  notFitting,
  RULED,
  scenario,
  telling,
  withWorst,
} from './sample.js';
import { berth } from './world.js';

const measured = (path: Path, written: string) => ({ path, written, error: INCH / 16 });
const MEASURED: Scenario = scenario({
  measurements: [
    measured(['datums', 'engine', 'pulley face', 'x'], '-26'),
    measured(['chassis', 'radiator', 'box', 'x', 1], '-9 +- 1/16'),
    measured(['chassis', 'rail', 'solids', 0, 'prism', 'profile', 2, 1], '4'),
    measured(['choices', 'fan', 'pusher', 'add', 'chassis', 'far fan', 'ball', 'center', 1], '3'),
    measured(['choices', 'fan', 'pusher', 'replace', 'hood', 'tilt', 'at', 2], '5'),
  ],
});
const AGAIN: readonly Again[] = [
  { measurement: 1, gain: INCH / 16, ofTightest: INCH / 16 },
  { measurement: 0, gain: INCH / 100, ofTightest: INCH / 16 },
  { measurement: 2, gain: 0, ofTightest: INCH / 32 },
  { measurement: 3, gain: 0, ofTightest: INCH / 64 },
  { measurement: 4, gain: 0, ofTightest: 0 },
];

type Way = (of: Standing, less: number) => Standing;

/** An answer with every margin told both ways. */
function bothWays(answer: PlaceAnswer, less: number, way: Way): PlaceAnswer {
  const placement = (one: Placement): Placement => ({
    ...one,
    optimum: way(one.optimum, less),
    setting: way(one.setting, less),
  });
  return {
    ...answer,
    main: placement(answer.main),
    ...(answer.asItStands && { asItStands: placement(answer.asItStands) }),
    ...(answer.leastWork && { leastWork: placement(answer.leastWork) }),
    wishes: answer.wishes.map((wish) => ({
      ...wish,
      ...(wish.standing && { standing: way(wish.standing, less) }),
    })),
  };
}

function report(answer: PlaceAnswer, over: Partial<Report> = {}): string {
  const asked = { pins: {}, options: [], keep: 0 };
  const whole = { answer, asked, notDrawn: [], warnings: [], all: false, unruled: RULED };
  const told = telling({ scenario: MEASURED });
  return print(placeReport({ ...whole, again: AGAIN, ...over }, told), told.look);
}

describe('a file with measuring errors', () => {
  it('reads, as drawn with its worst case beside', () => {
    expect(report(bothWays(fitting(), 0.1, withWorst))).toMatchSnapshot();
  });

  it('reads where the worst case was what was asked for', () => {
    expect(report(bothWays(fitting(), 0.1, asWorst))).toMatchSnapshot();
    expect(report(bothWays(notFitting(), 0.1, asWorst))).toMatchSnapshot();
  });

  it('keeps to 24 lines of 80 columns', () => {
    for (const answer of [fitting(), notFitting()]) {
      for (const way of [withWorst, asWorst]) {
        const told = bothWays(answer, 0.3, way);
        const lines = report(told, { screen: FIRST_SCREEN }).trimEnd().split('\n');
        expect(lines.length).toBeLessThanOrEqual(FIRST_SCREEN);
        for (const line of lines) expect(columns(line)).toBeLessThanOrEqual(80);
        expect(lines[1]).toMatch(/^At worst /);
      }
    }
  });

  it('never tells more than is left at worst', () => {
    const text = report(bothWays(fitting(), 0.1, withWorst));
    // 0.1987 less 0.1: 1/16, where 3/16 is to spare as drawn.
    expect(text).toMatch(/^At worst {2}1\/16 to spare, guaranteed with 5 measuring errors/m);
    expect(text).toMatch(/2 3\/16 +2 +3\/16 +1\/16 +half +fan - radiator/);
    const short = report(bothWays(fitting(), 0.2, withWorst));
    expect(short).toMatch(/^At worst {2}short 1\/16 with 5 measuring errors/m);
    expect(short).not.toContain('guaranteed');
    expect(short).toMatch(/ 3\/16 +-1\/16 +half +fan - radiator/);
  });

  it('says in the first line that the guaranteed margin is what is best', () => {
    const first = (answer: PlaceAnswer) => report(answer).split('\n')[0];
    expect(first(bothWays(fitting(), 0.1, asWorst))).toBe(
      'FITS. Proved best guaranteed for these 3 parts and sizes.',
    );
    expect(first(bothWays(notFitting(), 0.1, asWorst))).toMatch(
      /^NOT GUARANTEED\. Proved: at worst/,
    );
    expect(report(bothWays(fitting(), 0.1, asWorst))).toMatch(/most; as\s+drawn 3\/16 to spare/);
  });

  it('names what to measure again first: three, or every one that gains', () => {
    const answer = bothWays(fitting(), 0.1, withWorst);
    const text = report(answer).replace(/\s+/g, ' ');
    expect(text).toContain('Measure again first: radiator box x to (-9 +- 1/16) gains 1/16;');
    expect(text).toContain('datum pulley face x (-26 +- 1/16) gains under 1/64;');
    expect(text).not.toContain('far fan');
    const all = report(answer, { all: true }).replace(/\s+/g, ' ');
    expect(all).toContain('rail solid 1 prism corner 3 second (4 +- 1/16);');
    expect(all).toContain('far fan ball center y, fan: pusher (3 +- 1/16)');
    expect(all).not.toContain('hood tilt');
    const none = report(answer, { again: AGAIN.slice(2) }).replace(/\s+/g, ' ');
    expect(none).toContain('none gains alone: other rules are as tight');
  });

  it('tells the same of a position that was asked for', () => {
    const standing = withWorst(fitting().main.setting, 0.1);
    const asked = { standing, set: [0, 0], notDrawn: [], warnings: [], unruled: RULED };
    const told = telling({ scenario: MEASURED });
    const text = print(gapsReport(asked, told), told.look);
    expect(text.split('\n')[1]).toMatch(/^At worst {2}1\/16 to spare, guaranteed/);
  });

  it('tells programs both margins, and which one was maximised', () => {
    const n = { scenario: MEASURED, units: 'in' } as const;
    const json = (way: Way): unknown => {
      const answer = placeJson(bothWays(fitting(), 0.1, way), [], RULED, n, AGAIN);
      return JSON.parse(JSON.stringify(answer));
    };
    const both = { margin: 0.2142, guaranteed: 0.1142 };
    const shape = {
      ...both,
      setting: { margin: 0.1987, guaranteed: 0.0987 },
      asItStands: { margin: -0.8, guaranteed: -0.9 },
      wishes: { centre: { margin: 0.07, guaranteed: -0.03 } },
    };
    for (const [way, maximised] of [
      [withWorst, 'margin'],
      [asWorst, 'guaranteed'],
    ] as const) {
      const told = json(way) as { rules: object[]; measureAgain: object[] };
      expect(told).toMatchObject({ ...shape, maximised });
      expect(told.rules[0]).toMatchObject({ ...both, gap: 2.2142, atRest: 2.7142 });
      expect(told.measureAgain).toHaveLength(AGAIN.length);
      expect(told.measureAgain[0]).toEqual({
        path: ['chassis', 'radiator', 'box', 'x', 1],
        written: '-9 +- 1/16',
        error: 0.0625,
        gain: 0.0625,
        gainOfTightest: 0.0625,
      });
    }
    const gaps = gapsJson(
      withWorst(fitting().main.setting, 0.1),
      [0, 0],
      { hours: 0, cost: 0 },
      [],
      RULED,
      n,
    );
    expect(gaps).toMatchObject({ margin: 0.1987, guaranteed: 0.0987 });
  });

  it('is what --guaranteed needs', async () => {
    const file = (error: string) => `
berth: 1
title: two boxes
units: mm
driver: left
${error}
position: { setback: [0, 500], offset: 0, height: 0, pitch: 0 }
engine: { block: { box: { x: [-100, 0], y: [-50, 50], z: [0, 100] } } }
chassis:
  core: { box: { x: [-220, '-200 +- 0.5'], y: [-90, 90], z: [0, 100] } }
  wall: { box: { x: ['300 +- 20.5', 400], y: [-90, 90], z: [0, 100] } }
rules: [{ between: [engine, chassis], gap: 10 }]
`;
    const exact = file('').replace(/'(-?\d+) \+- [\d.]+'/g, '$1');
    const refused = await berth(['place', '-', '--guaranteed'], { stdin: exact });
    expect(refused.status).toBe(2);
    expect(refused.err).toContain('--guaranteed needs a measuring error');
    const sure = await berth(['place', '-', '--guaranteed', '--json'], { stdin: file('') });
    expect(sure.status).toBe(0);
    const answer = JSON.parse(sure.out) as Record<string, number>;
    // 400 apart in all, less 20 and less 10 needed at either end.
    expect(answer['guaranteed']).toBeGreaterThan((400 - 21) / 2 - 10 - 0.5);
    expect(answer['bound']).toBeLessThan((400 - 21) / 2 - 10 + 0.5);
    expect(answer['margin']).toBeGreaterThan(answer['guaranteed']!);
  });
});
