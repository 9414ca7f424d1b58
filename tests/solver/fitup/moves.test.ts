import { describe, expect, it } from 'vitest';
import { lengthOf } from '../../../src/geometry/adjusters/links.js';
import type { Adjuster, Mockup } from '../../../src/model/fitup/mockup.js';
import { readScenario } from '../../../src/model/read.js';
import type { Scenario } from '../../../src/model/scenario.js';
import { stanceFrom, stanceVector } from '../../../src/model/stance.js';
import type { Stance } from '../../../src/model/stance.js';
import { restingGap, restingMeetings } from '../../../src/solver/fitup/resting.js';
import { setUp } from '../../../src/solver/fitup/set-up.js';

/** A box of an engine, and what stands about it, millimetres. */
function bay(chassis: string): Scenario {
  const { scenario, problems } = readScenario(
    `
berth: 1
units: mm
driver: left
position: { setback: [-100, 100], offset: [-100, 100], height: [-100, 100], pitch: [-5, 5] }
engine: { block: { kind: block, box: { x: [-100, 100], y: [-100, 100], z: [-100, 100] } } }
chassis: ${chassis}
rules: [{ between: [engine, chassis], gap: 5 }]
`,
    'yaml',
  );
  if (!scenario) throw new Error(problems.map(({ message }) => message).join('; '));
  return scenario;
}

/** Six links along the axes: three upright, two across, one fore and aft. All but straight lines of motion. */
const LONG = 4000;
const along = (name: string, engine: [number, number, number], way: [number, number, number]) => ({
  name,
  engine,
  frame: engine.map((value, k) => value - LONG * way[k]!) as unknown as [number, number, number],
  thread: 'M16x2',
  hand: 'right' as const,
  lead: 2,
  range: { min: LONG - 200, max: LONG + 200 },
});
const SQUARE: readonly Adjuster[] = [
  along('left post', [-100, -100, -100], [0, 0, 1]),
  along('right post', [-100, 100, -100], [0, 0, 1]),
  along('rear post', [100, 0, -100], [0, 0, 1]),
  along('front side', [-100, -100, 0], [0, 1, 0]),
  along('rear side', [100, -100, 0], [0, 1, 0]),
  along('tail', [100, 0, 0], [1, 0, 0]),
];

function setFrom(
  scenario: Scenario,
  from: Stance,
  to: Stance,
  adjusters: readonly Adjuster[] = SQUARE,
) {
  const own = adjusters.map((one) => ({ ...one, now: lengthOf(one, from) }));
  const mockup: Mockup = { adjusters: own, without: [], off: [] };
  return { mockup, found: setUp(scenario, mockup, [], to) };
}

/** Every move followed in small steps of length, each solved for anew by small straight steps. */
function leastOnTheWay(
  scenario: Scenario,
  mockup: Mockup,
  from: Stance,
  stops: readonly Stance[],
): number {
  const meetings = restingMeetings(scenario, [], []);
  let least = Infinity;
  let last = from;
  for (const stop of stops) {
    const [a, b] = [stanceVector(last), stanceVector(stop)];
    for (let k = 0; k <= 200; k++) {
      const stance = stanceFrom(a.map((value, j) => value + (k / 200) * (b[j]! - value)));
      for (const one of meetings) least = Math.min(least, restingGap(one, stance).lower);
    }
    last = stop;
  }
  return least;
}

const FOOT = `
berth: 1
units: mm
driver: left
position: { setback: [-100, 100], offset: [-100, 100], height: [-100, 100], pitch: [-5, 5] }
engine:
  block: { kind: block, box: { x: [-100, 100], y: [-100, 100], z: [-80, 100] } }
  foot: { kind: oil pan, box: { x: [60, 100], y: [-100, 100], z: [-100, -80] } }
chassis:
  sill: { kind: crossmember, box: { x: [105, 115], y: [-300, 300], z: [-300, -95] } }
rules: [{ between: [engine, chassis], gap: 5 }]
`;

