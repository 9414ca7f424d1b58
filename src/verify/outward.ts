/**
 * Arithmetic on intervals, every end rounded outward, so that what is true of an interval is true of the
 * number it stands for.
 *
 * A double's sum, difference, product, quotient or root is the exact one to within half a unit of its last
 * place (IEEE 754), which is less than 2^-52 of its size, or than the least double there is.
 */

import { atan2 } from '../model/trig.js';

/** A number that is known to lie between two. */
export interface Interval {
  readonly lo: number;
  readonly hi: number;
}

const ULP = Number.EPSILON;
const LEAST = Number.MIN_VALUE;

function down(x: number): number {
  return x - Math.abs(x) * ULP - LEAST;
}
function up(x: number): number {
  return x + Math.abs(x) * ULP + LEAST;
}

/** A number known exactly. */
export function exactly(x: number): Interval {
  return { lo: x, hi: x };
}

export const ZERO = exactly(0);
const ONE = exactly(1);

export function add(a: Interval, b: Interval): Interval {
  return { lo: down(a.lo + b.lo), hi: up(a.hi + b.hi) };
}

export function sub(a: Interval, b: Interval): Interval {
  return { lo: down(a.lo - b.hi), hi: up(a.hi - b.lo) };
}

export function neg(a: Interval): Interval {
  return { lo: -a.hi, hi: -a.lo };
}

export function mul(a: Interval, b: Interval): Interval {
  const p = a.lo * b.lo;
  const q = a.lo * b.hi;
  const r = a.hi * b.lo;
  const s = a.hi * b.hi;
  return { lo: down(Math.min(p, q, r, s)), hi: up(Math.max(p, q, r, s)) };
}

/** Times a number known exactly. */
export function times(a: Interval, x: number): Interval {
  const p = a.lo * x;
  const q = a.hi * x;
  return p < q ? { lo: down(p), hi: up(q) } : { lo: down(q), hi: up(p) };
}

/** Everything, where the divisor may be 0. */
export function div(a: Interval, b: Interval): Interval {
  if (b.lo <= 0 && b.hi >= 0) return { lo: -Infinity, hi: Infinity };
  const p = a.lo / b.lo;
  const q = a.lo / b.hi;
  const r = a.hi / b.lo;
  const s = a.hi / b.hi;
  return { lo: down(Math.min(p, q, r, s)), hi: up(Math.max(p, q, r, s)) };
}

export function square(a: Interval): Interval {
  const p = a.lo * a.lo;
  const q = a.hi * a.hi;
  const least = a.lo <= 0 && a.hi >= 0 ? 0 : Math.max(0, down(Math.min(p, q)));
  return { lo: least, hi: up(Math.max(p, q)) };
}

/** Of what is not below 0: whatever lies there is rounding. */
export function root(a: Interval): Interval {
  return {
    lo: Math.max(0, down(Math.sqrt(Math.max(0, a.lo)))),
    hi: up(Math.sqrt(Math.max(0, a.hi))),
  };
}

/** The greatest size of a number in it. */
export function sizeOf(a: Interval): number {
  return Math.max(-a.lo, a.hi);
}

/** Everything that lies in either. */
export function hullOf(a: Interval, b: Interval): Interval {
  return { lo: Math.min(a.lo, b.lo), hi: Math.max(a.hi, b.hi) };
}

/** The least power beyond which the series are cut off; its term is added as an error. */
const TERMS = 31;
/** Angles that the series are good for, radians. */
const WIDEST = 7;

/** Cosine and sine of an angle, by their series about 0 and the next term as an error. */
export interface Turned {
  readonly cos: Interval;
  readonly sin: Interval;
}

/**
 * @param angle radians, at most WIDEST either way.
 * @throws RangeError for a wider one.
 */
export function turnOf(angle: number): Turned {
  if (!(Math.abs(angle) <= WIDEST)) throw new RangeError('turnOf: the angle is too wide');
  const x = exactly(angle);
  let term = ONE;
  let cos = ONE;
  let sin = ZERO;
  for (let n = 1; n < TERMS; n++) {
    term = div(mul(term, x), exactly(n));
    const signed = n % 4 >= 2 ? neg(term) : term;
    if (n % 2 === 0) cos = add(cos, signed);
    else sin = add(sin, signed);
  }
  // The terms fall from the seventh power on, with signs in turn: what is left is less than the next, twice over.
  const rest = 2 * sizeOf(div(mul(term, x), exactly(TERMS)));
  return {
    cos: within(add(cos, { lo: -rest, hi: rest })),
    sin: within(add(sin, { lo: -rest, hi: rest })),
  };
}

/** The same over an angle's interval: neither changes by more than the angle does. */
export function turnOver(angle: Interval): Turned {
  const middle = (angle.lo + angle.hi) / 2;
  const wide = up(Math.max(angle.hi - middle, middle - angle.lo));
  const { cos, sin } = turnOf(middle);
  const by = { lo: -wide, hi: wide };
  return { cos: within(add(cos, by)), sin: within(add(sin, by)) };
}

function within({ lo, hi }: Interval): Interval {
  return { lo: Math.max(-1, lo), hi: Math.min(1, hi) };
}

/**
 * The angle of the vector (x, y) from the first axis, where x may not be 0 unless y is above it: from the
 * library's guess, which is proved by turning the vector back through it.
 */
export function angleOf(x: Interval, y: Interval): Interval {
  const guess = atan2((y.lo + y.hi) / 2, (x.lo + x.hi) / 2);
  const { cos, sin } = turnOf(guess);
  const ahead = add(mul(x, cos), mul(y, sin));
  if (!(ahead.lo > 0)) return { lo: -WIDEST, hi: WIDEST };
  // What is left is atan(aside / ahead), which is no more than that.
  const left = div(sub(mul(y, cos), mul(x, sin)), ahead);
  return add(exactly(guess), { lo: Math.min(0, left.lo), hi: Math.max(0, left.hi) });
}

/** Three intervals. */
export type Vector = readonly [Interval, Interval, Interval];

export function vector(v: readonly [number, number, number]): Vector {
  return [exactly(v[0]), exactly(v[1]), exactly(v[2])];
}
export function plus(a: Vector, b: Vector): Vector {
  return [add(a[0], b[0]), add(a[1], b[1]), add(a[2], b[2])];
}
export function minus(a: Vector, b: Vector): Vector {
  return [sub(a[0], b[0]), sub(a[1], b[1]), sub(a[2], b[2])];
}
export function scaled(a: Vector, x: number): Vector {
  return [times(a[0], x), times(a[1], x), times(a[2], x)];
}
export function inner(a: Vector, b: Vector): Interval {
  return add(add(mul(a[0], b[0]), mul(a[1], b[1])), mul(a[2], b[2]));
}
export function lengthOf(a: Vector): Interval {
  return root(add(add(square(a[0]), square(a[1])), square(a[2])));
}

/** Turned about an axis (0 to 2), right-handed. */
export function turnedAbout(axis: 0 | 1 | 2, { cos, sin }: Turned, v: Vector): Vector {
  const j = ((axis + 1) % 3) as 0 | 1 | 2;
  const k = ((axis + 2) % 3) as 0 | 1 | 2;
  const out: [Interval, Interval, Interval] = [v[0], v[1], v[2]];
  out[j] = sub(mul(v[j], cos), mul(v[k], sin));
  out[k] = add(mul(v[j], sin), mul(v[k], cos));
  return out;
}
