import { describe, expect, it } from 'vitest';
import { choicesRuling, pairRules, ROOM_TO_COME_OUT } from '../../src/model/precedence.js';
import type { Part, Rule, Scenario } from '../../src/model/scenario.js';
import { bay, choice, option, part, rule } from './sample-bay.js';

const fan = part('fan', 'engine', { kind: 'mechanical fan' });
const starter = part('starter', 'engine', { kind: 'starter' });
const core = part('core', 'chassis', { kind: 'radiator' });
const rail = part('rail', 'chassis', { kind: 'frame rail' });
const parts = [fan, starter, core, rail];
const groups = [
  { name: 'turning', parts: ['fan'] },
  { name: 'cooling', parts: ['core', 'fan'] },
];

function ruled(rules: Rule[], over: Partial<Scenario> = {}): Scenario {
  return bay({ parts, groups, rules, ...over });
}

/** The gap needed by measure, and ties counted. */
function needs(s: Scenario, a: Part, b: Part, set: number[] = s.choices.map(() => 0)) {
  const { rules, ties } = pairRules(s, a, b, set);
  return {
    ...Object.fromEntries(
      rules.map((one) => [one.comingOut ? `out ${one.withdrawn}` : one.measured, one.needed]),
    ),
    ...(ties.length > 0 ? { ties: ties.length } : {}),
  };
}

describe('which rule a pair has', () => {
  // From the least specific to the most: each beats all before it.
  const ladder = [
    rule('side:engine', 'side:chassis', 1),
    rule('kind:mechanical fan', 'side:chassis', 2),
    rule('kind:radiator', 'kind:mechanical fan', 3),
    rule('group:turning', 'side:chassis', 4),
    rule('kind:radiator', 'group:turning', 5),
    rule('group:turning', 'group:cooling', 6),
    rule('side:chassis', 'part:fan', 7),
    rule('part:fan', 'kind:radiator', 8),
    rule('group:turning', 'part:core', 9),
    rule('part:core', 'part:fan', 10),
  ];

  it.each(ladder.map((_, i) => i))('takes the more specific ends, rung %i', (i) => {
    const below = ladder.slice(0, i + 1);
    expect(needs(ruled(below), fan, core)).toEqual({ nearest: i + 1 });
    expect(needs(ruled([...below].reverse()), core, fan)).toEqual({ nearest: i + 1 });
  });

  it('compares the better end first: part and side beat group and group', () => {
    expect(
      needs(
        ruled([rule('group:turning', 'group:cooling', 1), rule('part:fan', 'side:chassis', 2)]),
        fan,
        core,
      ),
    ).toEqual({ nearest: 2 });
  });

  it('at equal ends takes option before file before rule book', () => {
    const ends = ['kind:mechanical fan', 'kind:radiator'] as const;
    const book = rule(...ends, 1, { origin: { from: 'rule book', source: 'test' } });
    const file = rule(...ends, 2);
    const brought = rule(...ends, 3, { origin: { from: 'option', choice: 'c', option: 'o' } });
    const choices = [choice('c', option('plain'), option('o', { rules: [brought] }))];
    const s = ruled([book, file], { choices });
    expect(needs(ruled([book]), fan, core)).toEqual({ nearest: 1 });
    expect(needs(s, fan, core, [0])).toEqual({ nearest: 2 });
    expect(needs(s, fan, core, [1])).toEqual({ nearest: 3 });
    expect(choicesRuling(s, core, fan)).toEqual([0]);
    expect(choicesRuling(s, fan, rail)).toEqual([]);
  });

  it('lets a specific rule of the book stand against a general one of the file', () => {
    const book = rule('kind:mechanical fan', 'kind:radiator', 1, {
      origin: { from: 'rule book', source: 'test' },
    });
    expect(needs(ruled([book, rule('side:engine', 'side:chassis', 2)]), fan, core)).toEqual({
      nearest: 1,
    });
  });

  it('keeps one rule for each measure', () => {
    const s = ruled([
      rule('side:engine', 'side:chassis', 1),
      rule('part:fan', 'part:core', 2, { measured: 'fore-aft' }),
      rule('kind:mechanical fan', 'kind:radiator', 3, { measured: 'fore-aft' }),
    ]);
    expect(needs(s, fan, core)).toEqual({ nearest: 1, 'fore-aft': 2 });
  });

  it('says which way round a rule stands', () => {
    const s = ruled([rule('part:fan', 'part:core', 1)]);
    expect(pairRules(s, fan, core, [])).toMatchObject({ rules: [{ swapped: false }] });
    expect(pairRules(s, core, fan, [])).toMatchObject({ rules: [{ swapped: true }] });
  });

  it('reports ties once, and never a rule with itself', () => {
    const one = rule('part:fan', 'group:cooling', 1);
    const other = rule('part:core', 'group:turning', 2);
    expect(pairRules(ruled([one, other]), fan, core, []).ties).toEqual([[one, other]]);
    const both = [
      { name: 'g', parts: ['fan', 'core'] },
      { name: 'h', parts: ['fan', 'core'] },
    ];
    const round = ruled([rule('group:g', 'group:h', 4)], { groups: both });
    expect(needs(round, fan, core)).toEqual({ nearest: 4 });
    expect(needs(round, core, fan)).toEqual({ nearest: 4 });
    expect(pairRules(round, core, fan, [])).toMatchObject({ rules: [{ swapped: false }] });
  });

  it('finds no tie that a more specific rule settles', () => {
    const s = ruled([
      rule('kind:mechanical fan', 'side:chassis', 1),
      rule('kind:radiator', 'side:engine', 2),
    ]);
    expect(needs(s, fan, core)).toMatchObject({ ties: 1 });
    const settled = ruled([...s.rules, rule('part:fan', 'side:chassis', 3)]);
    expect(needs(settled, fan, core)).toEqual({ nearest: 3 });
  });

  it('knows parts by object: a replaced part may be of another kind', () => {
    const electric = part('fan', 'engine', { kind: 'electric fan' });
    const s = ruled([
      rule('side:engine', 'side:chassis', 1),
      rule('kind:mechanical fan', 'side:chassis', 2),
    ]);
    expect(needs(s, fan, core)).toEqual({ nearest: 2 });
    expect(needs(s, electric, core)).toEqual({ nearest: 1 });
  });
});

