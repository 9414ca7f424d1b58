/** `berth blockers` on the scenarios that ship, and every way in which it can end. */

import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { FIRST_SCREEN } from '../../src/cli/report/answer.js';
import { columns } from '../../src/words/text.js';
import { berth } from './world.js';
import type { Outcome, Setup } from './world.js';

const NARROW = 'scenarios/narrow-rails.yaml';
const TOWERS = 'scenarios/tower-squeeze.yaml';

interface Told {
  readonly units: string;
  readonly wish: unknown;
  readonly possible: string;
  readonly place: { readonly margin: number } | null;
  readonly reasons: readonly {
    readonly parts: readonly string[];
    readonly smallest: boolean;
    readonly short: { readonly atLeast: number; readonly atMost: number } | null;
    readonly beyond: { readonly coordinate: string; readonly by: number } | null;
    readonly rules: readonly { readonly between: readonly string[]; readonly margin: number }[];
  }[];
  readonly reasonsComplete: boolean;
  readonly remedies: readonly {
    readonly options: Readonly<Record<string, string>>;
    readonly cuts: readonly { readonly part: string; readonly depth: number }[];
    readonly hours: number;
  }[];
  readonly remediesComplete: boolean;
  readonly stopped: string | null;
}

function blockers(file: string, ...more: readonly string[]): Promise<Outcome> {
  return berth(['blockers', file, ...more]);
}

async function toldOf(...args: Parameters<typeof blockers>): Promise<Told & { status: number }> {
  const { status, out } = await blockers(args[0], ...args.slice(1), '--json');
  return { ...(JSON.parse(out) as Told), status };
}

/** A block between two walls, each a line of work away from fitting. */
const SMALL = `berth: 1
title: A block between two walls
units: in
driver: left
position: { setback: [-2, 2], offset: 0, height: 0, pitch: 0 }
engine:
  block: { box: { x: [-10, 0], y: [-4, 4], z: [0, 8] } }
chassis:
  rear wall: { box: { x: [1, 3], y: [-30, 30], z: [-30, 30] } }
  front wall: { box: { x: [-14, -11], y: [-30, 30], z: [-30, 30] } }
rules:
  - { between: [engine, chassis], gap: 1/2 }
trims:
  - { part: front wall, cut: ahead, up to: 2, hours: 1, plus: { hours: 1, per: 1 in } }
`;
/** One command on the small bay, on standard input. */
function small(want: string, more: readonly string[] = [], setup: Setup = {}): Promise<Outcome> {
  return berth(['blockers', '-', '--want', want, ...more], { stdin: SMALL, ...setup });
}

describe('the scenarios that ship, asked to be on centre', () => {
  it.each([NARROW, TOWERS])('%s', async (file) => {
    const { status, out, err } = await blockers(file, '--want', 'offset=0', '--plain');
    expect({ status, err }).toEqual({ status: 1, err: '' });
    expect(out).toMatchSnapshot();
    const lines = out.trimEnd().split('\n');
    expect(lines.length).toBeLessThanOrEqual(FIRST_SCREEN);
    for (const line of lines) expect(columns(line), line).toBeLessThanOrEqual(80);
  });

  it('keep to a screen where there is more to tell', async () => {
    const argv = ['blockers', 'scenarios/orchard-hauler.yaml', '--want', 'offset=0'];
    const { out } = await berth([...argv, '--time-limit', '2.5']);
    const lines = out.trimEnd().split('\n');
    expect(lines.length).toBeLessThanOrEqual(FIRST_SCREEN);
    for (const line of lines) expect(columns(line), line).toBeLessThanOrEqual(80);
  });

  it('say the same to programs', async () => {
    const told = await toldOf(NARROW, '--want', 'offset=0');
    expect(told).toMatchObject({
      status: 1,
      units: 'in',
      possible: 'no',
      wish: { offset: { min: 0, max: 0 }, margin: 0, options: {} },
      place: null,
      reasonsComplete: true,
      remediesComplete: true,
      stopped: null,
    });
    expect(told.reasons.map(({ parts }) => parts)).toEqual([['steering box']]);
    const { short, rules, smallest } = told.reasons[0]!;
    expect(smallest).toBe(true);
    // 'short 1/2' in words: at most that, and more than 7/16.
    expect(short!.atMost).toBeGreaterThan(7 / 16);
    expect(short!.atMost).toBeLessThanOrEqual(1 / 2);
    expect(short!.atLeast).toBeLessThanOrEqual(short!.atMost);
    expect(rules[0]!.between).toEqual(['oil filter', 'steering box']);
    expect(rules[0]!.margin).toBeCloseTo(-short!.atMost, 2);
    expect(told.remedies).toMatchObject([
      { options: { 'oil filter': 'remote', fan: 'mechanical' }, cuts: [], hours: 1.5 },
    ]);
  });

  it('say so in millimetres', async () => {
    const [inches, mm] = await Promise.all([
      toldOf(NARROW, '--want', 'offset=0'),
      toldOf(NARROW, '--want', 'offset=0', '--units', 'mm'),
    ]);
    expect(mm.units).toBe('mm');
    const [a, b] = [inches.reasons[0]!.short!.atMost * 25.4, mm.reasons[0]!.short!.atMost];
    expect(Math.abs(a - b)).toBeLessThan(25.4 / 64);
    const { out } = await blockers(NARROW, '--want', 'offset=0', '--units', 'mm');
    expect(out).toContain('steering box, short 12 mm: ');
  });

  it('can be had once the option that cures it is wished for too', async () => {
    const { status, out } = await blockers(
      NARROW,
      '--want',
      'offset=0',
      '--want',
      'oil filter=remote',
    );
    expect(status).toBe(0);
    expect(out).toMatch(
      /^POSSIBLE\. +Proved: it can be had with these options, with 5\/16 to spare/,
    );
    expect(out).toContain('Set ');
    expect(out).not.toContain('Because');
  });
});

