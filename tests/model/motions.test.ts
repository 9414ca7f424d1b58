import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { isRoundAbout, radiusAbout } from '../../src/model/solids/about-axis.js';
import { readScenario } from '../../src/model/read.js';
import type { Scenario, Solid, Turn, Vec3 } from '../../src/model/scenario.js';
import { scenarioSchema } from '../../src/model/schema.js';
import { part } from './sample-bay.js';

const DEGREE = Math.PI / 180;

const FILE = `berth: 1
units: mm
driver: left
datums: { chassis: { axle: { x: 100 } } }
position: { setback: [0, 9], offset: 0, height: 0, pitch: 3 }
rock: { by: 30, at: left cover }
lift: 1 in
together: [[right arm, left arm], [drag link, valve]]
engine:
  left cover: { mirror: right cover, box: { x: [-200, 0], y: [-240, -100], z: [100, 320] } }
chassis:
  right arm:
    kind: steering linkage
    mirror: left arm
    box: { x: [0, 200], y: [300, 320], z: [-20, 0] }
    turn: { about: z, at: [20 behind axle, 310, -10], by: [-30, 35] }
  axle:
    mirror: other axle
    cylinder: { axis: y, from: -600, to: 0, center: [0, -300], diameter: 80 }
    turn: { about: y, at: [0, 0, -200 +- 3], by: [-5, 8 deg] }
  drag link: { box: { x: [0, 9], y: [0, 9], z: [0, 9] }, sweep: { y: [-5, 5] } }
  valve: { box: { x: [0, 9], y: [20, 29], z: [0, 9] }, sweep: { y: [-5, 5] } }
rules: [{ between: [engine, chassis], gap: 5 }]
`;

function read(text: string): Scenario {
  const { scenario, problems } = readScenario(text, 'yaml');
  expect(problems).toEqual([]);
  return scenario!;
}

describe('motions as a file has them', () => {
  const s = read(FILE);
  const turnOf = (name: string) => s.parts.find((one) => one.name === name)!.turn!;

  it('are read: turns, lift, parts in step', () => {
    expect(turnOf('right arm')).toEqual({
      about: 'z',
      at: [120, 310, -10],
      by: { min: -30 * DEGREE, max: 35 * DEGREE },
    });
    expect(s.lift).toBe(25.4);
    expect(s.together).toEqual([
      ['right arm', 'left arm'],
      ['drag link', 'valve'],
    ]);
    expect(s.parts.filter(({ turn }) => turn !== undefined)).toHaveLength(4);
  });

  it('take rock from how far a part moves at its farthest point', () => {
    expect(s.rock).toBeCloseTo(Math.asin(30 / 400), 12);
    const atOther = read(FILE.replace('at: left cover', 'at: right cover'));
    expect(atOther.rock).toBeCloseTo(s.rock, 12);
    expect(read(FILE.replace(/rock: .*/, 'rock: 1 1/2')).rock).toBeCloseTo(1.5 * DEGREE, 12);
    expect(read(FILE.replace('by: 30', 'by: 2 in')).rock).toBeCloseTo(Math.asin(50.8 / 400), 12);
  });

  it('keep what a pivot rests on, by axis, also of the mirror image', () => {
    const [error] = s.measurements;
    expect(s.measurements).toHaveLength(1);
    expect(error).toMatchObject({ error: 3, path: ['chassis', 'axle', 'turn', 'at', 2] });
    expect(turnOf('axle').taken).toEqual({ z: [0] });
    expect(turnOf('other axle').taken).toEqual({ z: [0] });
    expect(turnOf('right arm')).not.toHaveProperty('taken');
  });

  it('are accepted by the schema, and none are needed', () => {
    expect(scenarioSchema.safeParse(parse(FILE)).success).toBe(true);
    const plain = read(FILE.replace(/^(rock|lift|together): .*\n/gm, ''));
    expect(plain).toMatchObject({ rock: 0, lift: 0, together: [] });
  });
});

/** Right-handed turn about an axis through a point, written out on its own. */
function turned({ about, at }: Pick<Turn, 'about' | 'at'>, by: number, point: Vec3): Vec3 {
  const [x, y, z] = point.map((v, i) => v - at[i]!) as [number, number, number];
  const [c, s] = [Math.cos(by), Math.sin(by)];
  const moved: Record<Turn['about'], Vec3> = {
    x: [x, y * c - z * s, y * s + z * c],
    y: [x * c + z * s, y, -x * s + z * c],
    z: [x * c - y * s, x * s + y * c, z],
  };
  return moved[about].map((v, i) => v + at[i]!) as unknown as Vec3;
}

