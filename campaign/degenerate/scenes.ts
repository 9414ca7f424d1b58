/** Pairs of solids that are hard to measure. Millimetres. */

import type { Solid, Vec3 } from '../../src/model/scenario.js';
import { between, direction } from '../../tests/geometry/random.js';
import type { Random } from '../../tests/geometry/random.js';
import { below, oneOf } from '../mutated/pick.js';

export interface Scene {
  readonly sort: 'boxes' | 'round' | 'near flat' | 'leaning';
  readonly a: Solid;
  readonly b: Solid;
  /** The signed gap, where it is known. */
  readonly truth?: number;
  /** Millimetres that the closed form itself may be off. */
  readonly give?: number;
  /** Whether another modeller is asked. */
  readonly modelled: boolean;
}

type Span = readonly [number, number];
type Spans = readonly [Span, Span, Span];

/** Nothing, about a rounding, about a hair, a length. */
function offset(random: Random): number {
  const size = oneOf(random, [0, 0, 1e-12, 1e-9, 1e-7, 1e-6, 1e-5, 1e-3, 0.1, 1, 20]);
  return random() < 0.5 ? size : -size;
}

/** A size along one axis: needles and plates come up as often as blocks. */
function size(random: Random): number {
  return oneOf(random, [
    1e-3,
    0.01,
    0.5,
    1,
    1,
    between(random, 5, 80),
    between(random, 5, 80),
    50,
    1000,
    5000,
  ]);
}

/** Two boxes along the axes, their faces flush, touching, or nearly so: each axis says how it stands apart. */
export function boxesScene(random: Random): Scene {
  const axes = [0, 1, 2].map((): { a: Span; b: Span } => {
    const [one, other] = [size(random), size(random)];
    const start = between(random, -50, 50);
    const a: Span = [start, start + one];
    const flush = offset(random);
    const roll = below(random, 5);
    // Beside it, flush with either end, in the middle, or the very same.
    if (roll === 0) return { a, b: [a[1] + flush, a[1] + flush + other] };
    if (roll === 1) return { a, b: [a[0] + flush, a[0] + flush + other] };
    if (roll === 2) return { a, b: [a[1] + flush - other, a[1] + flush] };
    if (roll === 3) return { a, b: [start + one / 2 - other / 2, start + one / 2 + other / 2] };
    return { a, b: a };
  });
  const [a, b] = [axes.map((axis) => axis.a), axes.map((axis) => axis.b)] as unknown as [
    Spans,
    Spans,
  ];
  const apart = axes.map(({ a: p, b: q }) => Math.max(q[0] - p[1], p[0] - q[1]));
  const out = apart.filter((d) => d > 0);
  const truth = out.length > 0 ? Math.hypot(...out) : Math.max(...apart);
  return {
    sort: 'boxes',
    a: drawnBox(a, random),
    b: drawnBox(b, random),
    truth,
    modelled: random() < 0.3,
  };
}

const corners = ([x, y, z]: Spans): Vec3[] =>
  x.flatMap((p) => y.flatMap((q) => z.map((r): Vec3 => [p, q, r])));

/** A box as a box, as a prism, or as a hull with points to spare: on faces, on edges, and twice over. */
function drawnBox(spans: Spans, random: Random): Solid {
  const [x, y, z] = spans;
  const range = ([min, max]: Span) => ({ min, max });
  const roll = below(random, 4);
  if (roll === 0) return { shape: 'box', x: range(x), y: range(y), z: range(z) };
  if (roll === 1) {
    const profile = [[x[0], z[0]], [x[1], z[0]], [x[1], z[1]], [x[0], z[1]]] as const; // prettier-ignore
    return {
      shape: 'prism',
      axis: 'y',
      from: y[0],
      to: y[1],
      profile: random() < 0.5 ? profile : [...profile].reverse(),
    };
  }
  const points = corners(spans);
  if (roll === 3) {
    for (let n = 0; n < 6; n++) {
      const face = below(random, 3);
      // On a face or an edge, its other coordinates kept where corners have them.
      points.push(
        spans.map((span, k) =>
          k === face || random() < 0.4 ? oneOf(random, span) : (span[0] + span[1]) / 2,
        ) as unknown as Vec3,
      );
      points.push(oneOf(random, points));
    }
  }
  return { shape: 'hull', points };
}

