import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nearestName } from '../../src/model/text/nearest.js';
import { domainsByName, optionSetByName } from '../../src/model/asked/options-by-name.js';
import {
  allDomains,
  choicesTouching,
  firstOptions,
  isCompatible,
  narrow,
  optionSets,
  partNames,
  partUnder,
  sideOf,
  workOf,
} from '../../src/model/options.js';
import type { OptionSet, Scenario } from '../../src/model/scenario.js';
import { bay, choice, option, part } from './sample-bay.js';

const fan = part('fan', 'engine');
const filter = part('filter', 'engine');
const left = part('left header', 'engine');
const right = part('right header', 'engine', { mirrored: true });
const rail = part('rail', 'chassis');
const pusher = part('pusher', 'chassis');
const slim = part('fan', 'engine', { kind: 'mechanical fan' });

const sample = bay({
  parts: [fan, filter, left, right, rail],
  groups: [{ name: 'headers', parts: ['left header', 'right header'] }],
  choices: [
    choice(
      'filter',
      option('on the block'),
      option('remote', { remove: ['filter'], hours: 1.5, cost: 90 }),
      option('moved', { move: [{ part: 'filter', by: [0, 0, 5] }] }),
    ),
    choice(
      'fan',
      option('belt'),
      option('slim', { replace: [slim], hours: 1, cost: 40 }),
      option('pusher', { remove: ['fan'], add: [pusher], hours: 2, cost: 150 }),
    ),
    choice(
      'plate',
      option('none'),
      option('plate', {
        move: [
          { part: 'fan', by: [-9, 0, 0] },
          { part: 'headers', by: [1, 0, 0] },
          { part: 'left header', by: [0, 2, 0] },
          { part: 'filter', by: [-9, 0, 0] },
        ],
        hours: 3,
        cost: 160,
      }),
    ),
  ],
});

describe('parts under an option set', () => {
  it('has every part as drawn under the first options', () => {
    const first = firstOptions(sample);
    expect(first).toEqual([0, 0, 0]);
    expect(partUnder(sample, 'filter', first)).toEqual({ part: filter, move: [0, 0, 0] });
    expect(partUnder(sample, 'pusher', first)).toBeUndefined();
    expect(partUnder(sample, 'nothing', first)).toBeUndefined();
  });

  it('replaces before it moves, and does nothing to a part that is not there', () => {
    expect(partUnder(sample, 'fan', [0, 1, 1])).toEqual({ part: slim, move: [-9, 0, 0] });
    expect(partUnder(sample, 'fan', [0, 2, 1])).toBeUndefined();
    expect(partUnder(sample, 'filter', [1, 0, 1])).toBeUndefined();
  });

  it('adds parts, and sums moves over choices', () => {
    expect(partUnder(sample, 'pusher', [0, 2, 0])?.part).toBe(pusher);
    expect(partUnder(sample, 'filter', [2, 0, 1])?.move).toEqual([-9, 0, 5]);
  });

  it('moves each member of a group, mirror images by the same vector', () => {
    expect(partUnder(sample, 'left header', [0, 0, 1])?.move).toEqual([1, 2, 0]);
    expect(partUnder(sample, 'right header', [0, 0, 1])).toEqual({ part: right, move: [1, 0, 0] });
  });

  it('takes remove and add of one name in one option as another part in its place', () => {
    const other = part('fan', 'engine', { kind: 'electric fan' });
    const swap = bay({
      parts: [fan],
      choices: [choice('fan', option('a'), option('b', { remove: ['fan'], add: [other] }))],
    });
    expect(partUnder(swap, 'fan', [1])?.part).toBe(other);
  });

  it('removes a part whatever another choice adds or replaces', () => {
    const clash = bay({
      parts: [fan],
      choices: [
        choice('one', option('out', { remove: ['fan'] })),
        choice('two', option('slim', { replace: [slim] })),
      ],
    });
    expect(partUnder(clash, 'fan', [0, 0])).toBeUndefined();
  });

  it('lists each part once, with its side and the choices that touch it', () => {
    const names = ['fan', 'filter', 'left header', 'right header', 'rail', 'pusher'];
    expect(partNames(sample)).toEqual(names);
    expect(names.map((name) => sideOf(sample, name))).toEqual([
      'engine',
      'engine',
      'engine',
      'engine',
      'chassis',
      'chassis',
    ]);
    expect(choicesTouching(sample, 'fan')).toEqual([1, 2]);
    expect(choicesTouching(sample, 'filter')).toEqual([0, 2]);
    expect(choicesTouching(sample, 'rail')).toEqual([]);
    expect(() => sideOf(sample, 'nothing')).toThrow(RangeError);
  });

  it('adds up the work', () => {
    expect(workOf(sample, [0, 0, 0])).toEqual({ hours: 0, cost: 0 });
    expect(workOf(sample, [1, 2, 1])).toEqual({ hours: 6.5, cost: 400 });
  });
});

