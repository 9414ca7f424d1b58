/** `berth trim` as it is typed and read: words, statuses, and the answer for programs. */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { berth } from './world.js';
import type { Outcome, Setup } from './world.js';

/** A sump 1/2 in over a crossmember where 3/4 is needed, and a hood 2 in over the block. */
const SLEDGE = `
berth: 1
title: Sledge
units: in
driver: left
datums: { chassis: { front axle: { x: 0 }, frame centre: { y: 0 }, rail top: { z: 0 } } }
position: { setback: 0, offset: 0, height: 0, pitch: 0 }
engine:
  block: { kind: block, box: { x: [-10, 10], y: [-5, 5], z: [-5, 5] } }
  sump: { kind: oil pan, box: { x: [-3, 3], y: [-3, 3], z: [-8, -5] } }
chassis:
  crossmember: { kind: crossmember, box: { x: [-20, 20], y: [-20, 20], z: [-12, -8 1/2] } }
  hood: { kind: hood, box: { x: [-20, 20], y: [-20, 20], z: [7, 8] } }
rules: [{ between: [engine, chassis], gap: 3/4 }]
choices:
  sump: { deep: {}, shallow: { move: { sump: { z: 1/2 } }, hours: 1, cost: 200 } }
`;
const TRIMS = `
trims:
  - { part: crossmember, cut: down, over: { x: [-6, 6], y: [-6, 6] }, up to: 2, hours: 2, plus: { hours: 1, per: 1/2 } }
`;
/** The same, and two more faces: one of no use, one told from the first by its stretch alone. */
const MORE = `${TRIMS}  - { part: hood, cut: up, up to: 1/2, cost: 40 }
  - { part: crossmember, cut: down, over: { x: [15, 20] }, up to: 1, hours: 1 }
`;

const SMALL = 'scenarios/narrow-rails.yaml';
const TOWERS = 'scenarios/tower-squeeze.yaml';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'berth-trim-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function put(text: string): string {
  const path = join(folder, `bay-${text.length}.yaml`);
  writeFileSync(path, text);
  return path;
}

function trim(text: string, more: readonly string[] = [], setup: Setup = {}): Promise<Outcome> {
  return berth(['trim', text.includes('\n') ? put(text) : text, ...more], setup);
}

/** As one line, so that words are found wherever it broke. */
function flat(text: string): string {
  return text.replace(/\s+/g, ' ');
}

function fits({ out }: Outcome): void {
  const lines = out.trimEnd().split('\n');
  for (const line of lines) expect(line.length, line).toBeLessThanOrEqual(80);
  expect(lines.length).toBeLessThanOrEqual(24);
}

interface Told {
  readonly units: string;
  readonly uncut: string;
  readonly cheapest: {
    readonly options: object;
    readonly cuts: readonly { part: string; cut: string; depth: number; over?: object }[];
    readonly hours: number;
    readonly cost: number;
    readonly shallowest: boolean;
    readonly place: { readonly margin: number };
  } | null;
  readonly cheapestProved: boolean;
  readonly curves: readonly {
    readonly part: string;
    readonly cut: string;
    readonly over?: object;
    readonly upTo: number;
    readonly enough: number;
    readonly bestHour: { depth: number; perHour: number } | null;
    readonly points: readonly { depth: number; margin: number | null; hours: number }[];
  }[];
  readonly stopped: string | null;
}

async function told(text: string, more: readonly string[] = []): Promise<Told> {
  return JSON.parse((await trim(text, [...more, '--json'])).out) as Told;
}

