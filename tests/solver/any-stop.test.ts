/** Stopped at any step, a search claims nothing that the same search run to its end contradicts, and says it was stopped. */

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { allDomains } from '../../src/model/options.js';
import { readScenario } from '../../src/model/read.js';
import type { Scenario } from '../../src/model/scenario.js';
import type { PlaceAnswer, Progress, Stopped } from '../../src/solver/answer.js';
import type { PlaceRequest, Signal } from '../../src/solver/asked.js';
import { DECISION_SLACK } from '../../src/solver/decision.js';
import { frontier } from '../../src/solver/explaining/frontier.js';
import { slide } from '../../src/solver/explaining/slide.js';
import { trimming } from '../../src/solver/explaining/trimming.js';
import { why } from '../../src/solver/explaining/why.js';
import { place } from '../../src/solver/place.js';
import { seeded } from '../geometry/random.js';
import { scenarioOf } from '../support/doc.js';
import { randomBay } from '../support/random-bays.js';
import { requestFor, solve, TOLERANCE } from '../support/solve.js';

type Search<T> = () => Generator<Progress, T, Signal>;

/** The answer where the search is stopped at a step, and how many steps there were. */
function runTo<T>(search: Search<T>, last: number, by: Stopped = 'time'): [T, number] {
  const steps = search();
  let step = steps.next();
  let n = 0;
  for (; !step.done; n++) step = steps.next(n < last ? 'go' : by);
  return [step.value, n];
}

/** The whole answer, and those where it was stopped at some six steps, the first and the last among them. */
function stoppedAnywhere<T extends { readonly stopped?: Stopped }>(
  search: Search<T>,
  check: (early: T, whole: T) => void,
): void {
  const [whole, steps] = runTo(search, Infinity);
  expect(whole.stopped).toBeUndefined();
  const stops = Math.min(6, steps);
  for (let k = 0; k < stops; k++) {
    const last = Math.round((k * (steps - 1)) / Math.max(1, stops - 1));
    const by = (['time', 'asked', 'memory'] as const)[k % 3]!;
    const [early] = runTo(search, last, by);
    expect(early.stopped).toBe(by);
    check(early, whole);
  }
}

const BAYS: readonly Scenario[] = [
  ...[16, 18, 39, 49].map((seed) => scenarioOf(randomBay({ random: seeded(seed) }))),
  readScenario(readFileSync('tests/bays/remote-and-notch.yaml', 'utf8'), 'yaml').scenario!,
];

/** A verdict of a stopped search is that of the whole one, or none. */
function expectVerdict(early: string, whole: string): void {
  if (early !== 'undecided') expect(early).toBe(whole);
}

function expectPlaceHonest(early: PlaceAnswer, whole: PlaceAnswer): void {
  const { main, bestBound } = early;
  const best = Math.max(whole.main.optimum.margin, main.optimum.margin);
  expect(bestBound).toBeGreaterThanOrEqual(best - 1e-9);
  expect(main.bound).toBeGreaterThanOrEqual(main.optimum.margin - 1e-9);
  if (main.best === 'proved' && main.optimum.margin > -Infinity) {
    expect(main.bound - main.optimum.margin).toBeLessThan(TOLERANCE + 1e-6);
    if (early.aim === 'low') {
      const lower = main.optimum.position.height - whole.main.optimum.position.height;
      expect(lower).toBeLessThan(2 * TOLERANCE);
    }
    if (early.aim === 'back') {
      const ahead = whole.main.optimum.position.setback - main.optimum.position.setback;
      expect(ahead).toBeLessThan(2 * TOLERANCE);
    }
  }
  expectVerdict(early.anyFits, whole.anyFits);
  if (main.fits === 'yes') expect(main.optimum.margin).toBeGreaterThanOrEqual(-DECISION_SLACK);
  if (early.aimMissed === 'no') expect(whole.aimMissed).toBe('no');
  for (const wish of early.wishes) {
    const other = whole.wishes.find(({ aim }) => aim === wish.aim)!;
    expectVerdict(wish.fits, other.fits);
    if (
      wish.best === 'proved' &&
      JSON.stringify(main.options) === JSON.stringify(whole.main.options)
    ) {
      const apart = Math.abs(wish.bound - other.bound);
      expect(wish.bound === other.bound || apart < 2 * TOLERANCE).toBe(true);
    }
  }
  if (early.otherPlaces?.complete) {
    expect(early.otherPlaces.places.length).toBe(whole.otherPlaces!.places.length);
  }
}

