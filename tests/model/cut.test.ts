/** Parts with a face cut back, against a solid modeller, and sizes worked out by hand. */

import type { Manifold } from 'manifold-3d';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { axisRotation } from '../../src/geometry/rotation.js';
import { cutPart, takenOff } from '../../src/model/solids/cut.js';
import { partExtents } from '../../src/model/solids/extents.js';
import { AXES } from '../../src/model/scenario.js';
import type {
  Axis,
  Box,
  Part,
  PositionRanges,
  Range,
  Solid,
  Tilt,
  Trim,
  Vec3,
} from '../../src/model/scenario.js';
import { openOracle } from '../geometry/oracle.js';
import type { Oracle } from '../geometry/oracle.js';
import { between, FLAT_FACED, seeded, solid as randomSolid } from '../geometry/random.js';
import type { Random, Sort } from '../geometry/random.js';

/** Of a volume: what the modeller and we may differ by. */
const SAME = 1e-6;
/** Corners of what stands for a round end, as a multiple of its radius. */
const STANDS_OUT = 1 / Math.cos(Math.PI / 8) / Math.cos(Math.PI / 24);
const FAR = 1e4;

let oracle: Oracle;
beforeAll(async () => {
  oracle = await openOracle();
});

const made: Manifold[] = [];
afterEach(() => {
  for (const body of made.splice(0)) body.delete();
});
function keep(body: Manifold): Manifold {
  made.push(body);
  return body;
}

const pinned = (at: Vec3): PositionRanges => {
  const [setback, offset, height] = at.map((v) => ({ min: v, max: v }));
  return { setback: setback!, offset: offset!, height: height!, pitch: { min: 0, max: 0 } };
};
const ENGINE: Vec3 = [300, 20, 150];

function partOf(solids: readonly Solid[], mirrored = false): Part {
  return { name: 'part', side: 'chassis', solids, mirrored, guess: false } as unknown as Part;
}

function trimOf(cut: Trim['cut'], over?: Partial<Box>): Trim {
  return { part: 'part', cut, upTo: 1, hours: 0, cost: 0, ...(over && { over }) };
}

function cutTo(part: Part, cut: Trim['cut'], depth: number, over?: Partial<Box>): Part {
  return cutPart(part, [{ trim: trimOf(cut, over), depth }], pinned(ENGINE));
}

/** The modeller's copy of a solid as it stands. */
function bodyOf({ tilt, ...solid }: Solid, mirrored: boolean): Manifold {
  const turn = rotationOf(tilt);
  const at = tilt?.at ?? [0, 0, 0];
  const back = turned(turn, at);
  const { body } = oracle.faceted(solid, turn, [at[0] - back[0], at[1] - back[1], at[2] - back[2]]);
  keep(body);
  return mirrored ? keep(body.mirror([0, 1, 0])) : body;
}

function rotationOf(tilt: Tilt | undefined): Float64Array {
  const axis = AXES.map((one) => (one === (tilt?.about ?? 'x') ? 1 : 0));
  return axisRotation(axis[0]!, axis[1]!, axis[2]!, tilt?.by ?? 0, new Float64Array(9));
}

function turned(r: Float64Array, [x, y, z]: Vec3): Vec3 {
  const row = (i: number) => r[3 * i]! * x + r[3 * i + 1]! * y + r[3 * i + 2]! * z;
  return [row(0), row(1), row(2)];
}

function wholeOf(part: Part): Manifold {
  const bodies = part.solids.map((one) => bodyOf(one, part.mirrored));
  return bodies.reduce((all, body) => keep(all.add(body)), bodyOf(NOTHING, false));
}
/** A crumb far from everything, so that nothing is something too. */
const NOTHING: Solid = {
  shape: 'box',
  x: { min: FAR, max: FAR + 0.01 },
  y: { min: 0, max: 0.01 },
  z: { min: 0, max: 0.01 },
};

