/** The promises of `place`, one by one, on bays small enough to see the answer. */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import type { Scenario } from '../../src/model/scenario.js';
import type { PlaceAnswer, Placement } from '../../src/solver/answer.js';
import { measureAt } from '../../src/solver/measuring/measure.js';
import { place } from '../../src/solver/place.js';
import { Searches } from '../../src/solver/answering/searches.js';
import type { PlaceRequest } from '../../src/solver/asked.js';
import { seeded } from '../geometry/random.js';
import { denseSearch } from '../support/dense.js';
import { scenarioOf } from '../support/doc.js';
import type { BayDoc } from '../support/doc.js';
import { randomBay } from '../support/random-bays.js';
import { requestFor, solve, TOLERANCE } from '../support/solve.js';

const IN = 25.4;
const DEGREE = Math.PI / 180;
const NO_WORK = { hours: 0, cost: 0 };
/** Millimetres: rounding of the printed position, and of a polished optimum. */
const FINE = 2e-3;

function study(change: (doc: Record<string, unknown>) => void = () => {}): Scenario {
  const doc = JSON.parse(readFileSync('tests/bays/study.json', 'utf8')) as Record<string, unknown>;
  change(doc);
  const { scenario, problems } = readScenario(JSON.stringify(doc), 'json');
  if (!scenario) throw new Error(problems.map(({ message }) => message).join('\n'));
  return scenario;
}

/** Stops a search at its first report. */
function stopped(scenario: Scenario, signal: 'time' | 'asked', more: Partial<PlaceRequest> = {}) {
  const steps = place(scenario, requestFor(scenario, more));
  const first = steps.next();
  expect(first.done).toBe(false);
  const last = steps.next(signal);
  expect(last.done).toBe(true);
  return last.value as PlaceAnswer;
}

/** A block between two walls fore and aft, 4 mm of play in all when nothing is changed. */
function corridor(choices: BayDoc['choices'], more: Partial<BayDoc> = {}): BayDoc {
  return {
    units: 'mm',
    position: { setback: [-50, 50], offset: 0, height: 0, pitch: 0 },
    engine: {
      block: { box: { x: [-400, 0], y: [-100, 100], z: [-100, 100] } },
      'front knob': { box: { x: [-408, -400], y: [-10, 10], z: [-10, 10] } },
    },
    chassis: {
      front: { box: { x: [-500, -420], y: [-300, 300], z: [-300, 300] } },
      rear: { box: { x: [12, 100], y: [-300, 300], z: [-300, 300] } },
    },
    rules: [{ between: ['engine', 'chassis'], gap: 10 }],
    ...(choices && { choices }),
    worth: 3,
    ...more,
  };
}
const REMOVES = { remove: ['front knob'] };

describe('what a change is worth', () => {
  test('a cheaper set within worth of the best wins, and its best margin is what is printed', () => {
    // Played out: 24 of room less 20 needed; the knob takes 8 of it, so 4 are lost by keeping it.
    const moves = { knob: { stays: {}, moved: { ...REMOVES, hours: 1 } } };
    const close = solve(scenarioOf(corridor(moves, { worth: 5 })));
    expect(close.main).toMatchObject({ options: [0], hours: 0, best: 'proved' });
    expect(close.main.optimum.margin).toBeCloseTo(2, 3);
    expect(close.bestBound).toBeGreaterThan(6 - TOLERANCE);
    expect(close.cheaperUndecided).toEqual([]);
    const far = solve(scenarioOf(corridor(moves, { worth: 3 })));
    expect(far.main).toMatchObject({ options: [1], hours: 1, best: 'proved' });
    expect(far.main.optimum.margin).toBeCloseTo(6, 3);
    expect(far.leastWork).toMatchObject({ options: [0], hours: 0 });
  });

  test('equal margins: the fewer hours; equal hours: the lower cost; equal both: the larger margin', () => {
    const of = (first: object, second: object, third: object) =>
      solve(scenarioOf(corridor({ knob: { stays: {}, first, second, third } }))).main;
    const dear = { ...REMOVES, hours: 2, cost: 90 };
    expect(of(dear, { ...dear, hours: 1.5 }, dear).options).toEqual([2]);
    expect(of(dear, dear, { ...dear, cost: 80 }).options).toEqual([3]);
    const better = { ...dear, move: { block: { x: 0 } }, replace: { front: shorter() } };
    expect(of(dear, better, dear).options).toEqual([2]);
  });

  function shorter() {
    return { box: { x: [-500, -422] as const, y: [-300, 300] as const, z: [-300, 300] as const } };
  }
});

