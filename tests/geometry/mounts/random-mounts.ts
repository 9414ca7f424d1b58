/** Mounts at random: a pad on the frame, a boss on the block a hand or two away, and all between. */

import fc from 'fast-check';
import type { PlateMount } from '../../../src/model/fitup/mounts.js';
import type { Position, Vec3 } from '../../../src/model/scenario.js';
import { cross, plus, unit } from '../../../src/model/vector.js';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** A plain mount, straight up from a level pad: what tests change. Millimetres. */
export const UPRIGHT: PlateMount = {
  name: 'left',
  boss: {
    holes: [
      [-60, -40, 254],
      [60, -40, 254],
      [60, 40, 254],
      [-60, 40, 254],
    ],
    normal: [0, 0, -1],
    hole: 11,
  },
  pad: { at: [0, 0, 0], normal: [0, 0, 1] },
  tube: { diameter: 50, wall: 4 },
  base: { size: [200, 160], thick: 6, holes: [[80, 60]], hole: 12 },
  upper: { thick: 6, margin: 25 },
  inPlaceOf: [],
};

export const AT_HOME: Position = { setback: 0, offset: 0, height: 0, pitch: 0 };

export const positions: fc.Arbitrary<Position> = fc.record({
  setback: between(-600, 900),
  offset: between(-60, 60),
  height: between(-100, 200),
  pitch: between(-0.1, 0.1),
});

/** Two unit vectors square to a third and to each other. */
function acrossOf(normal: Vec3): readonly [Vec3, Vec3] {
  const other: Vec3 = Math.abs(normal[2]) > 0.9 ? [1, 0, 0] : [0, 0, 1];
  const first = unit(cross(other, normal));
  return [first, cross(normal, first)];
}

/** The pad is put where the boss, carried to a place at home, looks to: most can be made. */
export const mounts: fc.Arbitrary<PlateMount> = fc
  .record({
    facing: fc.tuple(between(-0.5, 0.5), between(-1, -0.3), between(-0.8, 0.2)).map(unit),
    middle: fc.tuple(between(-500, 0), between(-200, -150), between(-50, 150)),
    side: between(20, 60),
    tall: between(20, 50),
    away: fc.tuple(between(-90, 90), between(-90, 90), between(140, 320)),
    face: fc.constantFrom<Vec3>([0, 0, 1], [0, 1, 0], unit([0.1, 1, 0.2])),
    diameter: between(30, 70),
    thick: between(4, 10),
    height: fc.option(between(5, 20), { nil: undefined }),
    count: fc.integer({ min: 1, max: 4 }),
    ends: fc.constantFrom<readonly ('base' | 'upper')[]>(['base'], ['upper'], ['base', 'upper']),
    first: between(-3, 3),
  })
  .map(
    ({ facing, middle, side, tall, away, face, diameter, thick, height, count, ends, first }) => {
      const [u, v] = acrossOf(facing);
      const holes = [
        [1, 1],
        [-1, 1],
        [-1, -1],
        [1, -1],
      ].map(([a, b]) => plus(plus(middle, u, a! * side), v, b! * tall));
      const at = plus(plus(plus(middle, facing, away[2]), u, away[0]), v, away[1]);
      return {
        ...UPRIGHT,
        boss: { holes, normal: facing, hole: 11 },
        pad: { at, normal: face },
        tube: { diameter, wall: 3 },
        base: { ...UPRIGHT.base, thick },
        upper: { thick, margin: 25 },
        gussets: { count, ends, onPlate: 30, onTube: 40, thick: 6, first },
        ...(height !== undefined && { insulator: { height, diameter: 60 } }),
      };
    },
  );