/** Random needs and rules out among up to 4 choices of up to 3 options. */
const tangled: fc.Arbitrary<Scenario> = fc
  .array(fc.integer({ min: 1, max: 3 }), { minLength: 1, maxLength: 4 })
  .chain((sizes) => {
    const ref = fc
      .integer({ min: 0, max: sizes.length - 1 })
      .chain((c) =>
        fc
          .integer({ min: 0, max: sizes[c]! - 1 })
          .map((o) => ({ choice: `c${c}`, option: `o${o}` })),
      );
    const refs = fc.array(ref, { maxLength: 2 });
    const options = (c: number) =>
      fc.tuple(
        ...Array.from({ length: sizes[c]! }, (_, o) =>
          fc.tuple(refs, refs).map(([needs, rulesOut]) => {
            const elsewhere = <T extends { choice: string }>(all: T[]) =>
              all.filter((one) => one.choice !== `c${c}`);
            return option(`o${o}`, {
              // Needs are rare, or hardly any set would be compatible.
              needs: elsewhere(needs).slice(0, o === 2 ? 1 : 0),
              rulesOut: elsewhere(rulesOut),
            });
          }),
        ),
      );
    return fc
      .tuple(...sizes.map((_, c) => options(c).map((all) => choice(`c${c}`, ...all))))
      .map((choices) => bay({ choices }));
  });

/** Straight from the words of the contract, without the code under test. */
function goTogether(s: Scenario, set: OptionSet): boolean {
  const chosen = new Map(s.choices.map((one, c) => [one.name, one.options[set[c]!]!]));
  return [...chosen.values()].every(
    (one) =>
      one.needs.every((need) => chosen.get(need.choice)?.name === need.option) &&
      one.rulesOut.every((out) => chosen.get(out.choice)?.name !== out.option),
  );
}

function everySet(s: Scenario): OptionSet[] {
  return s.choices.reduce<number[][]>(
    (sets, one) => sets.flatMap((set) => one.options.map((_, o) => [...set, o])),
    [[]],
  );
}

describe('options that go together', () => {
  it('lists exactly the compatible sets, and narrowing loses none of them', () => {
    let compatible = 0;
    let excluded = 0;
    let narrowed = 0;
    let impossible = 0;
    fc.assert(
      fc.property(tangled, (s) => {
        const all = everySet(s);
        const right = all.filter((set) => goTogether(s, set));
        compatible += right.length;
        excluded += all.length - right.length;
        expect([...optionSets(s)]).toEqual(right);
        for (const set of all) expect(isCompatible(s, set)).toBe(goTogether(s, set));
        const open = narrow(s, allDomains(s));
        if (open === undefined) {
          impossible++;
          expect(right).toEqual([]);
          return;
        }
        if (open.some((options, c) => options.length < s.choices[c]!.options.length)) narrowed++;
        for (const set of right) set.forEach((o, c) => expect(open[c]).toContain(o));
        if (open.every((options) => options.length === 1)) {
          expect(right).toEqual([open.map((options) => options[0])]);
        }
      }),
      { numRuns: 400 },
    );
    for (const count of [compatible, excluded, narrowed, impossible]) {
      expect(count).toBeGreaterThan(10);
    }
  });

  const needy = bay({
    choices: [
      choice('valve', option('high'), option('low')),
      choice(
        'headers',
        option('outside'),
        option('inside', { needs: [{ choice: 'valve', option: 'low' }] }),
        option('hugger', { rulesOut: [{ choice: 'valve', option: 'low' }] }),
      ),
    ],
  });

  it('rules out both ways round', () => {
    expect(isCompatible(needy, [1, 2])).toBe(false);
    expect(narrow(needy, [[0, 1], [2]])).toEqual([[0], [2]]);
    expect(narrow(needy, [[1], [0, 1, 2]])).toEqual([[1], [0, 1]]);
    expect(narrow(needy, [[0], [1]])).toBeUndefined();
  });

  it('keeps to the options allowed', () => {
    expect([
      ...optionSets(needy, [
        [0, 1],
        [1, 2],
      ]),
    ]).toEqual([
      [0, 2],
      [1, 1],
    ]);
  });

  it('finds options by name, and fills up with the first that go with them', () => {
    expect(optionSetByName(needy, [])).toEqual({ set: [0, 0] });
    expect(optionSetByName(needy, [{ choice: 'headers', option: 'inside' }])).toEqual({
      set: [1, 1],
    });
    expect(domainsByName(needy, [{ choice: 'valve', option: 'low' }])).toEqual({
      domains: [[1], [0, 1, 2]],
      problems: [],
    });
  });

  it('says every mistake in the names, with the nearest name', () => {
    const { problems } = domainsByName(needy, [
      { choice: 'haeders', option: 'inside' },
      { choice: 'valve', option: 'lwo' },
      { choice: 'headers', option: 'inside' },
      { choice: 'headers', option: 'hugger' },
    ]);
    expect(problems.map(({ code, nearest }) => [code, nearest])).toEqual([
      ['unknown name', 'headers'],
      ['unknown name', 'low'],
      ['duplicate', undefined],
    ]);
    const apart = optionSetByName(needy, [
      { choice: 'valve', option: 'high' },
      { choice: 'headers', option: 'inside' },
    ]);
    expect(apart).toMatchObject({ problems: [{ code: 'excluded' }] });
  });
});

describe('the nearest name', () => {
  it('forgives a swap, a slip and letter case, but not another word', () => {
    const names = ['oil filter', 'oil pan', 'fan'];
    expect(nearestName('oil fitler', names)).toBe('oil filter');
    expect(nearestName('Oil Pen', names)).toBe('oil pan');
    expect(nearestName('fam', names)).toBe('fan');
    expect(nearestName('windscreen', names)).toBeUndefined();
    // A word of a name, where no name is near.
    expect(nearestName('Shroud', [...names, 'fan shroud', 'rear shroud'])).toBe('fan shroud');
    expect(nearestName('', names)).toBeUndefined();
    expect(nearestName('shrou', ['fan shroud'])).toBeUndefined();
    expect(nearestName('x', [])).toBeUndefined();
  });
});
