/** A mount of plates and tube: sizes that can be worked out by hand, and flat patterns against their solids. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { patternsOf } from '../../../src/geometry/mounts/patterns.js';
import type { Pattern } from '../../../src/geometry/mounts/patterns.js';
import type { MountPieces } from '../../../src/geometry/mounts/pieces.js';
import { pieceSolids } from '../../../src/geometry/mounts/solids.js';
import { mountAt } from '../../../src/geometry/mounts/standing.js';
import { stockOf } from '../../../src/geometry/mounts/stock.js';
import type { PlateMount } from '../../../src/model/fitup/mounts.js';
import type { Position, Vec3 } from '../../../src/model/scenario.js';
import { carried, stanceOf } from '../../../src/model/stance.js';
import { cross, dot, lengthOf, minus, plus, unit } from '../../../src/model/vector.js';
import { AT_HOME, mounts, positions, UPRIGHT } from './random-mounts.js';

const DEGREE = Math.PI / 180;
const NEAR = 1e-9;

function piecesAt(mount: PlateMount, position: Position = AT_HOME): MountPieces {
  const { pieces } = mountAt(mount, position);
  if (!pieces) throw new Error('nothing can be cut');
  return pieces;
}

/** The boss's holes moved and turned about X through its middle. */
function bossAt(move: Vec3, lean = 0): PlateMount['boss'] {
  const [c, s] = [Math.cos(lean), Math.sin(lean)];
  const holes = UPRIGHT.boss.holes.map(([x, y]): Vec3 => {
    return [x + move[0], y * c + move[1], y * s + 254 + move[2]];
  });
  return { ...UPRIGHT.boss, holes, normal: [0, s, -c] };
}

