import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gapsJson, placeJson } from '../../src/cli/json/answer.js';
import { part } from '../model/sample-bay.js';
import {
  at,
  CHOICES,
  fitting,
  INCH,
  notFitting,
  placement,
  reading,
  RULED,
  scenario,
  standing,
} from './sample.js';

const NUMBERS = { scenario: scenario(), units: 'in' } as const;

/** As a program on the other end sees it. */
function parsed(answer: object): Record<string, unknown> {
  return JSON.parse(JSON.stringify(answer)) as Record<string, unknown>;
}

describe('the answer for programs', () => {
  it('has the shape of the contract', () => {
    const answer = parsed(placeJson(fitting(), ['starter'], RULED, NUMBERS));
    expect(answer).toMatchObject({
      title: 'Orchard sprayer, four-cylinder to V8',
      units: 'in',
      fits: 'yes',
      best: 'proved',
      margin: 0.2142,
      bestBound: 0.302,
      position: { setback: 25.482, offset: 0.25, height: 2.283, pitch: 3.1, pitchOnFloor: 3.1 },
      setting: {
        position: { setback: 25.5, offset: 0.25, height: 2.25, pitch: 3.1 },
        margin: 0.1987,
        fits: 'yes',
      },
      options: { 'oil filter': 'remote', fan: 'belt driven' },
      hours: 1.5,
      cost: 90,
      notDrawn: ['starter'],
      guessed: [],
      stopped: null,
    });
    expect((answer['rules'] as object[])[0]).toEqual({
      between: ['fan', 'radiator'],
      measured: 'fore-aft',
      needed: 2,
      gap: 2.2142,
      atRest: 2.7142,
      margin: 0.2142,
      binding: true,
      share: 0.5,
      why: 'a flexing frame brings the core to the fan',
    });
    expect(answer['asItStands']).toMatchObject({ margin: -0.8, options: { fan: 'belt driven' } });
    expect(answer['asItStands']).not.toHaveProperty('rules');
    expect(Object.keys(answer['wishes'] as object)).toEqual(['centre', 'low', 'back']);
  });

  it('has the pitch on a level floor too: a nose-down frame takes from a tail-down engine', () => {
    const raked = scenario({ rake: (4 * Math.PI) / 180 });
    const answer = parsed(placeJson(fitting(), [], RULED, { scenario: raked, units: 'in' }));
    expect(answer['position']).toMatchObject({ pitch: 3.1, pitchOnFloor: -0.9 });
  });

  it('names the guessed parts that stand', () => {
    const guessing = scenario({
      parts: [part('fan', 'engine', { guess: true }), part('filter', 'engine', { guess: true })],
      choices: CHOICES.map((choice) => ({
        ...choice,
        options: choice.options.map((option) => ({
          ...option,
          remove: option.name === 'remote' ? ['filter'] : [],
        })),
      })),
    });
    const n = { scenario: guessing, units: 'in' } as const;
    expect(parsed(placeJson(fitting(), [], RULED, n))['guessed']).toEqual(['fan']);
    const { main } = fitting();
    const gaps = gapsJson(main.optimum, [0, 0], { hours: 0, cost: 0 }, [], RULED, n);
    expect(parsed(gaps)['guessed']).toEqual(['fan', 'filter']);
  });

  it('says null where there is nothing, and where nothing is finite', () => {
    const answer = parsed(placeJson(notFitting({ bestBound: Infinity }), [], RULED, NUMBERS));
    expect(answer['leastWork']).toBeNull();
    expect(answer['bestBound']).toBeNull();
  });

  it('marks fixed rules and rules about coming out, and only those', () => {
    const rules = parsed(placeJson(fitting(), [], RULED, NUMBERS))['rules'] as Record<
      string,
      unknown
    >[];
    expect(rules.filter((rule) => rule['fixed'] === true)).toHaveLength(1);
    expect(rules.filter((rule) => rule['comingOut'] === true)).toHaveLength(1);
  });

  it('shows the tolerance, however fine', () => {
    const where = standing(at(1, 0, 0, 0), [reading('a', 'b', 1, 0.123456789)]);
    const answer = fitting({ main: placement(where, where) });
    const margin = (tolerance: number) =>
      parsed(placeJson(answer, [], RULED, { ...NUMBERS, tolerance }))['margin'];
    expect(margin(INCH / 64)).toBe(0.1234);
    expect(margin(1e-5 * INCH)).toBe(0.123456);
  });

  it('rounds margins and gaps down, needs and bounds up', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 50, noNaN: true }),
        fc.double({ min: 0, max: 9, noNaN: true }),
        fc.constantFrom('in' as const, 'mm' as const),
        (margin, needed, units) => {
          const where = standing(at(1, 0, 0, 0), [reading('a', 'b', needed, margin)]);
          const main = placement(where, where);
          const answer = parsed(
            placeJson(fitting({ main }), [], RULED, { scenario: scenario(), units }),
          );
          const scale = units === 'in' ? INCH : 1;
          const rule = (answer['rules'] as { gap: number; needed: number; margin: number }[])[0]!;
          const one = where.readings[0]!;
          const blur = 1e-8;
          expect(rule.gap * scale).toBeLessThanOrEqual(one.gap + blur * scale);
          expect(rule.margin * scale).toBeLessThanOrEqual(one.margin + blur * scale);
          expect(rule.needed * scale).toBeGreaterThanOrEqual(one.needed - blur * scale);
          expect((answer['bound'] as number) * scale).toBeGreaterThanOrEqual(
            main.bound - blur * scale,
          );
          // And none by more than the last digit.
          expect(one.margin / scale - rule.margin).toBeLessThanOrEqual(1.01e-3);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('names what no rule covers, and how deep it stands in what', () => {
    const between = ['starter', 'post'] as const;
    const unruled = { ...RULED, parts: ['starter'], overlaps: [{ between, depth: INCH / 3 }] };
    expect(parsed(placeJson(fitting(), [], unruled, NUMBERS))).toMatchObject({
      noRule: ['starter'],
      overlaps: [{ between: ['starter', 'post'], depth: 0.3334 }],
    });
    expect(parsed(placeJson(fitting(), [], RULED, NUMBERS))).toMatchObject({
      noRule: [],
      overlaps: [],
    });
  });

  it('has the way in to the optimum and to the setting, and null without a path', () => {
    const worst = {
      between: ['oil pan', 'crossmember'],
      position: at(16, 0, 20, 5),
      leg: [1, 2],
    } as const;
    const caught = { fits: 'no', margin: -1.25 * INCH, needed: 0, worst } as const;
    const setting = { fits: 'yes', margin: Infinity, needed: INCH } as const;
    const answer = parsed(
      placeJson(fitting(), [], RULED, NUMBERS, [], { optimum: caught, setting }),
    );
    expect(answer['hoistPath']).toMatchObject({
      fits: 'no',
      margin: -1.25,
      needed: 0,
      between: ['oil pan', 'crossmember'],
      position: { setback: 16, height: 20, pitch: 5 },
      leg: [2, 3],
    });
    expect(answer['setting']).toMatchObject({
      hoistPath: { fits: 'yes', margin: null, between: null, position: null, leg: null },
    });
    expect(answer['fits']).toBe('yes');
    const without = parsed(placeJson(fitting(), [], RULED, NUMBERS));
    expect(without['hoistPath']).toBeNull();
    expect(without['setting']).toMatchObject({ hoistPath: null });
  });

  it('bears any name of a choice', () => {
    const choices = [{ ...CHOICES[0]!, name: '__proto__' }, CHOICES[1]!];
    const answer = JSON.stringify(
      placeJson(fitting(), [], RULED, { scenario: scenario({ choices }), units: 'in' }),
    );
    expect(answer).toContain('"__proto__":"remote"');
  });
});

describe('gaps for programs', () => {
  it('holds the position, the options and every rule', () => {
    const where = standing(at(25.5, 0, 2, 3), [reading('fan', 'radiator', 2, -0.25)]);
    const answer = parsed(gapsJson(where, [1, 0], { hours: 1.5, cost: 90 }, [], RULED, NUMBERS));
    expect(answer).toMatchObject({
      fits: 'no',
      margin: -0.25,
      position: { setback: 25.5, offset: 0, height: 2, pitch: 3 },
      options: { 'oil filter': 'remote' },
      hours: 1.5,
    });
    expect(answer['rules']).toHaveLength(1);
  });
});