describe('stopped at any step', () => {
  it.each(['margin', 'centre', 'low', 'back'] as const)('place, for the aim %s', (aim) => {
    for (const scenario of BAYS) {
      const most = solve(scenario, { only: 'place' }).main.optimum.margin;
      for (const keep of aim === 'margin' ? [0] : [0, 0.5 * most, most + 5]) {
        const asked: Partial<PlaceRequest> = { aim, keep };
        stoppedAnywhere(() => place(scenario, requestFor(scenario, asked)), expectPlaceHonest);
      }
    }
  });

  it('why a wish cannot be had', () => {
    for (const scenario of BAYS) {
      const wants = { ranges: { offset: { min: 0, max: 0 } }, options: [], margin: 0 };
      const { margin } = solve(scenario, { only: 'place' }).main.optimum;
      for (const more of [wants, { ranges: {}, options: [], margin: margin + 5 }]) {
        stoppedAnywhere(
          () => why(scenario, { wants: more, tolerance: TOLERANCE }),
          (early, whole) => {
            expectVerdict(early.possible, whole.possible);
            if (early.complete) expect(early.reasons.length).toBe(whole.reasons.length);
            if (early.remediesComplete) expect(early.remedies.length).toBe(whole.remedies.length);
            if (early.possible === 'undecided') expect(early.complete).toBe(false);
          },
        );
      }
    }
  });

  it('the frontier of margin and work', () => {
    for (const scenario of BAYS) {
      const asked = { tolerance: TOLERANCE, allowed: allDomains(scenario), pins: {} };
      stoppedAnywhere(
        () => frontier(scenario, asked),
        (early, whole) => {
          const last = whole.points.at(-1)?.optimum.margin ?? -Infinity;
          expect(early.bound).toBeGreaterThanOrEqual(last - 1e-9);
          if (early.best === 'proved') expect(early.points.length).toBe(whole.points.length);
        },
      );
    }
  });

  it('a slide', () => {
    for (const scenario of BAYS) {
      const asked = { tolerance: TOLERANCE, along: 'height', steps: 7 } as const;
      const range = scenario.position.height;
      stoppedAnywhere(
        () => slide(scenario, { ...asked, range, allowed: allDomains(scenario) }),
        (early, whole) => {
          expect(early.proved).toBe(false);
          for (const { at, placement } of early.points) {
            const same = whole.points.find((one) => Math.abs(one.at - at) < 1e-9);
            if (!same || JSON.stringify(early.options) !== JSON.stringify(whole.options)) continue;
            const { margin, limits } = same.placement.optimum;
            if (limits.every(({ met }) => met))
              expect(placement.bound).toBeGreaterThanOrEqual(margin - 1e-6);
          }
        },
      );
    }
  });

  it('cuts', () => {
    const scenario = BAYS.at(-1)!;
    const wants = { ranges: { offset: { min: 0, max: 0 } }, options: [] };
    stoppedAnywhere(
      () => trimming(scenario, { wants, tolerance: TOLERANCE, withOptions: true }),
      (early, whole) => {
        expectVerdict(early.uncut, whole.uncut);
        if (early.cheapestProved) expect(early.cheapest).toEqual(whole.cheapest);
        expect(early.curves.length).toBeLessThanOrEqual(whole.curves.length);
      },
    );
  });
});
