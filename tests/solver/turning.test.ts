/** Turning parts and a failed mount in the solver: rows, travel, and answers known by construction. */

import { describe, expect, test } from 'vitest';
import { movingPair, type MovingPair } from '../../src/geometry/motion/moving-pair.js';
import { TurningShape } from '../../src/geometry/motion/turning-shape.js';
import { shapeOf } from '../../src/geometry/shape.js';
import type { Part, Scenario, Solid, Turn } from '../../src/model/scenario.js';
import type { Contact } from '../../src/solver/measuring/contact.js';
import { axisRow, cornerRow, witnessRow } from '../../src/solver/bounding/bounds.js';
import { boxOf, travel, type PositionBox } from '../../src/solver/box.js';
import { measureAt } from '../../src/solver/measuring/measure.js';
import { motionReach } from '../../src/solver/measuring/motion.js';
import { overlapRow } from '../../src/solver/bounding/overlap-row.js';
import { EngineSolid } from '../../src/solver/measuring/pose.js';
import { createProbe, probe } from '../../src/solver/measuring/probe.js';
import { Rows } from '../../src/solver/rows.js';
import { between, point, seeded, solid, SORTS, type Random } from '../geometry/random.js';
import { denseSearch } from '../support/dense.js';
import { scenarioOf } from '../support/doc.js';
import { randomBay } from '../support/random-bays.js';
import { solve, TOLERANCE } from '../support/solve.js';

const DEGREE = Math.PI / 180;
/** Curved gaps are bracketed to this, millimetres. */
const BRACKET = 2e-3;

function randomTurn(random: Random): Turn {
  const about = (['x', 'y', 'z'] as const)[Math.floor(3 * random())]!;
  const min = -between(random, 0, 20) * DEGREE;
  return {
    about,
    at: point(random, 150),
    by: { min, max: min + between(random, 0, 25) * DEGREE },
  };
}

function contactOf(
  engine: Solid,
  chassis: Solid,
  motion: MovingPair,
  axis: -1 | 0 | 1 | 2,
): Contact {
  const of = new EngineSolid(shapeOf(engine));
  const other = shapeOf(chassis);
  return {
    id: 0,
    group: 0,
    engine: of,
    chassis: other,
    engineStill: of,
    chassisStill: other,
    rock: motion.rock,
    motion,
    reach: motionReach(motion),
    axis,
    sign: 1,
    needed: 10,
  };
}

function randomContact(random: Random, i: number): Contact {
  const engine = solid(random, SORTS[i % SORTS.length]!, 80);
  const chassis = solid(random, SORTS[(i + 5) % SORTS.length]!, 80);
  const a = i % 3 === 1 ? shapeOf(engine) : new TurningShape(engine, {}, randomTurn(random));
  const b = i % 3 === 0 ? shapeOf(chassis) : new TurningShape(chassis, {}, randomTurn(random));
  const rock = random() < 0.3 ? 2 * DEGREE : 0;
  const lift = random() < 0.3 ? 25 : 0;
  const axis = i % 4 === 0 ? (((i / 4) % 3) as 0 | 1 | 2) : -1;
  return contactOf(engine, chassis, movingPair(a, b, rock, lift), axis);
}

/** Half of them near where the solids overlap, and small. */
function randomBox(random: Random): PositionBox {
  const near = random() < 0.5;
  const mid = [...point(random, near ? 30 : 90), between(random, -0.1, 0.1)];
  const half = [0, 1, 2].map(() => (random() < 0.3 ? 0 : between(random, 0.01, near ? 5 : 60)));
  half.push([0, 0.002, 0.02, 0.06][Math.floor((near ? 2 : 4) * random())]!);
  return boxOf(
    mid.map((v, k) => v - half[k]!),
    mid.map((v, k) => v + half[k]!),
  );
}

/** Places of a box, in shares of its half widths: some within, and some corners. */
function places(random: Random): number[][] {
  const any = () => between(random, -1, 1);
  const end = () => (random() < 0.5 ? -1 : 1);
  return [...Array(8).keys()].map((n) => [0, 1, 2, 3].map(n < 4 ? any : end));
}

