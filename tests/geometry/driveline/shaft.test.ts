import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { criticalSpeed } from '../../../src/geometry/driveline/shaft.js';
import { largestAngle } from '../../../src/model/rulebook/joints.js';

const DEGREE = Math.PI / 180;

describe('largest angle', () => {
  // Spicer J3311-1, from memory.
  test.each([
    [5000, 3, 15],
    [4500, 3, 40],
    [4000, 4, 15],
    [3500, 5, 0],
    [3000, 5, 50],
    [2500, 7, 0],
    [2000, 8, 40],
    [1500, 11, 30],
  ])('at %i rpm it is %i deg %i min', (rpm, degrees, minutes) => {
    expect(largestAngle(rpm) / DEGREE).toBeCloseTo(degrees + minutes / 60, 12);
  });

  test('between and beyond the rows, speed times angle stays among those of the table', () => {
    fc.assert(
      fc.property(fc.double({ min: 1500, max: 12000, noNaN: true }), (rpm) => {
        // The same table as (speed x angle)^2, derived: 883 to 1026 rad/s^2 squared.
        const product = ((rpm * 2 * Math.PI) / 60) * largestAngle(rpm);
        expect(product ** 2).toBeGreaterThan(800);
        expect(product ** 2).toBeLessThan(1030);
        expect(largestAngle(rpm * 1.001)).toBeLessThan(largestAngle(rpm));
      }),
    );
    expect(largestAngle(200)).toBe(largestAngle(1500));
  });
});

describe('critical speed', () => {
  test('is within two hundredths of that of a pinned steel beam', () => {
    // Derived: (pi / L)^2 sqrt(E I / (density A)), E 30e6 psi, 0.283 lb/in^3, inches and seconds.
    const [od, wall, length] = [3, 0.083, 50];
    const id = od - 2 * wall;
    const area = (Math.PI / 4) * (od ** 2 - id ** 2);
    const inertia = (Math.PI / 64) * (od ** 4 - id ** 4);
    const density = 0.283 / 386.09;
    const beam =
      (Math.PI / length) ** 2 *
      Math.sqrt((30e6 * inertia) / (density * area)) *
      (60 / (2 * Math.PI));
    const told = criticalSpeed({ diameter: od * 25.4, wall: wall * 25.4 }, length * 25.4);
    expect(told / beam).toBeGreaterThan(0.98);
    expect(told / beam).toBeLessThan(1);
  });

  test('falls with the square of the length', () => {
    const tube = { diameter: 76.2, wall: 2.1 };
    expect(criticalSpeed(tube, 600) / criticalSpeed(tube, 1200)).toBeCloseTo(4, 12);
  });
});
