/** Other places as good as the answer: planted pockets, and a flood of the ranges as a second opinion. */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readScenario } from '../../../src/model/read.js';
import type { PlaceAnswer } from '../../../src/solver/answer.js';
import { Searches } from '../../../src/solver/answering/searches.js';
import { endsOf } from '../../../src/solver/box.js';
import { regionAbout } from '../../../src/solver/explaining/region.js';
import { compileBay } from '../../../src/solver/measuring/compile.js';
import { standingAt, vectorOf } from '../../../src/solver/measuring/measure.js';
import { Meter } from '../../../src/solver/measuring/meter.js';
import { place } from '../../../src/solver/place.js';
import { between, seeded } from '../../geometry/random.js';
import { scenarioOf } from '../../support/doc.js';
import type { BayDoc, OptionDoc, PartDoc } from '../../support/doc.js';
import { requestFor, solve, toEnd, TOLERANCE } from '../../support/solve.js';

const across = { y: [-300, 300], z: [-300, 300] } as const;
const side = { x: [-400, 400], z: [-300, 300] } as const;

/**
 * A block 40 mm long and wide in a corridor 120 wide, between walls at x -150 and 150: a post across the
 * middle, its faces at -a and b, parts it into two pockets of 150 - a and 150 - b. Millimetres.
 */
function pockets(a: number, b: number, more: Partial<BayDoc> = {}): BayDoc {
  return {
    units: 'mm',
    position: { setback: [-140, 140], offset: [-70, 70], height: 0, pitch: 0 },
    engine: { block: { box: { x: [-20, 20], y: [-20, 20], z: [-20, 20] } } },
    chassis: {
      front: { box: { x: [-200, -150], ...across } },
      rear: { box: { x: [150, 200], ...across } },
      left: { box: { y: [-300, -60], ...side } },
      right: { box: { y: [60, 300], ...side } },
      post: { box: { x: [-a, b], ...across } },
    },
    rulebook: 'none',
    rules: [{ between: ['block', 'chassis'], gap: 5 }],
    worth: 3,
    ...more,
  };
}

/** Half of what a pocket has over the block, less the gap needed. */
function marginIn(pocket: number): number {
  return (pocket - 40) / 2 - 5;
}

function others({ otherPlaces }: PlaceAnswer) {
  return otherPlaces!.places.map(({ optimum }) => optimum);
}