describe('stopped before its proofs are done', () => {
  const whole = solve(study(), { only: 'main', tolerance: 0.005 * IN });

  test.each(['time', 'asked'] as const)(
    '%s: the best so far, a bound that still holds, and why',
    (signal) => {
      const early = stopped(study(), signal, { tolerance: 0.005 * IN });
      expect(early.stopped).toBe(signal);
      expect(early.bestBound).toBeGreaterThanOrEqual(whole.main.optimum.margin - 1e-6);
      expect(early.main.bound).toBeGreaterThanOrEqual(early.main.optimum.margin);
      expect(early.main.best).toBe('undecided');
      expect(early.main.optimum.margin).toBeLessThanOrEqual(whole.bestBound + 1e-6);
      expect(early.anyFits).toBe(early.main.optimum.margin >= 0 ? 'yes' : 'undecided');
      expect(early.effort.boxes).toBeLessThan(whole.effort.boxes);
      expect(early.wishes).toEqual([]);
    },
  );

  test('what cannot be said yet is undecided, never no', () => {
    const tight = study((doc) => {
      (doc['rules'] as { gap: number }[])[0]!.gap = 1.04;
    });
    const early = stopped(tight, 'time');
    expect(early.main.fits).not.toBe('no');
    if (early.main.optimum.margin < 0) expect(early.main.fits).toBe('undecided');
    const late = solve(tight, { only: 'main' });
    expect(late.stopped).toBeUndefined();
    expect(late.main.best).toBe('proved');
  });
});

describe('pins', () => {
  test('a pinned coordinate is kept to the last digit, in the setting too', () => {
    const at = 0.3217 * IN;
    const pitch = 1.234 * DEGREE;
    const pins = { offset: { min: at, max: at }, pitch: { min: pitch, max: pitch } };
    const pinned = solve(study(), { only: 'main', pins });
    for (const { position } of [pinned.main.optimum, pinned.main.setting]) {
      expect(position.offset).toBe(at);
      expect(position.pitch).toBe(pitch);
    }
    const free = solve(study(), { only: 'main' });
    expect(pinned.main.optimum.margin).toBeLessThanOrEqual(free.bestBound + 1e-6);
    const scenario = study();
    const ranges = { ...scenario.position, ...pins };
    const dense = denseSearch(scenario, { random: seeded(4), places: 3000, polished: 3, ranges });
    expect(dense.score).toBeLessThanOrEqual(pinned.bestBound + 1e-6);
    expect(dense.score).toBeGreaterThan(pinned.bestBound - 3);
  });

  test('everything pinned: that very place is measured', () => {
    const scenario = study();
    const position = { setback: 10, offset: -5, height: 12, pitch: 0.03 };
    const pins = Object.fromEntries(
      Object.entries(position).map(([k, v]) => [k, { min: v, max: v }]),
    );
    const { main } = solve(scenario, { only: 'main', pins, allowed: [[0]] });
    expect(main.optimum.position).toEqual(position);
    expect(main.setting.position).toEqual(position);
    expect(main.best).toBe('proved');
    expect(main.optimum.margin).toBeCloseTo(measureAt(scenario, [0], position).margin, 9);
  });
});