describe('the words', () => {
  it('of a wall in the way, and the notch that cures it', async () => {
    const { status, out } = await small('setback<=-1; margin>=1/4');
    expect(status).toBe(1);
    expect(out).toMatchSnapshot();
    // From -11 to the block's -10 - 1 is nothing: 1/2 and 1/4 more are missing.
    expect(out).toContain('front wall, short 3/4: block - front wall wants the engine back');
    expect(out).toContain('cut front wall 3/4 ahead');
  });

  it('of both walls together, each with its own way', async () => {
    const { out } = await small('margin>=3/4');
    expect(out).toContain('short 1/4');
    expect(out.replace(/\s+/g, ' ')).toContain('block - front wall wants the engine back');
    expect(out.replace(/\s+/g, ' ')).toContain('block - rear wall wants the engine forward');
  });

  it('of a wish beyond the file, which nothing cures', async () => {
    const { status, out } = await small('setback>=3');
    expect(status).toBe(1);
    expect(out).toContain('the file lets setback go up to 2 only, 1 short of the wish');
    expect(out).toContain('nothing the file offers remedies it');
  });

  it('of a rule between parts of one side, which no position changes', async () => {
    const pump = 'engine:\n  pump: { box: { x: [-10.5, -10.25], y: [0, 1], z: [0, 1] } }';
    const stdin = SMALL.replace('engine:', pump).replace(
      'rules:',
      'rules:\n  - { between: [pump, block], gap: 1/2 }',
    );
    const { out } = await small('margin>=0', [], { stdin });
    expect(out.replace(/\s+/g, ' ')).toContain(
      'pump and block, short 1/4: pump - block, which no position changes',
    );
  });

  it('of a limit that no rule is needed to break', async () => {
    const stdin = SMALL.replace(
      'rules:',
      'limits:\n  - { quantity: setback, max: 1/4, why: shifter }\nrules:',
    );
    const { status, out } = await small('setback>=3/8', [], { stdin });
    expect(status).toBe(1);
    expect(out).toContain('the limit on setback (shifter), 1/8 short of the wish');
  });

  it('never give a setting that misses the margin wished for', async () => {
    // 1/32 between the best place, in the middle, and the nearest mark.
    const stdin = SMALL.replace('x: [1, 3]', 'x: [1 1/16, 3]');
    const told = JSON.parse((await small('margin>=0.53', ['--json'], { stdin })).out) as Told;
    expect(told.possible).toBe('yes');
    const { out } = await small('margin>=0.53', [], { stdin });
    expect(out).toContain('1/32 back');
  });
});

describe('wishes that are none', () => {
  it.each([
    ['bigger=2', 'bad name'],
    ['offset', 'no sign'],
    ['offset=wide', 'no length'],
    ['margin<=1', 'a margin from above'],
    ['offset>=1; offset<=0', 'a contradiction'],
    ['', 'nothing'],
    ['oil filter>=remote', 'a choice with an order'],
    ['oil filter=bucket', 'no such option'],
  ])('%s', async (want) => {
    const { status, out, err } = await blockers(NARROW, '--want', want);
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).not.toBe('');
  });

  it('nothing is wished for', async () => {
    const { status, out, err } = await blockers(NARROW);
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toContain('want');
  });

  it.each([[['--time-limit', 'soon']], [['--units', 'ft']]])('%s', async (more) => {
    const { status, out } = await blockers(NARROW, '--want', 'offset=0', ...more);
    expect({ status, out }).toEqual({ status: 2, out: '' });
  });

  it('no such file', async () => {
    expect(await blockers('nowhere.yaml', '--want', 'offset=0')).toMatchObject({
      status: 2,
      out: '',
    });
  });
});

describe('a time limit', () => {
  let stopped: Outcome;
  beforeAll(async () => {
    const argv = ['blockers', TOWERS, '--want', 'offset=0', '--time-limit', '0.001'];
    stopped = await berth(argv, { tick: 5 });
  });

  it('leaves what is not settled open, and says so', () => {
    expect(stopped.status).toBe(3);
    expect(stopped.out).toMatch(
      /^UNDECIDED\. +Not settled whether it can be had as the bay stands/,
    );
    expect(stopped.out).toContain('by the time limit');
    expect(stopped.out).not.toContain('no smaller change');
    expect(stopped.out).not.toContain('no other');
  });

  it('that comes later keeps what is proved, and claims no more', async () => {
    const argv = ['blockers', TOWERS, '--want', 'offset=0', '--json', '--time-limit', '0.3'];
    const { status, out } = await berth(argv, { tick: 5 });
    const told = JSON.parse(out) as Told;
    expect(told.stopped).toBe('time');
    expect([told.possible, status]).toEqual(['no', 1]);
    expect(told.reasonsComplete && told.remediesComplete).toBe(false);
  });
});

it('reads the same file in JSON and on standard input', async () => {
  const text = readFileSync(NARROW, 'utf8');
  const argv = ['blockers', '-', '--want', 'offset=0', '--plain'];
  const { out } = await berth(argv, { stdin: text });
  expect(out).toBe((await blockers(NARROW, '--want', 'offset=0', '--plain')).out);
});
