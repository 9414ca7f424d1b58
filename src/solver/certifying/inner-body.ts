/**
 * How deep two solids overlap, shown by pairs of their points: a polytope inside the difference of the two,
 * grown outward where it is nearest to the places asked for.
 */

import { support } from '../../geometry/reach.js';
import type { Shape } from '../../geometry/shape.js';
import type { Vec3 } from '../../model/scenario.js';
import { cross, dot, lengthOf, minus } from '../../model/vector.js';

/** Growing stops once the nearest facet is this near to the difference's own, millimetres. */
const NEAR_ENOUGH = 0.005;
/** How far outside a facet a point must be to see it. */
const SEEN = 1e-7;
/** Points after which the body is taken as it is. */
const MOST_POINTS = 120;

/** A point of the engine solid, turned and not yet moved, and one of the chassis solid. */
type Ends = readonly [engine: Vec3, chassis: Vec3];
type Facet = readonly [number, number, number];

export interface Grown {
  readonly pairs: readonly Ends[];
  readonly facets: readonly Facet[];
}

/**
 * A closed body of differences chassis - engine that holds every one of the places that the difference
 * itself holds, some depth about it; undefined where the solids are too flat or the growing fails.
 * @param places moves of the engine solid, at each of which the two are known to overlap.
 */
export function grownBody(
  engine: Shape,
  chassis: Shape,
  places: readonly Vec3[],
): Grown | undefined {
  const body = new Growing(engine, chassis);
  if (!body.begin()) return undefined;
  for (const place of places) if (!body.growTo(place)) return undefined;
  return body.grown();
}

/** How far inside the nearest plane of the body a place is, with the engine's points moved by `turned`. */
export function depthAt({ pairs, facets }: Grown, place: Vec3, turned: (p: Vec3) => Vec3): number {
  const points = pairs.map(([a, b]) => minus(b, turned(a)));
  let least = Infinity;
  for (const [i, j, k] of facets) {
    const n = cross(minus(points[j]!, points[i]!), minus(points[k]!, points[i]!));
    const size = lengthOf(n);
    // Gone flat: it has no plane.
    if (!(size > FLAT)) return -Infinity;
    least = Math.min(least, dot(n, minus(points[i]!, place)) / size);
  }
  return least;
}

/** A facet with its plane. */
interface Plane {
  readonly of: Facet;
  readonly n: Vec3;
  readonly offset: number;
}

/** Square millimetres: twice the least area of a triangle that has a plane. */
const FLAT = 0.01;
/** Millimetres by which a triangle's corners must be out of line. */
const THINNEST = 1e-3;
/**
 * Ways aside of a facet's normal. Straight along it whole faces are farthest, and what support then finds may
 * be no corner; and where one point cannot be taken, another may.
 */
const ASIDE: readonly Vec3[] = [1e-6, -1e-6, 0.003, -0.003, 0.03, -0.03].flatMap((by): Vec3[] => [
  [by, by / 3, -by / 2],
  [-by / 2, by, by / 3],
  [by / 3, -by / 2, by],
]);

class Growing {
  private readonly pairs: Ends[] = [];
  private readonly points: Vec3[] = [];
  private facets: Plane[] = [];
  private readonly a = new Float64Array(3);
  private readonly b = new Float64Array(3);

  constructor(
    private readonly engine: Shape,
    private readonly chassis: Shape,
  ) {}

  grown(): Grown {
    return { pairs: this.pairs, facets: this.facets.map(({ of }) => of) };
  }

  /** Four differences that are not in one plane. */
  begin(): boolean {
    const tried: Vec3[] = [
      [1, 0.13, 0.29],
      [-1, 0.31, -0.17],
      [0.19, 1, -0.23],
      [-0.27, -1, 0.11],
      [0.07, 0.21, 1],
      [0.23, -0.09, -1],
    ];
    const found = tried.map((n) => this.farthest(n));
    for (const other of found) {
      const p = other.point;
      const [o, x, y] = this.points;
      if (!o) this.keep(other);
      else if (!x) {
        if (lengthOf(minus(p, o)) > 1e-3) this.keep(other);
      } else if (!y) {
        if (lengthOf(cross(minus(x, o), minus(p, o))) > 1e-3 * lengthOf(minus(x, o)))
          this.keep(other);
      } else if (this.points.length === 3) {
        const n = cross(minus(x, o), minus(y, o));
        if (Math.abs(dot(n, minus(p, o))) > 1e-3 * lengthOf(n)) this.keep(other);
      }
    }
    if (this.points.length < 4) return false;
    const [o, x, y, z] = this.points as [Vec3, Vec3, Vec3, Vec3];
    const isLeft = dot(cross(minus(x, o), minus(y, o)), minus(z, o)) < 0;
    const all: Facet[] = isLeft
      ? [
          [0, 1, 2],
          [0, 2, 3],
          [0, 3, 1],
          [1, 3, 2],
        ]
      : [
          [0, 2, 1],
          [0, 3, 2],
          [0, 1, 3],
          [1, 2, 3],
        ];
    this.facets = all.map((of) => this.facet(of));
    return true;
  }

