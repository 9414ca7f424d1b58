/** The front axle's load as a limit: rows above its slack, and places proved under it against a dense grid. */

import { describe, expect, test } from 'vitest';
import { axleLoadsUnder } from '../../src/geometry/weight.js';
import type { OptionDomains } from '../../src/model/options.js';
import { optionSets } from '../../src/model/options.js';
import { withTrims } from '../../src/model/trims.js';
import type { Limit, Scenario } from '../../src/model/scenario.js';
import { COORDINATES } from '../../src/model/scenario.js';
import { boxOf, endsOf } from '../../src/solver/box.js';
import { compileBay } from '../../src/solver/measuring/compile.js';
import { Meter } from '../../src/solver/measuring/meter.js';
import { Relaxation } from '../../src/solver/searching/relaxation.js';
import { why } from '../../src/solver/explaining/why.js';
import {
  limitSlack,
  limitValue,
  narrowByLimits,
  readyLimit,
  slackOver,
} from '../../src/solver/measuring/limits.js';
import { LIMIT_SLACK } from '../../src/solver/decision.js';
import { limitModelRow } from '../../src/solver/measuring/limit-model.js';
import { positionOf } from '../../src/solver/measuring/measure.js';
import { WeightLimit } from '../../src/solver/measuring/weight-limit.js';
import { Rows } from '../../src/solver/rows.js';
import { between, seeded } from '../geometry/random.js';
import type { Random } from '../geometry/random.js';
import { scenarioOf } from '../support/doc.js';
import type { BayDoc, PartDoc } from '../support/doc.js';
import { requestFor, solve, toEnd } from '../support/solve.js';

const away: PartDoc = { box: { x: [0, 10], y: [0, 10], z: [-3000, -2990] } };

/** A vehicle of random weights whose parts come, go and move with three choices that hang together. */
function weighed(random: Random): Scenario {
  const at = () => [
    between(random, -900, 900),
    between(random, -300, 300),
    between(random, -300, 600),
  ];
  const load = (more: object) => ({ weight: between(random, 1, 300), at: at(), ...more });
  const doc: BayDoc & { weight: object } = {
    units: 'mm',
    position: { setback: [-200, 200], offset: [0, 0], height: [-50, 50], pitch: [-20, 20] },
    engine: { block: away, alternator: away, filter: away },
    chassis: { wall: { box: { x: [0, 10], y: [0, 10], z: [3000, 3010] } }, battery: away },
    rules: [{ between: ['engine', 'chassis'], gap: 1 }],
    choices: {
      alternator: {
        low: {},
        high: { move: { alternator: { x: 90, z: 250 } } },
        none: { remove: ['alternator'] },
      },
      plate: { none: {}, plate: { move: { alternator: { x: -30 }, filter: { x: -30 } } } },
      blower: {
        none: {},
        blower: { add: { engine: { blower: away } }, replace: { filter: away } },
      },
      battery: {
        front: {},
        rear: { move: { battery: { x: 2500 } }, 'rules out': { blower: 'blower' } },
      },
    },
    weight: {
      axles: { front: 0, rear: 2800 },
      before: { front: 1500, rear: 1200 },
      out: { old: { weight: between(random, 1, 300), at: at() } },
      in: {
        engine: load({ side: 'engine' }),
        alternator: load({ part: 'alternator' }),
        filter: load({ part: 'filter' }),
        blower: load({ part: 'blower' }),
        battery: load({ part: 'battery' }),
        tank: load({ side: 'chassis' }),
      },
    },
  };
  return scenarioOf(doc);
}

function limited(scenario: Scenario, min: number, max: number): WeightLimit {
  const limit: Limit = { quantity: { of: 'front axle load' }, min, max };
  const ready = readyLimit(scenario, limit);
  if (!(ready instanceof WeightLimit)) throw new Error('a load was asked for');
  return ready;
}