describe('words', () => {
  it('say the cheapest cut, what each depth gains, and what to do before cutting', async () => {
    const outcome = await trim(SLEDGE + TRIMS);
    fits(outcome);
    expect(outcome).toMatchObject({ status: 0, err: '' });
    expect(outcome.out).toMatchSnapshot();
    expect(outcome.out).toMatch(/^CUT\. Proved the least work on the tape marks\.\n/);
    expect(flat(outcome.out)).toContain('notch crossmember 1/4 down (measure this again');
    expect(flat(outcome.out)).toContain('deeper than 1 1/2 gains nothing');
  });

  it('say that options do it, where they are less work', async () => {
    const outcome = await trim(SLEDGE + TRIMS, ['--with-options']);
    fits(outcome);
    expect(outcome.status).toBe(0);
    expect(outcome.out).toMatch(/^NO CUT NEEDED\. Other options do it\. Proved/);
    expect(flat(outcome.out)).toContain('sump: shallow (1 h, cost 200)');
  });

  it('say that no cut is needed', async () => {
    const outcome = await trim(SLEDGE + TRIMS, ['--want', 'sump=shallow']);
    fits(outcome);
    expect(outcome.status).toBe(0);
    expect(outcome.out).toMatch(/^NO CUT NEEDED\. It can be had as asked\.\n/);
  });

  it('say that no cut reaches it, and what to ask next', async () => {
    const outcome = await trim(SLEDGE + TRIMS, ['--margin', '1 1/2']);
    fits(outcome);
    expect(outcome.status).toBe(1);
    expect(outcome.out).toMatch(/^NO CUT REACHES IT with the options as asked\. Proved\.\n/);
    expect(outcome.out).toContain('--with-options');
    const all = await trim(SLEDGE + TRIMS, ['--margin', '1 1/2', '--with-options']);
    expect(all.out).toMatch(/^NO CUT REACHES IT whatever the options\. Proved\.\n/);
    expect(all.out).not.toContain('--with-options');
  });

  it('tell faces that differ in their stretch alone apart, and price cuts without hours', async () => {
    const outcome = await trim(SLEDGE + MORE);
    fits(outcome);
    const said = flat(outcome.out);
    expect(said).toContain('crossmember, notched down over x -6 to 6 and y -6 to 6');
    expect(said).toContain('crossmember, notched down over x 15 to 20: cutting gains nothing');
    expect(said).toContain('hood, cut up: cutting gains nothing; short 1/4 however deep');
  });

  it('say what a cut without hours gains', async () => {
    const free = TRIMS.replace('hours: 2, plus: { hours: 1, per: 1/2 }', 'cost: 30');
    const said = flat((await trim(SLEDGE + free)).out);
    expect(said).toContain(
      'short 1/4 uncut, held by sump - crossmember; 1 1/4 to spare at 1 1/2 deep, held by block - hood',
    );
    expect(said).toContain('(cost 30)');
  });

  it.each([
    ['frame rail', true],
    ['crossmember', true],
    ['core support', true],
    ['tunnel', false],
  ])('have a %s that is cut reviewed as structural: %s', async (kind, structural) => {
    const bay = SLEDGE.replace('{ kind: crossmember', `{ kind: ${kind}`) + TRIMS;
    for (const [command, cuts] of [
      ['trim', 3],
      ['blockers', 1],
    ] as const) {
      const outcome = await berth([command, put(bay), '--want', 'margin>=0']);
      const said = flat(outcome.out);
      expect(said.match(/measure this again before cutting/g)).toHaveLength(cuts);
      expect(said.match(/structural: have it reviewed/g) ?? []).toHaveLength(structural ? cuts : 0);
      expect(outcome.out).toContain('Space only, not strength. Have cuts and mounts reviewed;');
    }
  });

  it('keep to the marks of a millimetre tape, and never go deeper than the file allows', async () => {
    const { out } = await trim(SLEDGE + TRIMS.replace('up to: 2', 'up to: 1/4'), ['--units', 'mm']);
    expect(flat(out)).toContain('notch crossmember 6.35 mm down');
    const wide = await trim(SLEDGE + TRIMS, ['--units', 'mm', '--margin', '3']);
    expect(wide.status).toBe(0);
    expect(flat(wide.out)).toContain('every rule met with 3 mm to spare or more');
    expect(flat(wide.out)).toContain('notch crossmember 10 mm down');
  });

  it('say, of a bay that ships, a place that has the margin asked for', async () => {
    const asked = ['--with-options', '--margin', '1/2'];
    const outcome = await trim(SMALL, asked);
    fits(outcome);
    expect(outcome.status).toBe(0);
    expect(outcome.out).toMatchSnapshot();
  });
});

