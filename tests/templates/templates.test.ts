/** Every template over its whole range of sizes. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createGap, gapBetween } from '../../src/geometry/gap.js';
import { extent } from '../../src/geometry/reach.js';
import { shapeOf } from '../../src/geometry/shape.js';
import type { Shape } from '../../src/geometry/shape.js';
import { notDrawn } from '../../src/model/notdrawn.js';
import { readScenario } from '../../src/model/read.js';
import type { Part, Scenario } from '../../src/model/scenario.js';
import { place } from '../../src/solver/place.js';
import { BAYS, ENGINES, TRANSMISSIONS } from '../../src/templates/catalogue.js';
import { planOf, rangesOf } from '../../src/templates/plan.js';
import { QUESTIONS } from '../../src/templates/questions.js';
import type { QuestionKey } from '../../src/templates/questions.js';
import { isChoice, jobOf, sizesOf } from '../../src/templates/reply.js';
import type { Answers } from '../../src/templates/reply.js';
import { scenarioText } from '../../src/templates/write.js';
import { requestFor } from '../support/solve.js';

/** Millimetres: what rounding every face to 1/16 in or 1 mm can take from a gap, across a corner. */
const ROUNDED = 2;
/** Millimetres: 1/16 in, to which a face is rounded: parts said to touch come this near. */
const TOUCHING = 1.6;
/** Stated contacts that an engine may lack: an inline engine has one header, a V two. */
const FEWER = 2;

const OTHER: Readonly<Record<string, string>> = { left: 'right', right: 'left' };

const scratch = createGap();

/** A job and sizes anywhere in their ranges, each answered, skipped, or at an end of its range. */
function answered(fixed: Partial<Record<QuestionKey, string>>): fc.Arbitrary<Answers> {
  const choices = QUESTIONS.filter(isChoice).map(({ key, options }) => {
    const one = fixed[key] === undefined ? fc.constantFrom(...options) : fc.constant(fixed[key]);
    return one.map((text) => [key, text] as [QuestionKey, string]);
  });
  return fc.tuple(...choices).chain((chosen) => {
    const job = new Map<QuestionKey, string>(chosen);
    const unit = job.get('units') === 'mm' ? 25.4 : 1;
    const sizes = Object.entries(rangesOf(jobOf(job))).map(([key, { least, most }]) => {
      const share = fc.oneof(
        fc.constant(0),
        fc.constant(1),
        fc.double({ min: 0, max: 1, noNaN: true }),
      );
      const typed = share.map((at) => {
        const exact = (least + at * (most - least)) * unit;
        return String(unit === 1 ? Math.round(exact * 16) / 16 : Math.round(exact));
      });
      return fc
        .oneof({ weight: 1, arbitrary: fc.constant('') }, { weight: 6, arbitrary: typed })
        .map((text) => [key as QuestionKey, text] as [QuestionKey, string]);
    });
    return fc.tuple(...sizes).map((given) => new Map([...chosen, ...given]));
  });
}

function read(answers: Answers): Scenario {
  const { scenario, problems } = readScenario(scenarioText(answers), 'yaml');
  expect(problems).toEqual([]);
  return scenario!;
}

function shapesOf(part: Part): Shape[] {
  return part.solids.map((solid) => shapeOf(solid, { mirrored: part.mirrored }));
}

function gap(first: readonly Shape[], second: readonly Shape[]): number {
  let least = Infinity;
  for (const a of first) {
    for (const b of second) {
      gapBetween(a, b, 0, 0, 0, scratch);
      least = Math.min(least, scratch.lower);
    }
  }
  return least;
}

function pairsOfEngine(scenario: Scenario): { names: [string, string]; gap: number }[] {
  const parts = scenario.parts.filter(({ side }) => side === 'engine');
  const shapes = parts.map(shapesOf);
  return parts.flatMap(({ name }, i) =>
    parts.slice(i + 1).map((other, after) => ({
      names: [name, other.name] as [string, string],
      gap: gap(shapes[i]!, shapes[i + 1 + after]!),
    })),
  );
}

function isContact(answers: Answers, [one, other]: readonly [string, string]): boolean {
  return planOf(jobOf(answers), sizesOf(answers)).contacts.some(
    ([a, b]) => (a === one && b === other) || (a === other && b === one),
  );
}