/** A box as wide as all that is here, but for one axis or more. */
function slab(over: Partial<Box>): Manifold {
  const all = { min: -FAR / 2, max: FAR / 2 };
  return bodyOf({ shape: 'box', x: all, y: all, z: all, ...over }, false);
}

/** What the plane of a cut takes away of a part between these ends, over the stretch. */
function taken(
  { min, max }: Range,
  cut: keyof typeof FACE,
  depth: number,
  over: Partial<Box> = {},
): Manifold {
  const [axis, end] = FACE[cut];
  const range =
    end === 'max' ? { min: max - depth, max: FAR / 2 } : { min: -FAR / 2, max: min + depth };
  return keep(slab({ [axis]: range }).intersect(slab(over)));
}
/** The axis that a cut runs along, and the end that it takes away. */
const FACE: Readonly<Record<Exclude<Trim['cut'], 'outward'>, readonly [Axis, 'min' | 'max']>> = {
  down: ['z', 'max'],
  up: ['z', 'min'],
  ahead: ['x', 'max'],
  back: ['x', 'min'],
  left: ['y', 'max'],
  right: ['y', 'min'],
};

/** How far a part reaches along an axis, by the modeller. */
function reachOf(part: Part, axis: Axis): Range {
  const i = AXES.indexOf(axis);
  const boxes = part.solids.map((one) => bodyOf(one, part.mirrored).boundingBox());
  return {
    min: Math.min(...boxes.map(({ min }) => min[i]!)),
    max: Math.max(...boxes.map(({ max }) => max[i]!)),
  };
}

interface Case<Way extends Trim['cut'] = Trim['cut']> {
  readonly part: Part;
  readonly cut: Way;
  readonly depth: number;
  readonly over?: Partial<Box>;
}

const WAYS = Object.keys(FACE) as (keyof typeof FACE)[];

function pick<T>(random: Random, from: readonly T[]): T {
  return from[Math.floor(from.length * random())]!;
}

/** A random part of these sorts with a random cut, deep enough now and then to take all of it. */
function randomCase(random: Random, sorts: readonly Sort[]): Case<keyof typeof FACE> {
  const one = (): Solid => {
    const solid = randomSolid(random, pick(random, sorts), 60);
    if (random() < 0.5) return solid;
    const by = between(random, -1, 1);
    return { ...solid, tilt: { about: pick(random, AXES), by, at: [10, -20, 5] } };
  };
  const part = partOf(random() < 0.6 ? [one()] : [one(), one()], random() < 0.4);
  const extents = partExtents(part);
  const cut = pick(random, WAYS);
  const { min, max } = extents[FACE[cut][0]];
  const depth = between(random, 0, 1.2) * (max - min);
  const stretch = (axis: Axis) => {
    const { min: low, max: high } = extents[axis];
    const ends = [between(random, low - 10, high + 10), between(random, low - 10, high + 10)];
    return { min: Math.min(...ends), max: Math.max(...ends) };
  };
  const axes = AXES.filter(() => random() < 0.4);
  if (axes.length === 0) return { part, cut, depth };
  return { part, cut, depth, over: Object.fromEntries(axes.map((axis) => [axis, stretch(axis)])) };
}

/** Pieces against the original less what was taken: volumes of either without the other. */
function compared(before: Manifold, after: Part, gone: Manifold) {
  const expected = keep(before.subtract(gone));
  const pieces = wholeOf(after);
  return {
    missing: keep(expected.subtract(pieces)).volume(),
    tooMuch: keep(pieces.subtract(expected)).volume(),
    whole: before.volume(),
    left: expected.volume(),
  };
}

