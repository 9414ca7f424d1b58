/** The least and the greatest of lists, long ones too. */

import { expect, test } from 'vitest';
import { maxOf, minOf } from '../../src/model/extremes.js';

test('are those of the list, whatever its length', () => {
  expect([minOf([]), maxOf([])]).toEqual([Infinity, -Infinity]);
  expect([minOf([3, -2, 7]), maxOf([3, -2, 7])]).toEqual([-2, 7]);
  expect([minOf([NaN, 1]), maxOf([1, NaN])]).toEqual([NaN, NaN]);
  const long = Array.from({ length: 300_000 }, (_, i) => (i * 7919) % 300_007);
  // Spread into Math.min it overflows the stack.
  expect(() => Math.min(...long)).toThrow(RangeError);
  expect([minOf(long), maxOf(long)]).toEqual([0, 300_006]);
  expect(minOf(new Set([4, 2]))).toBe(2);
});