describe('limits', () => {
  const pitchOf = (placement: Placement) => placement.optimum.position.pitch / DEGREE;

  test('on pitch: kept by optimum and setting, and never a gain', () => {
    const limited = study((doc) => {
      doc['limits'] = [{ quantity: 'pitch', min: 1, max: 3.03 }];
    });
    const { main } = solve(limited, { only: 'main' });
    const free = solve(study(), { only: 'main' });
    expect(pitchOf(free.main)).toBeGreaterThan(3.03);
    for (const { position } of [main.optimum, main.setting]) {
      expect(position.pitch / DEGREE).toBeGreaterThanOrEqual(1 - 1e-9);
      expect(position.pitch / DEGREE).toBeLessThanOrEqual(3.03 + 1e-9);
    }
    expect(main.optimum.margin).toBeLessThanOrEqual(free.bestBound + 1e-6);
    expect(main.optimum.limits).toHaveLength(1);
    expect(main.optimum.limits[0]!.met).toBe(true);
  });

  /** A block over a beam: as high as it may go is best, but for the limit. */
  const tall = (limits: BayDoc['limits']): BayDoc => ({
    units: 'mm',
    position: { setback: [-20, 20], offset: 0, height: [0, 200], pitch: [0, 4] },
    datums: {
      chassis: { ground: { z: -300 } },
      engine: { pad: { x: -200, z: 250 } },
    },
    engine: { block: { box: { x: [-400, 0], y: [-100, 100], z: [-100, 100] } } },
    chassis: { beam: { box: { x: [-600, 200], y: [-100, 100], z: [-250, -150] } } },
    rules: [{ between: ['engine', 'chassis'], gap: 10 }],
    limits: limits ?? [],
  });

  test('on the height of an engine datum above a chassis datum', () => {
    const doc = tall([{ quantity: 'height above', of: 'pad', above: 'ground', max: 640 }]);
    const { main } = solve(scenarioOf(doc), { only: 'main' });
    // Level, pad at 250 over the crank: crank at 90 over the rail; block at -10, beam at -150.
    // Tail down the pad rises by 200 sin as the tail falls, so level stays best.
    expect(main.best).toBe('proved');
    expect(main.optimum.margin).toBeGreaterThan(130 - TOLERANCE);
    expect(main.optimum.margin).toBeLessThanOrEqual(130 + FINE);
    expect(main.optimum.limits[0]!.value).toBeLessThanOrEqual(640 + 1e-6);
  });

  test('on the lowest point of a part', () => {
    const doc = tall([
      { quantity: 'height above', of: 'block', above: 'ground', min: 250, max: 260 },
    ]);
    const { main } = solve(scenarioOf(doc), { only: 'main' });
    expect(main.best).toBe('proved');
    expect(main.optimum.limits[0]!.value).toBeGreaterThanOrEqual(250 - 1e-6);
    expect(main.optimum.limits[0]!.value).toBeLessThanOrEqual(260 + 1e-6);
    // Lowest point 260 over -300 is -40: 110 over the beam, less 10.
    expect(main.optimum.margin).toBeGreaterThan(100 - TOLERANCE);
    expect(main.optimum.margin).toBeLessThanOrEqual(100 + FINE);
    const { main: low } = solve(scenarioOf(doc), { only: 'main', aim: 'low' });
    expect(low.optimum.limits[0]!.value).toBeGreaterThanOrEqual(250 - 1e-6);
    expect(low.optimum.limits[0]!.value).toBeLessThan(251);
  });

  test('that cannot be met together with the ranges: no, and proved', () => {
    const doc = tall([{ quantity: 'height above', of: 'block', above: 'ground', min: 1000 }]);
    const answer = solve(scenarioOf(doc));
    expect(answer.anyFits).toBe('no');
    expect(answer.main.fits).toBe('no');
    expect(answer.stopped).toBeUndefined();
    expect(answer.main.optimum.limits[0]!.met).toBe(false);
    expect(answer.main.optimum.fits).toBe(false);
    expect(answer.leastWork).toBeUndefined();
  });

  test('that an option brings: with it, only', () => {
    const doc: BayDoc = {
      ...tall([]),
      choices: {
        mounts: {
          soft: { limits: [{ quantity: 'height', max: 50 }] },
          stiff: { hours: 2 },
        },
      },
    };
    const scenario = scenarioOf(doc);
    const { main, asItStands } = solve(scenario);
    expect(main.options).toEqual([1]);
    expect(asItStands!.optimum.position.height).toBeLessThanOrEqual(50 + 1e-6);
    // Tail down, the block's rear lower corner rises by 100 (1 - cos 4 degrees).
    expect(asItStands!.optimum.margin).toBeLessThanOrEqual(90.244 + FINE);
    expect(main.optimum.margin).toBeGreaterThan(240 - TOLERANCE);
  });
});