  /** Pushes the nearest facet out until the difference's own boundary is as near; false where that fails. */
  growTo(place: Vec3): boolean {
    for (;;) {
      let nearest = this.facets[0]!;
      let depth = Infinity;
      for (const facet of this.facets) {
        const here = facet.offset - dot(facet.n, place);
        if (here >= depth) continue;
        depth = here;
        nearest = facet;
      }
      const isFull = this.points.length >= MOST_POINTS;
      if (isFull || !this.pushOut(nearest)) return depth > SEEN;
    }
  }

  /** One point more beyond a facet; false where there is none to speak of, or none that can be taken. */
  private pushOut(facet: Plane): boolean {
    for (const [x, y, z] of ASIDE) {
      const { n, offset } = facet;
      const next = this.farthest([n[0] + x, n[1] + y, n[2] + z]);
      const more = dot(n, next.point) - offset;
      if (more > NEAR_ENOUGH && this.add(next, facet)) return true;
    }
    return false;
  }

  private add(next: Found, from: Plane): boolean {
    const seen = this.seenFrom(next.point, from);
    const edges = new Map<string, readonly [number, number]>();
    for (const { of } of seen) {
      for (const i of [0, 1, 2] as const) {
        const [one, other] = [of[i], of[((i + 1) % 3) as 0 | 1 | 2]];
        if (!edges.delete(`${other} ${one}`)) edges.set(`${one} ${other}`, [one, other]);
      }
    }
    // One loop, met once a point, and no triangle too thin to have a plane: else the body is left as it was.
    const starts = new Set([...edges.values()].map(([one]) => one));
    if (starts.size !== edges.size || edges.size < 3) return false;
    for (const [one, other] of edges.values()) {
      if (this.thinness(one, other, next.point) < THINNEST) return false;
    }
    const index = this.points.length;
    this.keep(next);
    const fresh = [...edges.values()].map(([one, other]) => this.facet([one, other, index]));
    this.facets = [...this.facets.filter((one) => !seen.has(one)), ...fresh];
    return true;
  }

  /** The facets that a point sees, reached from one of them. */
  private seenFrom(point: Vec3, from: Plane): Set<Plane> {
    const byEdge = new Map<string, Plane>();
    for (const facet of this.facets) {
      const [i, j, k] = facet.of;
      byEdge.set(`${i} ${j}`, facet).set(`${j} ${k}`, facet).set(`${k} ${i}`, facet);
    }
    const seen = new Set<Plane>([from]);
    for (const { of } of seen) {
      const [i, j, k] = of;
      for (const back of [`${j} ${i}`, `${k} ${j}`, `${i} ${k}`]) {
        const next = byEdge.get(back)!;
        if (dot(next.n, point) - next.offset > SEEN) seen.add(next);
      }
    }
    return seen;
  }

  /** How far the triangle's third point lies from its longest side, in part. */
  private thinness(i: number, j: number, r: Vec3): number {
    const [p, q] = [this.points[i]!, this.points[j]!];
    const longest = Math.max(lengthOf(minus(q, p)), lengthOf(minus(r, p)), lengthOf(minus(r, q)));
    return lengthOf(cross(minus(q, p), minus(r, p))) / longest;
  }

  private keep({ point, ends }: Found): void {
    this.points.push(point);
    this.pairs.push(ends);
  }

  private facet(of: Facet): Plane {
    const [p, q, r] = of.map((i) => this.points[i]!) as [Vec3, Vec3, Vec3];
    const across = cross(minus(q, p), minus(r, p));
    const size = lengthOf(across);
    const n: Vec3 = [across[0] / size, across[1] / size, across[2] / size];
    return { of, n, offset: dot(n, p) };
  }

  private farthest([x, y, z]: Vec3): Found {
    support(this.engine, -x, -y, -z, this.a);
    support(this.chassis, x, y, z, this.b);
    const ends: Ends = [
      [this.a[0]!, this.a[1]!, this.a[2]!],
      [this.b[0]!, this.b[1]!, this.b[2]!],
    ];
    return { ends, point: minus(ends[1], ends[0]) };
  }
}

interface Found {
  readonly ends: Ends;
  readonly point: Vec3;
}
