/** Against the series summed in whole numbers of 2^-256, which share nothing with the module but mathematics. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  acos,
  asin,
  atan2,
  cos,
  hypot,
  powerOfTen,
  sin,
  tan,
  tenTo,
} from '../../src/model/trig.js';
import { cases } from '../support/times.js';

const BITS = 256n;
const ONE = 1n << BITS;
const PI = 4n * atanFixed(ONE);

/** A double as a whole number of 2^-256, exactly where it is above 2^-200. */
function fixed(x: number): bigint {
  const bits = new BigUint64Array(new Float64Array([x]).buffer)[0]!;
  const exponent = Number((bits >> 52n) & 0x7ffn);
  const mantissa = (bits & ((1n << 52n) - 1n)) | (exponent > 0 ? 1n << 52n : 0n);
  const shift = BigInt(Math.max(1, exponent) - 1075) + BITS;
  const size = shift >= 0n ? mantissa << shift : mantissa >> -shift;
  return x < 0 ? -size : size;
}

function times(a: bigint, b: bigint): bigint {
  return (a * b) >> BITS;
}

function rootFixed(value: bigint): bigint {
  const square = value << BITS;
  if (square === 0n) return 0n;
  let root = 1n << (BigInt(square.toString(2).length) / 2n + 1n);
  for (;;) {
    const next = (root + square / root) >> 1n;
    if (next >= root) return root;
    root = next;
  }
}

/** Halved eight times, and then its series. */
function atanFixed(x: bigint): bigint {
  for (let n = 0; n < 8; n++) x = (x << BITS) / (ONE + rootFixed(ONE + times(x, x)));
  let sum = 0n;
  const square = times(x, x);
  for (let [term, k] = [x, 1n]; term / k !== 0n && term !== -1n; k += 2n) {
    sum += term / k;
    term = -times(term, square);
  }
  return sum << 8n;
}

/** Cosine and sine: the series of a 1/256 part of the angle, doubled eight times. */
function turnFixed(angle: bigint): readonly [bigint, bigint] {
  const turns = angle / (2n * PI);
  const part = (angle - turns * 2n * PI) >> 8n;
  let [c, s] = [0n, 0n];
  for (let [term, k] = [ONE, 0n]; term !== 0n && term !== -1n;) {
    const sign = k % 4n < 2n ? 1n : -1n;
    if (k % 2n === 0n) c += sign * term;
    else s += sign * term;
    k += 1n;
    term = times(term, part) / k;
  }
  for (let n = 0; n < 8; n++) [c, s] = [times(c, c) - times(s, s), 2n * times(c, s)];
  return [c, s];
}

/** How far a double is from what it should be, in units of its own last place. */
function ulps(is: number, should: bigint): number {
  const size = Math.abs(is);
  const bits = new BigUint64Array(new Float64Array([size]).buffer);
  const ulp = fixed(new Float64Array(BigUint64Array.of(bits[0]! + 1n).buffer)[0]! - size);
  const off = fixed(is) - should;
  return Number(((off < 0n ? -off : off) * 1000n) / ulp) / 1000;
}

const RUNS = { numRuns: cases(1500), seed: 61 } as const;
const angles = fc
  .oneof(
    fc.double({ min: -0.2, max: 0.2, noNaN: true }),
    fc.double({ min: -7, max: 7, noNaN: true }),
    fc.double({ min: -1e6, max: 1e6, noNaN: true }),
    // Where digits cancel: a quarter turn or several, as near as a double comes.
    fc.integer({ min: -640_000, max: 640_000 }).map((k) => (k * Math.PI) / 2),
    fc
      .tuple(fc.integer({ min: -9, max: 9 }), fc.double({ min: -1e-7, max: 1e-7, noNaN: true }))
      .map(([k, by]) => (k * Math.PI) / 4 + by),
  )
  .filter((x) => Math.abs(x) > 1e-40);
const within = (least: number, most: number) =>
  fc.double({ min: least, max: most, noNaN: true }).filter((x) => x === 0 || Math.abs(x) > 1e-40);