describe('as it stands, where an option brings a limit that nothing meets', () => {
  test('does not fit, however much room there is', () => {
    const { chassis, engine } = corridor(undefined);
    const soft = { limits: [{ quantity: 'height above', of: 'block', above: 'ground', min: 900 }] };
    const doc = corridor(
      { mounts: { soft, stiff: { hours: 2 } } },
      {
        datums: { chassis: { ground: { z: -400 } } },
        engine: { block: engine['block']! },
        chassis,
      },
    );
    const { asItStands, main, anyFits } = solve(scenarioOf(doc));
    expect(asItStands).toMatchObject({ options: [0], fits: 'no' });
    expect(asItStands!.optimum.margin).toBeGreaterThan(0);
    expect(main).toMatchObject({ options: [1], fits: 'yes' });
    expect(anyFits).toBe('yes');
  });
});

describe('aims and wishes', () => {
  const scenario = study();
  const open = solve(scenario, { tolerance: 0.02 });

  test.each([
    ['low', 'height', -1],
    ['back', 'setback', 1],
  ] as const)('%s: as far as every margin kept allows', (aim, coordinate, sign) => {
    const keep = 0.1 * IN;
    const { main } = solve(scenario, { aim, keep, only: 'main' });
    expect(main.optimum.margin).toBeGreaterThanOrEqual(keep - 1e-4);
    const dense = denseSearch(scenario, {
      random: seeded(9),
      places: 2500,
      polished: 4,
      score: ({ margin, position }) => (margin >= keep ? sign * position[coordinate] : -Infinity),
    });
    const reached = sign * main.optimum.position[coordinate];
    // Within `worth` of it a cheaper set of options may be taken.
    expect(reached).toBeGreaterThanOrEqual(dense.score - scenario.worth - TOLERANCE);
    const wish = open.wishes.find((w) => w.aim === aim)!;
    expect(reached).toBeLessThanOrEqual(sign * wish.bound + 1e-6);
  });

  test('a margin that no place keeps: said so, and the roomiest place instead', () => {
    const answer = solve(scenario, { aim: 'low', keep: 5 * IN, only: 'main' });
    expect(answer.aimMissed).toBe('no');
    expect(answer.aim).toBe('margin');
    expect(answer.main.optimum.margin).toBeLessThan(5 * IN);
    expect(solve(scenario, { aim: 'low', only: 'main' }).aimMissed).toBeUndefined();
  });

  test('the setting of an aim is on the first tape mark that leaves room', () => {
    const { main } = solve(scenario, { aim: 'low', keep: 0.1 * IN, only: 'main' });
    const height = main.setting.position.height;
    const above = height - main.optimum.position.height;
    expect(above).toBeGreaterThanOrEqual(-1e-6);
    expect(above).toBeLessThan(IN / 16);
    expect(Math.abs((height * 16) / IN - Math.round((height * 16) / IN))).toBeLessThan(1e-9);
  });

  test('a wish is called proved only where its bound is within the tolerance', () => {
    let checked = 0;
    for (const { aim, best, bound, standing } of open.wishes) {
      if (!standing) continue;
      const { height, setback } = standing.position;
      const reached = { centre: standing.margin, low: height, back: setback }[aim];
      expect(best === 'proved').toBe(Math.abs(bound - reached) <= 0.02 + 1e-9);
      checked++;
    }
    expect(checked).toBe(3);
  });

  test('centre: the nearest to centre that keeps every margin', () => {
    const keep = 0.1 * IN;
    const { main } = solve(scenario, { aim: 'centre', keep, only: 'main' });
    expect(main.optimum.margin).toBeGreaterThanOrEqual(keep - 1e-4);
    const dense = denseSearch(scenario, {
      random: seeded(10),
      places: 2500,
      polished: 4,
      score: ({ margin, position }) => (margin >= keep ? -Math.abs(position.offset) : -Infinity),
    });
    const off = Math.abs(main.optimum.position.offset);
    expect(off).toBeLessThanOrEqual(-dense.score + scenario.worth + TOLERANCE);
    expect(off).toBeGreaterThan(0);
  });

  test('the wish to be centred: what dense search finds at offset 0', () => {
    const wish = open.wishes.find(({ aim }) => aim === 'centre')!;
    const ranges = { ...scenario.position, offset: { min: 0, max: 0 } };
    const dense = denseSearch(scenario, {
      random: seeded(3),
      places: 2500,
      polished: 4,
      ranges,
      sets: [open.main.options],
    });
    expect(wish.standing!.position.offset).toBe(0);
    expect(dense.score).toBeLessThanOrEqual(wish.bound + 1e-6);
    expect(dense.score).toBeLessThanOrEqual(wish.standing!.margin + 0.02 + 1e-6);
    expect(wish.fits).toBe(wish.standing!.margin >= 0 ? 'yes' : 'no');
  });

  test('the wishes low and back: every rule met, and no place beyond the bound', () => {
    for (const aim of ['low', 'back'] as const) {
      const wish = open.wishes.find((w) => w.aim === aim)!;
      const sign = aim === 'low' ? -1 : 1;
      const coordinate = aim === 'low' ? 'height' : 'setback';
      expect(wish.standing!.fits).toBe(true);
      const dense = denseSearch(scenario, {
        random: seeded(5),
        places: 2500,
        polished: 4,
        sets: [open.main.options],
        score: ({ margin, position }) => (margin >= 0 ? sign * position[coordinate] : -Infinity),
      });
      expect(dense.score).toBeLessThanOrEqual(sign * wish.bound + 1e-6);
      expect(sign * wish.standing!.position[coordinate]).toBeGreaterThanOrEqual(dense.score - 0.02);
    }
  });
});

