/** What the campaigns rest on: seeds that have nothing to do with each other, and counts that say enough. */

import { describe, expect, it } from 'vitest';
import { PLANTED } from '../../campaign/planted.js';
import { caseSeed } from '../../campaign/seeds.js';
import { atLeast } from '../../campaign/subject.js';
import { seeded } from '../geometry/random.js';

describe('the seed of a case', () => {
  it('is its own: no two of 20,000 neighbours share one, nor a half of their bits', () => {
    const seeds = Array.from({ length: 20_000 }, (_, number) => caseSeed('mutated', 1, number));
    expect(new Set(seeds).size).toBe(seeds.length);
    const bits = (value: number): number => value.toString(2).replaceAll('0', '').length;
    const changed = seeds.slice(1).map((seed, i) => bits((seed ^ seeds[i]!) >>> 0));
    const mean = changed.reduce((sum, count) => sum + count, 0) / changed.length;
    expect(Math.abs(mean - 16)).toBeLessThan(0.1);
  });

  it('depends on the campaign and its seed', () => {
    const all = ['planted', 'random'].flatMap((name) =>
      [1, 2].map((seed) => caseSeed(name, seed, 7)),
    );
    expect(new Set(all).size).toBe(4);
  });

  it('stays what it was, or a case could not be tried again', () => {
    expect(caseSeed('planted', 1, 1)).toMatchInlineSnapshot(`1893091070`);
  });
});

describe('counts', () => {
  it('are too few by more than chance, or enough', () => {
    expect(atLeast({ read: 30 }, 100, { read: 30 })).toEqual([]);
    expect(atLeast({ read: 20 }, 100, { read: 30 })).toEqual([]);
    expect(atLeast({ read: 10 }, 100, { read: 30 })).toHaveLength(1);
    expect(atLeast({}, 10_000, { read: 1 })).toHaveLength(1);
  });
});

describe('a case that once went wrong', () => {
  it('planted, seed 2, case 9: took over two minutes before one row could cut the ends off a box', async () => {
    const seed = caseSeed('planted', 2, 9);
    const trial = await PLANTED.open();
    const { faults, counts } = await trial({ number: 9, seed, random: seeded(seed) });
    expect(faults).toEqual([]);
    expect(counts['boxes']).toBeLessThan(200);
  });
});