describe('rows of turning parts', () => {
  test('lie above the margin everywhere in their box, and gaps change by no more than the travel', () => {
    const random = seeded(81);
    const applied = { witness: 0, corner: 0, overlap: 0, axis: 0 };
    for (let i = 0; i < 400; i++) {
      const c = randomContact(random, i);
      const b = randomBox(random);
      const w = createProbe();
      const at = createProbe();
      const [x, y, z, pitch] = b.mid as unknown as [number, number, number, number];
      probe(c, x, y, z, pitch, w);
      const rows = new Rows();
      if (c.axis >= 0) axisRow(c, b, w, rows);
      else {
        if (!w.overlap && witnessRow(c, b, w, rows) >= 0) applied.witness++;
        const row = rows.count;
        cornerRow(c, b, w, rows);
        applied.corner++;
        const balls = c.engine.shape.ball + c.chassis.ball;
        const overlaps = rows.values[row]! + rows.spread(row) + c.needed + balls <= 0;
        if (overlaps && overlapRow(c, b, w, rows)) applied.overlap++;
      }
      if (c.axis >= 0) applied.axis++;
      const moved = travel(b, x, y, z, pitch, c.reach);
      for (const u of places(random)) {
        const to = b.mid.map((mid, k) => mid + b.half[k]! * u[k]!);
        probe(c, to[0]!, to[1]!, to[2]!, to[3]!, at);
        for (let row = 0; row < rows.count; row++) {
          const above = rows.at(row, Float64Array.from(u));
          expect(at.lower - c.needed - above, `case ${i}`).toBeLessThan(BRACKET);
        }
        expect(at.upper).toBeGreaterThanOrEqual(w.lower - moved - BRACKET);
        expect(at.lower).toBeLessThanOrEqual(w.upper + moved + BRACKET);
      }
    }
    for (const [name, count] of Object.entries(applied)) {
      expect(count, `${name} rows checked`).toBeGreaterThan(name === 'overlap' ? 3 : 40);
    }
  }, 120_000);
});

/** The scenario with some of its parts changed, by name. */
function withParts(s: Scenario, changes: Readonly<Record<string, Partial<Part>>>): Scenario {
  return { ...s, parts: s.parts.map((part) => ({ ...part, ...changes[part.name] })) };
}

const PINNED = { setback: 0, offset: 0, height: 0, pitch: 0 };