it.each(['x', 'y', 'z'] as const)(
  'a mirror image about %s goes through the same places, mirrored',
  (about) => {
    const s = read(FILE.replace('about: z', `about: ${about}`));
    const [right, left] = ['right arm', 'left arm'].map((name) =>
      s.parts.find((p) => p.name === name)!,
    );
    const [own, other] = [right!.turn!, left!.turn!];
    const mirror = ([x, y, z]: Vec3): Vec3 => [x, -y, z];
    const tip: Vec3 = [200, 320, 0];
    // The share of the way runs back where the sense of turning does.
    const runsBack = about !== 'y';
    for (let share = 0; share <= 1; share += 1 / 16) {
      const along = ({ by }: Turn, at: number) => by.min + (by.max - by.min) * at;
      const seen = mirror(turned(own, along(own, share), tip));
      const there = turned(other, along(other, runsBack ? 1 - share : share), mirror(tip));
      there.forEach((v, i) => expect(v).toBeCloseTo(seen[i]!, 9));
    }
  },
);

describe('how far a part reaches from an axis', () => {
  const reach = (...solids: Solid[]) =>
    radiusAbout(part('one', 'engine', { solids }), 'x', [0, 0, 0]);
  const box: Solid = {
    shape: 'box',
    x: { min: 0, max: 9 },
    y: { min: -4, max: 1 },
    z: { min: 1, max: 3 },
  };

  it('is that of its farthest point', () => {
    expect(reach(box)).toBe(5);
    expect(reach({ shape: 'ball', center: [7, 3, 4], diameter: 2 }, box)).toBe(6);
    expect(reach({ shape: 'tube', from: [0, 0, 0], to: [7, -3, 4], diameter: 2 })).toBe(6);
    const along: Solid = {
      shape: 'cylinder',
      axis: 'x',
      from: 0,
      to: 9,
      center: [3, 4],
      diameter: 4,
    };
    expect(reach(along)).toBeCloseTo(7, 9);
    const across: Solid = { ...along, axis: 'y', from: -4, to: 9, center: [50, 10] };
    expect(reach(across)).toBeCloseTo(Math.hypot(9, 12), 9);
  });

  it('is found for tilted discs, never more than any point of the rim is', () => {
    for (let degrees = 0; degrees <= 90; degrees += 15) {
      const by = degrees * DEGREE;
      const tilted: Solid = {
        shape: 'cylinder',
        axis: 'z',
        from: 10,
        to: 12,
        center: [2, 5],
        diameter: 16,
        tilt: { about: 'x', by, at: [0, 0, 0] },
      };
      let rim = 0;
      for (let k = 0; k < 7200; k++) {
        const [c, s] = [Math.cos((k * Math.PI) / 3600), Math.sin((k * Math.PI) / 3600)];
        for (const z of [10, 12]) {
          const [, y, up] = turned({ about: 'x', at: [0, 0, 0] }, by, [2 + 8 * c, 5 + 8 * s, z]);
          rim = Math.max(rim, Math.hypot(y, up));
        }
      }
      expect(reach(tilted)).toBeCloseTo(rim, 5);
    }
  });

  it('tells what is round about an axis from what is not', () => {
    const round = (solid: Solid, through: Vec3 = [0, 3, 4]) =>
      isRoundAbout(part('one', 'engine', { solids: [solid] }), 'x', through);
    const along: Solid = {
      shape: 'cylinder',
      axis: 'x',
      from: 0,
      to: 9,
      center: [3, 4],
      diameter: 4,
    };
    expect(round(along)).toBe(true);
    expect(round(along, [99, 3, 4])).toBe(true);
    expect(round(along, [0, 3, 5])).toBe(false);
    expect(round({ ...along, tilt: { about: 'z', by: 0.1, at: [0, 3, 4] } })).toBe(false);
    expect(round({ shape: 'ball', center: [5, 3, 4], diameter: 2 })).toBe(true);
    expect(round({ shape: 'tube', from: [1, 3, 4], to: [5, 3, 4], diameter: 2 })).toBe(true);
    expect(round(box, [0, -1.5, 2])).toBe(false);
  });
});