describe('flat-faced parts', () => {
  it.each([1, 2, 3])('are the original less what the plane takes, seed %i', (seed) => {
    const random = seeded(seed);
    const seen = { all: 0, none: 0, some: 0, over: 0 };
    for (let n = 0; n < 60; n++) {
      const { part, cut, depth, over } = randomCase(random, FLAT_FACED);
      const after = cutTo(part, cut, depth, over);
      const { missing, tooMuch, whole, left } = compared(
        wholeOf(part),
        after,
        taken(reachOf(part, FACE[cut][0]), cut, depth, over),
      );
      expect(missing / whole, `case ${n}`).toBeLessThan(SAME);
      expect(tooMuch / whole, `case ${n}`).toBeLessThan(SAME);
      seen[left < SAME * whole ? 'all' : whole - left < SAME * whole ? 'none' : 'some']++;
      if (over) seen.over++;
      for (const body of made.splice(0)) body.delete();
    }
    expect(Math.min(seen.all, seen.none, seen.over)).toBeGreaterThan(0);
    expect(seen.some).toBeGreaterThan(20);
  });

  it.each([4, 5])(
    'have what the plane takes taken off them, no more and no less, seed %i',
    (seed) => {
      const random = seeded(seed);
      let some = 0;
      for (let n = 0; n < 60; n++) {
        const { part, cut, depth, over } = randomCase(random, FLAT_FACED);
        const cuts = [{ trim: trimOf(cut, over), depth }];
        const off = wholeOf(partOf(takenOff(part, cuts, pinned(ENGINE))));
        const before = wholeOf(part);
        const gone = keep(before.intersect(taken(reachOf(part, FACE[cut][0]), cut, depth, over)));
        const whole = before.volume();
        // The crumb that stands for nothing is in `off` alone.
        expect(keep(off.subtract(gone)).volume() / whole, `case ${n}`).toBeLessThan(2 * SAME);
        expect(keep(gone.subtract(off)).volume() / whole, `case ${n}`).toBeLessThan(2 * SAME);
        if (gone.volume() > SAME * whole) some++;
        for (const body of made.splice(0)) body.delete();
      }
      expect(some).toBeGreaterThan(20);
    },
  );

  it('lose more the deeper the cut', () => {
    const random = seeded(5);
    let less = 0;
    for (let n = 0; n < 60; n++) {
      const { part, cut, depth, over } = randomCase(random, FLAT_FACED);
      const [shallow, deep] = [0.6, 1].map((share) =>
        wholeOf(cutTo(part, cut, depth * share, over)),
      );
      const [v, w] = [shallow!.volume(), deep!.volume()];
      expect(keep(deep!.subtract(shallow!)).volume()).toBeLessThan(SAME * (v + 1));
      if (w < v * 0.99) less++;
      for (const body of made.splice(0)) body.delete();
    }
    expect(less).toBeGreaterThan(20);
  });

  it('are cut twice, each cut from the face as drawn', () => {
    const box = partOf([boxOf([0, 100], [10, 30], [0, 20])]);
    const cuts = [
      { trim: trimOf('down', { x: { min: 0, max: 60 } }), depth: 5 },
      { trim: trimOf('down', { x: { min: 40, max: 100 } }), depth: 8 },
    ];
    const after = wholeOf(cutPart(box, cuts, pinned(ENGINE)));
    expect(after.volume()).toBeCloseTo(20 * (40 * 15 + 60 * 12), 3);
  });
});