describe.each(Object.keys(ENGINES))('%s', (engine) => {
  it('keeps its parts out of one another at any sizes, but for the contacts it states', () => {
    const transmissions = new Set<string>();
    fc.assert(
      fc.property(answered({ engine, bay: 'pickup', driver: 'left' }), (answers) => {
        transmissions.add(jobOf(answers).transmission);
        const apart = pairsOfEngine(read(answers)).filter(({ names }) => {
          return !isContact(answers, names);
        });
        expect(apart.length).toBeGreaterThan(400);
        const clashes = apart.filter(({ gap }) => gap < -ROUNDED);
        expect(clashes.map(({ names, gap }) => [...names, gap])).toEqual([]);
      }),
      { numRuns: 6 },
    );
    expect(transmissions.size).toBeGreaterThan(1);
  });

  it.each(Object.keys(TRANSMISSIONS))('states only contacts that are there, %s', (transmission) => {
    const answers = new Map<QuestionKey, string>([
      ['engine', engine],
      ['transmission', transmission],
    ]);
    const touching = pairsOfEngine(read(answers)).filter(({ names }) => isContact(answers, names));
    const { contacts } = planOf(jobOf(answers), sizesOf(answers));
    expect(touching.length).toBeGreaterThan(15);
    expect(touching.length).toBeGreaterThanOrEqual(contacts.length - FEWER);
    const loose = touching.filter(({ gap }) => gap > TOUCHING);
    expect(loose.map(({ names, gap }) => [...names, gap])).toEqual([]);
  });
});

describe.each(Object.keys(BAYS))('%s', (bay) => {
  it('reads without a problem at any sizes, with every usual part drawn', () => {
    const engines = new Set<string>();
    fc.assert(
      fc.property(answered({ bay }), (answers) => {
        const scenario = read(answers);
        engines.add(jobOf(answers).engine);
        expect(notDrawn(scenario)).toEqual([]);
        for (const part of scenario.parts) expect(shapesOf(part).length).toBeGreaterThan(0);
      }),
      { numRuns: 10 },
    );
    expect(engines.size).toBeGreaterThan(2);
  });

  it('mirrors what it says it mirrors', () => {
    fc.assert(
      fc.property(answered({ bay }), (answers) => {
        const { parts } = read(answers);
        const pairs = parts.filter(({ mirrored }) => mirrored);
        expect(pairs.length).toBeGreaterThan(5);
        for (const image of pairs) {
          const name = image.name.replace(/left|right/, (side) => OTHER[side]!);
          const drawn = parts.find((part) => part.name === name)!;
          expect(drawn.mirrored).toBe(false);
          const [a, b] = [shapesOf(drawn), shapesOf(image)];
          for (const d of [
            [1, 0, 0],
            [0, 1, 0],
            [0, -1, 0],
            [0, 0, 1],
            [0.6, 0.64, 0.48],
          ]) {
            const most = (shapes: Shape[], sign: number) =>
              Math.max(...shapes.map((shape) => extent(shape, d[0]!, sign * d[1]!, d[2]!)));
            expect(most(b, -1)).toBeCloseTo(most(a, 1), 9);
          }
        }
      }),
      { numRuns: 4 },
    );
  });

  it('turns with the driver', () => {
    const side = (driver: string, name: string) => {
      const { parts } = read(
        new Map<QuestionKey, string>([
          ['bay', bay],
          ['driver', driver],
        ]),
      );
      const shapes = shapesOf(parts.find((part) => part.name === name)!);
      const most = Math.max(...shapes.map((shape) => extent(shape, 0, 1, 0)));
      const least = Math.min(...shapes.map((shape) => -extent(shape, 0, -1, 0)));
      return [least, most];
    };
    for (const name of [
      'steering box',
      'steering shaft',
      'brake booster',
      'heater',
      'brake line',
    ]) {
      const [left, right] = [side('left', name), side('right', name)];
      expect(right[0]).toBeCloseTo(-left[1]!, 9);
      expect(right[1]).toBeCloseTo(-left[0]!, 9);
      expect(Math.abs(left[0]! + left[1]!)).toBeGreaterThan(100);
    }
  });

  it('can be placed at any sizes: a place is found and measured', () => {
    const said = new Set<string>();
    fc.assert(
      fc.property(answered({ bay }), (answers) => {
        const scenario = read(answers);
        const search = place(scenario, requestFor(scenario));
        let step = search.next();
        for (let n = 0; step.done !== true; n++) step = search.next(n < 20 ? 'go' : 'time');
        const { main } = step.value;
        expect(main.setting.readings.length).toBeGreaterThan(100);
        expect(Number.isFinite(main.setting.margin)).toBe(true);
        said.add(main.fits);
      }),
      { numRuns: 4 },
    );
    expect(said.size).toBeGreaterThan(0);
  });
});

describe('the bays that come without a size', () => {
  it.each([
    ['inline four', 'pickup', 'yes'],
    ['overhead-cam V8', 'coupe', 'no'],
  ])('%s into a %s: %s', (engine, bay, fits) => {
    const scenario = read(
      new Map<QuestionKey, string>([
        ['engine', engine],
        ['bay', bay],
      ]),
    );
    const search = place(scenario, requestFor(scenario));
    let step = search.next();
    for (let n = 0; step.done !== true; n++) step = search.next(n < 400 ? 'go' : 'time');
    expect(step.value.main.fits).toBe(fits);
  });
});