describe('rules that no position can change', () => {
  /** Plugs 5 mm from a header on the same side, 12 needed; the walls leave 4 each way. */
  const doc = corridor(
    {
      header: {
        'as bought': {},
        another: { move: { header: { y: 10 } }, hours: 3 },
      },
    },
    {
      engine: {
        block: { box: { x: [-400, 0], y: [-100, 100], z: [-100, 100] } },
        plugs: { box: { x: [-300, -100], y: [100, 120], z: [0, 20] } },
        header: { box: { x: [-300, -100], y: [125, 150], z: [0, 20] } },
      },
      rules: [
        { between: ['engine', 'chassis'], gap: 10 },
        { between: ['plugs', 'header'], gap: 12 },
      ],
    },
  );

  test('count in the margin, are marked, and leave the position to the others', () => {
    const { asItStands, main, anyFits } = solve(scenarioOf(doc));
    const [fixed] = asItStands!.optimum.readings;
    expect(fixed).toMatchObject({ between: ['plugs', 'header'], fixed: true, gap: 5, margin: -7 });
    expect(fixed!.share).toBeUndefined();
    expect(asItStands!.fits).toBe('no');
    expect(asItStands!.optimum.margin).toBe(-7);
    // In the middle all the same: 12 + 20 of room, 20 needed, so 6 at either end.
    const others = asItStands!.optimum.readings.filter((reading) => !reading.fixed);
    expect(others[0]!.margin).toBeGreaterThan(6 - TOLERANCE);
    expect(others.filter(({ binding }) => binding)).toHaveLength(2);
    expect(main).toMatchObject({ options: [1], fits: 'yes' });
    expect(main.optimum.margin).toBe(3);
    expect(anyFits).toBe('yes');
  });
});