describe('round parts', () => {
  /** How far a point lies from the middle line of a round solid before its tilt, over its radius. */
  function outBy(solid: Solid, point: Vec3): number {
    if (solid.shape === 'ball') return distance(point, solid.center) / (solid.diameter / 2);
    if (solid.shape === 'tube') {
      const run = solid.to.map((v, i) => v - solid.from[i]!);
      const along = point.map((v, i) => v - solid.from[i]!);
      const length = run.reduce((sum, v) => sum + v * v, 0);
      const t = along.reduce((sum, v, i) => sum + v * run[i]!, 0) / length;
      const near = solid.from.map((v, i) => v + Math.min(1, Math.max(0, t)) * run[i]!);
      return distance(point, near) / (solid.diameter / 2);
    }
    if (solid.shape !== 'cylinder') throw new Error(solid.shape);
    const i = AXES.indexOf(solid.axis);
    const across = point.filter((_, k) => k !== i);
    if (point[i]! < solid.from - SAME || point[i]! > solid.to + SAME) return Infinity;
    return distance(across, solid.center) / (solid.diameter / 2);
  }

  const ROUND = [
    ['cylinder', 1 / Math.cos(Math.PI / 48) ** 2],
    ['tube', STANDS_OUT],
    ['ball', STANDS_OUT],
  ] as const;

  it.each(ROUND)('of a %s no metal is lost, and little is added', (sort, most) => {
    const random = seeded(7);
    const seen = { cut: 0, missed: 0, over: 0, exact: 0 };
    for (let n = 0; n < 30; n++) {
      const { part, cut, depth, over } = randomCase(random, [sort]);
      const after = cutTo(part, cut, depth, over);
      const whole = wholeOf(part);
      // The modeller's facets lie inside what is round, and so must what is left of them.
      const gone = taken(partExtents(part)[FACE[cut][0]], cut, depth, over);
      const { missing, left } = compared(whole, after, gone);
      expect(missing / whole.volume(), `case ${n}`).toBeLessThan(SAME);
      const standing = keep(wholeOf(after).intersect(gone));
      expect(standing.volume() / whole.volume(), `case ${n}`).toBeLessThan(SAME);
      for (const piece of after.solids) {
        if (piece.shape !== 'hull') seen.exact++;
        const points = piece.shape === 'hull' ? piece.points : [];
        for (const point of points) {
          const out = part.solids.map((solid) =>
            outBy(solid, asDrawn(solid, part.mirrored, point)),
          );
          expect(Math.min(...out)).toBeLessThan(most + 1e-9);
        }
      }
      if (over) seen.over++;
      seen[left < whole.volume() * (1 - SAME) ? 'cut' : 'missed']++;
      for (const body of made.splice(0)) body.delete();
    }
    expect(seen.cut).toBeGreaterThan(8);
    expect(Math.min(seen.missed, seen.over, seen.exact)).toBeGreaterThan(0);
  });

  /** A point of a part as it stands, in the frame its solid was drawn in. */
  function asDrawn({ tilt }: Solid, mirrored: boolean, [x, y, z]: Vec3): Vec3 {
    const stood: Vec3 = mirrored ? [x, -y, z] : [x, y, z];
    if (!tilt) return stood;
    const from = stood.map((v, i) => v - tilt.at[i]!) as unknown as Vec3;
    const back = turned(rotationOf({ ...tilt, by: -tilt.by }), from);
    return [back[0] + tilt.at[0], back[1] + tilt.at[1], back[2] + tilt.at[2]];
  }
});