describe('bays known by construction', () => {
  // The arm is 300 long and 20 thick, from its pivot at x = -300 cos 30, and swings 30 degrees either
  // way, so that its tip comes to (0, 150): a ball of radius 20 at (0, y) is y - 180 from it, and
  // 380 - y from a wall whose face is at 400. The best y is 280, where 100 is left.
  const tip = 300 * Math.cos(30 * DEGREE);
  const arm = {
    tube: {
      through: [
        [-tip, 0, 0],
        [300 - tip, 0, 0],
      ],
      diameter: 20,
    },
  } as const;
  const wall = { box: { x: [-500, 500], y: [400, 420], z: [-500, 500] } } as const;
  const ball = { ball: { center: [0, 0, 0], diameter: 40 } } as const;
  const turn: Turn = {
    about: 'z',
    at: [-tip, 0, 0],
    by: { min: -30 * DEGREE, max: 30 * DEGREE },
  };

  test('a steering arm on the chassis decides', () => {
    const drawn = scenarioOf({
      units: 'mm',
      position: { ...PINNED, offset: [0, 400] },
      engine: { ball },
      chassis: { arm, wall },
      rules: [{ between: ['engine', 'chassis'], gap: 0 }],
    });
    const still = solve(drawn, { only: 'main' });
    // The arm at rest: its end is 40.2 to the right of the ball's x, so it passes beside it.
    expect(still.main.optimum.position.offset).toBeCloseTo((380 + 30) / 2, 0);
    const { main } = solve(withParts(drawn, { arm: { turn } }), { only: 'main' });
    expect(main.best).toBe('proved');
    expect(main.optimum.margin).toBeLessThanOrEqual(100 + 1e-9);
    expect(main.optimum.margin).toBeGreaterThan(100 - TOLERANCE - 0.01);
    expect(main.bound).toBeGreaterThanOrEqual(100 - 1e-6);
    expect(Math.abs(main.optimum.position.offset - 280)).toBeLessThan(TOLERANCE + 0.02);
  });

  test('an arm on the engine decides, wherever the engine carries its pivot', () => {
    const drawn = scenarioOf({
      units: 'mm',
      position: { ...PINNED, offset: [-400, 0] },
      engine: { arm, wall },
      chassis: { ball },
      rules: [{ between: ['engine', 'chassis'], gap: 0 }],
    });
    const { main } = solve(withParts(drawn, { arm: { turn } }), { only: 'main' });
    expect(main.best).toBe('proved');
    expect(main.optimum.margin).toBeGreaterThan(100 - TOLERANCE - 0.01);
    expect(main.bound).toBeGreaterThanOrEqual(100 - 1e-6);
    expect(main.bound).toBeLessThanOrEqual(100 + TOLERANCE + 0.01);
  });

  test('a failed mount lifts the engine against a brake line, not against a hood', () => {
    const marginUnder = (kind: string): number => {
      const drawn = scenarioOf({
        units: 'mm',
        position: { ...PINNED, height: [-100, 100] },
        engine: { ball },
        chassis: {
          above: { kind, box: { x: [-500, 500], y: [-500, 500], z: [200, 220] } },
          below: { box: { x: [-500, 500], y: [-500, 500], z: [-220, -200] } },
        },
        rules: [{ between: ['engine', 'chassis'], gap: 0 }],
      });
      const answer = solve({ ...drawn, lift: 30 }, { only: 'main' });
      expect(answer.main.best).toBe('proved');
      return answer.main.optimum.margin;
    };
    expect(Math.abs(marginUnder('hood') - 180)).toBeLessThan(TOLERANCE + 0.02);
    expect(Math.abs(marginUnder('brake line') - 165)).toBeLessThan(TOLERANCE + 0.02);
    expect(Math.abs(marginUnder('steering shaft') - 165)).toBeLessThan(TOLERANCE + 0.02);
  });

  test('parts of one side keep their gap where they move together', () => {
    const drawn = scenarioOf({
      units: 'mm',
      position: PINNED,
      engine: { ball },
      chassis: {
        arm,
        'other arm': {
          tube: {
            through: [
              [-tip, 50, 0],
              [300 - tip, 50, 0],
            ],
            diameter: 20,
          },
        },
      },
      rules: [
        { between: ['arm', 'other arm'], gap: 0 },
        { between: ['engine', 'chassis'], gap: 0 },
      ],
    });
    const gapOf = (s: Scenario): number =>
      measureAt(s, [], { setback: 0, offset: 900, height: 0, pitch: 0 }).readings.find(
        ({ fixed }) => fixed,
      )!.gap;
    const other: Turn = { ...turn, at: [-tip, 50, 0] };
    const turned = withParts(drawn, { arm: { turn }, 'other arm': { turn: other } });
    // Parallel arms 50 apart and 20 thick, both at an angle t: 50 cos t - 20, least at 30 degrees.
    expect(gapOf(drawn)).toBeCloseTo(30, 6);
    const apart = 50 * Math.cos(30 * DEGREE) - 20;
    const together = gapOf({ ...turned, together: [['arm', 'other arm']] });
    expect(together).toBeLessThanOrEqual(apart + 1e-9);
    expect(together).toBeGreaterThan(apart - 0.011);
    expect(gapOf(turned)).toBeLessThan(-10);
    const sweep = { x: { min: 0, max: 0 }, y: { min: 0, max: 25 }, z: { min: 0, max: 0 } };
    const swept = withParts(drawn, { arm: { sweep }, 'other arm': { sweep } });
    expect(gapOf(swept)).toBeCloseTo(5, 6);
    expect(gapOf({ ...swept, together: [['arm', 'other arm']] })).toBeCloseTo(30, 6);
  });
});

test('dense search never beats the answer where parts turn', () => {
  let binding = 0;
  for (let seed = 1; seed <= 6; seed++) {
    const random = seeded(900 + seed);
    const drawn = scenarioOf({ ...randomBay({ random }), rock: 0 });
    const changes = Object.fromEntries(
      drawn.parts.slice(0, 4).map(({ name, side }) => {
        const turn = { ...randomTurn(random), by: { min: -6 * DEGREE, max: 8 * DEGREE } };
        return [name, side === 'engine' && seed % 2 === 0 ? {} : { turn }];
      }),
    );
    const scenario = withParts(drawn, changes);
    const { main, bestBound } = solve(scenario, { only: 'main' });
    expect(main.best).toBe('proved');
    const dense = denseSearch(scenario, { random, places: 40, polished: 1 });
    expect(dense.score).toBeLessThanOrEqual(bestBound + 1e-3);
    const tight = main.optimum.readings.filter((reading) => reading.binding);
    if (tight.some(({ between }) => between.some((name) => changes[name]?.turn))) binding++;
  }
  expect(binding).toBeGreaterThan(1);
}, 120_000);