/** Some of the options of each choice, at least one. */
function someOpen(random: Random, { choices }: Scenario): OptionDomains {
  return choices.map(({ options }) => {
    const kept = options.map((_, o) => o).filter(() => random() < 0.6);
    return kept.length > 0 ? kept : [Math.floor(random() * options.length)];
  });
}

/** By moments about the rear axle, each load turned by hand. */
function byHand(s: Scenario, set: readonly number[], x: ArrayLike<number>): number {
  const { weight: w } = s;
  const [alternator, plate, blower, battery] = set;
  const moved: Readonly<Record<string, readonly [number, number] | undefined>> = {
    alternator:
      alternator === 2
        ? undefined
        : [(alternator === 1 ? 90 : 0) - (plate === 1 ? 30 : 0), alternator === 1 ? 250 : 0],
    filter: [plate === 1 ? -30 : 0, 0],
    blower: blower === 1 ? [0, 0] : undefined,
    battery: [battery === 1 ? 2500 : 0, 0],
    engine: [0, 0],
    tank: [0, 0],
  };
  let moment = w!.before.front * 2800;
  for (const { mass, at } of w!.out) moment -= mass * (2800 - at[0]);
  for (const { name, side, mass, at } of w!.in) {
    const by = moved[name];
    if (by === undefined) continue;
    const [px, pz] = [at[0] + by[0], at[2] + by[1]];
    // Tail-down turns up (+Z) back (+X).
    const far = Math.hypot(px, pz);
    const turned = Math.atan2(pz, px) - x[3]!;
    moment += mass * (2800 - (side === 'engine' ? x[0]! + far * Math.cos(turned) : px));
  }
  return moment / 2800;
}