describe('pockets planted', () => {
  test('two that mirror one another: the one that is not the answer, with the same margin', () => {
    const answer = solve(scenarioOf(pockets(30, 30)));
    const [other, ...more] = others(answer);
    expect(more).toEqual([]);
    expect(answer.otherPlaces!.complete).toBe(true);
    expect(answer.main.optimum.margin).toBeCloseTo(marginIn(120), 0);
    expect(other!.margin).toBeGreaterThan(marginIn(120) - TOLERANCE);
    expect(other!.margin).toBeLessThan(marginIn(120) + 1e-6);
    const at = [answer.main.optimum, other!].map(({ position }) => position.setback);
    expect(Math.abs(at[0]! + at[1]!)).toBeLessThan(0.5);
    expect(Math.abs(at[0]!)).toBeCloseTo(90, 0);
    expect(answer.otherPlaces!.places[0]!.best).toBe('proved');
  });

  test('one alone: nowhere else, proved', () => {
    for (const [a, b] of [
      [30, 110],
      [110, 30],
    ] as const) {
      const answer = solve(scenarioOf(pockets(a, b)));
      expect(others(answer)).toEqual([]);
      expect(answer.otherPlaces!.complete).toBe(true);
      expect(Math.sign(answer.main.optimum.position.setback)).toBe(a < b ? -1 : 1);
    }
  });

  test('a lesser one counts while it is within what is worth a change', () => {
    // Pockets of 120 and 120 - d: margins d / 2 apart, and 3 counts.
    for (const d of [4, 5, 7, 9]) {
      const answer = solve(scenarioOf(pockets(30, 30 + d)));
      expect(others(answer)).toHaveLength(d / 2 <= 3 ? 1 : 0);
      expect(answer.otherPlaces!.complete).toBe(true);
      expect(answer.otherPlaces!.reach).toBeCloseTo(answer.main.optimum.margin - 3, 9);
    }
  });

  test('a wide pocket is one place, however far its ends are apart', () => {
    // No post: anywhere along the corridor is as good, for its sides bind.
    const doc = pockets(30, 30, {
      engine: { block: { box: { x: [-20, 20], y: [-50, 50], z: [-20, 20] } } },
    });
    const { post, ...open } = doc.chassis;
    expect(post).toBeDefined();
    const answer = solve(scenarioOf({ ...doc, chassis: open }));
    expect(answer.main.optimum.margin).toBeCloseTo(5, 6);
    expect(others(answer)).toEqual([]);
    expect(answer.otherPlaces!.complete).toBe(true);
  });

  test('one that only another option opens, with the options it takes', () => {
    const choices: Record<string, Record<string, OptionDoc>> = {
      post: { stays: {}, thinner: { remove: ['shim'], hours: 1 } },
    };
    const shim: PartDoc = { box: { x: [30, 60], ...across } };
    const doc = pockets(30, 30);
    const scenario = scenarioOf({ ...doc, chassis: { ...doc.chassis, shim }, choices });
    const answer = solve(scenario);
    expect(answer.main.options).toEqual([0]);
    expect(answer.main.optimum.position.setback).toBeLessThan(0);
    const [other] = answer.otherPlaces!.places;
    expect(other).toMatchObject({ options: [1], hours: 1 });
    expect(other!.optimum.position.setback).toBeGreaterThan(0);
  });

  test('nothing is looked for where nothing fits, or where another aim is asked for', () => {
    expect(solve(scenarioOf(pockets(112, 112))).otherPlaces).toBeUndefined();
    expect(solve(scenarioOf(pockets(30, 30)), { aim: 'back' }).otherPlaces).toBeUndefined();
  });

  test('stopped on the way, it does not say that there is none', () => {
    const path = 'scenarios/narrow-rails.yaml';
    const scenario = readScenario(readFileSync(path, 'utf8'), 'yaml').scenario!;
    const steps = place(scenario, requestFor(scenario));
    let step = steps.next();
    while (!step.done) step = steps.next(step.value.doing === 'other places' ? 'asked' : 'go');
    expect(step.value.stopped).toBe('asked');
    expect(step.value.otherPlaces).toMatchObject({ places: [], complete: false });
  });
});

/** Cells of a grid over setback and offset whose margin reaches a level, by region: 0 is none. */
function flood(meter: Meter, reach: number, cells: number, width: number) {
  const at = (i: number): number => -width + (2 * width * i) / (cells - 1);
  const good = Array.from({ length: cells * cells }, (_, n) => {
    const x = Float64Array.of(at(Math.floor(n / cells)), at(n % cells), 0, 0);
    return standingAt(meter, [], x).margin >= reach;
  });
  const region = new Int32Array(cells * cells);
  let count = 0;
  for (let n = 0; n < good.length; n++) {
    if (!good[n] || region[n] !== 0) continue;
    count++;
    const queue = [n];
    while (queue.length > 0) {
      const m = queue.pop()!;
      if (!good[m] || region[m] !== 0) continue;
      region[m] = count;
      const [i, j] = [Math.floor(m / cells), m % cells];
      for (const [di, dj] of [
        [-1, 0],
        [1, 0],
        [0, -1],
        [0, 1],
        [-1, -1],
        [1, 1],
        [-1, 1],
        [1, -1],
      ] as const) {
        if (i + di < 0 || j + dj < 0 || i + di >= cells || j + dj >= cells) continue;
        queue.push((i + di) * cells + j + dj);
      }
    }
  }
  return { at, region };
}