describe('a rule that options alone decide, and two pockets', () => {
  test('what it proves of the whole says nothing of the place: the roomier pocket is still found', () => {
    // The plugs leave 3, the pockets 4 and 15 about a block 40 mm long.
    const across = { y: [-300, 300], z: [-300, 300] } as const;
    const scenario = scenarioOf({
      units: 'mm',
      position: { setback: [-100, 100], offset: 0, height: 0, pitch: 0 },
      engine: {
        block: { box: { x: [-20, 20], y: [-50, 50], z: [-50, 50] } },
        plugs: { box: { x: [-5, 5], y: [60, 70], z: [0, 10] } },
        header: { box: { x: [-5, 5], y: [85, 95], z: [0, 10] } },
      },
      chassis: {
        near: { box: { x: [-120, -100], ...across } },
        post: { box: { x: [-52, -42], ...across } },
        far: { box: { x: [28, 60], ...across } },
      },
      rulebook: 'none',
      rules: [
        { between: ['block', 'chassis'], gap: 0 },
        { between: ['plugs', 'header'], gap: 12 },
      ],
    });
    const searches = new Searches(scenario, requestFor(scenario));
    searches.ceiling = 3;
    const inSmaller = { x: Float64Array.of(-76, 0, 0, 0), set: [], value: 3, work: NO_WORK };
    const steps = searches.placement([], [inSmaller], 'all options');
    let step = steps.next();
    while (!step.done) step = steps.next('go');
    const { optimum } = step.value;
    expect(optimum.margin).toBe(3);
    const others = optimum.readings.filter(({ fixed }) => !fixed);
    expect(others[0]!.margin).toBeGreaterThan(15 - TOLERANCE);
  });
});

describe('a bay without rules', () => {
  test('anything fits, and the place is in the ranges', () => {
    // A file must have some, but none need hold under the options in hand.
    const { asItStands, main } = solve({ ...scenarioOf(corridor(undefined)), rules: [] });
    for (const placement of [asItStands!, main]) {
      expect(placement).toMatchObject({ fits: 'yes', best: 'proved' });
      expect(placement.optimum.margin).toBe(Infinity);
      expect(placement.optimum.readings).toEqual([]);
      expect(Math.abs(placement.optimum.position.setback)).toBeLessThanOrEqual(50);
    }
  });
});

describe('what is printed', () => {
  function expectOnGrid(placement: Placement, scenario: Scenario): void {
    const { position } = placement.setting;
    const length = scenario.units === 'in' ? IN / 16 : 1;
    for (const [name, step] of [
      ['setback', length],
      ['offset', length],
      ['height', length],
      ['pitch', DEGREE / 10],
    ] as const) {
      const { min, max } = scenario.position[name];
      expect(position[name]).toBeGreaterThanOrEqual(min);
      expect(position[name]).toBeLessThanOrEqual(max);
      if (min === max) continue;
      expect(Math.abs(position[name] / step - Math.round(position[name] / step))).toBeLessThan(
        1e-6,
      );
      expect(Math.abs(position[name] - placement.optimum.position[name])).toBeLessThanOrEqual(
        1.5 * step + 1e-9,
      );
    }
  }

  test('numbers are those of the position printed; the setting is on the grid, and no better grid point is near', () => {
    let applied = 0;
    for (const seed of [1, 2, 3, 4, 5, 6, 7, 8]) {
      const scenario = scenarioOf(randomBay({ random: seeded(seed * 999) }));
      const answer = solve(scenario);
      for (const placement of [answer.main, answer.asItStands, answer.leastWork]) {
        if (!placement) continue;
        for (const standing of [placement.optimum, placement.setting]) {
          const again = measureAt(scenario, placement.options, standing.position);
          expect(Math.abs(again.margin - standing.margin)).toBeLessThanOrEqual(1e-9);
          expect(again.readings.map(({ margin }) => margin)).toEqual(
            standing.readings.map(({ margin }) => expect.closeTo(margin, 6) as number),
          );
          for (const { gap, atRest, needed, margin } of standing.readings) {
            expect(gap).toBeLessThanOrEqual(atRest);
            expect(margin).toBe(gap - needed);
          }
        }
        expect(placement.setting.margin).toBeLessThanOrEqual(placement.bound + 1e-6);
        expectOnGrid(placement, scenario);
        applied++;
      }
    }
    expect(applied).toBeGreaterThan(12);
  });
});

