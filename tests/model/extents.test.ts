import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  enginePathExtents,
  partExtents,
  reachOf,
  solidExtents,
} from '../../src/model/solids/extents.js';
import { facingBetween } from '../../src/model/facing.js';
import { readScenario } from '../../src/model/read.js';
import type { Box, Part, Scenario, Solid, Tilt, Vec3 } from '../../src/model/scenario.js';
import { ORCHARD } from './orchard.js';
import { bay, choice, option, part } from './sample-bay.js';

/** Rounding of a few products of numbers up to 1,000. */
const ROUNDING = 1e-9;

const AXES = ['x', 'y', 'z'] as const;

/** Right-handed turn about an axis through the origin, written out on its own. */
function turn(axis: 'x' | 'y' | 'z', by: number, [x, y, z]: Vec3): Vec3 {
  const [c, s] = [Math.cos(by), Math.sin(by)];
  if (axis === 'x') return [x, y * c - z * s, y * s + z * c];
  if (axis === 'y') return [x * c + z * s, y, -x * s + z * c];
  return [x * c - y * s, x * s + y * c, z];
}

function tilted(point: Vec3, tilt?: Tilt): Vec3 {
  if (tilt === undefined) return point;
  const { at } = tilt;
  const from: Vec3 = [point[0] - at[0], point[1] - at[1], point[2] - at[2]];
  const [x, y, z] = turn(tilt.about, tilt.by, from);
  return [x + at[0], y + at[1], z + at[2]];
}

const outside = (box: Box, p: Vec3) =>
  Math.max(...AXES.map((axis, i) => Math.max(box[axis].min - p[i]!, p[i]! - box[axis].max)));

const TILT: Tilt = { about: 'y', by: 0.5, at: [10, 20, -5] };

/** Points that cover a solid's surface closely, before its tilt. */
function surface(solid: Solid): readonly Vec3[] {
  const turns = Array.from({ length: 720 }, (_, i) => (i * Math.PI) / 360);
  if (solid.shape === 'cylinder') {
    const r = solid.diameter / 2;
    const [u, v] = solid.center;
    return turns.flatMap((t) =>
      [solid.from, solid.to].map((w): Vec3 => {
        const [a, b] = [u + r * Math.cos(t), v + r * Math.sin(t)];
        if (solid.axis === 'x') return [w, a, b];
        return solid.axis === 'y' ? [a, w, b] : [a, b, w];
      }),
    );
  }
  if (solid.shape === 'ball' || solid.shape === 'tube') {
    const r = solid.diameter / 2;
    const middles = solid.shape === 'ball' ? [solid.center] : [solid.from, solid.to];
    return middles.flatMap(([x, y, z]) =>
      turns.flatMap((t): Vec3[] => [
        [x + r * Math.cos(t), y + r * Math.sin(t), z],
        [x, y + r * Math.cos(t), z + r * Math.sin(t)],
        [x + r * Math.cos(t), y, z + r * Math.sin(t)],
      ]),
    );
  }
  if (solid.shape === 'hull') return solid.points;
  if (solid.shape === 'rail') {
    return [solid.from, solid.to].flatMap(({ x, inside, outside, top, bottom }): Vec3[] => [
      [x, inside, top],
      [x, outside, top],
      [x, inside, bottom],
      [x, outside, bottom],
    ]);
  }
  if (solid.shape === 'panel') {
    // Those below lie in a plane at 3, 0, 4 to the axes, so that 5 along it is 3 and 4.
    const shares = solid.behind === undefined ? [-0.5, 0.5] : [0, 1];
    return shares.flatMap((share) =>
      solid.corners.map(([x, y, z]): Vec3 => {
        return [x + share * solid.thick * 0.6, y, z + share * solid.thick * 0.8];
      }),
    );
  }
  if (solid.shape === 'prism') {
    return solid.profile.flatMap(([u, v]) => [solid.from, solid.to].map((w): Vec3 => [u, w, v]));
  }
  const { x, y, z } = solid;
  return [x.min, x.max].flatMap((a) =>
    [y.min, y.max].flatMap((b) => [z.min, z.max].map((c): Vec3 => [a, b, c])),
  );
}

