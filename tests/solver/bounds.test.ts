import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Contact } from '../../src/solver/measuring/contact.js';
import { axisRow, cornerRow, witnessRow } from '../../src/solver/bounding/bounds.js';
import { boxOf, travel } from '../../src/solver/box.js';
import type { PositionBox } from '../../src/solver/box.js';
import { overlapRow } from '../../src/solver/bounding/overlap-row.js';
import { EngineSolid } from '../../src/solver/measuring/pose.js';
import { createProbe, probe } from '../../src/solver/measuring/probe.js';
import { Rows } from '../../src/solver/rows.js';
import { shapeOf } from '../../src/geometry/shape.js';
import type { Solid } from '../../src/model/scenario.js';

const coordinate = fc.double({ min: -300, max: 300, noNaN: true });
const size = fc.double({ min: 1, max: 200, noNaN: true });
const range = fc.tuple(coordinate, size).map(([min, length]) => ({ min, max: min + length }));
const point = fc.tuple(coordinate, coordinate, coordinate);

const solid: fc.Arbitrary<Solid> = fc.oneof(
  fc.record({ shape: fc.constant('box' as const), x: range, y: range, z: range }),
  fc
    .tuple(fc.constantFrom('x', 'y', 'z'), range, fc.tuple(coordinate, coordinate), size)
    .map(([axis, along, center, diameter]): Solid => {
      const { min: from, max: to } = along;
      return { shape: 'cylinder', axis: axis as 'x', from, to, center, diameter };
    }),
  fc.record({ shape: fc.constant('ball' as const), center: point, diameter: size }),
  fc.record({ shape: fc.constant('tube' as const), from: point, to: point, diameter: size }),
  fc
    .tuple(range, range, range, fc.double({ min: -0.4, max: 0.4, noNaN: true }), point)
    .map(([x, y, z, by, at]): Solid => ({ shape: 'box', x, y, z, tilt: { about: 'x', by, at } })),
);

const half = fc.oneof(
  fc.constant(0),
  fc.double({ min: 0.01, max: 2, noNaN: true }),
  fc.double({ min: 2, max: 120, noNaN: true }),
);
const box: fc.Arbitrary<PositionBox> = fc
  .tuple(
    point,
    fc.double({ min: -0.1, max: 0.1, noNaN: true }),
    half,
    half,
    half,
    fc.constantFrom(0, 0.002, 0.02, 0.06),
  )
  .map(([mid, pitch, a, b, c, turn]) => {
    const at = [...mid, pitch];
    const wide = [a, b, c, turn];
    return boxOf(
      at.map((v, k) => v - wide[k]!),
      at.map((v, k) => v + wide[k]!),
    );
  });

function contact(engine: Solid, chassis: Solid, rock: number, axis: -1 | 0 | 1 | 2): Contact {
  const solidOf = new EngineSolid(shapeOf(engine));
  const other = shapeOf(chassis);
  return {
    id: 0,
    group: 0,
    engine: solidOf,
    chassis: other,
    engineStill: solidOf,
    chassisStill: other,
    rock,
    reach: solidOf.reach(rock),
    axis,
    sign: 1,
    needed: 10,
  };
}

const unit = fc.double({ min: -1, max: 1, noNaN: true });
const samples = fc.array(fc.tuple(unit, unit, unit, unit), { minLength: 6, maxLength: 6 });
const corners = [...Array(16).keys()].map((n) => [1, 2, 4, 8].map((bit) => (n & bit ? 1 : -1)));

/** Greatest amount by which the margin exceeds the row at the sampled places of the box. */
function over(
  c: Contact,
  b: PositionBox,
  rows: Rows,
  row: number,
  at: readonly number[][],
): number {
  const w = createProbe();
  let worst = -Infinity;
  for (const u of at) {
    const x = b.mid.map((mid, k) => mid + b.half[k]! * u[k]!);
    probe(c, x[0]!, x[1]!, x[2]!, x[3]!, w);
    worst = Math.max(worst, w.lower - c.needed - rows.at(row, Float64Array.from(u)));
  }
  return worst;
}

/** Curved gaps are bracketed to this, millimetres. */
const BRACKET = 2e-3;