describe('room to come out', () => {
  test('is measured at rest over the whole way out, and needs 0 unless a rule says more', () => {
    const doc: BayDoc = {
      ...corridor(undefined),
      engine: {
        block: { box: { x: [-400, 0], y: [-100, 100], z: [-100, 100] } },
        filter: {
          box: { x: [-300, -250], y: [-30, 30], z: [-140, -100] },
          'comes out': { z: [-60, 0] },
        },
      },
      chassis: {
        ...corridor(undefined).chassis,
        crossmember: { box: { x: [-500, 100], y: [-200, 200], z: [-300, -205] } },
      },
      rock: 1,
    };
    const { main } = solve(scenarioOf(doc), { only: 'main' });
    const out = main.optimum.readings.find(({ comingOut }) => comingOut)!;
    // -140 less 60 down is -200, against -205, whatever the rock.
    expect(out.between).toEqual(['filter', 'crossmember']);
    expect(out.withdrawn).toMatchObject({ part: 'filter', room: { z: { min: -60, max: 0 } } });
    expect(out.gap).toBeCloseTo(5, 9);
    expect(out.atRest).toBeCloseTo(5, 9);
    expect(out.needed).toBe(0);
    const inPlace = main.optimum.readings.find(
      ({ between, comingOut }) =>
        between[0] === 'filter' && between[1] === 'crossmember' && !comingOut,
    )!;
    expect(inPlace.atRest).toBeCloseTo(65, 9);
    expect(inPlace.gap).toBeLessThan(65);
  });
});

describe('shares', () => {
  const scenario = study();
  const tolerance = 1e-3;
  const { main } = solve(scenario, { only: 'main', tolerance, allowed: [[0]] });
  const binding = main.optimum.readings.filter(({ binding: is }) => is);

  test('sum to 1, every one on a binding rule', () => {
    const shares = main.optimum.readings.flatMap(({ share }) =>
      share === undefined ? [] : [share],
    );
    expect(shares.length).toBeGreaterThan(1);
    expect(shares.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 6);
    expect(binding.filter(({ share }) => share !== undefined)).toHaveLength(shares.length);
  });

  test('are what the margin loses when a rule asks for 0.01 in more', () => {
    const STEP = 0.01 * IN;
    let judged = 0;
    for (const reading of binding) {
      if (reading.share === undefined) continue;
      const tighter = study((doc) => {
        const rules = doc['rules'] as BayDoc['rules'][number][];
        const named = rules.find(
          ({ between, gap }) =>
            typeof gap === 'number' && between.join() === reading.between.join(),
        );
        const gap = (reading.needed + STEP) / IN;
        const rest = rules.filter((rule) => rule !== named);
        const measured = named ?? { between: reading.between, measured: reading.measured };
        doc['rules'] = [...rest, { ...measured, gap }];
      });
      const after = solve(tighter, { only: 'main', tolerance, allowed: [[0]] });
      const lost = main.optimum.margin - after.main.optimum.margin;
      expect(Math.abs(lost / STEP - reading.share)).toBeLessThan(0.02);
      judged++;
    }
    expect(judged).toBeGreaterThan(1);
  });
});