describe('our own sines', () => {
  it('are right to a unit in the last place, and tangents to three', () => {
    fc.assert(
      fc.property(angles, (x) => {
        const [c, s] = turnFixed(fixed(x));
        expect(ulps(sin(x), s)).toBeLessThan(1);
        expect(ulps(cos(x), c)).toBeLessThan(1);
        expect(ulps(tan(x), (s << BITS) / c)).toBeLessThan(3);
        expect([sin(-x), cos(-x)]).toEqual([-sin(x), cos(x)]);
      }),
      RUNS,
    );
  });

  it('know the ends', () => {
    expect([sin(0), cos(0), tan(0)]).toEqual([0, 1, 0]);
    expect([sin(Math.PI / 6), cos(Math.PI / 3)].map((x) => x.toFixed(15))).toEqual([
      '0.500000000000000',
      '0.500000000000000',
    ]);
    expect([sin(Math.PI / 2), cos(Math.PI)]).toEqual([1, -1]);
    expect([sin(NaN), cos(Infinity), tan(-Infinity)]).toEqual([NaN, NaN, NaN]);
  });
});

describe('our own arcs', () => {
  const numbers = within(-1e4, 1e4);
  it('are right to two units in the last place all round', () => {
    fc.assert(
      fc.property(fc.oneof(numbers, within(-1, 1)), fc.oneof(numbers, within(-1, 1)), (y, x) => {
        fc.pre(y !== 0 && x !== 0);
        const [a, b] = [fixed(Math.abs(y)), fixed(Math.abs(x))];
        const first = a < b ? atanFixed((a << BITS) / b) : PI / 2n - atanFixed((b << BITS) / a);
        const should = x > 0 ? first : PI - first;
        fc.pre(should > ONE >> 140n);
        expect(ulps(atan2(y, x), y < 0 ? -should : should)).toBeLessThan(2);
      }),
      RUNS,
    );
  });

  it('are right to three for arcsines and arccosines', () => {
    fc.assert(
      fc.property(within(-1, 1), (x) => {
        fc.pre(x !== 0 && Math.abs(x) < 1);
        const [size, root] = [fixed(x), rootFixed(ONE - times(fixed(x), fixed(x)))];
        const should = atanFixed((size << BITS) / root);
        expect(ulps(asin(x), should)).toBeLessThan(3);
        expect(ulps(acos(x), PI / 2n - should)).toBeLessThan(3);
      }),
      { ...RUNS, numRuns: cases(500) },
    );
  });

  it('know the ends', () => {
    const signs = [1, 0, -0, -1].flatMap((y) => [1, 0, -0, -1].map((x) => [y, x] as const));
    for (const [y, x] of signs) expect(atan2(y, x)).toBe(Math.atan2(y, x));
    expect([asin(1), asin(-1), asin(0)]).toEqual([Math.PI / 2, -Math.PI / 2, 0]);
    expect([acos(1), acos(-1), acos(0)]).toEqual([0, Math.PI, Math.PI / 2]);
    expect([asin(1.1), acos(-1.1), atan2(NaN, 1), atan2(1, NaN)]).toEqual([NaN, NaN, NaN, NaN]);
  });
});

describe('our own lengths and powers', () => {
  it('are right to two units in the last place', () => {
    const numbers = within(-1e4, 1e4);
    fc.assert(
      fc.property(numbers, numbers, numbers, (x, y, z) => {
        const [a, b, c] = [x, y, z].map(fixed);
        const should = rootFixed(times(a!, a!) + times(b!, b!) + times(c!, c!));
        fc.pre(should > ONE >> 40n);
        expect(ulps(hypot(x, y, z), should)).toBeLessThan(2);
      }),
      { ...RUNS, numRuns: cases(500) },
    );
    expect(hypot(3e200, -4e200)).toBeCloseTo(5e200, -186);
    expect(hypot(3e-200, 0, -4e-200) / 5e-200).toBeCloseTo(1, 12);
    expect([hypot(0, 0), hypot(-0, 0, -0), hypot(-Infinity, 1), hypot(NaN, 1)]).toEqual([
      0,
      0,
      Infinity,
      NaN,
    ]);
  });

  it('are powers of ten as written', () => {
    expect([-5, -1, 0, 3, 22].map(tenTo)).toEqual([1e-5, 0.1, 1, 1000, 1e22]);
    expect([1, 9.999999999999998, 10, 0.1, 0.09999999999999999, 1e-7].map(powerOfTen)).toEqual([
      0, 0, 1, -1, -2, -7,
    ]);
  });
});