describe('a mount, by hand', () => {
  it('straight up: cut square, as long as the distance less plates and rubber', () => {
    const { tube, tilt } = piecesAt(UPRIGHT);
    expect(tube.length).toBeCloseTo(254 - 12, 9);
    expect(tube.overall).toBeCloseTo(254 - 12, 9);
    expect([tube.cuts.base.mitre, tube.cuts.upper.mitre, tilt]).toEqual([0, 0, 0]);
    const soft = piecesAt({ ...UPRIGHT, insulator: { height: 20, diameter: 60 } });
    expect(soft.tube.length).toBeCloseTo(254 - 32, 9);
    expect(mountAt(UPRIGHT, AT_HOME)).toMatchObject({
      faults: [],
      vector: [0, 0, 254],
      reach: 254,
    });
  });

  it('at 45 degrees: the long side is the diameter longer, the two long sides across from each other', () => {
    const { tube, tilt } = piecesAt({ ...UPRIGHT, boss: bossAt([242, 0, 0]) });
    expect(tube.length).toBeCloseTo(242 * Math.SQRT2, 9);
    for (const end of ['base', 'upper'] as const) {
      expect(tube.cuts[end].mitre).toBeCloseTo(45 * DEGREE, 12);
      expect(tube.cuts[end].longer).toBeCloseTo(50, 9);
    }
    expect(Math.abs(tube.round)).toBeCloseTo(Math.PI, 9);
    expect(tilt).toBeCloseTo(0, 12);
    // Between parallel planes every line along the tube is as long as its centre.
    expect(tube.shortest).toBeCloseTo(tube.length, 9);
    expect(tube.overall).toBeCloseTo(tube.length + 50, 9);
  });

  it('under a boss that leans 30 degrees: one end square, the other OD tan 30', () => {
    // The plate's face towards the tube is 6 mm out of the boss's: the boss is moved by what that shifts.
    const shift = 6 * Math.sin(30 * DEGREE);
    const { tube, tilt } = piecesAt({ ...UPRIGHT, boss: bossAt([0, -shift, 0], 30 * DEGREE) });
    expect(tube.cuts.base.mitre).toBeCloseTo(0, 7);
    expect(tube.cuts.upper.mitre).toBeCloseTo(30 * DEGREE, 12);
    expect(tube.cuts.upper.longer).toBeCloseTo(50 * Math.tan(30 * DEGREE), 9);
    expect(tilt).toBeCloseTo(30 * DEGREE, 12);
    expect(tube.length).toBeCloseTo(254 - 6 - 6 * Math.cos(30 * DEGREE), 9);
  });

  it('turns with the engine, pattern and all', () => {
    const position = { setback: 300, offset: -20, height: 40, pitch: 5 * DEGREE };
    const moved = { ...UPRIGHT, pad: { ...UPRIGHT.pad, at: [320, -20, 40] as Vec3 } };
    const { upper, tilt } = piecesAt(moved, position);
    expect(tilt).toBeCloseTo(5 * DEGREE, 12);
    expect(upper.holes.map(({ at }) => at)).toEqual(
      piecesAt(UPRIGHT).upper.holes.map(({ at }) =>
        at.map((mm) => expect.closeTo(mm, 9) as number),
      ),
    );
  });

  it('has an upper plate that holds the holes by a margin, and the foot of the tube by half of one', () => {
    const narrow: PlateMount['boss'] = {
      ...UPRIGHT.boss,
      holes: [
        [-70, 0, 254],
        [70, 0, 254],
      ],
    };
    expect(piecesAt({ ...UPRIGHT, boss: narrow }).upper.outline).toEqual([
      [-95, -37.5],
      [95, -37.5],
      [95, 37.5],
      [-95, 37.5],
    ]);
    // Leaning back at 45 degrees the foot is half as long again, and a little less.
    const leaning = { ...narrow, holes: narrow.holes.map(([x, y, z]): Vec3 => [x, y + 242, z]) };
    const outline = piecesAt({ ...UPRIGHT, boss: leaning }).upper.outline;
    expect(outline[2]![1]).toBeCloseTo(25 * Math.SQRT2 + 12.5, 9);
    const upper = { thick: 6, margin: 25, size: [200, 120] } as const;
    expect(piecesAt({ ...UPRIGHT, boss: narrow, upper }).upper.outline[2]).toEqual([100, 60]);
  });

  it('weighs what its steel does', () => {
    // 7,850 kg/m3, common practice for steel: a plate of 200 x 160 x 6 with a 12 mm hole, a ring of 50 x 4.
    const stock = stockOf(piecesAt(UPRIGHT));
    const ring = (Math.PI / 4) * (50 ** 2 - 42 ** 2) * 242 * 7850e-9;
    const plate = (200 * 160 - (Math.PI / 4) * 12 ** 2) * 6 * 7850e-9;
    expect(stock[0]).toMatchObject({ of: 'tube', mass: expect.closeTo(ring, 9) as number });
    expect(stock[1]).toMatchObject({
      piece: 'base plate',
      mass: expect.closeTo(plate, 9) as number,
    });
  });

  it('says what cannot be made', () => {
    const faultsOf = (change: Partial<PlateMount>) =>
      mountAt({ ...UPRIGHT, ...change }, AT_HOME).faults.map(({ of }) => of);
    expect(faultsOf({ pad: { at: [0, 0, 400], normal: [0, 0, 1] } })).toEqual(['boss below pad']);
    expect(faultsOf({ boss: { ...UPRIGHT.boss, normal: [0, 0, 1] } })).toEqual(['pad behind boss']);
    expect(faultsOf({ boss: bossAt([500, 0, 0]) })).toContain('too sharp');
    expect(faultsOf({ base: { ...UPRIGHT.base, size: [48, 160], holes: [] } })).toEqual([
      'tube off plate',
    ]);
    expect(faultsOf({ base: { ...UPRIGHT.base, holes: [[28, 0]] } })).toEqual(['tube over hole']);
    expect(faultsOf({ base: { ...UPRIGHT.base, holes: [[3, 4]] } })).toEqual(['tube over hole']);
    const gussets = {
      count: 1,
      ends: ['base'],
      onPlate: 40,
      onTube: 40,
      thick: 6,
      first: 0,
    } as const;
    expect(faultsOf({ gussets })).toEqual([]);
    expect(faultsOf({ gussets: { ...gussets, onPlate: 80 } })).toEqual(['gusset off plate']);
    // The first stands ahead of the tube.
    expect(faultsOf({ gussets, base: { ...UPRIGHT.base, holes: [[-50, 0]] } })).toEqual([
      'gusset over hole',
    ]);
    const both = { ...gussets, ends: ['base', 'upper'] as const, onTube: 122, onPlate: 20 };
    expect(faultsOf({ gussets: both })).toEqual(['gussets too long']);
    expect(faultsOf({ gussets: { ...both, onTube: 120 } })).toEqual([]);
    const low = { ...UPRIGHT, boss: bossAt([0, 0, -220], 40 * DEGREE) };
    expect(mountAt(low, AT_HOME).faults.map(({ of }) => of)).toContain('no tube left');
  });
});

