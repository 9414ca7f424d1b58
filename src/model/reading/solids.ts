/** Solids as the file draws them, checked to be convex and of some thickness. */

import type { Axis, Path, Range, Solid, Tilt, Vec3 } from '../scenario.js';
import { SHAPES } from '../schema.js';
import type { RawLength, RawSolid } from '../schema.js';
import { cross, dot, lengthOf, minus } from '../vector.js';
import type { Frame } from './frame.js';
import { all } from './items.js';
import { readPanel } from './panel.js';
import { FLAT_MM, profileFault } from './profile.js';
import { readRail } from './rail.js';

/**
 * Reads the one solid drawn here; a tube gives one a leg, a rail one a stretch between stations.
 * Undefined once a problem is said.
 */
export function readSolid(f: Frame, raw: RawSolid, path: Path): readonly Solid[] | undefined {
  const { c } = f;
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
  const before = f.taken.length;
  const tilted = raw.tilt === undefined || c.faulty([...path, 'tilt']);
  const tilt = tilted ? undefined : readTilt(f, raw.tilt!, [...path, 'tilt']);
  const at = [...path, shape];
  if (c.faulty(at)) return undefined;
  const solids = READERS[shape](f, raw, at);
  if (raw.tilt !== undefined && tilt === undefined) return undefined;
  const taken = f.taken.slice(before);
  return solids?.map((solid, i) => ({
    ...solid,
    ...(tilt === undefined ? {} : { tilt }),
    ...takenOf(taken, path, solid, i),
  }));
}

/**
 * What the numbers of one solid rest on, by slot: the path of the number below the solid's shape, or
 * `tilt.at.0`; a tube's or rail's points are `from` and `to` of the leg.
 */
function takenOf(
  taken: Frame['taken'],
  path: Path,
  { shape }: Solid,
  leg: number,
): Pick<Solid, 'taken'> {
  const slots = taken.flatMap(({ path: at, from }) => {
    const [top, ...below] = at.slice(path.length);
    if (top === 'tilt') return [[['tilt', ...below].join('.'), from]];
    const isRun = (shape === 'tube' || shape === 'rail') && below.length > 1;
    if (!isRun) return [[below.join('.'), from]];
    const end = Number(below[1]) - leg;
    return end === 0 || end === 1
      ? [[[end === 0 ? 'from' : 'to', ...below.slice(2)].join('.'), from]]
      : [];
  });
  return slots.length === 0 ? {} : { taken: Object.fromEntries(slots) as Solid['taken'] & {} };
}

type Reader = (f: Frame, raw: RawSolid, at: Path) => readonly Solid[] | undefined;

const READERS: Readonly<Record<(typeof SHAPES)[number], Reader>> = {
  box: (f, raw, at) => {
    const [x, y, z] = (['x', 'y', 'z'] as const).map((axis) =>
      thickRange(f, raw.box![axis], [...at, axis], axis),
    );
    return x && y && z && [{ shape: 'box', x, y, z }];
  },
  cylinder: (f, raw, at) => {
    const { axis, center, diameter } = raw.cylinder!;
    const along = fromTo(f, raw.cylinder!, at);
    const middle = f.across(center, [...at, 'center'], axis);
    const across = readDiameter(f, diameter, at);
    if (!along || !middle || across === undefined) return undefined;
    return [
      { shape: 'cylinder', axis, from: along.min, to: along.max, center: middle, diameter: across },
    ];
  },
  prism: (f, raw, at) => {
    const { axis, profile } = raw.prism!;
    const along = fromTo(f, raw.prism!, at);
    const corners = all(profile, (raw, i) => f.across(raw, [...at, 'profile', i], axis));
    if (!along || !corners) return undefined;
    const fault = profileFault(corners, FLAT_MM);
    if (fault !== undefined) {
      f.c.say('bad solid', [...at, 'profile'], fault, {
        expected: 'a convex outline, its corners in order; split it into several prisms',
      });
      return undefined;
    }
    return [{ shape: 'prism', axis, from: along.min, to: along.max, profile: corners }];
  },
  hull: (f, raw, at) => {
    const points = all(raw.hull!.points, (raw, i) => f.point(raw, [...at, 'points', i]));
    if (!points) return undefined;
    const few = points.length < 4;
    if (few || isFlat(points)) {
      const message = few ? 'a hull needs four points or more' : 'the points of the hull are flat';
      f.c.say('bad solid', [...at, 'points'], message, { expected: 'points not all in one plane' });
      return undefined;
    }
    return [{ shape: 'hull', points }];
  },
  ball: (f, raw, at) => {
    const center = f.point(raw.ball!.center, [...at, 'center']);
    const diameter = readDiameter(f, raw.ball!.diameter, at);
    return center && diameter !== undefined ? [{ shape: 'ball', center, diameter }] : undefined;
  },
  tube: (f, raw, at) => {
    const points = all(raw.tube!.through, (raw, i) => f.point(raw, [...at, 'through', i]));
    const diameter = readDiameter(f, raw.tube!.diameter, at);
    if (!points || diameter === undefined) return undefined;
    const path = [...at, 'through'];
    if (points.length < 2) {
      f.c.say('bad solid', path, 'a tube runs through two points or more');
      return undefined;
    }
    const legs = points.slice(1).map((to, i) => ({ from: points[i]!, to }));
    const short = legs.findIndex(({ from, to }) => lengthOf(minus(to, from)) <= FLAT_MM);
    if (short >= 0) {
      f.c.say('bad solid', [...path, short + 1], 'a leg of the tube has no length');
      return undefined;
    }
    return legs.map(({ from, to }) => ({ shape: 'tube' as const, from, to, diameter }));
  },
  panel: (f, raw, at) => {
    const panel = readPanel(f, raw.panel!, at);
    return panel && [{ shape: 'panel', ...panel }];
  },
  rail: (f, raw, at) => readRail(f, raw.rail!, at),
};

function readTilt(f: Frame, raw: NonNullable<RawSolid['tilt']>, path: Path): Tilt | undefined {
  const by = f.c.angle(raw.by, [...path, 'by']);
  const at = f.point(raw.at, [...path, 'at']);
  return by === undefined || at === undefined ? undefined : { about: raw.about, by, at };
}

function thickRange(
  f: Frame,
  raw: readonly [RawLength, RawLength],
  path: Path,
  axis: Axis,
): Range | undefined {
  const range = f.range(raw, path, axis);
  if (range === undefined || range.max - range.min > FLAT_MM) return range;
  f.c.say('bad solid', path, 'the solid has no thickness here');
  return undefined;
}

interface Along {
  readonly axis: Axis;
  readonly from: RawLength;
  readonly to: RawLength;
}

function fromTo(f: Frame, raw: Along, at: Path): Range | undefined {
  const min = f.coordinate(raw.from, [...at, 'from'], raw.axis);
  const max = f.coordinate(raw.to, [...at, 'to'], raw.axis);
  if (min === undefined || max === undefined) return undefined;
  if (max - min > FLAT_MM) return { min, max };
  if (min > max) {
    f.c.say('bad range', [...at, 'from'], 'from is more than to', { expected: 'the lesser first' });
  } else {
    f.c.say('bad solid', [...at, 'to'], 'the solid has no length from end to end');
  }
  return undefined;
}

function readDiameter(f: Frame, raw: RawLength, at: Path): number | undefined {
  return f.size(raw, [...at, 'diameter'], 'a diameter', FLAT_MM);
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
