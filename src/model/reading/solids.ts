/** Solids as the file draws them, checked to be convex and of some thickness. */

import type { Path, Range, Solid, Tilt, Vec3 } from '../scenario.js';
import { SHAPES } from '../schema.js';
import type { RawSolid } from '../schema.js';
import { profileFault } from './profile.js';
import type { Reading } from './reading.js';

/** Millimetres: anything thinner than a micron is flat. */
const FLAT_MM = 1e-3;

/** Reads the one solid drawn here; a tube gives one a leg. Undefined once a problem is said. */
export function readSolid(c: Reading, raw: RawSolid, path: Path): readonly Solid[] | undefined {
  const drawn = SHAPES.filter((shape) => raw[shape] !== undefined);
  const shape = drawn[0];
  if (shape === undefined) {
    c.say('missing', path, 'no solid is drawn', { expected: SHAPES.join(', ') });
    return undefined;
  }
  if (drawn.length > 1) {
    const message = `${drawn.join(' and ')} make two solids`;
    c.say('bad solid', path, message, { expected: 'one, or a list of them under solids' });
    return undefined;
  }
  const tilted = raw.tilt === undefined || c.faulty([...path, 'tilt']);
  const tilt = tilted ? undefined : readTilt(c, raw.tilt!, [...path, 'tilt']);
  const at = [...path, shape];
  if (c.faulty(at)) return undefined;
  const solids = READERS[shape](c, raw, at);
  if (raw.tilt !== undefined && tilt === undefined) return undefined;
  return tilt === undefined ? solids : solids?.map((solid) => ({ ...solid, tilt }));
}

type Reader = (c: Reading, raw: RawSolid, at: Path) => readonly Solid[] | undefined;

const READERS: Readonly<Record<(typeof SHAPES)[number], Reader>> = {
  box: (c, raw, at) => {
    const [x, y, z] = (['x', 'y', 'z'] as const).map((axis) =>
      thickRange(c, raw.box![axis], [...at, axis]),
    );
    return x && y && z && [{ shape: 'box', x, y, z }];
  },
  cylinder: (c, raw, at) => {
    const { axis, from, to, center, diameter } = raw.cylinder!;
    const along = fromTo(c, from, to, at);
    const middle = c.point2(center, [...at, 'center']);
    const across = readDiameter(c, diameter, at);
    if (!along || !middle || across === undefined) return undefined;
    return [
      { shape: 'cylinder', axis, from: along.min, to: along.max, center: middle, diameter: across },
    ];
  },
  prism: (c, raw, at) => {
    const along = fromTo(c, raw.prism!.from, raw.prism!.to, at);
    const corners = all(raw.prism!.profile, (raw, i) => c.point2(raw, [...at, 'profile', i]));
    if (!along || !corners) return undefined;
    const fault = profileFault(corners, FLAT_MM);
    if (fault !== undefined) {
      c.say('bad solid', [...at, 'profile'], fault, {
        expected: 'a convex outline, its corners in order; split it into several prisms',
      });
      return undefined;
    }
    const { axis } = raw.prism!;
    return [{ shape: 'prism', axis, from: along.min, to: along.max, profile: corners }];
  },
  hull: (c, raw, at) => {
    const points = all(raw.hull!.points, (raw, i) => c.point(raw, [...at, 'points', i]));
    if (!points) return undefined;
    const few = points.length < 4;
    if (few || isFlat(points)) {
      const message = few ? 'a hull needs four points or more' : 'the points of the hull are flat';
      c.say('bad solid', [...at, 'points'], message, { expected: 'points not all in one plane' });
      return undefined;
    }
    return [{ shape: 'hull', points }];
  },
  ball: (c, raw, at) => {
    const center = c.point(raw.ball!.center, [...at, 'center']);
    const diameter = readDiameter(c, raw.ball!.diameter, at);
    return center && diameter !== undefined ? [{ shape: 'ball', center, diameter }] : undefined;
  },
  tube: (c, raw, at) => {
    const points = all(raw.tube!.through, (raw, i) => c.point(raw, [...at, 'through', i]));
    const diameter = readDiameter(c, raw.tube!.diameter, at);
    if (!points || diameter === undefined) return undefined;
    const path = [...at, 'through'];
    if (points.length < 2) {
      c.say('bad solid', path, 'a tube runs through two points or more');
      return undefined;
    }
    const legs = points.slice(1).map((to, i) => ({ from: points[i]!, to }));
    const short = legs.findIndex(({ from, to }) => lengthOf(minus(to, from)) <= FLAT_MM);
    if (short >= 0) {
      c.say('bad solid', [...path, short + 1], 'a leg of the tube has no length');
      return undefined;
    }
    return legs.map(({ from, to }) => ({ shape: 'tube' as const, from, to, diameter }));
  },
};

function readTilt(c: Reading, raw: NonNullable<RawSolid['tilt']>, path: Path): Tilt | undefined {
  const by = c.angle(raw.by, [...path, 'by']);
  const at = c.point(raw.at, [...path, 'at']);
  return by === undefined || at === undefined ? undefined : { about: raw.about, by, at };
}

type Ends = Parameters<Reading['range']>[0];

function thickRange(c: Reading, raw: Ends, path: Path): Range | undefined {
  const range = c.range(raw, path);
  if (range === undefined || range.max - range.min > FLAT_MM) return range;
  c.say('bad solid', path, 'the solid has no thickness here');
  return undefined;
}

function fromTo(c: Reading, from: Ends[0], to: Ends[0], at: Path): Range | undefined {
  const min = c.length(from, [...at, 'from']);
  const max = c.length(to, [...at, 'to']);
  if (min === undefined || max === undefined) return undefined;
  if (max - min > FLAT_MM) return { min, max };
  if (min > max) {
    c.say('bad range', [...at, 'from'], 'from is more than to', { expected: 'the lesser first' });
  } else {
    c.say('bad solid', [...at, 'to'], 'the solid has no length from end to end');
  }
  return undefined;
}

function readDiameter(c: Reading, raw: Ends[0], at: Path): number | undefined {
  return c.size(raw, [...at, 'diameter'], 'a diameter', 'bad solid', FLAT_MM);
}

/** Every item read, so that every problem is said; undefined when any is not readable. */
function all<T, U>(raw: readonly T[], read: (raw: T, index: number) => U | undefined) {
  const items = raw.map(read);
  const good = items.filter((item): item is U & {} => item !== undefined);
  return good.length === items.length ? good : undefined;
}

/** Whether all points lie within `FLAT_MM` of one plane. */
function isFlat(points: readonly Vec3[]): boolean {
  const from = points.map((point) => minus(point, points[0]!));
  const far = furthest(from, lengthOf);
  const long = lengthOf(far);
  if (long <= FLAT_MM) return true;
  const off = furthest(from, (v) => lengthOf(cross(far, v)));
  const normal = cross(far, off);
  if (lengthOf(normal) / long <= FLAT_MM) return true;
  const up = furthest(from, (v) => Math.abs(dot(normal, v)));
  return Math.abs(dot(normal, up)) / lengthOf(normal) <= FLAT_MM;
}

function furthest(vectors: readonly Vec3[], by: (v: Vec3) => number): Vec3 {
  return vectors.reduce((best, v) => (by(v) > by(best) ? v : best));
}

function minus(a: Vec3, b: Vec3): Vec3 {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

function dot(a: Vec3, b: Vec3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function cross(a: Vec3, b: Vec3): Vec3 {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

function lengthOf(v: Vec3): number {
  return Math.hypot(v[0], v[1], v[2]);
}
