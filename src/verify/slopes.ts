/**
 * Functions of a position over a box: what they are at its middle, and between which slopes they run all
 * over it. By the mean value theorem they stay within value + slope times the way from the middle.
 */

import {
  add,
  angleOf,
  div,
  exactly,
  mul,
  neg,
  root,
  square,
  sub,
  times,
  turnOf,
  turnOver,
} from './outward.js';
import type { Interval } from './outward.js';
import type { Four } from '../model/certificate.js';

/** A number that depends on the position: at the middle, over the box, and its slopes over the box, those left out 0. */
export interface Sloped {
  readonly middle: Interval;
  readonly over: Interval;
  readonly slopes: readonly Interval[];
}

const NONE: Interval = exactly(0);
const FLAT: readonly Interval[] = [];

export function constant(x: number): Sloped {
  return { middle: exactly(x), over: exactly(x), slopes: FLAT };
}

/** A number that is the same everywhere, known to lie between two. */
export function known(x: Interval): Sloped {
  return { middle: x, over: x, slopes: FLAT };
}

/** One coordinate of the position itself. */
export function coordinate(k: number, lo: Four, hi: Four, middle: number): Sloped {
  const slopes = Array.from({ length: k + 1 }, (_, i) => (i === k ? exactly(1) : NONE));
  return { middle: exactly(middle), over: { lo: lo[k]!, hi: hi[k]! }, slopes };
}

/** Cosine and sine of the pitch. */
export function pitchTurn(lo: Four, hi: Four, middle: number): { cos: Sloped; sin: Sloped } {
  const here = turnOf(middle);
  const all = turnOver({ lo: lo[3], hi: hi[3] });
  return {
    cos: { middle: here.cos, over: all.cos, slopes: [NONE, NONE, NONE, neg(all.sin)] },
    sin: { middle: here.sin, over: all.sin, slopes: [NONE, NONE, NONE, all.cos] },
  };
}

/** Slopes made of those of one or two numbers; what depends on neither stays flat. */
function each(a: Sloped, b: Sloped, f: (k: number) => Interval): readonly Interval[] {
  const count = Math.max(a.slopes.length, b.slopes.length);
  if (count === 0) return FLAT;
  const slopes: Interval[] = [];
  for (let k = 0; k < count; k++) slopes.push(f(k));
  return slopes;
}

/** One slope of a number, if it has any. */
function slope(a: Sloped, k: number): Interval {
  return a.slopes[k] ?? NONE;
}

export function plus(a: Sloped, b: Sloped): Sloped {
  return {
    middle: add(a.middle, b.middle),
    over: add(a.over, b.over),
    slopes: each(a, b, (k) => add(slope(a, k), slope(b, k))),
  };
}

export function minus(a: Sloped, b: Sloped): Sloped {
  return {
    middle: sub(a.middle, b.middle),
    over: sub(a.over, b.over),
    slopes: each(a, b, (k) => sub(slope(a, k), slope(b, k))),
  };
}

export function scaled(a: Sloped, x: number): Sloped {
  return {
    middle: times(a.middle, x),
    over: times(a.over, x),
    slopes: each(a, a, (k) => times(slope(a, k), x)),
  };
}

export function product(a: Sloped, b: Sloped): Sloped {
  return {
    middle: mul(a.middle, b.middle),
    over: mul(a.over, b.over),
    slopes: each(a, b, (k) => {
      const one = slope(a, k);
      const other = slope(b, k);
      if (one === NONE) return other === NONE ? NONE : mul(other, a.over);
      return other === NONE ? mul(one, b.over) : add(mul(one, b.over), mul(other, a.over));
    }),
  };
}

/** Where it may come down to 0 its slopes are not known. */
export function rootOf(a: Sloped): Sloped {
  const over = root(a.over);
  const twice = times(over, 2);
  return {
    middle: root(a.middle),
    over,
    slopes: each(a, a, (k) => div(slope(a, k), twice)),
  };
}

/** The angle of (x, y) from the first axis; its slopes are not known where both may be 0. */
export function angle(x: Sloped, y: Sloped): Sloped {
  const size = add(square(x.over), square(y.over));
  return {
    middle: angleOf(x.middle, y.middle),
    over: angleOf(x.over, y.over),
    slopes: each(x, y, (k) => div(sub(mul(x.over, slope(y, k)), mul(y.over, slope(x, k))), size)),
  };
}

export type Vector3 = readonly [Sloped, Sloped, Sloped];

export function dot(a: Vector3, b: Vector3): Sloped {
  return plus(plus(product(a[0], b[0]), product(a[1], b[1])), product(a[2], b[2]));
}

export function cross(a: Vector3, b: Vector3): Vector3 {
  return [
    minus(product(a[1], b[2]), product(a[2], b[1])),
    minus(product(a[2], b[0]), product(a[0], b[2])),
    minus(product(a[0], b[1]), product(a[1], b[0])),
  ];
}

export function length(a: Vector3): Sloped {
  const squared = (x: Sloped): Sloped => ({ ...product(x, x), over: square(x.over) });
  return rootOf(plus(plus(squared(a[0]), squared(a[1])), squared(a[2])));
}

/** The least it can be anywhere in the box, by its value in the middle and its slopes, or as a whole. */
export function leastOf({ middle, over, slopes }: Sloped, lo: Four, hi: Four, at: Four): number {
  let least = middle;
  for (const k of [0, 1, 2, 3] as const) {
    if (hi[k] === lo[k]) continue;
    const way = {
      lo: sub(exactly(lo[k]), exactly(at[k])).lo,
      hi: sub(exactly(hi[k]), exactly(at[k])).hi,
    };
    least = add(least, mul(slopes[k] ?? NONE, way));
  }
  return Math.max(Number.isNaN(least.lo) ? -Infinity : least.lo, over.lo);
}
