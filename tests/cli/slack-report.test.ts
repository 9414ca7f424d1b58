/** Room to set it, in words and for programs. */

import { describe, expect, it } from 'vitest';
import { placeJson } from '../../src/cli/json/answer.js';
import { placeReport } from '../../src/cli/report/answer.js';
import { slackSection } from '../../src/cli/report/slack.js';
import type { Coordinate } from '../../src/model/scenario.js';
import type { Slack, SlackSide, Stop } from '../../src/solver/answer.js';
import { fitting, INCH, notFitting, RULED, scenario, telling } from './sample.js';

const DEGREE = Math.PI / 180;
const RULE: Stop = {
  by: 'rule',
  rule: { between: ['fan', 'radiator'], measured: 'fore-aft', comingOut: false },
};
const RANGE: Stop = { by: 'range' };

type Sizes = Readonly<Record<Coordinate, readonly [number, number]>>;

/** Inches and degrees, down and up; every side stopped by a rule unless given. */
function slack(sizes: Partial<Sizes>, stops: Partial<Record<Coordinate, Stop>> = {}): Slack {
  const side = (c: Coordinate, i: number): SlackSide => {
    const size = sizes[c]?.[i] ?? 0;
    return {
      room: size * (c === 'pitch' ? DEGREE : INCH),
      stop: stops[c] ?? (sizes[c] ? RULE : RANGE),
    };
  };
  const way = (i: number) => ({
    setback: side('setback', i),
    offset: side('offset', i),
    height: side('height', i),
    pitch: side('pitch', i),
  });
  return { down: way(0), up: way(1) };
}

function words(of: Slack, told = telling()): string {
  return slackSection(of, told)
    .lines.map(({ label, text }) => (label === '' ? text : `${label}: ${text}`))
    .join(' ');
}

describe('room to set it, in words', () => {
  it('says both ways at once where they are alike, rounded down', () => {
    const sizes = {
      setback: [0.24, 0.24],
      offset: [3 / 16, 0.2],
      height: [0.125, 0.26],
      pitch: [0.55, 0.52],
    } as const;
    expect(words(slack(sizes))).toBe(
      'Slack: anywhere within 3/16 forward or back, 3/16 either side, 1/4 up, 1/8 down, ' +
        'half a degree of pitch either way',
    );
  });

  it('leaves out what is pinned, and says who sits where', () => {
    const sizes = { offset: [0.5, 0.25] } as const;
    expect(words(slack(sizes))).toBe('Slack: anywhere within 1/4 to passenger, 1/2 to driver');
    const right = telling({ scenario: scenario({ driver: 'right' }) });
    expect(words(slack(sizes), right)).toBe(
      'Slack: anywhere within 1/4 to driver, 1/2 to passenger',
    );
    expect(words(slack({}))).toBe('');
  });

  it('says what is not a rule, and what has no room', () => {
    const limit: Stop = {
      by: 'limit',
      limit: { quantity: { of: 'pitch' }, min: 0, max: 4 * DEGREE, path: [] },
    };
    const sizes = { setback: [0.05, 0.05], height: [0.25, 0.25], pitch: [0.9, 0] } as const;
    expect(words(slack(sizes, { pitch: limit, height: RANGE }))).toBe(
      'Slack: anywhere within 1/4 up or down (end of range), 0.9 deg tail up (limit), ' +
        'none down (limit), keep setback as set',
    );
    expect(words(slack({ setback: [0.05, 0.05], pitch: [0.05, 0.09] }))).toBe(
      'Slack: none that a tape shows',
    );
    const cut = slack({ setback: [0.5, 0.5] }, { setback: { by: 'effort' } });
    expect(words(cut)).toBe('Slack: anywhere within 1/2 forward or back at least');
  });

  it('names millimetres', () => {
    const sizes = { setback: [0.24, 0.24], offset: [0.5, 0.25] } as const;
    expect(words(slack(sizes), telling({ units: 'mm' }))).toBe(
      'Slack: anywhere within 6 mm forward or back, 6 mm to passenger, 12 mm to driver',
    );
  });
});

describe('in the answer', () => {
  const sizes = { setback: [0.24, 0.31] } as const;
  const report = (answer: ReturnType<typeof fitting>, all: boolean) =>
    placeReport(
      { answer, asked: ASKED, notDrawn: [], warnings: [], all, unruled: RULED, again: [] },
      telling(),
    );
  const ASKED = { pins: {}, options: [], keep: 0 };

  it('stands only where the setting fits; what stops it, only where all is asked for', () => {
    const labels = (answer: ReturnType<typeof fitting>, all = false) =>
      report(answer, all).map(({ label }) => label);
    expect(labels(fitting({ slack: slack(sizes) }))).toContain('Slack');
    expect(labels(fitting({ slack: slack(sizes) }))).not.toContain('Slack to');
    expect(labels(fitting({ slack: slack(sizes) }), true)).toContain('Slack to');
    expect(labels(fitting())).not.toContain('Slack');
    expect(labels(notFitting())).not.toContain('Slack');
    const stops = report(fitting({ slack: slack(sizes) }), true).find(
      ({ label }) => label === 'Slack to',
    )!;
    expect(stops.text).toContain('3/16 forward: fan - radiator, fore-aft');
  });

  it('is told to programs with what stops each side', () => {
    const numbers = { scenario: scenario(), units: 'in' } as const;
    const told = placeJson(fitting({ slack: slack(sizes) }), [], RULED, numbers) as {
      slack: Record<string, unknown>;
    };
    expect(told.slack['setback']).toEqual({
      down: {
        room: 0.24,
        stop: { by: 'rule', between: ['fan', 'radiator'], measured: 'fore-aft', comingOut: false },
      },
      up: {
        room: 0.31,
        stop: { by: 'rule', between: ['fan', 'radiator'], measured: 'fore-aft', comingOut: false },
      },
    });
    expect(told.slack['pitch']).toEqual({
      down: { room: 0, stop: { by: 'range' } },
      up: { room: 0, stop: { by: 'range' } },
    });
    expect(placeJson(fitting(), [], RULED, numbers)).toMatchObject({ slack: null });
  });
});
