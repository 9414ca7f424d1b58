import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ticksOf } from '../../src/page/views/ticks.js';

describe('a tape rule along an edge', () => {
  it('has a mark every sixteenth where there is room, and reads whole inches', () => {
    const ticks = ticksOf({ length: 200, start: 0, perPixel: 25.4 / 100 }, 'in');
    expect(ticks).toHaveLength(33);
    expect(
      ticks.filter(({ text }) => text !== undefined).map(({ text, at }) => [text, at]),
    ).toEqual([
      ['0', expect.closeTo(0, 9)],
      ['1', expect.closeTo(100, 9)],
      ['2', expect.closeTo(200, 9)],
    ]);
  });

  it('reads to either side of its datum, and runs the other way too', () => {
    const ticks = ticksOf({ length: 400, start: 200, perPixel: -1 }, 'mm');
    const read = ticks.filter(({ text }) => text !== undefined);
    expect(read.find(({ text }) => text === '0')!.at).toBeCloseTo(200, 9);
    expect(read.filter(({ text }) => text === '100')).toHaveLength(2);
  });

  it('never crowds, and every mark stands where it reads', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 40, noNaN: true }),
        fc.double({ min: -5000, max: 5000, noNaN: true }),
        fc.constantFrom('in' as const, 'mm' as const),
        (perPixel, start, units) => {
          const ticks = ticksOf({ length: 600, start, perPixel }, units);
          const size = units === 'in' ? 25.4 : 1;
          ticks.slice(1).forEach((tick, i) => {
            expect(tick.at - ticks[i]!.at).toBeGreaterThanOrEqual(Math.min(5, 600) - 1e-6);
          });
          for (const { at, text } of ticks) {
            expect(at).toBeGreaterThan(-1e-3);
            expect(at).toBeLessThan(600 + 1e-3);
            if (text === undefined) continue;
            expect(Math.abs((start + at * perPixel) / size)).toBeCloseTo(Number(text), 6);
          }
        },
      ),
    );
  });
});
