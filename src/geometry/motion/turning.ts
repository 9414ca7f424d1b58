/** Certified least reach of a shape along a direction over an interval of turn about X. */

import * as trig from '../../model/trig.js';
import type { Shape } from '../shape.js';

/** Cosine and sine at the low and high ends of the interval, and its width. */
const interval = new Float64Array(5);

/** Sets the interval of angles (radians, less than half a turn wide) for `leastOverTurn`. */
export function turnOver(low: number, high: number): void {
  interval[0] = trig.cos(low);
  interval[1] = trig.sin(low);
  interval[2] = trig.cos(high);
  interval[3] = trig.sin(high);
  interval[4] = high - low;
}

/**
 * With m a unit direction, the least over the interval of angles t and over the shape's core of
 * - sense 1: m . R_x(t) p, the shape turning past a still direction (pitch and shift unused);
 * - sense -1: R_x(t) m . R_y(pitch)^T (shift - p), the direction turning past a still shape.
 * A lower bound within rounding: exact for points; a disc's term is bounded by its chord, which is
 * off by at most disc * width^2 / 8.
 */
export function leastOverTurn(
  shape: Shape,
  mx: number,
  my: number,
  mz: number,
  pitch: number,
  sx: number,
  sy: number,
  sz: number,
  sense: 1 | -1,
): number {
  const cosLow = interval[0]!;
  const sinLow = interval[1]!;
  const cosHigh = interval[2]!;
  const sinHigh = interval[3]!;
  const width = interval[4]!;
  const c = trig.cos(pitch);
  const s = trig.sin(pitch);
  const p = shape.points;
  const round = shape.disc > 0;
  const bulge = (width * width) / 8;
  let discLow = 0;
  let discHigh = 0;
  let discBulge = 0;
  if (round) {
    const u = shape.axis;
    // The axis in the pitched frame, as the points below.
    const ux = sense === 1 ? u[0]! : c * u[0]! - s * u[2]!;
    const uz = sense === 1 ? u[2]! : s * u[0]! + c * u[2]!;
    discLow = shape.disc * acrossTurned(mx, my, mz, ux, u[1]!, uz, cosLow, sense * -sinLow);
    discHigh = shape.disc * acrossTurned(mx, my, mz, ux, u[1]!, uz, cosHigh, sense * -sinHigh);
    discBulge = shape.disc * Math.sqrt(my * my + mz * mz) * bulge;
  }
  let least = Infinity;
  for (let i = 0; i < p.length; i += 3) {
    let x = p[i]!;
    let y = p[i + 1]!;
    let z = p[i + 2]!;
    if (sense === -1) {
      const wx = sx - x;
      const wz = sz - z;
      x = c * wx - s * wz;
      y = sy - y;
      z = s * wx + c * wz;
    }
    // m . R_x(t) p = m_x p_x + C cos t + S sin t; for R_x(t) m . p the sine changes sign.
    const cosine = my * y + mz * z;
    const sine = sense * (mz * y - my * z);
    const low = cosine * cosLow + sine * sinLow;
    const high = cosine * cosHigh + sine * sinHigh;
    let value: number;
    if (round) {
      value =
        Math.min(low - discLow, high - discHigh) -
        Math.sqrt(cosine * cosine + sine * sine) * bulge -
        discBulge;
    } else if (sine * cosLow < cosine * sinLow && sine * cosHigh > cosine * sinHigh) {
      value = -Math.sqrt(cosine * cosine + sine * sine);
    } else value = low < high ? low : high;
    value += mx * x;
    if (value < least) least = value;
  }
  return least;
}

/** Length across the axis u of m turned about X by the angle of the given cosine and sine. */
function acrossTurned(
  mx: number,
  my: number,
  mz: number,
  ux: number,
  uy: number,
  uz: number,
  cosine: number,
  sine: number,
): number {
  const y = cosine * my - sine * mz;
  const z = sine * my + cosine * mz;
  const along = mx * ux + y * uy + z * uz;
  const px = mx - along * ux;
  const py = y - along * uy;
  const pz = z - along * uz;
  return Math.sqrt(px * px + py * py + pz * pz);
}