describe('the load on the front axle', () => {
  test('is that of moments, whatever the options', () => {
    const random = seeded(5);
    for (let n = 0; n < 20; n++) {
      const scenario = weighed(random);
      const limit = limited(scenario, 0, 1e9);
      for (const set of optionSets(scenario)) {
        const x = [
          between(random, -200, 200),
          0,
          between(random, -50, 50),
          between(random, -0.3, 0.3),
        ];
        const value = limitValue(limit, set, x)!;
        expect(value).toBeCloseTo(byHand(scenario, set, x), 9);
        const { before, after } = axleLoadsUnder(scenario, set, positionOf(x))!;
        expect(after.front).toBeCloseTo(value, 9);
        // What no axle carries falls through the floor.
        const names = { 0: ['blower'], 1: [] as string[] }[set[2] as 0 | 1];
        if (set[0] === 2) names.push('alternator');
        const goesIn = scenario.weight!.in.filter(({ name }) => !names.includes(name));
        const all = goesIn.reduce(
          (sum, { mass }) => sum + mass,
          2700 - scenario.weight!.out[0]!.mass,
        );
        expect(after.front + after.rear!).toBeCloseTo(all, 9);
        expect(before).toEqual({ front: 1500, rear: 1200 });
      }
    }
  });

  test('counts a lean: a load off the centre goes fore and aft as the tail goes to its side', () => {
    const scenario = weighed(seeded(4));
    const limit = limited(scenario, 0, 1e9);
    const set = [0, 0, 0, 0];
    expect(limit.value(set, [10, 0, 0, 0.05, 0, 0])).toBeCloseTo(
      limit.value(set, [10, 0, 0, 0.05]),
      9,
    );
    const yaw = 0.2;
    const back = scenario
      .weight!.in.filter(({ side, name }) => side === 'engine' && name !== 'blower')
      .reduce((sum, { mass, at: [x, y] }) => {
        return sum + mass * (x * Math.cos(yaw) - y * Math.sin(yaw) - x);
      }, 0);
    const [straight, yawed] = [0, yaw].map((by) => limit.value(set, [10, 0, 0, 0, 0, by]));
    expect(straight! - yawed!).toBeCloseTo(back / 2800, 9);
  });

  test('is the same with a face cut back, whose part has a load', () => {
    const whole = bayWith({ max: 780 });
    const trim = { part: 'battery', cut: 'up', upTo: 5, hours: 1, cost: 0 } as const;
    const scenario = { ...whole, trims: [trim] };
    const cut = withTrims(scenario, [3]);
    const [limit] = scenario.limits;
    const x = [20, 0, 0, 0.02];
    // To and fro: what is ready for one of the two scenarios is not so for the other.
    for (const [s, set] of [
      [cut, [1, 1]],
      [scenario, [1]],
      [cut, [0, 1]],
      [scenario, [0]],
    ] as const) {
      const ready = readyLimit(s, limit!) as WeightLimit;
      expect(ready.value(set, x)).toBeCloseTo(frontOf(set, x), 9);
    }
  });

  test('has rows above its slack all over a box, under every open option, and bounds around it', () => {
    const random = seeded(6);
    let [rowsSeen, varied, closest] = [0, 0, Infinity];
    for (let n = 0; n < 200; n++) {
      const scenario = weighed(random);
      const limit = limited(scenario, between(random, 900, 1700), between(random, 1700, 2400));
      const domains = n % 4 === 0 ? scenario.choices.map(() => [0]) : someOpen(random, scenario);
      const small = n % 2 === 0 ? 1 : 0.05;
      const half = [150, 0, 40, 0.4].map((w) => small * between(random, 0, w));
      const mid = [between(random, -100, 100), 0, 0, between(random, -0.4, 0.4)];
      const [lo, hi] = [mid.map((v, k) => v - half[k]!), mid.map((v, k) => v + half[k]!)];
      const box = boxOf(lo, hi);
      const rows = new Rows();
      limit.addRows(domains, box, LIMIT_SLACK, rows);
      expect(rows.count).toBe(2);
      rowsSeen += rows.count;
      const { least, most } = limit.slackOver(domains, lo, hi);
      const sets = product(domains);
      if (sets.length > 1) varied++;
      else expect(slackOver(limit, sets[0]!, lo, hi)).toBe(least);
      for (const set of sets) {
        for (let i = 0; i < 6; i++) {
          // The ends of the box too: there the lines are tight or never.
          const u = Float64Array.from([0, 1, 2, 3], () =>
            i < 3 ? Math.sign(between(random, -1, 1)) : between(random, -1, 1),
          );
          const x = mid.map((v, k) => v + half[k]! * u[k]!);
          const slack = limitSlack(limit, set, x);
          expect(slack).toBeGreaterThanOrEqual(least - 1e-9);
          expect(slack).toBeLessThanOrEqual(most + 1e-9);
          const value = byHand(scenario, set, x);
          const sides = [value - limit.limit.min, limit.limit.max - value];
          sides.forEach((side, r) => {
            const room = rows.at(r, u) / limit.lever - side;
            expect(room).toBeGreaterThanOrEqual(LIMIT_SLACK - 1e-9);
            closest = Math.min(closest, room);
          });
        }
      }
    }
    expect([rowsSeen, varied > 100]).toEqual([400, true]);
    expect(closest).toBeLessThan(1e-3);
  });

  test('has rows as tight as the bend of its arc where nothing is open', () => {
    const random = seeded(7);
    for (let n = 0; n < 100; n++) {
      const scenario = weighed(random);
      const limit = limited(scenario, -Infinity, 1700);
      const turn = between(random, 0, 0.05);
      const box = { mid: Float64Array.of(0, 0, 0, 0.1), half: Float64Array.of(100, 0, 0, turn) };
      const rows = new Rows();
      const domains = [[0], [1], [0], [1]];
      limit.addRows(domains, box, 0, rows);
      expect(rows.count).toBe(1);
      const x = [40, 0, 0, 0.1];
      const room = rows.at(0, Float64Array.of(0.4, 0, 0, 0)) / limit.lever;
      const side = 1700 - byHand(scenario, [0, 1, 0, 1], x);
      // Four loads of 300 kg within 1.2 m of the datum.
      expect(room - side).toBeLessThan((4 * 300 * 1200 * turn ** 2) / 2 / 2800 + 1e-9);
      expect(room - side).toBeGreaterThan(-1e-9);
    }
  });

  test('has rows about as tight where what is open only moves a load along', () => {
    const random = seeded(8);
    for (let n = 0; n < 40; n++) {
      const scenario = weighed(random);
      const limit = limited(scenario, -Infinity, 1700);
      const turn = between(random, 0.01, 0.05);
      const box = { mid: Float64Array.of(0, 0, 0, 0.1), half: Float64Array.of(100, 0, 0, turn) };
      const rows = new Rows();
      // The plate moves two loads 30 mm forward: over the box's pitch they turn as they did, to 30 mm x the turn.
      const domains = [[0], [0, 1], [0], [1]];
      limit.addRows(domains, box, 0, rows);
      for (const u of [-1, 1]) {
        const x = [0, 0, 0, 0.1 + u * turn];
        const room = rows.at(0, Float64Array.of(0, 0, 0, u)) / limit.lever;
        const sides = [0, 1].map((plate) => 1700 - byHand(scenario, [0, plate, 0, 1], x));
        const bend = (4 * 300 * 1200 * turn ** 2) / 2 / 2800;
        const shifted = (2 * 300 * 30 * 2 * turn) / 2800;
        expect(room - Math.max(...sides)).toBeLessThan(bend + shifted + 1e-9);
      }
    }
  });

  test('stands in the program of a box above every open option', () => {
    const scenario = bayWith({ max: 745 });
    const meter = new Meter(compileBay(scenario));
    const { position } = scenario;
    const relaxation = new Relaxation({
      meter,
      domains: meter.bay.domains,
      objective: { kind: 'margin' },
      tolerance: 0.1,
      ranges: position,
      start: [],
    });
    const view = meter.views.of(meter.bay.domains)!;
    const { lo, hi } = endsOf(position);
    const box = boxOf(lo, hi);
    relaxation.build(view, view.limits, box, []);
    expect(relaxation.rows.count).toBe(1);
    const { lever } = readyLimit(scenario, scenario.limits[0]!) as WeightLimit;
    const random = seeded(3);
    for (let n = 0; n < 40; n++) {
      const u = Float64Array.from([0, 1, 2, 3], () => between(random, -1, 1));
      const x = [...box.mid].map((v, k) => v + box.half[k]! * u[k]!);
      for (const set of [[0], [1]])
        expect(relaxation.rows.at(0, u) / lever).toBeGreaterThanOrEqual(745 - frontOf(set, x));
    }
    // Only the battery behind the cab keeps it anywhere.
    expect(narrowByLimits(view.limits, [[0]], lo.slice(), hi.slice())).toBe(false);
    expect(narrowByLimits(view.limits, [[0, 1]], lo.slice(), hi.slice())).toBe(true);
  });

  test('has rows for the climb that are its slack to first order, a little inside', () => {
    const random = seeded(9);
    const scenario = weighed(random);
    const limit = limited(scenario, 1200, 1700);
    const set = [1, 1, 0, 1];
    const half = Float64Array.of(1, 1, 1, 1 / 400);
    const box = { mid: Float64Array.of(30, 0, 5, 0.05), half };
    const rows = new Rows();
    limitModelRow(limit, set, box, 2, rows);
    expect(rows.count).toBe(2);
    for (const u of [
      [0, 0, 0, 0],
      [1, -1, 1, -1],
      [-1, 1, 1, 1],
    ]) {
      const value = byHand(
        scenario,
        set,
        box.mid.map((v, k) => v + half[k]! * u[k]!),
      );
      [value - 1200, 1700 - value].forEach((side, r) => {
        expect(rows.at(r, Float64Array.from(u))).toBeCloseTo(limit.lever * side - 2, 1);
      });
    }
  });

  test('closes a box only where no open option keeps it', () => {
    const random = seeded(8);
    let closed = 0;
    for (let n = 0; n < 200; n++) {
      const scenario = weighed(random);
      const domains = someOpen(random, scenario);
      const x = Float64Array.of(between(random, -100, 100), 0, 0, between(random, -0.3, 0.3));
      const most = between(random, 1000, 2400);
      const keeps = product(domains).some((set) => byHand(scenario, set, x) <= most);
      const open = narrowByLimits(
        [limited(scenario, -Infinity, most)],
        domains,
        Float64Array.from(x),
        Float64Array.from(x),
      );
      if (keeps) expect(open).toBe(true);
      if (!open) closed++;
    }
    expect(closed).toBeGreaterThan(20);
  });
});

