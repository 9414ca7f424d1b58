import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseAngle, parseLength } from '../../src/model/text/length.js';
import {
  decimalLength,
  degrees,
  DUST,
  exactDegrees,
  exactTape,
  inUnits,
  tape,
} from '../../src/model/text/tape.js';
import type { Rounding, Units } from '../../src/model/text/tape.js';

const INCH = 25.4;

describe('a length as a tape shows it', () => {
  it.each([
    [25.5, 'nearest', '25 1/2'],
    [3 / 16, 'down', '3/16'],
    [0, 'down', '0'],
    [-1 / 8, 'down', '-1/8'],
    [-3.625, 'down', '-3 5/8'],
    [12, 'up', '12'],
    // Toward minus infinity and toward plus infinity, either side of zero.
    [0.2, 'down', '3/16'],
    [0.2, 'up', '1/4'],
    [-0.2, 'down', '-1/4'],
    [-0.2, 'up', '-3/16'],
    [-0.01, 'down', '-1/16'],
    [-0.01, 'up', '0'],
    [0.01, 'down', '0'],
    [0.97, 'up', '1'],
  ] as const)('%d in rounded %s is %s', (inches, round, said) => {
    expect(tape(inches * INCH, 'in', { round })).toBe(said);
  });

  it.each([
    [647.4, 'down', undefined, '647'],
    [647.4, 'up', undefined, '648'],
    [-0.4, 'down', undefined, '-1'],
    [-0.4, 'up', undefined, '0'],
    [12.34, 'down', 0.5, '12'],
    [12.74, 'down', 0.5, '12.5'],
    [12.34, 'up', 0.1, '12.4'],
    [100, 'nearest', 1, '100'],
  ] as const)('%d mm rounded %s to %s is %s', (mm, round, step, said) => {
    expect(tape(mm, 'mm', { round, ...(step === undefined ? {} : { step }) })).toBe(said);
  });

  it('takes other fractions, and decimals for a step that is none', () => {
    expect(tape(INCH * 0.34, 'in', { round: 'down', step: 1 / 64 })).toBe('21/64');
    expect(tape(INCH * 0.34, 'in', { round: 'up', step: 1 / 8 })).toBe('3/8');
    expect(tape(INCH * 0.347, 'in', { round: 'down', step: 0.01 })).toBe('0.34');
  });

  it('calls a value on a step when only dust is between, and not when more is', () => {
    const step = (3 / 16) * INCH;
    expect(tape(step - 0.5 * DUST * INCH, 'in', { round: 'down' })).toBe('3/16');
    expect(tape(step - 2 * DUST * INCH, 'in', { round: 'down' })).toBe('1/8');
    expect(tape(step + 0.5 * DUST * INCH, 'in', { round: 'up' })).toBe('3/16');
    expect(tape(step + 2 * DUST * INCH, 'in', { round: 'up' })).toBe('1/4');
  });

  it('refuses what is not a length', () => {
    expect(() => tape(NaN, 'in', { round: 'down' })).toThrow(RangeError);
    expect(() => tape(Infinity, 'mm', { round: 'up' })).toThrow(RangeError);
  });
});

describe('rounding', () => {
  const units = fc.constantFrom<Units>('in', 'mm');
  const steps = { in: [1 / 64, 1 / 32, 1 / 16, 1 / 8], mm: [0.1, 0.5, 1] } as const;
  const length = fc.double({ min: -20_000, max: 20_000, noNaN: true });
  const cases = fc.record({
    units,
    mm: length,
    pick: fc.nat(),
    round: fc.constantFrom<Rounding>('down', 'up', 'nearest'),
  });

  it('never flatters, and reads back within one step', () => {
    let [down, up] = [0, 0];
    fc.assert(
      fc.property(cases, ({ units: unit, mm, pick, round }) => {
        const step = steps[unit][pick % steps[unit].length]!;
        const read = parseLength(tape(mm, unit, { round, step }), unit);
        if (!('mm' in read)) throw new Error(read.problem);
        const [said, is] = [inUnits(read.mm, unit), inUnits(mm, unit)];
        // What the text's own double loses in reading, at 20 m.
        const blur = DUST + 1e-11;
        if (round === 'down') {
          down++;
          expect(said).toBeLessThanOrEqual(is + blur);
        }
        if (round === 'up') {
          up++;
          expect(said).toBeGreaterThanOrEqual(is - blur);
        }
        expect(Math.abs(said - is)).toBeLessThanOrEqual(
          (round === 'nearest' ? step / 2 : step) + blur,
        );
      }),
      { numRuns: 2000 },
    );
    expect(Math.min(down, up)).toBeGreaterThan(400);
  });

  it('keeps the order of lengths', () => {
    fc.assert(
      fc.property(length, length, units, (a, b, unit) => {
        const [less, more] = a <= b ? [a, b] : [b, a];
        const round = (mm: number) => decimalLength(mm, unit, { round: 'down', decimals: 3 });
        expect(round(less)).toBeLessThanOrEqual(round(more));
      }),
      { numRuns: 500 },
    );
  });

  it('turns over with the sign: down below zero is up above it', () => {
    fc.assert(
      fc.property(length, units, (mm, unit) => {
        const down = tape(-mm, unit, { round: 'down' });
        const up = tape(mm, unit, { round: 'up' });
        expect(down).toBe(up === '0' ? '0' : up.startsWith('-') ? up.slice(1) : `-${up}`);
      }),
      { numRuns: 500 },
    );
  });
});

describe('a coordinate', () => {
  it.each([
    [25.5 * INCH, 'in', '25 1/2'],
    [(1 / 64) * INCH, 'in', '1/64'],
    [2.3001 * INCH, 'in', '2.3001'],
    [-0.1 * INCH, 'in', '-0.1'],
    [647, 'mm', '647'],
    [647.25, 'mm', '647.25'],
  ] as const)('%d mm in %s is %s', (mm, unit, said) => {
    expect(exactTape(mm, unit)).toBe(said);
  });

  it('reads back to a ten-thousandth of an inch or a thousandth of a millimetre', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -2000, max: 2000, noNaN: true }),
        fc.constantFrom<Units>('in', 'mm'),
        (mm, unit) => {
          const read = parseLength(exactTape(mm, unit), unit);
          if (!('mm' in read)) throw new Error(read.problem);
          const fine = unit === 'in' ? 0.5e-4 : 0.5e-3;
          expect(Math.abs(inUnits(read.mm - mm, unit))).toBeLessThanOrEqual(fine + DUST);
        },
      ),
      { numRuns: 500 },
    );
  });
});

describe('an angle', () => {
  const rad = (angle: number) => (angle * Math.PI) / 180;
  it.each([
    [3.1, '3.1'],
    [3.14, '3.1'],
    [-0.04, '0.0'],
    [-2.5, '-2.5'],
    [0, '0.0'],
  ])('%d degrees is said %s', (angle, said) => {
    expect(degrees(rad(angle))).toBe(said);
  });

  it('keeps more decimals only where they are needed', () => {
    expect(exactDegrees(rad(3.1))).toBe('3.1');
    expect(exactDegrees(rad(3.125))).toBe('3.125');
    const read = parseAngle(exactDegrees(rad(2.346)));
    expect('radians' in read && Math.abs(read.radians - rad(2.346)) < 1e-9).toBe(true);
  });
});
