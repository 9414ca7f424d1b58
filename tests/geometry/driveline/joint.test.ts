import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  angleBetween,
  jointAngle,
  rippleOfOne,
  rippleOfTwo,
} from '../../../src/geometry/driveline/joint.js';
import type { Vec3 } from '../../../src/model/scenario.js';

const DEGREE = Math.PI / 180;

/** Rearward, down by so many degrees in side view and to the right in plan. */
function pointing(down: number, right: number): Vec3 {
  return [1, Math.tan(right * DEGREE), -Math.tan(down * DEGREE)];
}

describe('angles', () => {
  // Spicer driveline installation manual p. 10 fig. 6: 2.15 and 2.50 degrees are 3.3 together.
  test('a compound angle is that of the slopes in space', () => {
    const { side, plan, true: both } = jointAngle([1, 0, 0], pointing(2.15, 2.5));
    expect(side / DEGREE).toBeCloseTo(2.15, 12);
    expect(plan / DEGREE).toBeCloseTo(2.5, 12);
    expect(both / DEGREE).toBeCloseTo(3.2956, 4);
  });

  // Magazine articles on pinion angle: 1 1/2 in skew is almost 2 degrees in plan, on a usual shaft.
  test('an offset counts in plan', () => {
    const { plan } = jointAngle([1, 0, 0], [45, 1.5, 0]);
    expect(plan / DEGREE).toBeGreaterThan(1.8);
    expect(plan / DEGREE).toBeLessThan(2);
  });

  test('a hair of an angle keeps its digits', () => {
    expect(angleBetween([1, 0, 0], [1, 0, 1e-9])).toBeCloseTo(1e-9, 20);
  });
});

describe('ripple of one joint', () => {
  // Textbook exercises, re-derived: 500 rpm at 20 degrees falls to 469.85; a swing of 100 rpm at 1200 rpm
  // is 16.42 degrees.
  test('is that of the textbooks', () => {
    expect(500 * rippleOfOne(20 * DEGREE).least).toBeCloseTo(469.85, 2);
    const { least, greatest } = rippleOfOne(16.42 * DEGREE);
    expect(1200 * (greatest - least)).toBeCloseTo(100, 0);
  });
});

/** How far the last shaft turns while the first turns a little, by the pins of the crosses themselves. */
function ratioAt(shafts: readonly Vec3[], turn: number): number {
  const d = 1e-5;
  const end = (by: number): { pins: Vec3; axis: Vec3 } => {
    const axes = shafts.map(unit);
    let axis = axes[0]!;
    const across = unit(cross(axis, [0.3, 0.5, 0.8]));
    const other = cross(axis, across);
    let pin = plus(scaled(across, Math.cos(by)), scaled(other, Math.sin(by)));
    for (const next of axes.slice(1)) {
      // The cross has its second pin square to the first and to the shaft that it belongs to; the inner
      // yokes of a shaft are in line, so that is the pin of the joint behind as well.
      pin = unit(cross(next, pin));
      axis = next;
    }
    return { pins: pin, axis };
  };
  const [a, b] = [end(turn - d), end(turn + d)];
  const by = Math.atan2(dot(cross(a.pins, b.pins), b.axis), dot(a.pins, b.pins));
  return by / (2 * d);
}

const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const scaled = (a: Vec3, by: number): Vec3 => [a[0] * by, a[1] * by, a[2] * by];
const plus = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const unit = (a: Vec3): Vec3 => scaled(a, 1 / Math.sqrt(dot(a, a)));

describe('ripple of two joints', () => {
  const slope = fc.double({ min: -20, max: 20, noNaN: true });
  const shaft = fc.tuple(slope, slope).map(([down, right]) => pointing(down, right));

  test('is what the pins of the crosses do over a turn', () => {
    fc.assert(
      fc.property(shaft, shaft, shaft, (before, middle, after) => {
        const ratios = Array.from({ length: 720 }, (_, i) =>
          ratioAt([before, middle, after], (i * Math.PI) / 720),
        );
        const { least, greatest } = rippleOfTwo(before, middle, after);
        expect(Math.min(...ratios)).toBeGreaterThan(least - 1e-7);
        expect(Math.min(...ratios)).toBeLessThan(least + 2e-5);
        expect(Math.max(...ratios)).toBeLessThan(greatest + 1e-7);
        expect(Math.max(...ratios)).toBeGreaterThan(greatest - 2e-5);
      }),
      { numRuns: 200 },
    );
  });

  test('is none where the ends are parallel, whatever the shaft between them does', () => {
    fc.assert(
      fc.property(shaft, shaft, (ends, middle) => {
        const { least, greatest } = rippleOfTwo(ends, middle, ends);
        expect(least).toBeCloseTo(1, 7);
        expect(greatest).toBeCloseTo(1, 7);
      }),
    );
  });

  test('is that of one joint where the other is straight', () => {
    const one = rippleOfOne(angleBetween([1, 0, 0], pointing(7, 3)));
    const { least, greatest } = rippleOfTwo([1, 0, 0], [1, 0, 0], pointing(7, 3));
    expect(least).toBeCloseTo(one.least, 12);
    expect(greatest).toBeCloseTo(one.greatest, 12);
  });
});