describe('programs', () => {
  it('are told the same as people', async () => {
    const answer = await told(SLEDGE + MORE);
    expect(answer).toMatchObject({ units: 'in', uncut: 'no', cheapestProved: true, stopped: null });
    const stretch = { x: { min: -6, max: 6 }, y: { min: -6, max: 6 } };
    expect(answer.cheapest).toMatchObject({
      options: { sump: 'deep' },
      cuts: [{ part: 'crossmember', cut: 'down', over: stretch, depth: 0.25 }],
      hours: 2.5,
      cost: 0,
      shallowest: true,
      place: { margin: 0 },
    });
    expect(answer.curves.map(({ over }) => over)).toEqual([
      stretch,
      undefined,
      { x: { min: 15, max: 20 } },
    ]);
    const [curve] = answer.curves;
    expect(curve).toMatchObject({ part: 'crossmember', upTo: 2, enough: 1.5 });
    expect(curve!.bestHour).toEqual({ depth: 1.5, perHour: 0.3 });
    for (const { depth, margin, hours } of curve!.points) {
      expect(margin).toBeCloseTo(Math.min(depth - 0.25, 1.25), 3);
      expect(hours).toBeCloseTo(depth === 0 ? 0 : 2 + 2 * depth, 9);
    }
  });

  it('are told in the units asked for', async () => {
    const answer = await told(SLEDGE + TRIMS, ['--units', 'mm']);
    expect(answer.units).toBe('mm');
    expect(answer.cheapest!.cuts[0]!.depth).toBe(7);
    expect(answer.curves[0]!.upTo).toBeCloseTo(50.8, 6);
  });

  it('are told null where there is nothing', async () => {
    const answer = await told(SLEDGE + TRIMS, ['--want', 'height=3']);
    expect([answer.uncut, answer.cheapest, answer.cheapestProved]).toEqual(['no', null, true]);
    expect(answer.curves[0]!.points.map(({ margin }) => margin)).toEqual([null, null]);
    expect(answer.curves[0]!.bestHour).toBeNull();
    const { status, out } = await trim(SLEDGE + TRIMS, ['--want', 'height=3']);
    expect(status).toBe(1);
    expect(flat(out)).toContain('cutting gains nothing; no place within the wish');
  });
});

describe('bad input', () => {
  it.each([
    ['no trims', SLEDGE, [], /this file has no trims/],
    ['a margin below 0', SLEDGE + TRIMS, ['--margin', '-1'], /--margin must be 0 or more/],
    ['a margin that is no length', SLEDGE + TRIMS, ['--margin', 'much'], /--margin: this is not/],
    ['an unknown wish', SLEDGE + TRIMS, ['--want', 'width=2'], /'width' is neither/],
    ['an unknown option', SLEDGE + TRIMS, ['--want', 'sump=round'], /round/],
    ['a bad time', SLEDGE + TRIMS, ['--time-limit', '0'], /--time-limit must be/],
    ['bad units', SLEDGE + TRIMS, ['--units', 'ft'], /--units: there is no 'ft'/],
    ['a part never cut', SLEDGE + TRIMS.replace('crossmember', 'hoods'), [], /hood/],
  ])('%s', async (_, text, more, words) => {
    const { status, out, err } = await trim(text, more);
    expect([status, out]).toEqual([2, '']);
    expect(err).toMatch(words);
    expect(err).not.toMatch(/^\s+at .*:\d+:\d+/m);
  });
});

describe('stopped', () => {
  it('by the time limit: undecided, and no face told that was not worked out', async () => {
    const outcome = await trim(TOWERS, ['--time-limit', '0.05'], { tick: 20 });
    fits(outcome);
    expect(outcome.status).toBe(3);
    expect(outcome.out).toMatch(/^UNDECIDED\. No cut found so far that reaches it\.\n/);
    expect(outcome.out).not.toMatch(/^Face/m);
    expect(outcome.out).not.toContain('Proved');
    const said = flat(outcome.out);
    expect(said).toMatch(
      /Stopped by the time limit, after \d+ box(es)?; not worked out: left tower/,
    );
  });

  it('by hand', async () => {
    const outcome = await trim(TOWERS, [], {
      onBreath: (world, count) => count === 2 && world.interrupt(),
    });
    expect(outcome.status).toBe(3);
    expect(flat(outcome.out)).toContain('Stopped when asked');
  });
});
