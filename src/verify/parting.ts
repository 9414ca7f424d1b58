/** How far a direction parts two solids at the least, over all their motions, every number rounded outward. */

import type { Four } from '../model/certificate.js';
import { maxOf } from '../model/extremes.js';
import type { Box, Vec3 } from '../model/scenario.js';
import { turnedAbout as turnedAbout3 } from '../model/solids/skeleton.js';
import { hypot, norm } from '../model/trig.js';
import { farthest, nearestAmong } from './bodies.js';
import type { Body } from './bodies.js';
import {
  ZERO,
  add,
  div,
  exactly,
  inner,
  lengthOf,
  neg,
  root,
  scaled,
  square,
  sub,
  turnOf,
  turnedAbout,
  vector,
} from './outward.js';
import type { Interval, Turned, Vector } from './outward.js';
import type { Pairs, Standing } from './pairs.js';

/** Room for the rounding of what a bend comes to. */
const ROOM = 1 + 1e-6;

/** Halvings of a motion before a margin counts as not proved. */
const MOST_HALVINGS = 24;

/** A range of the motions: each part's own turn, the engine's rock and lift. */
type Cell = readonly [Interval, Interval, Interval, Interval];

/** The gap of two solids along directions, over their motions. */
export class Parting {
  private readonly pitch: Turned;
  private readonly given: readonly Vector[];

  constructor(
    private readonly standing: Standing,
    private readonly pairs: Pairs,
    private readonly solids: readonly [number, number],
    along: readonly Vec3[],
    private readonly at: Four,
  ) {
    this.pitch = turnOf(at[3]);
    this.given = along.map(unitOf);
  }

  /** Whether at least so much is left at every moment of the motions. */
  leaves(needed: number): boolean {
    const { standing } = this;
    const [a, b] = this.pairs.turnsOf(standing);
    const whole: Cell = [
      { lo: a!.min, hi: a!.max },
      { lo: b!.min, hi: b!.max },
      { lo: -standing.rock, hi: standing.rock },
      { lo: 0, hi: standing.lift },
    ];
    return this.leavesIn(whole, needed, MOST_HALVINGS);
  }

  /**
   * Along one angle the gap by a direction is the least of functions P cos + Q sin + c, each no less than
   * the line between its ends, less P's and Q's length times the width squared over 8; along the lift it is
   * straight. Where none of the directions given parts all of a cell, the one that parts the solids at its
   * middle is tried, and then the cell is halved.
   */
  private leavesIn(cell: Cell, needed: number, left: number): boolean {
    const ends = this.endsOf(cell);
    const radii = cell.map(({ lo, hi }, k) => (lo === hi || k === 3 ? 0 : this.radius(k, cell)));
    const loss =
      cell.reduce((sum, { lo, hi }, k) => sum + (radii[k]! * (hi - lo) * (hi - lo)) / 8, 0) * ROOM;
    const parts = (n: Vector): boolean => ends.every((end) => this.gapAt(end, n) - loss >= needed);
    if (this.given.some(parts)) return true;
    const own = this.standing.along ? undefined : this.nearestWay(cell);
    if (own && parts(own)) return true;
    const spread = cell.map(({ lo, hi }, k) => (k === 3 ? hi - lo : radii[k]! * (hi - lo)));
    const widest = spread.indexOf(maxOf(spread));
    if (left === 0 || !(spread[widest]! > 0)) return false;
    const { lo, hi } = cell[widest]!;
    const middle = (lo + hi) / 2;
    return [
      { lo, hi: middle },
      { lo: middle, hi },
    ].every((half) =>
      this.leavesIn(
        cell.map((one, k) => (k === widest ? half : one)) as unknown as Cell,
        needed,
        left - 1,
      ),
    );
  }

  /** The way from the second solid's nearest point to the first's at the middle of a cell; none where they overlap. */
  private nearestWay(cell: Cell): Vector | undefined {
    const [turnA, turnB, rock, lift] = cell.map(({ lo, hi }) => (lo + hi) / 2) as unknown as Four;
    const [a, b] = [this.body(0, turnA), this.body(1, turnB)];
    const { at, standing } = this;
    const turned = (p: Vec3): Vec3 => {
      if (standing.oneSide) return p;
      const rocked = turnedAbout3(p, { about: 'x', by: rock, at: [0, 0, 0] });
      const up: Vec3 = [rocked[0], rocked[1], rocked[2] + lift];
      const [x, y, z] = turnedAbout3(up, { about: 'y', by: at[3], at: [0, 0, 0] });
      return [x + at[0], y + at[1], z + at[2]];
    };
    const back = (d: Vec3): Vec3 => {
      if (standing.oneSide) return d;
      const level = turnedAbout3(d, { about: 'y', by: -at[3], at: [0, 0, 0] });
      return turnedAbout3(level, { about: 'x', by: -rock, at: [0, 0, 0] });
    };
    const apart = (d: Vec3): Vec3 => {
      const one = turned(farthest(a, back(d)));
      const other = farthest(b, [-d[0], -d[1], -d[2]]);
      return [one[0] - other[0], one[1] - other[1], one[2] - other[2]];
    };
    const { nearest, distance } = nearestAmong(apart([1, 0, 0]), apart, [0, 0, 0]);
    return distance > 1e-6 ? unitOf(nearest) : undefined;
  }

