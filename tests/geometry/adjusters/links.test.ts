import fc from 'fast-check';
import { eigs, matrix, multiply, transpose } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { freedomOf, independentLinks } from '../../../src/geometry/adjusters/freedom.js';
import {
  lengthOf,
  lengthSlopes,
  scaledStance,
  stanceOfLengths,
  unscaledStance,
} from '../../../src/geometry/adjusters/links.js';
import type { Link } from '../../../src/geometry/adjusters/links.js';
import { dot, singular } from '../../../src/geometry/singular.js';
import { stanceFrom } from '../../../src/model/stance.js';
import type { Stance } from '../../../src/model/stance.js';
import type { Vec3 } from '../../../src/model/scenario.js';

const number = (most: number) => fc.double({ min: -most, max: most, noNaN: true });
const rows = fc.array(fc.array(number(5), { minLength: 6, maxLength: 6 }), {
  minLength: 1,
  maxLength: 9,
});

/** Six links to a plate, as a flight simulator stands on: all six motions are held. */
const SIX: readonly Link[] = [0, 1, 2, 3, 4, 5].map((k) => {
  const at = (angle: number, radius: number, z: number): Vec3 => [
    radius * Math.cos(angle) - 250,
    radius * Math.sin(angle),
    z,
  ];
  const pair = Math.floor((k + 1) / 2) * ((2 * Math.PI) / 3);
  const own = Math.floor(k / 2) * ((2 * Math.PI) / 3) + Math.PI / 3;
  return {
    frame: at(pair + (k % 2 === 0 ? 0.2 : -0.2), 420, -450),
    engine: at(own + (k % 2 === 0 ? -0.2 : 0.2), 260, -60),
  };
});

const stances: fc.Arbitrary<Stance> = fc
  .tuple(number(30), number(30), number(30), number(0.08), number(0.08), number(0.08))
  .map(stanceFrom);

describe('singular values', () => {
  it('are the roots of the eigenvalues that mathjs finds for the square', () => {
    fc.assert(
      fc.property(rows, (a) => {
        const { values, right } = singular(a, 6);
        const square = multiply(transpose(matrix(a)), matrix(a));
        const known = (eigs(square, { eigenvectors: false }).values.valueOf() as number[])
          .map((value) => Math.max(0, value))
          .sort((x, y) => y - x);
        values.forEach((value, k) => expect(value ** 2).toBeCloseTo(known[k]!, 6));
        right.forEach((one, i) => {
          right.forEach((other, j) => expect(dot(one, other)).toBeCloseTo(i === j ? 1 : 0, 10));
          const image = Math.hypot(...a.map((row) => dot(row, one)));
          expect(image).toBeCloseTo(values[i]!, 9);
        });
      }),
      { numRuns: 60 },
    );
  });

  it('keep small ones that squaring would lose', () => {
    // Columns (1, e, 0), (1, 0, e): the values are sqrt(2 + e^2) and e.
    const e = 1e-9;
    const { values } = singular([[1, 1], [e, 0], [0, e]], 2); // prettier-ignore
    expect(values[0]).toBeCloseTo(Math.SQRT2, 12);
    expect(values[1]! / e).toBeCloseTo(1, 9);
  });
});

describe('links', () => {
  it('have the slopes of their lengths', () => {
    fc.assert(
      fc.property(stances, fc.integer({ min: 0, max: 5 }), (stance, k) => {
        const x = scaledStance(stance);
        const slopes = lengthSlopes(SIX[k]!, stance);
        for (let m = 0; m < 6; m++) {
          const at = (by: number) =>
            lengthOf(SIX[k]!, unscaledStance(x.map((value, j) => (j === m ? value + by : value))));
          expect(slopes[m]).toBeCloseTo((at(0.01) - at(-0.01)) / 0.02, 6);
        }
      }),
    );
  });

  it('give back the stance that their lengths are of', () => {
    fc.assert(
      fc.property(stances, (stance) => {
        const lengths = SIX.map((link) => lengthOf(link, stance));
        const found = stanceOfLengths(SIX, lengths, stanceFrom([0, 0, 0, 0, 0, 0]), []);
        expect(found.off).toBeLessThan(1e-8);
        scaledStance(found.stance).forEach((value, k) => {
          expect(value).toBeCloseTo(scaledStance(stance)[k]!, 6);
        });
      }),
    );
  });

  it('say by how much lengths contradict one another', () => {
    const level = stanceFrom([0, 0, 0, 0, 0, 0]);
    const posts = FOUR.map((link) => lengthOf(link, level));
    const holds = freedomOf(FOUR, level).free.map((along) => ({ along, at: level }));
    const found = stanceOfLengths(
      FOUR,
      [posts[0]! + 4, posts[1]!, posts[2]!, posts[3]!],
      level,
      holds,
    );
    // A plate cannot follow one corner 4 mm up: each corner is 1 mm off the best fit.
    expect(found.off).toBeCloseTo(1, 2);
  });
});

/** Four upright posts at the corners of a rectangle about the datum. */
const FOUR: readonly Link[] = [
  [-300, -200],
  [-300, 200],
  [300, -200],
  [300, 200],
].map(([x, y]) => ({ frame: [x!, y!, -500], engine: [x!, y!, -100] }));

describe('what links hold', () => {
  it('is height, pitch and roll for upright posts, and all for six that lean', () => {
    const level = stanceFrom([0, 0, 0, 0, 0, 0]);
    const { motions, held } = freedomOf(FOUR, level);
    expect(held).toHaveLength(3);
    expect(motions.map(({ motion }) => motion).sort()).toEqual(['offset', 'setback', 'yaw']);
    motions.forEach(({ brings }) => expect(brings).toEqual([]));
    expect(independentLinks(FOUR.map((link) => lengthSlopes(link, level)))).toHaveLength(3);
    expect(freedomOf(SIX, level).held).toHaveLength(6);
  });

  it('names a motion that brings another with it', () => {
    // One post 300 mm ahead of the datum: it may pitch about the post's top, with the datum rising.
    const level = stanceFrom([0, 0, 0, 0, 0, 0]);
    const { motions } = freedomOf([{ frame: [-300, 0, -500], engine: [-300, 0, -100] }], level);
    expect(motions).toHaveLength(5);
    const pitch = motions.find(({ motion, brings }) => motion === 'pitch' || brings.length > 0)!;
    // Tail down lifts what is ahead of the datum, so the datum must fall as far: 300 mm in TURN_ARM, one for one.
    const [other] = pitch.brings;
    expect(new Set([pitch.motion, other!.motion])).toEqual(new Set(['pitch', 'height']));
    expect(other!.by).toBeCloseTo(-1, 6);
  });
});