/** Every pattern of mounts at random, with the pieces; counts those that applied. */
function overPatterns(check: (pieces: MountPieces, mount: PlateMount, position: Position) => void) {
  let applied = 0;
  fc.assert(
    fc.property(mounts, positions, (mount, position) => {
      // The pad was put near the boss at home: it goes along.
      const pad = { ...mount.pad, at: carried(stanceOf(position), mount.pad.at) };
      const { pieces } = mountAt({ ...mount, pad }, position);
      if (!pieces) return;
      applied++;
      check(pieces, { ...mount, pad }, position);
    }),
    { numRuns: 35, seed: 20261 },
  );
  expect(applied).toBeGreaterThan(20);
}

const patternOf = (pieces: MountPieces, piece: Pattern['piece']): Pattern =>
  patternsOf(pieces).find((one) => one.piece === piece)!;
const distance = (a: readonly number[], b: readonly number[]): number =>
  Math.hypot(...a.map((one, k) => one - b[k]!));
const edges = (points: readonly (readonly number[])[]): number[] =>
  points.map((point, i) => distance(point, points[(i + 1) % points.length]!));
const sorted = (all: readonly number[]): number[] => [...all].sort((a, b) => a - b);
const same = (found: readonly number[], wanted: readonly number[]): void => {
  expect(found.length).toBe(wanted.length);
  found.forEach((one, i) => expect(Math.abs(one - wanted[i]!)).toBeLessThan(NEAR * 1000));
};