describe('what stays exactly what it was', () => {
  const box = boxOf([0, 100], [10, 30], [0, 20]);

  it('is a box, along any axis, in one piece or beside its notch', () => {
    const over = { x: { min: 40, max: 60 } };
    expect(cutTo(partOf([box]), 'down', 5).solids).toEqual([{ ...box, z: { min: 0, max: 15 } }]);
    expect(cutTo(partOf([box]), 'back', 30).solids).toEqual([{ ...box, x: { min: 30, max: 100 } }]);
    expect(cutTo(partOf([box]), 'down', 5, over).solids).toEqual([
      { ...box, x: { min: 0, max: 40 } },
      { ...box, x: { min: 60, max: 100 } },
      { ...box, x: { min: 40, max: 60 }, z: { min: 0, max: 15 } },
    ]);
  });

  it('is a mirrored box', () => {
    const { mirrored, solids } = cutTo(partOf([box], true), 'left', 5);
    expect({ mirrored, solids }).toEqual({
      mirrored: false,
      solids: [{ ...box, y: { min: -30, max: -15 } }],
    });
  });

  it('is a cylinder or prism cut across its own axis, mirrored ones too', () => {
    const rod: Solid = {
      shape: 'cylinder',
      axis: 'y',
      from: 5,
      to: 50,
      center: [7, 8],
      diameter: 4,
    };
    expect(cutTo(partOf([rod]), 'left', 10).solids).toEqual([{ ...rod, to: 40 }]);
    expect(cutTo(partOf([rod], true), 'right', 10).solids).toEqual([{ ...rod, from: -40, to: -5 }]);
    const profile = [[0, 0], [4, 0], [0, 4]] as const; // prettier-ignore
    const bar: Solid = { shape: 'prism', axis: 'z', from: 0, to: 9, profile };
    expect(cutTo(partOf([bar]), 'up', 2).solids).toEqual([{ ...bar, from: 2 }]);
  });

  it('is every solid that the cut misses, tilted, mirrored and round ones too', () => {
    const random = seeded(9);
    for (const sort of [...FLAT_FACED, 'ball', 'tube', 'cylinder'] as const) {
      const about = pick(random, AXES);
      const plain = randomSolid(random, sort, 40);
      for (const solid of [plain, { ...plain, tilt: { about, by: 0.4, at: [3, 4, 5] as const } }]) {
        const tall = boxOf([0, 10], [200, 210], [0, 900]);
        for (const mirrored of [false, true]) {
          const after = cutTo(partOf([solid, tall], mirrored), 'down', 100);
          expect(after.solids[0]!.shape).toBe(solid.shape);
          const [was, is] = [bodyOf(solid, mirrored), bodyOf(after.solids[0]!, false)];
          expect(keep(was.subtract(is)).volume()).toBeLessThan(SAME * was.volume());
          expect(keep(is.subtract(was)).volume()).toBeLessThan(SAME * was.volume());
        }
      }
    }
  });

  it('is a part that nothing is cut from', () => {
    const part = partOf([box], true);
    expect(cutTo(part, 'down', 0)).toBe(part);
  });
});

it('leaves no solid of a part that is cut away altogether', () => {
  const random = seeded(10);
  for (const sort of [...FLAT_FACED, 'ball', 'tube', 'cylinder'] as const) {
    const part = partOf([randomSolid(random, sort, 40)], random() < 0.5);
    for (const cut of WAYS) {
      const { min, max } = partExtents(part)[FACE[cut][0]];
      expect(cutTo(part, cut, max - min).solids, `${sort} ${cut}`).toEqual([]);
      expect(cutTo(part, cut, 0.9 * (max - min)).solids, `${sort} ${cut}`).not.toEqual([]);
    }
  }
});