const SOLIDS: readonly Solid[] = [
  { shape: 'box', x: { min: -3, max: 9 }, y: { min: 2, max: 5 }, z: { min: -7, max: 1 } },
  { shape: 'cylinder', axis: 'x', from: -30, to: -28, center: [4, 3], diameter: 17 },
  { shape: 'cylinder', axis: 'y', from: 1, to: 28, center: [4, 3], diameter: 6 },
  { shape: 'cylinder', axis: 'z', from: -9, to: -4, center: [-18, 7], diameter: 4 },
  {
    shape: 'prism',
    axis: 'y',
    from: -1,
    to: 2,
    profile: [
      [0, 0],
      [8, 1],
      [3, 9],
    ],
  },
  {
    shape: 'hull',
    points: [
      [0, 0, 0],
      [9, 1, 0],
      [0, 8, 2],
      [1, 1, 7],
    ],
  },
  { shape: 'ball', center: [1, 2, 3], diameter: 8 },
  { shape: 'tube', from: [1, 2, 3], to: [-9, 4, 12], diameter: 5 },
  ...([undefined, 'above', 'behind'] as const).map((behind): Solid => ({
    shape: 'panel',
    corners: [
      [4, 0, -3],
      [4, 20, -3],
      [-40, 22, 30],
      [-40, -1, 30],
    ],
    thick: 5,
    ...(behind === undefined ? {} : { behind }),
  })),
  {
    shape: 'rail',
    from: { x: -10, inside: 12, outside: 14, top: 0, bottom: -5 },
    to: { x: 30, inside: 10, outside: 14.5, top: 1, bottom: -3 },
  },
];

describe('extents of a solid', () => {
  it.each(SOLIDS.flatMap((solid) => [solid, { ...solid, tilt: TILT }]))(
    'hold $shape and no more, tilted or not',
    (solid) => {
      const box = solidExtents(solid);
      const points = surface(solid).map((point) => tilted(point, solid.tilt));
      expect(Math.max(...points.map((point) => outside(box, point)))).toBeLessThan(ROUNDING);
      AXES.forEach((axis, i) => {
        const values = points.map((point) => point[i]!);
        // Points half a degree apart fall short of a curve by 1e-5 of its radius.
        expect(Math.min(...values)).toBeCloseTo(box[axis].min, 3);
        expect(Math.max(...values)).toBeCloseTo(box[axis].max, 3);
      });
    },
  );
});

const scenario = (text: string): Scenario => {
  const { scenario: read, problems } = readScenario(text, 'auto');
  expect(problems).toEqual([]);
  return read!;
};

it('a mirror image has its y the other way round', () => {
  const s = scenario(ORCHARD);
  const [left, right] = ['left header', 'right header'].map(
    (name) => partExtents(s.parts.find((part) => part.name === name)!).y,
  );
  expect(right).toEqual({ min: -left!.max, max: -left!.min });
});

it('hold an engine part at any position, rocked by anything up to the rock', () => {
  const s = scenario(ORCHARD);
  const boxes = s.parts
    .filter(({ side }) => side === 'engine')
    .map((part) => ({ part, whole: enginePathExtents(s, reachOf(s, part.name, false)!, s) }));
  const share = fc.double({ min: 0, max: 1, noNaN: true });
  const within = ({ min, max }: { min: number; max: number }, at: number) => min + (max - min) * at;
  fc.assert(
    fc.property(share, share, share, share, share, (a, b, c, d, e) => {
      const { setback, offset, height, pitch } = s.position;
      const rock = s.rock * (2 * e - 1);
      let worst = -Infinity;
      for (const { part, whole } of boxes) {
        for (const drawn of part.solids.flatMap(surface)) {
          const point: Vec3 = part.mirrored ? [drawn[0], -drawn[1], drawn[2]] : drawn;
          const [x, y, z] = turn('y', within(pitch, d), turn('x', rock, point));
          const there: Vec3 = [
            x + within(setback, a),
            y + within(offset, b),
            z + within(height, c),
          ];
          worst = Math.max(worst, outside(whole, there));
        }
      }
      expect(worst).toBeLessThan(ROUNDING);
    }),
    { numRuns: 50 },
  );
  expect(boxes).toHaveLength(5);
});

