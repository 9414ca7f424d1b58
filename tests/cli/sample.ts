/** Answers made by hand, so that a report can be tested on numbers chosen for it. */

import type { Choice, Position, Rule, Scenario } from '../../src/model/scenario.js';
import { stanceOf } from '../../src/model/stance.js';
import type { PlaceAnswer, Placement, Reading, Standing, Wish } from '../../src/solver/answer.js';
import type { Unruled } from '../../src/solver/measuring/unruled.js';
import { PLAIN_LOOK } from '../../src/words/text.js';
import type { Telling } from '../../src/words/words.js';
import { bay, option, part } from '../model/sample-bay.js';

export const INCH = 25.4;
const DEGREE = Math.PI / 180;

/** Inches and degrees. */
export function at(setback: number, offset: number, height: number, pitch: number): Position {
  return {
    setback: setback * INCH,
    offset: offset * INCH,
    height: height * INCH,
    pitch: pitch * DEGREE,
  };
}

export const CHOICES: readonly Choice[] = [
  {
    name: 'oil filter',
    options: [option('on the block'), option('remote', { hours: 1.5, cost: 90 })],
  },
  { name: 'fan', options: [option('belt driven'), option('pusher', { hours: 3, cost: 190 })] },
];

export function scenario(over: Partial<Scenario> = {}): Scenario {
  const inches = (min: number, max: number) => ({ min: min * INCH, max: max * INCH });
  return bay({
    title: 'Orchard sprayer, four-cylinder to V8',
    units: 'in',
    origin: 'front axle centreline, frame centre, rail top',
    datums: {
      chassis: [
        { name: 'front axle', x: 0 },
        { name: 'frame centre', y: 0 },
        { name: 'rail top', z: 0 },
        { name: 'core face', x: -9 * INCH },
        { name: 'firewall face', x: 30 * INCH },
      ],
      engine: [
        { name: 'block rear face', x: 0 },
        { name: 'pulley face', x: -26 * INCH },
        { name: 'carb pad', z: 19 * INCH },
      ],
    },
    position: {
      setback: inches(20, 32),
      offset: inches(-2, 2),
      height: inches(0, 5),
      pitch: { min: 0, max: 5 * DEGREE },
    },
    parts: [part('fan', 'engine'), part('block', 'engine'), part('radiator', 'chassis')],
    choices: CHOICES,
    ...over,
  });
}

const RULE: Rule = {
  between: [
    { level: 'part', name: 'fan' },
    { level: 'part', name: 'radiator' },
  ],
  gap: 2 * INCH,
  measured: 'nearest',
  comingOut: false,
  why: 'a flexing frame brings the core to the fan',
  origin: { from: 'file' },
};

/** A rule measured: inches. */
export function reading(
  first: string,
  second: string,
  needed: number,
  margin: number,
  over: Partial<Reading> = {},
): Reading {
  return {
    between: [first, second],
    measured: 'nearest',
    comingOut: false,
    rule: RULE,
    needed: needed * INCH,
    gap: (needed + margin) * INCH,
    atRest: (needed + margin + 0.5) * INCH,
    margin: margin * INCH,
    fixed: false,
    binding: false,
    slope: stanceOf({ setback: 1, offset: 0, height: 0, pitch: 0 }),
    ...over,
  };
}

export function standing(position: Position, readings: readonly Reading[]): Standing {
  const sorted = [...readings].sort((a, b) => a.margin - b.margin);
  const margin = sorted[0]?.margin ?? Infinity;
  return { position, margin, fits: margin >= 0, readings: sorted, limits: [] };
}

export function placement(
  optimum: Standing,
  setting: Standing,
  over: Partial<Placement> = {},
): Placement {
  return {
    options: [0, 0],
    hours: 0,
    cost: 0,
    fits: optimum.fits ? 'yes' : 'no',
    best: 'proved',
    optimum,
    setting,
    bound: optimum.margin + 0.007 * INCH,
    ...over,
  };
}