describe('posts at random in a flat bay, flooded', () => {
  test('what is elsewhere and as good is named, and what is named is apart from the answer', () => {
    const WIDTH = 150;
    const CELLS = 81;
    const count = { none: 0, some: 0 };
    for (let seed = 1; seed <= 18; seed++) {
      const random = seeded(seed * 31);
      const posts = Array.from({ length: 3 + Math.floor(4 * random()) }, (_, i) => {
        const [x, y] = [between(random, -170, 170), between(random, -170, 170)];
        const box = { x: [x - 15, x + 15], y: [y - 15, y + 15], z: [-99, 99] } as const;
        return [`post ${i}`, { box }] as const;
      });
      const scenario = scenarioOf({
        units: 'mm',
        position: { setback: [-WIDTH, WIDTH], offset: [-WIDTH, WIDTH], height: 0, pitch: 0 },
        engine: { block: { box: { x: [-40, 40], y: [-40, 40], z: [-20, 20] } } },
        chassis: Object.fromEntries([
          ...posts,
          ['front', { box: { x: [-400, -200], y: [-400, 400], z: [-99, 99] } }],
          ['rear', { box: { x: [200, 400], y: [-400, 400], z: [-99, 99] } }],
          ['left', { box: { x: [-400, 400], y: [-400, -200], z: [-99, 99] } }],
          ['right', { box: { x: [-400, 400], y: [200, 400], z: [-99, 99] } }],
        ]),
        rulebook: 'none',
        rules: [{ between: ['block', 'chassis'], gap: 0 }],
        worth: 9,
      });
      const answer = solve(scenario);
      if (!answer.otherPlaces) continue;
      const { places, complete, reach, own } = answer.otherPlaces;
      const { at, region } = flood(new Meter(compileBay(scenario)), reach, CELLS, WIDTH);
      const cell = (v: number): number => Math.round(((v + WIDTH) / (2 * WIDTH)) * (CELLS - 1));
      const regionAt = (p: { setback: number; offset: number }): number =>
        region[cell(p.setback) * CELLS + cell(p.offset)]!;
      const mine = regionAt(answer.main.optimum.position);
      const named = places.map(({ optimum }) => regionAt(optimum.position));
      // Where a region is thinner than the grid, the grid says nothing.
      for (const one of named) if (one > 0 && mine > 0) expect(one, `seed ${seed}`).not.toBe(mine);
      for (const { optimum } of places) expect(optimum.margin).toBeGreaterThanOrEqual(reach - 1e-4);
      count[places.length === 0 ? 'none' : 'some']++;
      if (!complete) continue;
      region.forEach((one, n) => {
        const [x, y] = [at(Math.floor(n / CELLS)), at(n % CELLS)];
        const inside =
          x >= own.setback.min &&
          x <= own.setback.max &&
          y >= own.offset.min &&
          y <= own.offset.max;
        if (one > 0 && !inside) expect(named, `seed ${seed}`).toContain(one);
      });
    }
    expect(Math.min(count.none, count.some), JSON.stringify(count)).toBeGreaterThan(3);
  });
});

test('a box about a place is shut only where each of its faces is proved to be', () => {
  const scenario = scenarioOf(pockets(30, 20));
  const { position, margin } = solve(scenario, { only: 'place' }).main.optimum;
  const about = (left: number) => {
    const searches = new Searches(scenario, requestFor(scenario));
    const ends = endsOf(scenario.position);
    return toEnd(regionAbout(searches, vectorOf(position), ends, ends, margin - 3, { left }));
  };
  const proved = about(1000);
  expect(proved.shut).toBe(true);
  // Short of the other pocket.
  expect(proved.box.lo[0]! > -100 || proved.box.hi[0]! < 100).toBe(true);
  for (const left of [0, 1]) expect(about(left).shut).toBe(false);
});
