import { describe, expect, it } from 'vitest';
import { createGap, gapBetween, type Gap } from '../../src/geometry/gap.js';
import { axisRotation } from '../../src/geometry/rotation.js';
import { placed } from '../../src/geometry/placed.js';
import { shapeOf, type Shape } from '../../src/geometry/shape.js';
import type { Solid, Vec3 } from '../../src/model/scenario.js';
import { between, boxShape, direction, point, randomTurn, seeded, solid, SORTS } from './random.js';

const INCH = 25.4;
const SMALL = 0.01 * INCH;
const HUGE = 500 * INCH;

function measure(a: Shape, b: Shape, s: Vec3 = [0, 0, 0]): Gap {
  const gap = createGap();
  gapBetween(a, b, ...s, gap);
  for (const v of Object.values(gap)) expect(v).not.toBeNaN();
  expect(gap.upper).toBeGreaterThanOrEqual(gap.lower);
  expect(Math.hypot(gap.nx, gap.ny, gap.nz)).toBeCloseTo(1, 9);
  return gap;
}

/** The gap of two shapes, also after both are turned together out of line with the axes. */
function expectGap(a: Shape, b: Shape, expected: number, within = 1e-8): void {
  const random = seeded(40);
  for (let k = 0; k < 12; k++) {
    const turn = k === 0 ? axisRotation(0, 0, 1, 0, new Float64Array(9)) : randomTurn(random);
    const gap = measure(placed(a, turn), placed(b, turn));
    expect(Math.abs(gap.lower - expected)).toBeLessThan(within);
    expect(Math.abs(gap.upper - expected)).toBeLessThan(within);
  }
}

const hull = (...points: Vec3[]): Shape => shapeOf({ shape: 'hull', points });
const tube = (from: Vec3, to: Vec3, diameter = 0): Shape =>
  shapeOf({ shape: 'tube', from, to, diameter });
const dot = (center: Vec3, diameter = 0): Shape => shapeOf({ shape: 'ball', center, diameter });
const cylinder = (
  axis: 'x' | 'y' | 'z',
  from: number,
  to: number,
  center: [number, number],
  diameter: number,
): Shape => shapeOf({ shape: 'cylinder', axis, from, to, center, diameter });

describe('flat contact', () => {
  const unit = boxShape([0, 10], [0, 10], [0, 10]);
  it('faces in one plane, edges and corners that just touch', () => {
    expectGap(unit, boxShape([10, 20], [0, 10], [0, 10]), 0);
    expectGap(unit, boxShape([10, 20], [3, 40], [-40, 4]), 0);
    expectGap(unit, boxShape([10, 20], [10, 20], [0, 10]), 0);
    expectGap(unit, boxShape([10, 20], [10, 20], [10, 20]), 0);
  });

  it('either side of touching, at every scale of gap', () => {
    for (let e = -12; e <= 0; e++) {
      const d = 10 ** e;
      for (const sign of [1, -1]) {
        const at = 10 + sign * d;
        expectGap(unit, boxShape([at, 20 + at], [3, 40], [-40, 4]), at - 10, 1e-9);
        expectGap(unit, boxShape([at, 20 + at], [-5, 15], [-5, 15]), at - 10, 1e-9);
      }
      // Corner to corner.
      const off = 10 + d;
      expectGap(unit, boxShape([off, 30], [off, 30], [off, 30]), Math.sqrt(3) * (off - 10), 1e-8);
    }
  });

  it('nested, identical and crossing solids', () => {
    expectGap(boxShape([-50, 50], [-50, 50], [-50, 50]), boxShape([-1, 1], [-1, 1], [30, 40]), -20);
    expectGap(unit, boxShape([0, 10], [0, 10], [0, 10]), -10);
    expectGap(boxShape([-50, 50], [-1, 1], [-1, 1]), boxShape([-1, 1], [-50, 50], [-1, 1]), -2);
    const random = seeded(41);
    for (let i = 0; i < 300; i++) {
      const shape = placed(
        shapeOf(solid(random, SORTS[i % SORTS.length]!, 50)),
        randomTurn(random),
      );
      const gap = measure(shape, shape);
      // A solid laid over itself parts by its least width, so by something.
      expect(gap.upper).toBeLessThanOrEqual(shape.ball > 0 ? -2 * shape.ball + 1e-9 : 0);
      expect(gap.upper - gap.lower).toBeLessThan(1.01e-3);
    }
  });
});