it('count in what options move, replace and add', () => {
  const s = scenario(
    ORCHARD.replace(
      'remote: { remove: [oil filter], hours: 1.5, cost: 90 }',
      `high: { move: { fan: { x: -1, z: 2 } } }
    large: { replace: { fan: { cylinder: { axis: x, from: -30, to: -27, center: [0, 3], diameter: 18 } } } }`,
    ),
  );
  // In inches: drawn -30 to -28, a new one to -27; an inch, and 3/8 for the motor plate, ahead.
  const { x, z } = reachOf(s, 'fan', false)!;
  expect(x.min).toBeCloseTo((-30 - 1 - 3 / 8) * 25.4);
  expect(x.max).toBeCloseTo(-27 * 25.4);
  expect(z.max).toBeCloseTo((3 + 9 + 2) * 25.4);
});

it('hold a part that turns at any angle, moved by an option, mirrored and swept, lifted and rocked', () => {
  const share = fc.double({ min: 0, max: 1, noNaN: true });
  const angles = fc.tuple(fc.integer({ min: -170, max: 60 }), fc.integer({ min: 1, max: 179 }));
  const within = ({ min, max }: { min: number; max: number }, at: number) => min + (max - min) * at;
  const range = (min: number, max: number) => ({ min, max });
  let tight = 0;
  fc.assert(
    fc.property(
      fc.constantFrom(...SOLIDS),
      fc.constantFrom(...AXES),
      angles,
      fc.boolean(),
      fc.boolean(),
      fc.array(share, { minLength: 6, maxLength: 6 }),
      (drawn, about, [from, wide], mirrored, isTilted, at) => {
        const by = range((from * Math.PI) / 180, ((from + wide) * Math.PI) / 180);
        const pivot: Vec3 = [4, -3, 6];
        const solid = isTilted ? { ...drawn, tilt: TILT } : drawn;
        const still = range(0, 0);
        const sweep = { x: still, y: range(-2, 5), z: still };
        const s = bay({
          position: { setback: still, offset: still, height: still, pitch: range(-0.1, 0.2) },
          rock: 0.1,
          lift: 9,
          parts: [
            part('one', 'engine', {
              solids: [solid],
              mirrored,
              sweep,
              turn: { about, at: pivot, by },
            }),
          ],
          choices: [
            choice('c', option('a'), option('b', { move: [{ part: 'one', by: [7, 0, -8] }] })),
          ],
        });
        const own = reachOf(s, 'one', false)!;
        const path = enginePathExtents(s, own, s);
        const angle = within(by, at[0]!);
        const moves: readonly Vec3[] = [
          [0, 0, 0],
          [7, 0, -8],
        ];
        let most = -Infinity;
        let worst = -Infinity;
        for (const point of surface(drawn)) {
          const [x, y, z] = tilted(point, solid.tilt);
          const [u, v, w] = turn(about, angle, [x - 4, (mirrored ? -y : y) + 3, z - 6]);
          for (const [a, b, c] of moves) {
            const used: Vec3 = [u + 4 + a, v - 3 + b + within(sweep.y, at[1]!), w + 6 + c];
            most = Math.max(most, outside(own, used));
            const [p, q, r] = turn('x', s.rock * (2 * at[2]! - 1), used);
            const there = turn('y', within(s.position.pitch, at[3]!), [p, q, r + s.lift * at[4]!]);
            worst = Math.max(worst, outside(path, there));
          }
        }
        expect(Math.max(most, worst)).toBeLessThan(ROUNDING);
        if (most > -1) tight++;
      },
    ),
    { numRuns: 150 },
  );
  // What is sampled comes near some face of the box now and then: it is not far too large.
  expect(tight).toBeGreaterThan(20);
});

it('are exact for corners and balls over a turn', () => {
  const by = { min: -0.5, max: 2 };
  const one = (solid: Solid) =>
    bay({
      parts: [part('one', 'chassis', { solids: [solid], turn: { about: 'z', at: [0, 0, 0], by } })],
    });
  const ball: Solid = { shape: 'ball', center: [10, 0, 3], diameter: 4 };
  const { x, y, z } = reachOf(one(ball), 'one', false)!;
  expect(x.max).toBeCloseTo(12, 9);
  expect(x.min).toBeCloseTo(10 * Math.cos(2) - 2, 9);
  expect(y.max).toBeCloseTo(12, 9);
  expect(y.min).toBeCloseTo(-10 * Math.sin(0.5) - 2, 9);
  expect([z.min, z.max]).toEqual([1, 5]);
});