  private endsOf(cell: Cell): number[][] {
    let all: number[][] = [[]];
    for (const { lo, hi } of cell) {
      const ends = lo === hi ? [lo] : [lo, hi];
      all = all.flatMap((begun) => ends.map((end) => [...begun, end]));
    }
    return all;
  }

  /** How far from the axis of a turn anything that it moves may be, times the length of n. */
  private radius(k: number, cell: Cell): number {
    const { standing } = this;
    if (k === 2) {
      // The crankshaft: a part that turns of itself reaches as far as its turns take it.
      const [{ lo, hi }] = cell;
      const body = this.body(0, (lo + hi) / 2);
      const own = lo === hi ? 0 : this.radius(0, cell) * (hi - lo);
      return reach(body, 0, [0, 0, 0]) + own;
    }
    const end = k as 0 | 1;
    const { part, move } = standing.places[end];
    const { turn } = part;
    if (!turn) return 0;
    const axis = turn.about === 'x' ? 0 : turn.about === 'y' ? 1 : 2;
    const at: Vec3 = [turn.at[0] + move[0], turn.at[1] + move[1], turn.at[2] + move[2]];
    return reach(this.body(end, 0), axis, at) + sweptBy(part.sweep);
  }

  private body(end: 0 | 1, angle: number): Body {
    const body = this.pairs.body(this.standing, end, this.solids[end], angle);
    if (!body) throw new RangeError('there is no such solid');
    return body;
  }

  /** The gap along the direction at one moment, from below. */
  private gapAt([turnA, turnB, rock, lift]: readonly number[], n: Vector): number {
    const { pitch, at } = this;
    const [a, b] = [this.body(0, turnA!), this.body(1, turnB!)];
    const rocked = turnOf(rock!);
    // The direction as the engine's own frame sees it: turned back.
    const back: Turned = { cos: pitch.cos, sin: neg(pitch.sin) };
    const unpitched = this.standing.oneSide ? n : turnedAbout(1, back, n);
    const own = turnedAbout(0, { cos: rocked.cos, sin: neg(rocked.sin) }, unpitched);
    const near = lowest(a, own);
    const moved = this.standing.oneSide
      ? ZERO
      : add(inner(n, vector([at[0], at[1], at[2]])), scaledBy(unpitched[2], lift!));
    const far = neg(lowest(b, [neg(n[0]), neg(n[1]), neg(n[2])]));
    const size = lengthOf(n);
    const balls = a.ball + b.ball + a.rounding + b.rounding;
    // What lies along a direction of another length than 1 is that much too long or too short; of none at all it
    // is anything.
    const gap = div(sub(add(near, moved), far), size);
    return gap.lo - balls * (1 + 1e-12);
  }
}

function scaledBy(a: Interval, x: number): Interval {
  return x === 0 ? ZERO : scaled([a, ZERO, ZERO], x)[0];
}

/** The least of n . p over a body without its ball, from below. */
function lowest({ points, disc }: Body, n: Vector): Interval {
  let least: Interval = exactly(Infinity);
  for (const point of points) {
    const along = inner(n, vector(point));
    if (along.lo < least.lo) least = along;
  }
  if (!disc) return least;
  const upright = inner(n, vector(disc.normal));
  const flat = sub(add(add(square(n[0]), square(n[1])), square(n[2])), square(upright));
  return sub(least, scaledBy(root(flat), disc.radius));
}

/** The longest way that a sweep moves anything. */
function sweptBy(sweep: Box | undefined): number {
  if (!sweep) return 0;
  const ends = [sweep.x, sweep.y, sweep.z].map(({ min, max }) => Math.max(-min, max));
  return norm(ends);
}

/** How far a body reaches from an axis, its sweep with it. */
function reach({ points, disc }: Body, axis: number, through: Vec3): number {
  const [j, k] = [(axis + 1) % 3, (axis + 2) % 3];
  const far = points.map((p) => hypot(p[j]! - through[j]!, p[k]! - through[k]!));
  return maxOf(far) + (disc?.radius ?? 0);
}

/** A direction, of very nearly unit length where its length can be told. */
function unitOf(along: Vec3): Vector {
  const v = vector(along);
  const { lo, hi } = lengthOf(v);
  return scaled(v, 2 / (lo + hi));
}