/** Balls, tubes and cylinders of which the gap is arithmetic: in line, side by side, on a flat. */
export function roundScene(random: Random): Scene {
  const [r, s] = [size(random), size(random)].map((v) => v / 2) as [number, number];
  const by = offset(random);
  const long = size(random);
  const sort = 'round' as const;
  const ball = (center: Vec3, radius: number): Solid => ({
    shape: 'ball',
    center,
    diameter: 2 * radius,
  });
  const floor = (top: number): Solid => ({
    shape: 'box',
    x: { min: -6000, max: 6000 },
    y: { min: -6000, max: 6000 },
    z: { min: top - 3000, max: top },
  });
  const cylinder = (
    from: number,
    to: number,
    center: readonly [number, number],
    radius: number,
  ): Solid => ({
    shape: 'cylinder',
    axis: 'x',
    from,
    to,
    center,
    diameter: 2 * radius,
  });
  const tube = (from: Vec3, to: Vec3, radius: number): Solid => ({
    shape: 'tube',
    from,
    to,
    diameter: 2 * radius,
  });
  switch (below(random, 7)) {
    case 0: {
      const d = direction(random);
      const away = r + s + by;
      if (away < 0)
        return {
          sort,
          a: ball([0, 0, 0], r),
          b: ball([0, 0, 0], s),
          truth: -r - s,
          modelled: false,
        };
      const give = 1e-12 * away;
      return {
        sort,
        a: ball([0, 0, 0], r),
        b: ball([d[0] * away, d[1] * away, d[2] * away], s),
        truth: by,
        give,
        modelled: false,
      };
    }
    case 1:
      return { sort, a: ball([3, -4, r + by], r), b: floor(0), truth: by, modelled: false };
    case 2:
      return {
        sort,
        a: tube([0, 0, r + by], [long, 0, r + by], r),
        b: floor(0),
        truth: by,
        modelled: false,
      };
    case 3:
      return {
        sort,
        a: cylinder(0, long, [0, r + by], r),
        b: floor(0),
        truth: by,
        modelled: false,
      };
    case 4: {
      // End to end: the caps face one another. The way out sideways may be the shorter.
      const along = Math.max(by, -2 * long - by);
      const truth = along >= 0 ? along : Math.max(along, -r - s);
      return {
        sort,
        a: cylinder(-long, 0, [0, 0], r),
        b: cylinder(by, by + long, [0, 0], s),
        truth,
        modelled: false,
      };
    }
    case 5: {
      // Side by side; the way out along the axis may be the shorter.
      const away = r + s + by;
      const truth = Math.max(Math.abs(away) - r - s, by >= 0 ? -Infinity : -long);
      return {
        sort,
        a: cylinder(0, long, [0, 0], r),
        b: cylinder(0, long, [0, away], s),
        truth,
        modelled: false,
      };
    }
    default: {
      // Two tubes crossed, their middles over one another.
      const away = r + s + by;
      const half = long / 2;
      const truth = away >= 0 ? by : undefined;
      const a = tube([-half, 0, 0], [half, 0, 0], r);
      return {
        sort,
        a,
        b: tube([0, -half, away], [0, half, away], s),
        ...(truth !== undefined && { truth }),
        modelled: false,
      };
    }
  }
}

/** A slab whose corners lie all but in a plane, over a box or another slab. */
export function nearFlatScene(random: Random): Scene {
  const bumps = oneOf(random, [0, 1e-12, 1e-9, 1e-7, 1e-6, 1e-4, 1e-3]);
  const thick = oneOf(random, [1e-3, 0.05, 2, 40]);
  const by = offset(random);
  const count = 4 + below(random, 9);
  const wide = between(random, 20, 200);
  const slab = (low: number, sign: 1 | -1): Solid => {
    const points = Array.from({ length: count }, (_, k): Vec3[] => {
      const t = (2 * Math.PI * k) / count;
      const [x, y] = [wide * Math.cos(t), wide * Math.sin(t)];
      // Bumps go inwards, so that the plane itself is where the first corner lies.
      return [low, low + sign * thick].map((z, side): Vec3 => [
        x,
        y,
        z + (side === 0 ? sign : -sign) * (k === 0 ? 0 : bumps * random()),
      ]);
    }).flat();
    return { shape: 'hull', points };
  };
  const a = slab(by, 1);
  const other = random() < 0.5 ? slab(0, -1) : undefined;
  const b: Solid = other ?? {
    shape: 'box',
    x: { min: -30, max: 30 },
    y: { min: -20, max: 20 },
    z: { min: -thick, max: 0 },
  };
  // Slabs thicker than they overlap, and wider: the way apart is straight up. Bumps may add to it.
  const clear = by > -thick / 2;
  return {
    sort: 'near flat',
    a,
    b,
    ...(clear && { truth: by + bumps / 2, give: bumps }),
    modelled: random() < 0.3,
  };
}

/** A box over a floor, leaning by next to nothing. */
export function leaningScene(random: Random): Scene {
  const lean = oneOf(random, [0, 1e-15, 1e-12, 1e-9, 1e-7, 1e-5, 1e-3]) * (random() < 0.5 ? 1 : -1);
  const by = offset(random);
  const [l, w, h] = [between(random, 5, 500), between(random, 5, 100), between(random, 2, 100)];
  const [cos, sin] = [Math.cos(lean), Math.sin(lean)];
  // Turned about y through the middle of its underside, which therefore stays at `by`.
  const points = corners([[-l / 2, l / 2], [-w / 2, w / 2], [0, h]]).map(([x, y, z]): Vec3 => [cos * x + sin * z, y, by - sin * x + cos * z]); // prettier-ignore
  const a: Solid =
    random() < 0.5
      ? { shape: 'hull', points }
      : {
          shape: 'box',
          x: { min: -l / 2, max: l / 2 },
          y: { min: -w / 2, max: w / 2 },
          z: { min: by, max: by + h },
          tilt: { about: 'y', by: lean, at: [0, 0, by] },
        };
  const b: Solid = {
    shape: 'box',
    x: { min: -2000, max: 2000 },
    y: { min: -2000, max: 2000 },
    z: { min: -1000, max: 0 },
  };
  const truth = by - Math.abs(sin) * (l / 2);
  return { sort: 'leaning', a, b, truth, give: 1e-12, modelled: random() < 0.2 };
}