function product(domains: OptionDomains): number[][] {
  return domains.reduce<number[][]>(
    (sets, domain) => sets.flatMap((set) => domain.map((o) => [...set, o])),
    [[]],
  );
}

/** A block between a wall ahead, one behind, a floor and a lid; the battery ahead or behind the cab. */
function bayWith(limit: object | undefined): Scenario {
  const wide = { y: [-500, 500] as const, z: [-900, 900] as const };
  const long = { x: [-900, 400] as const, y: [-500, 500] as const };
  const doc: BayDoc & { weight: object; limits?: unknown } = {
    units: 'mm',
    position: { setback: [-100, 200], offset: 0, height: [-40, 40], pitch: [0, 6] },
    engine: { block: { box: { x: [-500, 0], y: [-250, 250], z: [-150, 250] } } },
    chassis: {
      ahead: { box: { x: [-720, -700], ...wide } },
      behind: { box: { x: [150, 170], ...wide } },
      floor: { box: { ...long, z: [-470, -450] } },
      lid: { box: { ...long, z: [600, 620] } },
      battery: away,
    },
    rules: [{ between: ['engine', 'chassis'], gap: 10 }],
    choices: { battery: { front: {}, rear: { move: { battery: { x: 2500 } }, hours: 1 } } },
    worth: 0,
    ...(limit && { limits: [{ quantity: 'front axle load', ...limit }] as never }),
    weight: {
      axles: { front: 0, rear: 2800 },
      before: { front: 800, rear: 700 },
      out: { 'old engine': { weight: 350, at: [-100, 0, 100] } },
      in: {
        engine: { weight: 300, at: [-200, 0, 100], side: 'engine' },
        battery: { weight: 20, at: [-300, 0, 0], part: 'battery' },
      },
    },
  };
  return scenarioOf(doc);
}