describe('outward', () => {
  it('takes the face towards the centre of a part left or right of it', () => {
    const right = boxOf([0, 10], [20, 30], [0, 10]);
    expect(cutTo(partOf([right]), 'outward', 4).solids).toEqual([
      { ...right, y: { min: 24, max: 30 } },
    ]);
    expect(cutTo(partOf([right], true), 'outward', 4).solids).toEqual([
      { ...right, y: { min: -30, max: -24 } },
    ]);
  });

  it('takes the face towards the engine of a panel, along its normal', () => {
    // A firewall that leans back by 3 in 4, an inch thick: 0.8 along x, -0.6 along z.
    const corners: readonly Vec3[] = [[0, -50, 0], [0, 50, 0], [75, 50, 100], [75, -50, 100]]; // prettier-ignore
    const panel: Solid = { shape: 'panel', corners, thick: 10 };
    const along = ([x, , z]: Vec3) => 0.8 * x - 0.6 * z;
    const heights = (engine: Vec3) =>
      cutPart(partOf([panel]), [{ trim: trimOf('outward'), depth: 4 }], pinned(engine)).solids.map(
        (piece) => {
          const points = piece.shape === 'hull' ? piece.points : [];
          return [Math.min(...points.map(along)), Math.max(...points.map(along))];
        },
      );
    const [ahead, behind] = [heights([-200, 0, 50]), heights([300, 0, 50])];
    expect(ahead).toHaveLength(1);
    [-1, 5].forEach((v, i) => expect(ahead[0]![i]).toBeCloseTo(v, 9));
    [-5, 1].forEach((v, i) => expect(behind[0]![i]).toBeCloseTo(v, 9));
  });

  it('takes that of a random panel: nearer the engine nothing stands, and all else does', () => {
    const random = seeded(14);
    for (let n = 0; n < 40; n++) {
      const panel = randomSolid(random, 'panel', 30) as Extract<Solid, { shape: 'panel' }>;
      const tilt = {
        about: pick(random, AXES),
        by: between(random, -1, 1),
        at: [1, 2, 3] as const,
      };
      const part = partOf([random() < 0.5 ? panel : { ...panel, tilt }], random() < 0.5);
      const whole = wholeOf(part);
      const flat = { ...panel, thick: 0.001, ...(part.solids[0]!.tilt && { tilt }) } as Solid;
      const normal = normalOf(flat, part.mirrored, panel.corners.length);
      const at = dot(normal, ENGINE);
      const points = pointsOf(bodyOf(part.solids[0]!, part.mirrored)).map((p) => dot(normal, p));
      const depth = panel.thick * between(random, 0.2, 0.8);
      const near = at > (Math.min(...points) + Math.max(...points)) / 2;
      const away = near ? normal : (normal.map((v) => -v) as unknown as Vec3);
      const face = near ? Math.max(...points) : -Math.min(...points);
      const expected = keep(whole.trimByPlane([-away[0], -away[1], -away[2]], depth - face));
      const pieces = wholeOf(cutTo(part, 'outward', depth));
      const tolerance = SAME * whole.volume();
      expect(keep(expected.subtract(pieces)).volume(), `case ${n}`).toBeLessThan(tolerance);
      expect(keep(pieces.subtract(expected)).volume(), `case ${n}`).toBeLessThan(tolerance);
      for (const body of made.splice(0)) body.delete();
    }
  });

  /** The mean normal of a panel as it stands, by the shadows of its outline. */
  function normalOf(solid: Solid, mirrored: boolean, count: number): Vec3 {
    if (solid.shape !== 'panel') throw new Error(solid.shape);
    const turn = rotationOf(solid.tilt);
    const stood = solid.corners.map((corner): Vec3 => {
      const [x, y, z] = turned(turn, corner);
      return mirrored ? [x, -y, z] : [x, y, z];
    });
    const shadow = (i: 0 | 1 | 2, j: 0 | 1 | 2) =>
      stood.reduce((sum, a, k) => {
        const b = stood[(k + 1) % count]!;
        return sum + (a[i] - b[i]) * (a[j] + b[j]);
      }, 0);
    const n: Vec3 = [shadow(1, 2), shadow(2, 0), shadow(0, 1)];
    const length = Math.hypot(...n);
    return [n[0] / length, n[1] / length, n[2] / length];
  }
});

function boxOf(
  x: readonly [number, number],
  y: readonly [number, number],
  z: readonly [number, number],
): Solid {
  const range = ([min, max]: readonly [number, number]) => ({ min, max });
  return { shape: 'box', x: range(x), y: range(y), z: range(z) };
}

function distance(a: readonly number[], b: readonly number[]): number {
  return Math.hypot(...a.map((v, i) => v - b[i]!));
}

function dot(a: Vec3, b: Vec3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function pointsOf(body: Manifold): Vec3[] {
  const { vertProperties, numProp } = body.getMesh();
  return Array.from({ length: vertProperties.length / numProp }, (_, i): Vec3 => {
    const at = (k: number) => vertProperties[i * numProp + k]!;
    return [at(0), at(1), at(2)];
  });
}
