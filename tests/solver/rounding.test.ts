import { expect, test } from 'vitest';
import { markBeyond } from '../../src/solver/answering/aims.js';
import { printedPosition } from '../../src/solver/answering/rounding.js';
import { heldBay } from '../support/held.js';
import { solve } from '../support/solve.js';

const DEGREE = Math.PI / 180;
const LO = Float64Array.of(-50, -50, -50, -0.1);
const HI = Float64Array.of(50, 50, 50, 0.1);
const anywhere = (): boolean => true;

/** The position in what is printed: 1e-4 mm or 1e-5 in, and 1e-5 degree, a step each. */
function steps(x: Float64Array, units: 'in' | 'mm'): number[] {
  const perLength = units === 'in' ? 1e5 / 25.4 : 1e4;
  return Array.from(x, (value, k) => value * (k === 3 ? 1e5 / DEGREE : perLength));
}

function expectWhole(values: readonly number[]): void {
  for (const value of values) expect(Math.abs(value - Math.round(value))).toBeLessThan(1e-6);
}

test.each(['in', 'mm'] as const)('%s: the nearest printed position', (units) => {
  const x = Float64Array.of(12.345678, -3.1415926, 7.00005001, 0.0123456789);
  const printed = printedPosition(x, LO, HI, units, anywhere);
  const at = steps(printed, units);
  expectWhole(at);
  const exact = steps(x, units);
  at.forEach((value, k) => expect(Math.round(value)).toBe(Math.round(exact[k]!)));
});

test('where that is not allowed, the nearest that is: another rounding, not the place itself', () => {
  const x = Float64Array.of(12.34567, 0, 7.00007, 0);
  // Both round up; a limit just under the height keeps it from doing so.
  const printed = printedPosition(x, LO, HI, 'mm', (at) => at[2]! <= 7.00007);
  expect(printed[0]).toBeCloseTo(12.3457, 9);
  expect(printed[2]).toBeCloseTo(7, 9);
  expectWhole(steps(printed, 'mm'));
});

test('where no printed position is allowed, the place itself', () => {
  const x = Float64Array.of(12.34567, 0, 7.00007, 0);
  expect(printedPosition(x, LO, HI, 'mm', () => false)).toEqual(x);
});

test('pinned coordinates stay, and rounding stays in the ranges', () => {
  const x = Float64Array.of(1.23456, 0.00001, 2.34567, 0.01);
  const lo = Float64Array.of(1.23456, 0.00001, 2.34567, 0.01);
  const hi = Float64Array.of(1.23456, 5, 2.34569, 0.1);
  const printed = printedPosition(x, lo, hi, 'mm', anywhere);
  // Pinned; up, for down is out of the range; no step in the range at all.
  expect(Array.from(printed.slice(0, 3))).toEqual([1.23456, 0.0001, 2.34567]);
  expect(printed[3]).toBeGreaterThanOrEqual(0.01);
});

test('a place on limits that meet at a slant is printed where all of them hold', () => {
  // Low is best, so the place stands where a part's height and its pad's are both the least allowed.
  for (const [low, pad] of [
    [400, 590],
    [418, 564],
    [400, 594.3],
  ] as const) {
    const { optimum } = solve(heldBay(low, pad), { only: 'main' }).main;
    expect(optimum.limits.every(({ met }) => met)).toBe(true);
    const { setback, offset, height, pitch } = optimum.position;
    expectWhole(steps(Float64Array.of(setback, offset, height, pitch), 'mm'));
  }
});

test('an aim is set on the first mark on the side that gives room', () => {
  const range = { min: -40, max: 40 };
  expect(markBeyond('low', 7.2, 2, range)).toBe(8);
  expect(markBeyond('back', 7.2, 2, range)).toBe(6);
  expect(markBeyond('centre', 7.2, 2, range)).toBe(8);
  expect(markBeyond('centre', -7.2, 2, range)).toBe(-8);
  // On a mark it stays, whatever rounding says; beyond the range there is none.
  expect(markBeyond('low', 8 + 1e-12, 2, range)).toBe(8);
  expect(markBeyond('back', 8 - 1e-12, 2, range)).toBe(8);
  expect(markBeyond('low', 39.5, 2, { min: -39.5, max: 39.5 })).toBe(39.5);
});