test('every row lies above the margin everywhere in its box', () => {
  const applied = { witness: 0, corner: 0, overlap: 0, axis: 0 };
  fc.assert(
    fc.property(
      solid,
      solid,
      box,
      samples,
      fc.constantFrom(0, 0, 0.035),
      fc.constantFrom(-1, -1, -1, 0, 1, 2),
      (engine, chassis, b, inside, rock, axis) => {
        const c = contact(engine, chassis, rock, axis);
        const at = [...inside, ...corners];
        const rows = new Rows();
        const w = createProbe();
        probe(c, b.mid[0]!, b.mid[1]!, b.mid[2]!, b.mid[3]!, w);
        if (c.axis >= 0) {
          applied.axis++;
          expect(over(c, b, rows, axisRow(c, b, w, rows), at)).toBeLessThan(BRACKET);
          return;
        }
        if (!w.overlap) {
          const row = witnessRow(c, b, w, rows);
          if (row >= 0) {
            applied.witness++;
            expect(over(c, b, rows, row, at)).toBeLessThan(BRACKET);
          }
        }
        const row = rows.count;
        cornerRow(c, b, w, rows);
        applied.corner++;
        expect(over(c, b, rows, row, at)).toBeLessThan(BRACKET);
        const balls = c.engine.shape.ball + c.chassis.ball;
        if (rows.values[row]! + rows.spread(row) + c.needed + balls > 0) return;
        if (!overlapRow(c, b, w, rows)) return;
        applied.overlap++;
        expect(over(c, b, rows, row + 1, at)).toBeLessThan(BRACKET);
      },
    ),
    { numRuns: 9000 },
  );
  for (const [name, count] of Object.entries(applied)) {
    expect(count, `${name} rows checked`).toBeGreaterThan(60);
  }
});

test('a gap changes by no more than the travel between two positions', () => {
  fc.assert(
    fc.property(
      solid,
      solid,
      box,
      samples,
      fc.constantFrom(0, 0.035),
      (engine, chassis, b, at, rock) => {
        const c = contact(engine, chassis, rock, -1);
        const w = createProbe();
        const mid = b.mid;
        probe(c, mid[0]!, mid[1]!, mid[2]!, mid[3]!, w);
        const moved = travel(b, mid[0]!, mid[1]!, mid[2]!, mid[3]!, c.reach);
        const [least, most] = [w.lower - moved, w.upper + moved];
        for (const u of [...at, ...corners]) {
          const x = mid.map((v, k) => v + b.half[k]! * u[k]!);
          probe(c, x[0]!, x[1]!, x[2]!, x[3]!, w);
          expect(w.upper).toBeGreaterThan(least - BRACKET);
          expect(w.lower).toBeLessThan(most + BRACKET);
        }
      },
    ),
    { numRuns: 500 },
  );
});

test('rows close on the margin as the box shrinks, second order in pitch where solids overlap', () => {
  const c = contact(
    {
      shape: 'box',
      x: { min: -300, max: 0 },
      y: { min: -200, max: 200 },
      z: { min: -100, max: 200 },
    },
    {
      shape: 'box',
      x: { min: -250, max: 50 },
      y: { min: 150, max: 400 },
      z: { min: -150, max: 120 },
    },
    0,
    -1,
  );
  const slackAt = (turn: number): number => {
    const b = boxOf([0, 0, 0, 0.03 - turn], [0, 0, 0, 0.03 + turn]);
    const rows = new Rows();
    const w = createProbe();
    probe(c, 0, 0, 0, 0.03, w);
    expect(w.upper).toBeLessThan(0);
    expect(overlapRow(c, b, w, rows)).toBe(true);
    return rows.values[0]! + rows.spread(0) - (w.lower - c.needed);
  };
  expect(slackAt(0.01)).toBeLessThan(0.1);
  expect(slackAt(0.001)).toBeLessThan(0.002);
});

/** Greatest amount by which the margin exceeds the row as pitch and the travels beside it change. */
function overAlongPitch(c: Contact, b: PositionBox, rows: Rows): number {
  const along = [...Array(41).keys()].map((i) => (i - 20) / 20);
  const at = along.flatMap((turn) => [-1, 0, 1].map((side) => [side, 0, side, turn]));
  return over(c, b, rows, 0, at);
}

test('a corner row allows for the arc of a solid far from the pitch axis', () => {
  // A small ball 10 mm off a floor or a roof: turning by 0.1 takes it 1.5 mm off its tangent.
  const TURN = 0.1;
  let tight = 0;
  for (const [x, z] of [
    [-300, 0],
    [0, -300],
    [-300, -300],
    [0, 300],
  ] as const) {
    for (const side of [-1, 1]) {
      const engine: Solid = { shape: 'ball', center: [x, 0, z], diameter: 0.2 };
      const [near, far] = [z + 10 * side, z + 500 * side];
      const chassis: Solid = {
        shape: 'box',
        x: { min: x - 900, max: x + 900 },
        y: { min: -900, max: 900 },
        z: { min: Math.min(near, far), max: Math.max(near, far) },
      };
      const c = contact(engine, chassis, 0, -1);
      const b = boxOf([0, 0, 0, -TURN], [0, 0, 0, TURN]);
      const rows = new Rows();
      const w = createProbe();
      probe(c, 0, 0, 0, 0, w);
      cornerRow(c, b, w, rows);
      const most = overAlongPitch(c, b, rows);
      expect(most).toBeLessThan(1e-6);
      // The arc is all that the row allows for, so it may not be far above either.
      if (most > -3) tight++;
    }
  }
  expect(tight).toBeGreaterThan(4);
});