const LEVEL = stanceFrom([0, 0, 0, 0, 0, 0]);
const FAR = '{ wall: { kind: firewall, box: { x: [900, 910], y: [-500, 500], z: [-500, 500] } } }';

describe('the order to turn adjusters in', () => {
  it('takes one move for each that is to change where nothing is near', () => {
    const { found } = setFrom(bay(FAR), LEVEL, stanceFrom([30, 0, 20, 0, 0, 0]));
    const { order } = found.now!;
    expect(order.found).toBe(true);
    // The posts lean a little as the tail pushes: to an eighth of a turn none of them is at rest.
    expect(order.moves.length).toBeGreaterThanOrEqual(4);
    expect(order.moves.length).toBeLessThanOrEqual(6);
    const turns = found.adjusters.map((one) => one.turns);
    // A side link of 4 m that is pushed 30 back and 20 up leans by 36: 0.16 mm longer, an eighth of a turn of 2 mm.
    expect(turns).toEqual([10, 10, 10, 0.125, 0.125, 15]);
  });

  it('lifts the engine over a sill that it must pass, and lowers it behind', () => {
    // The sill stands between where the engine is and where it goes; it reaches 20 above the engine's underside.
    const sill = `{ sill: { kind: crossmember, box: { x: [120, 130], y: [-300, 300], z: [-300, -85] } }, ${FAR.slice(1)}`;
    const scenario = bay(sill);
    // The tail is 20 from it; behind it there is no room until the whole block is over and past.
    const from = LEVEL;
    const to = stanceFrom([10, 0, 0, 0, 0, 0]);
    const near = setFrom(scenario, from, to);
    expect(near.found.now!.order.found).toBe(true);
    expect(near.found.now!.order.moves.every(({ least }) => least!.gap >= 0)).toBe(true);
    const over = setFrom(scenario, from, stanceFrom([60, 0, 25, 0, 0, 0]));
    const { order, stance } = over.found.now!;
    expect(order.found).toBe(true);
    const stops = order.moves.map((move) => move.to);
    // Brute force along the same moves, in straight steps: they bend by far less than a millimetre.
    expect(leastOnTheWay(scenario, over.mockup, stance, stops)).toBeGreaterThan(-0.05);
    // Pushed back first it would have met the sill.
    const tail = order.moves.findIndex(({ turned }) => turned[0]!.adjuster === 5);
    const post = order.moves.findIndex(({ turned }) => turned[0]!.adjuster === 2);
    expect(post).toBeLessThan(tail);
  });

  it('makes a detour where every order of whole moves would close a gap', () => {
    // A foot under the block stands ahead of a sill that is 5 higher than it, and goes to behind it, no higher.
    const { scenario } = readScenario(FOOT, 'yaml');
    const { found, mockup } = setFrom(scenario!, LEVEL, stanceFrom([80, 0, 0, 0, 0, 0]));
    const { order, stance } = found.now!;
    expect(order.found).toBe(true);
    // Each of the three posts goes up and comes down again.
    expect(order.moves.length).toBeGreaterThanOrEqual(7);
    const stops = order.moves.map(({ to }) => to);
    const least = leastOnTheWay(scenario!, mockup, stance, stops);
    expect(least).toBeGreaterThan(-0.05);
    // What is told of the moves is no more, and not much less.
    const told = Math.min(...order.moves.map((move) => move.least!.gap));
    expect(told).toBeLessThan(least + 0.05);
    expect(told).toBeGreaterThan(least - 0.25);
    expect(Math.max(...stops.map(({ height }) => height))).toBeGreaterThan(5);
  });

  it('says what is in the way where there is no order', () => {
    const wall = `{ wall: { kind: firewall, box: { x: [115, 120], y: [-900, 900], z: [-900, 900] } }, ${FAR.slice(1).replace('wall', 'far wall')}`;
    const tail = { ...SQUARE[5]!, range: { min: LONG - 300, max: LONG + 300 } };
    const { found } = setFrom(bay(wall), LEVEL, stanceFrom([230, 0, 0, 0, 0, 0]), [tail]);
    const { order } = found.now!;
    expect(order.found).toBe(false);
    expect(order.hindrance).toEqual({ of: 'gap', between: ['block', 'wall'] });
  });

  it('lets what touches at the start come no nearer', () => {
    const wall = `{ wall: { kind: firewall, box: { x: [99, 120], y: [-900, 900], z: [-900, 900] } } }`;
    const { found } = setFrom(bay(wall), LEVEL, stanceFrom([-20, 0, 10, 0, 0, 0]));
    const { order } = found.now!;
    expect(order.found).toBe(true);
    expect(Math.min(...order.moves.map(({ least }) => least!.gap))).toBeGreaterThanOrEqual(-1.11);
  });

  it('takes no lengths that would have parts inside one another', () => {
    const wall = `{ wall: { kind: firewall, box: { x: [90, 120], y: [-900, 900], z: [-900, 900] } } }`;
    const { found } = setFrom(bay(wall), LEVEL, stanceFrom([-20, 0, 10, 0, 0, 0]));
    expect(found.now!.impossible).toEqual([['block', 'wall']]);
    expect(found.now!.order).toEqual({ moves: [], found: false, looked: 0 });
  });

  it('calls nothing impossible where the lengths do not agree: where the engine is cannot be told then', () => {
    const wall = `{ wall: { kind: firewall, box: { x: [90, 120], y: [-900, 900], z: [-900, 900] } } }`;
    const second = along('second tail', [100, 50, 0], [1, 0, 0]);
    const adjusters = [...SQUARE, second].map((one) => ({ ...one, now: lengthOf(one, LEVEL) }));
    const off = adjusters.map((one, k) => (k === 6 ? { ...one, now: one.now + 40 } : one));
    const set = (all: typeof adjusters) =>
      setUp(
        bay(wall),
        { adjusters: all, without: [], off: [] },
        [],
        stanceFrom([-20, 0, 10, 0, 0, 0]),
      ).now!;
    expect(set(adjusters)).toMatchObject({ impossible: [['block', 'wall']] });
    expect(set(adjusters).off).toBeUndefined();
    const told = set(off);
    expect(told.off).toBeGreaterThan(5);
    expect(told.impossible).toEqual([]);
    expect(told.order).toEqual({ moves: [], found: false, looked: 0 });
  });

  it('does not end where an eighth of a turn too much would touch', () => {
    // 0.2 mm above the pad, where a turnbuckle of 3 mm pitch stops at 0.75 a step.
    const pad = `{ pad: { kind: crossmember, box: { x: [-200, 200], y: [-50, 50], z: [-150, -100] } }, ${FAR.slice(1)}`;
    const coarse = SQUARE.map((one) => ({ ...one, lead: 6 }));
    const from = stanceFrom([0, 0, 50.1, 0, 0, 0]);
    const { found } = setFrom(bay(pad), from, stanceFrom([0, 0, 0.2, 0, 0, 0]), coarse);
    expect(found.now!.lands.height).toBeLessThan(0);
    expect(found.touching).toEqual([['block', 'pad']]);
    expect(found.now!.order.found).toBe(false);
  });

  it('tells moves that add up to the turns, where lengths nearly agree too', () => {
    const posts = [
      along('left front', [-100, -100, -100], [0, 0, 1]),
      along('right front', [-100, 100, -100], [0, 0, 1]),
      along('left rear', [100, -100, -100], [0, 0, 1]),
      along('right rear', [100, 100, -100], [0, 0, 1]),
    ].map((one, k) => ({ ...one, lead: 1.7, now: LONG + [0, 0, 0, 1.9][k]! }));
    const found = setUp(bay(FAR), { adjusters: posts, without: [], off: [] }, [], stanceFrom([0, 0, 21, 0, 0, 0])); // prettier-ignore
    expect(found.now!.order.found).toBe(true);
    const sums = posts.map(() => 0);
    for (const { turned } of found.now!.order.moves) {
      for (const { adjuster, turns } of turned) sums[adjuster]! += turns;
    }
    expect(sums).toEqual(found.adjusters.map(({ turns }) => turns));
  });

  it('stays inside a range that an eighth of a turn would pass', () => {
    const tight = SQUARE.map((one) => ({ ...one, range: { min: LONG - 200, max: LONG + 30 } }));
    const from = stanceFrom([0, 0, 0.1, 0, 0, 0]);
    const { found } = setFrom(bay(FAR), from, stanceFrom([0, 0, 30, 0, 0, 0]), tight);
    // 29.9 mm is 14.95 turns of 2: the nearest eighth, 15, would go to 30.1.
    expect(found.adjusters[0]!.turns).toBe(14.875);
    expect(found.now!.order.found).toBe(true);
  });

  it('sees a link that leaves its range on the way', () => {
    // Turned 90 mm back, a leaning link is shortest in between.
    const swing: Adjuster = {
      ...along('swing', [0, -100, 0], [0, 1, 0]),
      frame: [45, -400, 0],
      range: { min: 301, max: 320 },
    };
    const links = [SQUARE[3]!, SQUARE[4]!, SQUARE[5]!, swing];
    const { found } = setFrom(bay(FAR), LEVEL, stanceFrom([90, 0, 0, 0, 0, 0]), links);
    const { order, stance } = found.now!;
    expect(order.found).toBe(true);
    let last = stance;
    let least = Infinity;
    for (const { to } of order.moves) {
      const [a, b] = [stanceVector(last), stanceVector(to)];
      for (let k = 0; k <= 20; k++) {
        const at = stanceFrom(a.map((value, j) => value + (k / 20) * (b[j]! - value)));
        least = Math.min(least, lengthOf(swing, at));
      }
      last = to;
    }
    // Straight back it would come to 300.
    expect(least).toBeGreaterThan(300.95);
  });

  it('turns what binds together, and holds what nothing holds', () => {
    const posts = [
      along('left front', [-100, -100, -100], [0, 0, 1]),
      along('right front', [-100, 100, -100], [0, 0, 1]),
      along('left rear', [100, -100, -100], [0, 0, 1]),
      along('right rear', [100, 100, -100], [0, 0, 1]),
    ];
    const { found } = setFrom(bay(FAR), LEVEL, stanceFrom([0, 0, 20, 0, 0, 0]), posts);
    expect(found.spare).toBe(1);
    expect(found.free.map(({ motion }) => motion).sort()).toEqual(['offset', 'setback', 'yaw']);
    // A rigid plate: the corners across go a third the other way with one corner.
    const [first] = found.adjusters;
    expect(
      first!.follows.map(({ adjuster, by }) => [adjuster, Math.round(by * 1000) / 1000]),
    ).toEqual([
      [1, 0.333],
      [2, 0.333],
      [3, -0.333],
    ]);
    // So a quarter turn of 2 mm there lifts the middle by a third of it: (1 + 1/3 + 1/3 - 1/3) / 4.
    expect(first!.quarter.height).toBeCloseTo(0.5 / 3, 6);
    const { order, lands } = found.now!;
    expect(order.found).toBe(true);
    expect(order.moves.every(({ turned }) => turned.length === 2)).toBe(true);
    expect(lands.height).toBeCloseTo(20, 6);
    expect(lands.setback).toBeCloseTo(0, 9);
  });

  it('keeps every adjuster in its range', () => {
    const tight = SQUARE.map((one, k) =>
      k === 5 ? { ...one, range: { min: LONG, max: LONG + 10 } } : one,
    );
    const { found } = setFrom(bay(FAR), LEVEL, stanceFrom([30, 0, 0, 0, 0, 0]), tight);
    expect(found.adjusters[5]!.inRange).toBe(false);
    expect(found.now!.order.found).toBe(false);
    expect(found.now!.order.hindrance).toEqual({ of: 'range', adjuster: 5 });
  });
});
