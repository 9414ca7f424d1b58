/** Outward arithmetic against exact fractions, and angles against many digits. */

import { create, all } from 'mathjs';
import { describe, expect, it } from 'vitest';
import {
  add,
  angleOf,
  div,
  exactly,
  mul,
  root,
  square,
  sub,
  times,
  turnOf,
  turnOver,
} from '../../src/verify/outward.js';
import type { Interval } from '../../src/verify/outward.js';
import { seeded } from '../geometry/random.js';

const digits = create(all!, { number: 'BigNumber', precision: 60 });

/** Every double is a whole number of these in one: 2^1074. */
const UNIT = 1n << 1074n;

/** A double as so many of the least there are, exactly. */
function whole(x: number): bigint {
  if (!Number.isFinite(x)) throw new RangeError('not finite');
  const bits = new DataView(new ArrayBuffer(8));
  bits.setFloat64(0, x);
  const all64 = bits.getBigUint64(0);
  const exponent = (all64 >> 52n) & 0x7ffn;
  const fraction = all64 & 0xfffffffffffffn;
  const size = exponent === 0n ? fraction : (fraction | (1n << 52n)) << (exponent - 1n);
  return x < 0 ? -size : size;
}

/** A double that may be of any size. */
function anyNumber(random: () => number): number {
  const sign = random() < 0.5 ? -1 : 1;
  return sign * (random() + 0.5) * 2 ** Math.floor(60 * random() - 30);
}

describe('outward arithmetic', () => {
  it('holds the exact sum, difference, product and quotient of two doubles, and little more', () => {
    const random = seeded(5);
    for (let n = 0; n < 400; n++) {
      const [a, b] = [anyNumber(random), anyNumber(random)];
      const [x, y] = [whole(a), whole(b)];
      // Each as the interval, the exact answer and what both are counted in.
      const tries: [Interval, bigint, bigint][] = [
        [add(exactly(a), exactly(b)), x + y, 1n],
        [sub(exactly(a), exactly(b)), x - y, 1n],
        [mul(exactly(a), exactly(b)), x * y, UNIT],
        [times(exactly(a), b), x * y, UNIT],
        [square(exactly(a)), x * x, UNIT],
      ];
      for (const [{ lo, hi }, truth, unit] of tries) {
        expect(whole(lo) * unit <= truth && truth <= whole(hi) * unit).toBe(true);
        expect(hi - lo).toBeLessThanOrEqual(4 * 2 ** -52 * Math.abs(hi) + 1e-300);
      }
      const { lo, hi } = div(exactly(a), exactly(b));
      const [most, least] = y > 0n ? [hi, lo] : [lo, hi];
      expect(whole(least) * y <= x * UNIT && x * UNIT <= whole(most) * y).toBe(true);
    }
  });

  it('holds products of intervals whichever way their signs lie, and roots', () => {
    const random = seeded(9);
    for (let n = 0; n < 400; n++) {
      const ends = [anyNumber(random), anyNumber(random)].sort((p, q) => p - q);
      const others = [anyNumber(random), anyNumber(random)].sort((p, q) => p - q);
      const a = { lo: ends[0]!, hi: ends[1]! };
      const b = { lo: others[0]!, hi: others[1]! };
      const [x, y] = [a.lo + random() * (a.hi - a.lo), b.lo + random() * (b.hi - b.lo)];
      for (const [found, value] of [
        [mul(a, b), x * y],
        [add(a, b), x + y],
        [sub(a, b), x - y],
        [square(a), x * x],
        [div(a, b), x / y],
      ] as const) {
        const slack = 1e-14 * Math.abs(value);
        expect(found.lo - slack <= value && value <= found.hi + slack).toBe(true);
      }
      const { lo, hi } = root(exactly(Math.abs(x)));
      expect(lo * lo <= Math.abs(x) && Math.abs(x) <= hi * hi).toBe(true);
    }
    expect(div(exactly(1), { lo: -1, hi: 2 })).toEqual({ lo: -Infinity, hi: Infinity });
  });

  it('holds cosines, sines and angles to sixty digits, and to a few last places', () => {
    const random = seeded(2);
    for (let n = 0; n < 200; n++) {
      const angle = (n % 2 === 0 ? 6.2 : 0.2) * (random() - 0.5);
      const { cos, sin } = turnOf(angle);
      const big = digits.bignumber(angle);
      for (const [{ lo, hi }, truth] of [
        [cos, digits.cos(big)],
        [sin, digits.sin(big)],
      ] as const) {
        expect(digits.smallerEq(digits.bignumber(lo), truth as never)).toBe(true);
        expect(digits.largerEq(digits.bignumber(hi), truth as never)).toBe(true);
        expect(hi - lo).toBeLessThan(1e-13);
      }
      const wide = turnOver({ lo: angle - 0.01, hi: angle + 0.01 });
      expect(wide.cos.lo <= cos.lo && cos.hi <= wide.cos.hi).toBe(true);
      const [x, y] = [random() - 0.3, random() - 0.5];
      const found = angleOf(exactly(x), exactly(y));
      const truth = digits.evaluate(`atan2(bignumber(${y}), bignumber(${x}))`) as unknown;
      expect(digits.smallerEq(digits.bignumber(found.lo), truth as never)).toBe(true);
      expect(digits.largerEq(digits.bignumber(found.hi), truth as never)).toBe(true);
      expect(found.hi - found.lo).toBeLessThan(1e-12);
    }
    expect(() => turnOf(8)).toThrow(RangeError);
  });
});