test('an overlap row allows for edges whose cross pitch turns in its own way', () => {
  // Two square bars on edge, crossed, one sunk in the other: the way out is across two edges.
  let rowsHad = 0;
  for (const yaw of [0.3, 0.6, 0.9, 1.2]) {
    for (const height of [30, 40, 50]) {
      for (const turn of [0.02, 0.05]) {
        for (const far of [0, 300]) {
          const c = contact(bar(yaw, far, 0), bar(-yaw, far, -height), 0, -1);
          const w = createProbe();
          const apart = [-1, -0.5, 0, 0.5, 1].some((u) => {
            probe(c, 0, 0, 0, turn * u, w);
            return w.upper > 0;
          });
          if (apart) continue;
          const rows = new Rows();
          const b = boxOf([0, 0, 0, -turn], [0, 0, 0, turn]);
          if (!overlapRow(c, b, w, rows)) continue;
          expect(overAlongPitch(c, b, rows)).toBeLessThan(1e-6);
          rowsHad++;
        }
      }
    }
  }
  expect(rowsHad).toBeGreaterThan(10);
});

/** A bar 600 mm long, square across and standing on an edge, turned about Z, `far` back of the datum. */
function bar(yaw: number, far: number, z: number): Solid {
  const reach = 20 * Math.SQRT2;
  const [cos, sin] = [Math.cos(yaw), Math.sin(yaw)];
  const points = [-300, 300].flatMap((along) =>
    [
      [reach, 0],
      [-reach, 0],
      [0, reach],
      [0, -reach],
    ].map(
      ([side, up]) =>
        [cos * along - sin * side! + far, sin * along + cos * side!, z + up!] as const,
    ),
  );
  return { shape: 'hull', points };
}

test('rock carries a plate at the side off the pitch axis, and its travel with it', () => {
  // Flat at the height of the crank, 300 mm out: rocked by 0.5 it stands 144 mm off the pitch axis.
  const plate: Solid = {
    shape: 'box',
    x: { min: -5, max: 5 },
    y: { min: 290, max: 300 },
    z: { min: -1, max: 1 },
  };
  const wall: Solid = {
    shape: 'box',
    x: { min: 30, max: 60 },
    y: { min: 100, max: 400 },
    z: { min: -200, max: -130 },
  };
  const c = contact(plate, wall, 0.5, -1);
  const w = createProbe();
  probe(c, 0, 0, 0, 0, w);
  const middle = w.lower;
  const b = boxOf([0, 0, 0, -0.1], [0, 0, 0, 0.1]);
  const moves = travel(b, 0, 0, 0, 0, c.engine.reach(c.rock));
  let changed = 0;
  for (const pitch of [-0.1, 0.1]) {
    probe(c, 0, 0, 0, pitch, w);
    changed = Math.max(changed, Math.abs(w.lower - middle));
  }
  expect(changed).toBeGreaterThan(5);
  expect(changed).toBeLessThan(moves + BRACKET);
});

test('an overlap row allows for a face far from the datum, which any turn draws nearer to it', () => {
  // The hind face stands 600 mm behind the datum and 5 mm inside the wall: turned by 0.06 it comes
  // 600 (1 - cos 0.06) = 1.08 mm out of it, and at one end of the turn no corner of it is deeper.
  const sides = { y: { min: -100, max: 100 }, z: { min: -50, max: 50 } };
  const engine: Solid = { shape: 'box', x: { min: -600, max: -400 }, ...sides };
  const wall: Solid = {
    shape: 'box',
    x: { min: -900, max: -595 },
    y: { min: -300, max: 300 },
    z: { min: -300, max: 300 },
  };
  const c = contact(engine, wall, 0, -1);
  const b = boxOf([-0.1, -0.1, -0.1, -0.06], [0.1, 0.1, 0.1, 0.06]);
  const rows = new Rows();
  const w = createProbe();
  probe(c, 0, 0, 0, 0, w);
  expect(w.lower).toBeCloseTo(-5, 6);
  expect(overlapRow(c, b, w, rows)).toBe(true);
  expect(over(c, b, rows, 0, corners)).toBeLessThan(BRACKET);
});
