/**
 * The two turns an engine makes: pitch about Y and rock about X, as row-major 3 x 3 matrices.
 *
 * Vehicle frame: X rearward, Y to the right, Z up. Angles are radians.
 */

import * as trig from '../model/trig.js';

/** Positive pitch is tail down: x' = x cos + z sin, z' = -x sin + z cos. Writes and returns `out`. */
export function pitchRotation(pitch: number, out: Float64Array): Float64Array {
  const c = trig.cos(pitch);
  const s = trig.sin(pitch);
  return write(out, c, 0, s, 0, 1, 0, -s, 0, c);
}

/** Right-handed about X: y' = y cos - z sin, z' = y sin + z cos. Writes and returns `out`. */
export function rockRotation(angle: number, out: Float64Array): Float64Array {
  const c = trig.cos(angle);
  const s = trig.sin(angle);
  return write(out, 1, 0, 0, 0, c, -s, 0, s, c);
}

/** Rock first, then pitch: R_y(pitch) R_x(rock). Writes and returns `out`. */
export function attitude(pitch: number, rock: number, out: Float64Array): Float64Array {
  const cp = trig.cos(pitch);
  const sp = trig.sin(pitch);
  const cr = trig.cos(rock);
  const sr = trig.sin(rock);
  return write(out, cp, sp * sr, sp * cr, 0, cr, -sr, -sp, cp * sr, cp * cr);
}

/** Right-handed turn about a unit axis (Rodrigues). Writes and returns `out`. */
export function axisRotation(
  x: number,
  y: number,
  z: number,
  angle: number,
  out: Float64Array,
): Float64Array {
  const c = trig.cos(angle);
  const s = trig.sin(angle);
  const t = 1 - c;
  return write(
    out,
    t * x * x + c,
    t * x * y - s * z,
    t * x * z + s * y,
    t * x * y + s * z,
    t * y * y + c,
    t * y * z - s * x,
    t * x * z - s * y,
    t * y * z + s * x,
    t * z * z + c,
  );
}

function write(
  out: Float64Array,
  a: number,
  b: number,
  c: number,
  d: number,
  e: number,
  f: number,
  g: number,
  h: number,
  i: number,
): Float64Array {
  out[0] = a;
  out[1] = b;
  out[2] = c;
  out[3] = d;
  out[4] = e;
  out[5] = f;
  out[6] = g;
  out[7] = h;
  out[8] = i;
  return out;
}
