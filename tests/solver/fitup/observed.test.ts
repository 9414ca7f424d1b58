import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { scaledStance, unscaledStance } from '../../../src/geometry/adjusters/links.js';
import { handWords } from '../../../src/words/fitup.js';
import { stanceFrom } from '../../../src/model/stance.js';
import { observed, PairBook } from '../../../src/solver/fitup/observed.js';
import { restingGapOf, restingPairs } from '../../../src/solver/fitup/resting.js';
import { hung, LEVEL, readings, stances } from '../../support/hung.js';

describe('what a reading should be', () => {
  const book = new PairBook(hung, []);

  it.each(readings!.map((reading, k) => [`${k} ${reading.name}`, reading] as const))(
    'has its slopes by every motion: %s',
    (_, reading) => {
      const { expected } = observed(reading, hung, book)!;
      let smooth = 0;
      fc.assert(
        fc.property(stances, (stance) => {
          const x = scaledStance(stance);
          const at = (k: number, by: number) =>
            expected(unscaledStance(x.map((value, j) => (j === k ? value + by : value)))).value;
          const { slopes } = expected(stance);
          for (let k = 0; k < 6; k++) {
            const h = 5e-3;
            const [here, ahead, behind] = [at(k, 0), at(k, h), at(k, -h)];
            // Where another corner comes nearest there is no slope to hold it to.
            if (Math.abs(ahead - 2 * here + behind) > 1e-3 * h) continue;
            const near = (ahead - behind) / (2 * h);
            smooth++;
            expect(slopes[k]).toBeCloseTo(near, 3);
          }
        }),
        { numRuns: 25, seed: 5 },
      );
      expect(smooth).toBeGreaterThan(100);
    },
  );

  it('is for roll what an angle finder across the engine shows, which pitch takes from', () => {
    const roll = readings!.find((one) => one.of === 'angle' && one.angle === 'roll')!;
    const stance = stanceFrom([0, 0, 0, 0.5, 0.4, 0.3]);
    // The right side of a unit across the engine rises by cos(pitch) sin(roll), whichever way it is yawed.
    const rise = Math.cos(0.5) * Math.sin(0.4);
    const { expected } = observed(roll, hung, book)!;
    expect(expected(stance).value).toBeCloseTo(Math.asin(rise), 12);
    // Steep, so that what pitch takes shows.
    const x = scaledStance(stance);
    const by = (h: number) =>
      expected(unscaledStance(x.map((value, k) => (k === 3 ? value + h : value)))).value;
    const byPitch = (by(0.01) - by(-0.01)) / 0.02;
    expect(Array.from(expected(stance).slopes)[3]! / byPitch).toBeCloseTo(1, 6);
  });
});

describe('which way is longer', () => {
  it('unscrews a right-hand thread anticlockwise, a left-hand one clockwise', () => {
    expect(handWords([{ hand: 'right' }])).toBe('longer: unscrew a right-hand rod anticlockwise');
    expect(handWords([{ hand: 'left' }])).toBe('longer: unscrew a left-hand rod clockwise');
    // Seen from its left-hand end the body backs off the right-hand rod beyond it, which that end tightens clockwise.
    expect(handWords([{ hand: 'turnbuckle' }])).toBe(
      'longer: turn a turnbuckle anticlockwise, seen from its left-hand end',
    );
  });
});

it('a gap at rest is the same to the last digit, whatever was measured before', () => {
  const pairs = restingPairs(hung, []);
  const read = (all: typeof pairs) => all.map((pair) => JSON.stringify(restingGapOf(pair, LEVEL)));
  expect(read([...pairs].reverse()).reverse()).toEqual(read(pairs));
});