describe('which way two parts face', () => {
  const RULE = '  - { between: [engine, chassis], gap: 1/2 }';
  const s = scenario(ORCHARD);
  const part = (name: string): Part => s.parts.find((one) => one.name === name)!;
  const [fan, block, radiator] = [part('fan'), part('block'), part('radiator')];

  it('is what the rule says', () => {
    expect(facingBetween(s, s.rules[0]!, fan, radiator)).toBe('ahead');
  });

  it('is derived where the extents are disjoint over everything, either way round', () => {
    const rule = { ...s.rules[1]!, measured: 'fore-aft' as const };
    expect(facingBetween(s, rule, block, radiator)).toBe('ahead');
    expect(facingBetween(s, rule, radiator, block)).toBe('behind');
    expect(
      facingBetween(s, { ...rule, measured: 'side-to-side' }, block, radiator),
    ).toBeUndefined();
    expect(facingBetween(s, { ...rule, measured: 'nearest' }, block, radiator)).toBeUndefined();
  });

  it('needs no position on one side', () => {
    const rule = { ...s.rules[1]!, measured: 'side-to-side' as const };
    expect(facingBetween(s, rule, part('left header'), part('right header'))).toBe('right');
  });

  it.each([
    ['wider ranges', 'setback: [20, 32]', 'setback: [8, 32]'],
    ['a longer sweep', 'sweep: { x: [0, 1/2] }', 'sweep: { x: [0, 12] }'],
    [
      'a turn',
      'radiator: { kind: radiator,',
      'radiator: { turn: { about: y, at: [-10, 0, 20], by: [-60, 0] }, kind: radiator,',
    ],
    ['an option that moves it', 'move: { fan: { x: -3/8 } }', 'move: { block: { x: -12 } }'],
  ])('is no longer clear with %s', (_, good, bad) => {
    const rule = `${RULE}\n  - { between: [block, radiator], gap: 1, measured: fore-aft }`;
    expect(readScenario(ORCHARD.replace(RULE, rule), 'yaml').problems).toEqual([]);
    const { problems } = readScenario(ORCHARD.replace(RULE, rule).replace(good, bad), 'yaml');
    expect(problems).toMatchObject([{ code: 'side unclear', path: ['rules', 2] }]);
  });

  it('counts the lift, against what it is checked against', () => {
    const file = (kind: string, lift: number) => `berth: 1
units: in
driver: left
position: { setback: 0, offset: 0, height: 0, pitch: 0 }
lift: ${lift}
engine: { block: { box: { x: [-9, 0], y: [-9, 9], z: [0, 9] } } }
chassis: { above: { kind: ${kind}, box: { x: [-9, 0], y: [-9, 9], z: [10, 11] } } }
rules: [{ between: [block, above], gap: 1/2, measured: up-down }]
`;
    const codes = (kind: string, lift: number) =>
      readScenario(file(kind, lift), 'yaml')
        .problems.filter(({ severity }) => severity === 'error')
        .map(({ code }) => code);
    expect(codes('brake booster', 0.9)).toEqual([]);
    expect(codes('brake booster', 1.5)).toEqual(['side unclear']);
    expect(codes('throttle linkage', 1.5)).toEqual(['side unclear']);
    expect(codes('hood', 1.5)).toEqual([]);
  });

  it('counts the rock', () => {
    const rule = `${RULE}\n  - { between: [left header, right header], gap: 1, measured: side-to-side }
  - { between: [left header, left rail], gap: 1, measured: side-to-side }`;
    const text = ORCHARD.replace(RULE, rule)
      .replace('offset: [-2, 2]', 'offset: 0')
      .replace(
        'chassis:\n  rad',
        'chassis:\n  left rail: { box: { x: [0, 9], y: [-17, -16], z: [5, 9] } }\n  rad',
      );
    expect(readScenario(text, 'yaml').problems).toEqual([]);
    const { problems } = readScenario(text.replace('rock: 2 ', 'rock: 12 '), 'yaml');
    expect(problems).toMatchObject([{ code: 'side unclear', path: ['rules', 3] }]);
  });
});