/** Kilograms on the front axle, by moments. */
function frontOf(set: readonly number[], x: readonly number[]): number {
  const [s, , , pitch] = x as [number, number, number, number];
  const engine = s - 200 * Math.cos(pitch) + 100 * Math.sin(pitch);
  const battery = set[0] === 1 ? 2200 : -300;
  return 800 - (350 * 2900) / 2800 + (300 * (2800 - engine) + 20 * (2800 - battery)) / 2800;
}

/** The best margin of a dense grid, of positions and options that keep the limit. */
function densest(sets: readonly (readonly number[])[], min: number, max: number): number {
  let best = -Infinity;
  for (let a = 0; a <= 60; a++)
    for (let c = 0; c <= 8; c++)
      for (let d = 0; d <= 12; d++) {
        const x = [-100 + 5 * a, 0, -40 + 10 * c, (d / 2) * (Math.PI / 180)];
        const [cos, sin] = [Math.cos(x[3]!), Math.sin(x[3]!)];
        const corners = [-500, 0].flatMap((px) =>
          [-150, 250].map((pz) => [px * cos + pz * sin + x[0]!, pz * cos - px * sin + x[2]!]),
        );
        const [xs, zs] = [corners.map(([v]) => v!), corners.map(([, v]) => v!)];
        const gap = Math.min(
          Math.min(...xs) + 700,
          150 - Math.max(...xs),
          Math.min(...zs) + 450,
          600 - Math.max(...zs),
        );
        const keeps = sets.some((set) => frontOf(set, x) >= min && frontOf(set, x) <= max);
        if (keeps) best = Math.max(best, gap - 10);
      }
  return best;
}