describe('faces all but level with each other', () => {
  const SETTLED = 1e-6;

  it('a slab whose corners lie all but in a plane, over a box', () => {
    // The descent once stopped as soon as its length stood still, 5e-4 mm over what parts them.
    const random = seeded(42);
    for (let i = 0; i < 200; i++) {
      const count = 4 + (i % 9);
      const wide = between(random, 20, 200);
      const low = 10 ** between(random, -7, -3);
      const bumps = 10 ** between(random, -6, -3);
      const points = Array.from({ length: count }, (_, k): Vec3[] => {
        const t = (2 * Math.PI * k) / count;
        const [x, y] = [wide * Math.cos(t), wide * Math.sin(t)];
        const bump = k === 0 ? 0 : bumps * random();
        return [
          [x, y, low + bump],
          [x, y, low + 2 - bump],
        ];
      }).flat();
      const turn = randomTurn(random);
      const slab = placed(hull(...points), turn);
      const box = placed(boxShape([-30, 30], [-20, 20], [-2, 0]), turn);
      for (const { lower, upper } of [measure(slab, box), measure(box, slab)]) {
        expect(upper - lower).toBeLessThan(SETTLED);
        expect(lower).toBeGreaterThan(-SETTLED);
        expect(upper).toBeLessThan(low + bumps + SETTLED);
      }
    }
  });

  it('a box that leans by next to nothing, over a floor', () => {
    const random = seeded(43);
    const level = boxShape([-2000, 2000], [-2000, 2000], [-1000, 0]);
    for (const lean of [1e-12, 1e-9, 1e-7, 1e-6, 1e-5, 1e-3]) {
      for (const half of [8, 20, 39, 80, 250]) {
        for (const lift of [1e-7, 1e-6, 6e-6, 1e-5, 1e-3, 0.1]) {
          const by = half * Math.sin(lean) + lift;
          const tilt = { about: 'y', by: lean, at: [0, 0, by] } as const;
          const range = (size: number) => ({ min: -size, max: size });
          const z = { min: by, max: by + 40 };
          const turn = randomTurn(random);
          const floor = placed(level, turn);
          const drawn = shapeOf({ shape: 'box', x: range(half), y: range(50), z, tilt });
          const box = placed(drawn, turn);
          const pairs = [
            [box, floor],
            [floor, box],
          ] as const;
          for (const [a, b] of pairs) {
            const { lower, upper } = measure(a, b);
            expect(Math.abs(lower - lift)).toBeLessThan(SETTLED);
            expect(Math.abs(upper - lift)).toBeLessThan(SETTLED);
          }
        }
      }
    }
  });
});

