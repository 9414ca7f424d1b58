/**
 * Angles, lengths and powers by sums, products, quotients and square roots alone. Those are exact to the
 * last bit in every engine that runs JavaScript; `Math.sin` and its kin need not be (ECMA-262 leaves them to
 * the engine), and a proof must come out the same wherever it is run.
 *
 * Sine and cosine: the angle less a whole number of quarter turns, pi/2 held in three pieces so that the
 * product with the first is exact (Cody and Waite 1980, from memory), then Taylor's series up to a quarter of a
 * half turn. Arctangent: the tangent less the nearest eighth, by atan t - atan c = atan((t - c) / (1 + t c)),
 * then its series. `tests/model/trig.test.ts` holds each of them to what it promises.
 */

const QUARTER = Math.PI / 2;
/** Pi/2 in pieces: 33 bits each, and what is left. */
const FIRST = 1.5707963267341256;
const SECOND = 6.077100506303966e-11;
const THIRD = 2.0222662487959506e-21;
/** What `Math.PI` and its half leave out. */
const PI_REST = 1.2246467991473532e-16;
const QUARTER_REST = 6.123233995736766e-17;
/** Up to here no quarter turn is taken off. */
const SMALL = Math.PI / 4;

/** Arctangents of 0/8 to 8/8, each with what its rounding leaves out. */
const EIGHTHS = [0, 1, 2, 3, 4, 5, 6, 7, 8].map((k) => k / 8);
const ARCS = [
  0, 0.12435499454676144, 0.24497866312686414, 0.35877067027057225, 0.4636476090008061,
  0.5585993153435624, 0.6435011087932844, 0.7188299996216245, 0.7853981633974483,
];
const ARC_RESTS = [
  0, -3.1253241424539383e-18, 1.0698755618734451e-17, -2.4623815582638635e-17,
  2.2698777452961687e-17, -5.4556305485916264e-18, 1.5834785051444286e-17, -2.1478388444456983e-17,
  3.061616997868383e-17,
];

/** Squares smaller or greater than these have lost digits. */
const LEAST_SQUARE = 1e-280;
const MOST_SQUARE = 1e300;

/** An angle less a number of quarter turns, and what its rounding left out. */
let reduced = 0;
let rest = 0;

/** Sine of an angle in radians, to one unit in the last place up to a million. */
export function sin(x: number): number {
  if (x <= SMALL && x >= -SMALL) return sine(x, 0);
  if (x < 0) return -sin(-x);
  const turned = reduce(x);
  if (turned === 0) return sine(reduced, rest);
  if (turned === 1) return cosine(reduced, rest);
  return turned === 2 ? -sine(reduced, rest) : -cosine(reduced, rest);
}

/** Cosine of an angle in radians, to one unit in the last place up to a million. */
export function cos(x: number): number {
  if (x <= SMALL && x >= -SMALL) return cosine(x, 0);
  const turned = reduce(Math.abs(x));
  if (turned === 0) return cosine(reduced, rest);
  if (turned === 1) return -sine(reduced, rest);
  return turned === 2 ? -cosine(reduced, rest) : sine(reduced, rest);
}

/** Tangent of an angle in radians, to three units in the last place. */
export function tan(x: number): number {
  return sin(x) / cos(x);
}

/** The angle of a point from the positive first axis, -pi to pi, to two units in the last place. */
export function atan2(y: number, x: number): number {
  const [down, along] = [Math.abs(y), Math.abs(x)];
  const isNegative = y < 0 || Object.is(y, -0);
  const isBehind = x < 0 || Object.is(x, -0);
  if (Number.isNaN(down) || Number.isNaN(along)) return NaN;
  let angle: number;
  if (down === 0) angle = 0;
  else if (down <= along) angle = arc(down / along);
  else {
    const past = arc(along / down);
    angle = QUARTER + (isBehind ? past + QUARTER_REST : QUARTER_REST - past);
    return isNegative ? -angle : angle;
  }
  if (isBehind) angle = Math.PI + (PI_REST - angle);
  return isNegative ? -angle : angle;
}

/** Arcsine in radians, to three units in the last place; NaN beyond 1. */
export function asin(x: number): number {
  return atan2(x, Math.sqrt((1 - x) * (1 + x)));
}

/** Arccosine in radians, to three units in the last place; NaN beyond 1. */
export function acos(x: number): number {
  return 2 * atan2(Math.sqrt(1 - x), Math.sqrt(1 + x));
}

/** Length of a vector of two or three, to two units in the last place. */
export function hypot(x: number, y: number): number;
export function hypot(x: number, y: number, z: number): number;
export function hypot(x: number, y: number, z = 0): number {
  const square = x * x + y * y + z * z;
  if (square > LEAST_SQUARE && square < MOST_SQUARE) return Math.sqrt(square);
  const most = Math.max(Math.abs(x), Math.abs(y), Math.abs(z));
  if (!(most > 0 && most < Infinity)) return most;
  return (
    most * Math.sqrt((x / most) * (x / most) + (y / most) * (y / most) + (z / most) * (z / most))
  );
}

/** Length of a vector of any number, none of it so small or large that its square is lost. */
export function norm(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0));
}

/** A number times itself. */
export function squared(x: number): number {
  return x * x;
}

/** Ten to a whole power, rounded once: what `1e-5` says. */
export function tenTo(power: number): number {
  return Number(`1e${power}`);
}

/** The greatest whole power of ten that is not above a positive number. */
export function powerOfTen(value: number): number {
  return Number(value.toExponential().split('e')[1]);
}

/** Sets `reduced` and `rest` of an angle over 0, and returns how many quarter turns went, 0 to 3. */
function reduce(x: number): number {
  const turns = Math.round(x / QUARTER);
  // The first product is exact, and so is the first difference; the second's error is carried on.
  const near = x - turns * FIRST;
  const off = turns * SECOND;
  const left = near - off;
  const lost = turns * THIRD - (near - left - off);
  reduced = left - lost;
  rest = left - reduced - lost;
  return turns % 4;
}

/** Sine of `x + tail`, up to a quarter of a half turn. */
function sine(x: number, tail: number): number {
  const z = x * x;
  const series =
    z *
    (1 / 120 +
      z *
        (-1 / 5040 +
          z *
            (1 / 362880 + z * (-1 / 39916800 + z * (1 / 6227020800 + z * (-1 / 1307674368000))))));
  return x + (tail + (x * z * (series - 1 / 6) - (tail * z) / 2));
}

/** Cosine of `x + tail`, up to a quarter of a half turn. */
function cosine(x: number, tail: number): number {
  const z = x * x;
  const series =
    1 / 24 +
    z *
      (-1 / 720 +
        z *
          (1 / 40320 +
            z *
              (-1 / 3628800 +
                z * (1 / 479001600 + z * (-1 / 87178291200 + z * (1 / 20922789888000))))));
  const half = z / 2;
  const most = 1 - half;
  return most + (1 - most - half + (z * z * series - x * tail));
}

/** Arctangent of 0 to 1. */
function arc(t: number): number {
  const k = t < 0.125 ? 0 : Math.round(8 * t);
  const at = EIGHTHS[k]!;
  const x = k === 0 ? t : (t - at) / (1 + t * at);
  const z = x * x;
  const series =
    -1 / 3 +
    z *
      (1 / 5 +
        z * (-1 / 7 + z * (1 / 9 + z * (-1 / 11 + z * (1 / 13 + z * (-1 / 15 + z * (1 / 17)))))));
  return ARCS[k]! + (x + (ARC_RESTS[k]! + x * z * series));
}