describe('parts of one side', () => {
  it('are joined by named parts and groups only', () => {
    const s = ruled([
      rule('side:engine', 'side:chassis', 1),
      rule('side:engine', 'side:engine', 2),
      rule('kind:mechanical fan', 'kind:starter', 3),
      rule('part:fan', 'kind:starter', 4),
    ]);
    expect(needs(s, fan, starter)).toEqual({});
    expect(needs(ruled([rule('part:starter', 'group:turning', 5)]), fan, starter)).toEqual({
      nearest: 5,
    });
  });

  it('has no rule between a part and itself', () => {
    expect(needs(ruled([rule('group:turning', 'part:fan', 1)]), fan, fan)).toEqual({});
  });
});

describe('ignore', () => {
  const room = { x: { min: 0, max: 0 }, y: { min: 0, max: 0 }, z: { min: -1, max: 0 } };
  const out = part('fan', 'engine', { kind: 'mechanical fan', comesOut: room });
  const general = [
    rule('side:engine', 'side:chassis', 1),
    rule('side:engine', 'side:chassis', 2, { measured: 'up-down' }),
  ];

  it('exempts from every measure and from coming out unless it names one', () => {
    expect(needs(ruled(general), out, core)).toEqual({ nearest: 1, 'up-down': 2, 'out a': 0 });
    const exempt = ruled([...general, rule('part:fan', 'part:core', 'ignore')]);
    expect(needs(exempt, out, core)).toEqual({});
    expect(needs(exempt, out, rail)).toEqual({ nearest: 1, 'up-down': 2, 'out a': 0 });
    const one = rule('part:fan', 'part:core', 'ignore', { measured: 'nearest' });
    expect(needs(ruled([...general, one]), out, core)).toEqual({ 'up-down': 2, 'out a': 0 });
  });

  it('exempts from coming out alone when it speaks of it', () => {
    const room = rule('part:fan', 'part:core', 'ignore', { comingOut: true });
    expect(needs(ruled([...general, room]), out, core)).toEqual({ nearest: 1, 'up-down': 2 });
  });

  it('is beaten by a more specific rule, and beats a less specific one', () => {
    const s = ruled([
      rule('kind:mechanical fan', 'kind:radiator', 'ignore'),
      rule('part:fan', 'part:core', 3),
      ...general,
    ]);
    expect(needs(s, out, core)).toEqual({ nearest: 3 });
  });

  it('ties with a gap of equal standing', () => {
    const s = ruled([rule('part:fan', 'part:core', 'ignore'), rule('part:core', 'part:fan', 3)]);
    expect(needs(s, fan, core)).toMatchObject({ ties: 1 });
  });
});

describe('room to come out', () => {
  const comesOut = { x: { min: 0, max: 0 }, y: { min: 0, max: 0 }, z: { min: -1, max: 0 } };
  const filter = part('filter', 'engine', { kind: 'oil filter', comesOut });
  const beam = part('beam', 'chassis', { comesOut });

  it('needs 0 against the other side when no rule speaks of it', () => {
    const s = ruled([]);
    expect(pairRules(s, filter, rail, []).rules).toEqual([
      {
        rule: ROOM_TO_COME_OUT,
        needed: 0,
        measured: 'nearest',
        comingOut: true,
        swapped: false,
        withdrawn: 'a',
      },
    ]);
    expect(pairRules(s, rail, filter, []).rules).toMatchObject([{ withdrawn: 'b', swapped: true }]);
    expect(needs(s, filter, starter)).toEqual({});
    expect(needs(s, fan, rail)).toEqual({});
  });

  it('has an entry for each part that comes out', () => {
    expect(needs(ruled([]), filter, beam)).toEqual({ 'out a': 0, 'out b': 0 });
  });

  it('takes the most specific rule that speaks of it, and no rule of parts in place', () => {
    const s = ruled([
      rule('side:engine', 'side:chassis', 9),
      rule('kind:oil filter', 'side:chassis', 1, { comingOut: true }),
      rule('part:filter', 'part:rail', 2, { comingOut: true }),
    ]);
    expect(needs(s, filter, core)).toEqual({ nearest: 9, 'out a': 1 });
    expect(needs(s, filter, rail)).toEqual({ nearest: 9, 'out a': 2 });
    expect(needs(s, fan, rail)).toEqual({ nearest: 9 });
  });

  it('counts on one side where a rule names the two parts', () => {
    const s = ruled([rule('part:filter', 'part:starter', 3, { comingOut: true })]);
    expect(needs(s, starter, filter)).toEqual({ 'out b': 3 });
  });
});
