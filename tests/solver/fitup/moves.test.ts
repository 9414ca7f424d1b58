import { describe, expect, it } from 'vitest';
import { lengthOf } from '../../../src/geometry/adjusters/links.js';
import type { Adjuster, Mockup } from '../../../src/model/mockup.js';
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
    expect(leastOnTheWay(scenario!, mockup, stance, stops)).toBeGreaterThan(-0.05);
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
    const wall = `{ wall: { kind: firewall, box: { x: [95, 120], y: [-900, 900], z: [-900, 900] } } }`;
    const { found } = setFrom(bay(wall), LEVEL, stanceFrom([-20, 0, 10, 0, 0, 0]));
    const { order } = found.now!;
    expect(order.found).toBe(true);
    expect(Math.min(...order.moves.map(({ least }) => least!.gap))).toBeGreaterThanOrEqual(-5.001);
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