describe('a place under a limit on the front axle', () => {
  const allowed = { 'as it stands': [[0]], 'with every option': [[0, 1]] };
  test.each([
    ['as it stands', 780, 'max'],
    ['as it stands', 770, 'max'],
    ['as it stands', 788, 'min'],
    ['with every option', 770, 'max'],
    ['with every option', 762, 'max'],
    ['with every option', 745, 'max'],
    ['with every option', 788, 'min'],
  ] as const)(
    '%s, %i kg at the %s: proved, kept, and beaten by no place of a grid',
    (which, at, end) => {
      const options = { only: 'main', tolerance: 0.1, allowed: allowed[which] } as const;
      const scenario = bayWith({ [end]: at });
      const free = solve(bayWith(undefined), options).main;
      const { main, slack } = solve(scenario, options);
      const best = densest(
        allowed[which][0]!.map((o) => [o]),
        end === 'min' ? at : -Infinity,
        end === 'max' ? at : Infinity,
      );
      expect(main.best).toBe('proved');
      expect(best).toBeGreaterThan(-Infinity);
      expect(best).toBeLessThanOrEqual(main.bound + 1e-6);
      expect(main.optimum.margin).toBeGreaterThan(best - 1);
      const binds = which === 'as it stands' || at !== 770;
      if (binds) expect(main.bound).toBeLessThan(free.optimum.margin - 1);
      for (const { position, limits } of [main.optimum, main.setting]) {
        const front = frontOf(
          main.options,
          COORDINATES.map((k) => position[k]),
        );
        expect(limits[0]!.value).toBeCloseTo(front, 9);
        expect(limits[0]!.met).toBe(true);
        if (end === 'max') expect(front).toBeLessThanOrEqual(at + LIMIT_SLACK);
        else expect(front).toBeGreaterThanOrEqual(at - LIMIT_SLACK);
      }
      // The room to work keeps it too, at every corner.
      if (slack !== undefined) {
        for (let corner = 0; corner < 16; corner++) {
          const x = COORDINATES.map((k, i) => {
            const far = (corner >> i) & 1 ? slack.up[k].room : -slack.down[k].room;
            return main.setting.position[k] + far;
          });
          const front = frontOf(main.options, x);
          if (end === 'max') expect(front).toBeLessThanOrEqual(at + 1e-6);
          else expect(front).toBeGreaterThanOrEqual(at - 1e-6);
        }
      }
    },
  );

  test('where no position keeps it there is none, and the nearest misses it by the least', () => {
    const scenario = bayWith({ max: 700 });
    const { main } = solve(scenario, { only: 'main', allowed: [[0]] });
    expect([main.fits, main.best]).toEqual(['no', 'proved']);
    const least = frontOf([0], [200, 0, 0, (6 * Math.PI) / 180]);
    expect(main.optimum.limits).toMatchObject([{ met: false }]);
    expect(main.optimum.limits[0]!.value).toBeCloseTo(least, 2);
  });

  test('it is named where it is in the way, and an option that takes weight off is the remedy', () => {
    const scenario = bayWith({ max: 765, why: 'springs' });
    const answer = toEnd(
      why(scenario, {
        wants: { ranges: {}, options: [] },
        tolerance: requestFor(scenario).tolerance,
      }),
    );
    expect(answer.possible).toBe('no');
    expect(answer.reasons[0]!.limits.map(({ quantity }) => quantity.of)).toEqual([
      'front axle load',
    ]);
    expect(answer.remedies.map(({ options }) => options)).toEqual([[1]]);
  });
});