/** Two rules that bind, seven more near, and a hundred that do not matter. */
export function readings(margin: number): Reading[] {
  return [
    reading('fan', 'radiator', 2, margin, { measured: 'fore-aft', binding: true, share: 0.5 }),
    reading('bell housing', 'firewall', 1, margin + 0.01, {
      binding: true,
      share: 0.5,
      slope: stanceOf({ setback: -1, offset: 0, height: 0, pitch: 0 }),
    }),
    reading('oil filter', 'front crossmember', 0.5, margin + 0.2),
    reading('oil filter', 'steering box', 0, margin + 0.25, { comingOut: true }),
    ...['pan', 'pulley', 'starter', 'left header', 'alternator'].map((name, i) =>
      reading(name, 'rail', 0.75, margin + 0.4 + i / 10),
    ),
    ...Array.from({ length: 100 }, (_, i) => reading(`part ${i}`, 'rail', 0.5, 2 + i / 10)),
    reading('starter', 'header', 0.25, 1.3, { fixed: true }),
  ];
}

const OPTIMUM = at(25.482, 0.25, 2.283, 3.1);
const SETTING = at(25.5, 0.25, 2.25, 3.1);

export function fitting(over: Partial<PlaceAnswer> = {}): PlaceAnswer {
  const remote = { options: [1, 0], hours: 1.5, cost: 90 };
  const main = placement(
    standing(OPTIMUM, readings(0.2142)),
    standing(SETTING, readings(0.1987)),
    remote,
  );
  const first = standing(OPTIMUM, readings(-0.8));
  const wishes: Wish[] = [
    {
      aim: 'centre',
      best: 'proved',
      standing: standing(at(25.5, 0, 2.25, 3.1), readings(0.07)),
      fits: 'yes',
      bound: 2,
    },
    {
      aim: 'low',
      best: 'proved',
      standing: standing(at(25, 0.25, 1.71, 3), readings(0)),
      fits: 'yes',
      bound: 43.4,
    },
    {
      aim: 'back',
      best: 'proved',
      standing: standing(at(26.2, 0.25, 2, 3), readings(0)),
      fits: 'yes',
      bound: 665.5,
    },
  ];
  return {
    aim: 'margin',
    tolerance: INCH / 64,
    main,
    bestBound: 0.302 * INCH,
    cheaperUndecided: [],
    asItStands: placement(first, first),
    leastWork: main,
    anyFits: 'yes',
    wishes,
    effort: { boxes: 283, gaps: 9232, lps: 343 },
    ...over,
  };
}

export function notFitting(over: Partial<PlaceAnswer> = {}): PlaceAnswer {
  const best = standing(at(24.75, 0, 2.25, 3), readings(-0.6));
  const { leastWork, ...rest } = fitting();
  void leastWork;
  return {
    ...rest,
    main: placement(best, best, { options: [1, 1], hours: 4.5, cost: 280 }),
    bestBound: -0.59 * INCH,
    anyFits: 'no',
    wishes: [],
    ...over,
  };
}

/** Stopped before its proofs were done. */
export function open(over: Partial<PlaceAnswer> = {}): PlaceAnswer {
  const { main, ...rest } = notFitting();
  return {
    ...rest,
    main: { ...main, fits: 'undecided', best: 'undecided', bound: 0.4 * INCH },
    bestBound: 0.4 * INCH,
    anyFits: 'undecided',
    stopped: 'time',
    ...over,
  };
}

/** A bay in which every part has a rule. */
export const RULED: Unruled = { standing: 3, covered: 3, parts: [], overlaps: [] };

export function telling(over: Partial<Telling> = {}): Telling {
  return { scenario: scenario(), units: 'in', look: PLAIN_LOOK, ...over };
}

/** A standing with what the worst case leaves of every margin: inches less. */
export function withWorst(of: Standing, less: number): Standing {
  const lower = <T extends { readonly margin: number }>(one: T) => {
    return { ...one, guaranteed: one.margin - less * INCH };
  };
  return { ...lower(of), readings: of.readings.map(lower) };
}

/** The same where the worst case is what was measured: its margins are those told first. */
export function asWorst(of: Standing, less: number): Standing {
  const lower = <T extends { readonly margin: number }>(one: T, drawn: Partial<T>) => {
    const guaranteed = one.margin - less * INCH;
    return { ...one, margin: guaranteed, guaranteed, drawn };
  };
  return {
    ...lower(of, { margin: of.margin }),
    readings: of.readings.map((one) => {
      const { gap, atRest, margin } = one;
      return lower(one, { gap, atRest, margin });
    }),
  };
}