describe('solids without thickness', () => {
  const plate = hull([0, 0, 0], [10, 0, 0], [10, 10, 0], [0, 10, 0]);
  it('plates in one plane, apart, touching and overlapping', () => {
    expectGap(plate, hull([13, 14, 0], [20, 14, 0], [20, 20, 0], [13, 20, 0]), 5);
    expectGap(plate, hull([10, 2, 0], [20, 2, 0], [20, 20, 0]), 0);
    expectGap(plate, hull([5, 5, 0], [20, 5, 0], [20, 20, 0]), 0);
    expectGap(plate, plate, 0);
  });

  it('plates across and above each other', () => {
    expectGap(plate, hull([5, 5, -3], [5, 5, 7], [5, 8, 7], [5, 8, -3]), -3);
    expectGap(plate, hull([0, 0, 4], [10, 0, 4], [10, 10, 4], [0, 10, 4]), 4);
  });

  it('segments: crossing, parallel, in line, skew', () => {
    expectGap(tube([-5, 0, 0], [5, 0, 0]), tube([0, -5, 0], [0, 5, 0]), 0);
    expectGap(tube([-5, 0, 0], [5, 0, 0]), tube([-5, 3, 0], [5, 3, 0]), 3);
    expectGap(tube([-5, 0, 0], [5, 0, 0]), tube([2, 0, 0], [9, 0, 0]), 0);
    expectGap(tube([-5, 0, 0], [5, 0, 0]), tube([5, 0, 0], [9, 0, 0]), 0);
    expectGap(tube([-5, 0, 0], [5, 0, 0]), tube([7, 0, 0], [9, 0, 0]), 2);
    expectGap(tube([-5, 0, 0], [5, 0, 0]), tube([1, -5, 6], [2, 5, 6]), 6);
    expectGap(tube([-5, 0, 0], [5, 0, 0], 4), tube([0, -5, 1], [0, 5, 1], 2), -2);
  });

  it('points in, on and off everything', () => {
    expectGap(dot([1, 2, 3]), dot([1, 2, 3]), 0);
    expectGap(dot([1, 2, 3], 4), dot([1, 2, 3], 6), -5);
    expectGap(dot([0, 0, 0]), tube([-5, 0, 0], [5, 0, 0]), 0);
    expectGap(dot([3, 3, 0]), plate, 0);
    expectGap(dot([3, 3, 2], 1), plate, 1.5);
    expectGap(dot([3, 4, 5]), boxShape([0, 10], [0, 10], [0, 10]), -3);
    expectGap(tube([-50, 5, 5], [50, 5, 5]), boxShape([0, 10], [0, 10], [0, 10]), -5);
  });

  it('a segment through a box parts along an edge of the box crossed with it', () => {
    // Across the corner column: the segment (1, 0) to (0, 1) is 1/sqrt(2) from the edge x = y = 0.
    expectGap(tube([1, 0, 5], [0, 1, 5]), boxShape([0, 9], [0, 9], [0, 9]), -Math.SQRT1_2, 1e-8);
  });
});

describe('round contact', () => {
  it('parallel cylinders, apart, touching and overlapping', () => {
    const a = cylinder('x', 0, 100, [0, 0], 50);
    for (const d of [60, 50.001, 50, 49.999, 40, 3]) {
      expectGap(a, cylinder('x', 20, 60, [d, 0], 50), d - 50, 3e-6);
    }
    expectGap(a, cylinder('x', 97, 160, [3, 0], 50), -3, 3e-6);
    expectGap(a, cylinder('x', 100, 160, [3, 0], 50), 0, 3e-6);
    expectGap(a, a, -50, 3e-6);
  });

  it('crossing cylinders touch where their axes are both radii apart', () => {
    const a = cylinder('x', -100, 100, [0, 0], 50);
    for (const d of [70, 45.001, 45, 44.999, 44, 30]) {
      expectGap(a, cylinder('y', -100, 100, [0, d], 40), d - 45, 1.1e-3);
    }
  });

  it('a cap against a face, a rim against an edge, a round against a face', () => {
    const a = cylinder('x', 0, 100, [0, 0], 50);
    for (const d of [5, 1e-6, 0, -1e-6, -5]) {
      expectGap(a, boxShape([100 + d, 120], [-90, 90], [-90, 90]), d, 3e-6);
      expectGap(a, boxShape([100 + d, 120], [-9, 90], [-9, 9]), d, 3e-6);
      expectGap(a, boxShape([10, 90], [25 + d, 90], [-90, 90]), d, 3e-6);
    }
    expectGap(a, tube([120, 25, -50], [120, 25, 50]), 20, 3e-6);
    expectGap(a, tube([50, 0, -50], [50, 0, 50], 4), -27, 3e-6);
    expectGap(a, dot([50, 20, 0], 2), -6, 3e-6);
  });
});

