/** A reading as it is typed on the page. */

import { describe, expect, it } from 'vitest';
import type { ToTape } from '../../src/solver/fitup/to-tape.js';
import { typedReading } from '../../src/page/typed-reading.js';
import { bay } from '../model/sample-bay.js';

const INCH = 25.4;
const DEGREE = Math.PI / 180;
const s = bay({
  units: 'in',
  rake: 2 * DEGREE,
  datums: {
    chassis: [
      { name: 'core face', x: -250 },
      { name: 'centre', y: 0 },
    ],
    engine: [],
  },
});
const ahead: ToTape = {
  wanted: { of: 'point', name: 'pulley, fore-aft', point: [0, 0, 0], axis: 'x' },
  expected: -300,
};
const behind: ToTape = { ...ahead, expected: 100 };
const pitch: ToTape = { wanted: { of: 'angle', name: 'pitch', angle: 'pitch' }, expected: 0 };
const roll: ToTape = { wanted: { of: 'angle', name: 'roll', angle: 'roll' }, expected: 0 };
const gap: ToTape = {
  wanted: { of: 'gap', name: 'a - b', between: ['a', 'b'], measured: 'nearest' },
  expected: 40,
};

const value = (one: ToTape, text: string): number => {
  const typed = typedReading(one, text, s);
  if ('problem' in typed) throw new Error(typed.problem);
  return typed.reading.value;
};

describe('a typed reading', () => {
  it('is a length, from the datum and on the side of it where the point should be', () => {
    expect(value(gap, '1 9/16')).toBeCloseTo(1.5625 * INCH, 9);
    expect(value(ahead, '2')).toBeCloseTo(-250 - 2 * INCH, 9);
    expect(value(behind, '14')).toBeCloseTo(-250 + 14 * INCH, 9);
    expect(value(ahead, '1 behind core face')).toBeCloseTo(-250 + INCH, 9);
    expect(value(gap, '40 mm')).toBeCloseTo(40, 9);
  });

  it('is an angle in degrees, a pitch as a level floor shows it', () => {
    expect(value(pitch, '1.5')).toBeCloseTo(3.5 * DEGREE, 12);
    expect(value(roll, '-0.4')).toBeCloseTo(-0.4 * DEGREE, 12);
  });

  it('has the error that is said, or the usual one', () => {
    expect(typedReading(gap, '1 9/16 +- 1/8', s)).toMatchObject({
      reading: { of: 'gap', between: ['a', 'b'], error: INCH / 8 },
    });
    expect(typedReading(gap, '1', s)).toMatchObject({ reading: { error: INCH / 16 } });
    expect(typedReading(roll, '1', s)).toMatchObject({ reading: { error: DEGREE / 10 } });
    expect(typedReading(roll, '1 +- 0.3', s)).toMatchObject({
      reading: { error: expect.closeTo(0.3 * DEGREE, 12) as number },
    });
  });

  it.each([
    [gap, 'two'],
    [gap, '1 behind core face'],
    [gap, '1 +- 0'],
    [gap, '1 +- x'],
    [ahead, '1 behind no such face'],
    [ahead, '1 above core face'],
    [pitch, '3 in'],
    [roll, '400'],
  ])('is refused with what is wrong: %o, %s', (one, text) => {
    expect(typedReading(one, text, s)).toHaveProperty('problem');
  });
});