describe('flat patterns', () => {
  it('of plates: every edge is that of the solid, every hole that of the boss', () => {
    overPatterns((pieces, mount, position) => {
      const solids = pieceSolids(pieces, mount);
      for (const piece of ['base plate', 'upper plate'] as const) {
        const { solid } = solids.find((one) => one.piece === piece)!;
        if (solid.shape !== 'hull') throw new Error('no hull');
        same(edges(patternOf(pieces, piece).cut[0]!.points), edges(solid.points.slice(0, 4)));
      }
      const holes = mount.boss.holes.map((hole) => carried(stanceOf(position), hole));
      const laid = patternOf(pieces, 'upper plate').holes.map(({ at }) => at);
      same(
        laid.flatMap((a) => laid.map((b) => distance(a, b))),
        holes.flatMap((a) => holes.map((b) => distance(a, b))),
      );
    });
  });

  it('of plates: seen from the tube, the right way round', () => {
    overPatterns(({ base, upper }) => {
      for (const { lie, normal } of [base, upper]) {
        same(cross(lie.u, lie.v), normal);
        expect(lie.up === 'up' ? lie.v[2] : Math.abs(lie.v[1])).toBeGreaterThan(0);
      }
    });
  });

  it("of the tube's foot: every point lies on the plate and on the tube", () => {
    overPatterns((pieces) => {
      for (const plate of [pieces.base, pieces.upper]) {
        const { points } = patternOf(pieces, plate.end === 'base' ? 'base plate' : 'upper plate')
          .scribe[0]!;
        for (const [x, y] of points) {
          const at = plus(plus(plate.centre, plate.lie.u, x), plate.lie.v, y);
          const off = cross(minus(at, pieces.tube.from), pieces.tube.axis);
          expect(Math.abs(lengthOf(off) - pieces.tube.radius)).toBeLessThan(1e-6);
        }
      }
    });
  });

  it('of gussets: on the plate, on the tube, edge for edge', () => {
    overPatterns((pieces, mount) => {
      const { tube, gussets } = pieces;
      const patterns = patternsOf(pieces).filter(({ piece }) => piece === 'gusset');
      expect(patterns.reduce((sum, { count }) => sum + count, 0)).toBe(gussets.length);
      const solids = pieceSolids(pieces, mount).filter(({ piece }) => piece === 'gusset');
      gussets.forEach((gusset, g) => {
        const plate = gusset.end === 'base' ? pieces.base : pieces.upper;
        const offPlate = (at: Vec3) => Math.abs(dot(minus(at, plate.centre), plate.normal));
        const offTube = (at: Vec3) =>
          Math.abs(lengthOf(cross(minus(at, tube.from), tube.axis)) - tube.radius);
        expect(Math.max(offPlate(gusset.corner), offPlate(gusset.onPlate))).toBeLessThan(1e-6);
        expect(Math.max(offTube(gusset.corner), offTube(gusset.onTube))).toBeLessThan(1e-6);
        // Square to its plane is square to the tube: it stands on a line of the skin, outward.
        expect(Math.abs(dot(gusset.square, tube.axis))).toBeLessThan(NEAR);
        expect(lengthOf(cross(minus(gusset.onPlate, tube.from), tube.axis))).toBeGreaterThan(
          tube.radius,
        );
        // Up the tube from its plate, whichever end that is at.
        expect(dot(minus(gusset.onTube, gusset.corner), plate.normal)).toBeGreaterThan(0);
        const { solid } = solids[g]!;
        if (solid.shape !== 'hull') throw new Error('no hull');
        const [a, other, b, , c] = solid.points;
        same([distance(a!, other!)], [gusset.thick]);
        const pattern = patterns.find(
          ({ at }) => at!.end === gusset.end && at!.numbers.includes(gusset.number),
        )!;
        const laid = edges(pattern.cut[0]!.points);
        // Gussets within a hundredth of a millimetre are one pattern: the first is exact.
        const isFirst = pattern.at!.numbers[0] === gusset.number;
        const own = edges([a!, b!, c!]);
        own.forEach((edge, i) =>
          expect(Math.abs(edge - laid[i]!)).toBeLessThan(isFirst ? 1e-6 : 0.02),
        );
      });
    });
  });

  it("of the tube's wrap: every height is where the skin's line meets the plate", () => {
    overPatterns((pieces) => {
      const { tube, base, upper } = pieces;
      const { points } = patternOf(pieces, 'tube wrap').cut[0]!;
      const half = points.length / 2;
      const e0 = unit(cross(cross(tube.axis, tube.front), tube.axis));
      expect(Math.abs(dot(e0, tube.axis))).toBeLessThan(NEAR);
      const e1 = cross(tube.axis, e0);
      const meets = (clock: number, plate: typeof base): number => {
        const out = plus(plus([0, 0, 0], e0, Math.cos(clock)), e1, Math.sin(clock));
        const skin = plus(tube.from, out, tube.radius);
        return dot(minus(plate.centre, skin), plate.normal) / dot(tube.axis, plate.normal);
      };
      const least = Math.min(...points.slice(0, half).map(([x]) => meets(x / tube.radius, base)));
      points.forEach(([x, y], i) => {
        const at = meets(x / tube.radius, i < half ? base : upper);
        // The wrap starts where its lowest point would be, which may lie between two of those drawn.
        expect(
          Math.abs(y - (at - least) - (points[0]![1] - (meets(0, base) - least))),
        ).toBeLessThan(1e-6);
      });
      const wide = Math.max(...points.map(([x]) => x));
      expect(Math.abs(wide - 2 * Math.PI * tube.radius)).toBeLessThan(NEAR * 1000);
      const low = Math.min(...points.map(([, y]) => y));
      expect(low).toBeGreaterThan(-1e-9);
      expect(low).toBeLessThan(0.002 * tube.cuts.base.longer + 1e-9);
    });
  });

  it('of a tube: the longest and the shortest of its lines', () => {
    overPatterns((pieces) => {
      const { points } = patternOf(pieces, 'tube wrap').cut[0]!;
      const half = points.length / 2;
      const long = points.slice(0, half).map(([, y], i) => points[points.length - 1 - i]![1] - y);
      const { shortest, overall } = pieces.tube;
      expect(Math.min(...long)).toBeGreaterThanOrEqual(shortest - 1e-9);
      expect(Math.min(...long) - shortest).toBeLessThan(0.1);
      const top = Math.max(...points.map(([, y]) => y));
      expect(overall - top).toBeGreaterThanOrEqual(-1e-9);
      expect(overall - top).toBeLessThan(0.1);
    });
  });

  it('has like gussets once, with how many there are', () => {
    const gussets = {
      count: 4,
      ends: ['base', 'upper'],
      onPlate: 20,
      onTube: 40,
      thick: 6,
      first: 0,
    };
    const patterns = patternsOf(piecesAt({ ...UPRIGHT, gussets } as PlateMount));
    const counts = patterns.filter(({ piece }) => piece === 'gusset').map(({ count }) => count);
    expect(sorted(counts)).toEqual([4, 4]);
  });
});