describe('very unlike sizes', () => {
  const needle = boxShape([0, HUGE], [0, SMALL], [0, SMALL]);
  const sheet = boxShape([0, HUGE], [0, HUGE], [0, SMALL]);
  it('needles and sheets', () => {
    expectGap(needle, boxShape([5000, 5001], [2 * SMALL, HUGE], [0, 1]), SMALL, 1e-8);
    expectGap(needle, sheet, -SMALL, 1e-8);
    expectGap(sheet, boxShape([50, 60], [50, 60], [SMALL + 1, 90]), 1, 1e-8);
    expectGap(sheet, boxShape([50, 60], [50, 60], [-5, 5]), -5, 1e-8);
    expectGap(
      needle,
      boxShape([5000, 5000 + SMALL], [-HUGE, HUGE], [SMALL / 2, SMALL]),
      -SMALL / 2,
      1e-8,
    );
    expectGap(cylinder('x', 0, HUGE, [0, 0], SMALL), sheet, -SMALL / 2, 1e-5);
  });

  it('needles at every angle, with their gap known', () => {
    // Two needles 25 m long, in line to a millionth of a radian, leave few digits for the nearest pair.
    const ONE_IN_1E10 = 2 * HUGE * 1e-10;
    const random = seeded(42);
    for (let i = 0; i < 300; i++) {
      // Two needles that cross at a known angle about z, one above the other by d.
      const d = 10 ** between(random, -4, 3);
      const angle = i % 3 === 0 ? between(random, 0, 1e-6) : between(random, 0, 3);
      const low = boxShape([-HUGE, HUGE], [-SMALL, SMALL], [-SMALL, 0]);
      const high = boxShape([-HUGE, HUGE], [-SMALL, SMALL], [0, SMALL]);
      const turned = placed(high, axisRotation(0, 0, 1, angle, new Float64Array(9)));
      const gap = measure(turned, low, [0, 0, d]);
      expect(Math.abs(gap.lower - d)).toBeLessThan(ONE_IN_1E10);
      expect(Math.abs(gap.upper - d)).toBeLessThan(ONE_IN_1E10);
      const into = measure(turned, low, [0, 0, -SMALL / 2]);
      expect(Math.abs(into.lower + SMALL / 2)).toBeLessThan(ONE_IN_1E10);
    }
  });

  it('far from the origin', () => {
    const far: Vec3 = [1e6, -1e6, 1e6];
    const random = seeded(43);
    for (let i = 0; i < 300; i++) {
      const one = solid(random, SORTS[i % SORTS.length]!, 60);
      const other = solid(random, SORTS[Math.floor(i / SORTS.length) % SORTS.length]!, 60);
      const here = measure(shapeOf(one), shapeOf(other));
      const there = measure(shapeOf(one, { move: far }), shapeOf(other, { move: far }));
      expect(Math.abs(there.lower - here.lower)).toBeLessThan(1.1e-3);
      if (!there.coresOverlap) expect(there.upper - there.lower).toBeLessThan(3e-6);
      expect(here.lower).toBeLessThanOrEqual(there.upper + 1e-6);
      expect(there.lower).toBeLessThanOrEqual(here.upper + 1e-6);
    }
  });

  it('sizes from 0.01 in to 500 in mixed: always a bracket', () => {
    const random = seeded(44);
    const size = (): number => INCH * 10 ** between(random, -2, 2.7);
    let narrow = 0;
    const COUNT = 3000;
    for (let i = 0; i < COUNT; i++) {
      const make = (): Shape => {
        const kind = i % 4;
        const c = point(random, 50);
        const [a, b, d] = [size(), size(), size()];
        const made: Solid =
          kind === 0 || random() < 0.5
            ? {
                shape: 'box',
                x: { min: c[0] - a, max: c[0] + a },
                y: { min: c[1] - b, max: c[1] + b },
                z: { min: c[2] - d, max: c[2] + d },
              }
            : kind === 1
              ? {
                  shape: 'cylinder',
                  axis: 'y',
                  from: c[1] - a,
                  to: c[1] + a,
                  center: [c[0], c[2]],
                  diameter: d,
                }
              : { shape: 'tube', from: c, to: [c[0] + a, c[1] - b, c[2] + d], diameter: size() };
        return placed(shapeOf(made), randomTurn(random));
      };
      const [a, b] = [make(), make()];
      const gap = measure(a, b, direction(random));
      if (gap.upper - gap.lower < 1.1e-3) narrow++;
    }
    expect(narrow).toBe(COUNT);
  });
});
