import type { PositionRanges } from '../model/scenario.js';

/** A box of positions: setback, offset, height in millimetres, pitch in radians. */
export interface PositionBox {
  /** Centre. */
  readonly mid: Float64Array;
  /** Half widths, never negative. */
  readonly half: Float64Array;
}

/** Millimetres of usual travel for a radian of pitch, for comparing widths. */
export const PITCH_TRAVEL = 500;

export function boxOf(lo: ArrayLike<number>, hi: ArrayLike<number>): PositionBox {
  const mid = new Float64Array(4);
  const half = new Float64Array(4);
  for (let k = 0; k < 4; k++) {
    mid[k] = (lo[k]! + hi[k]!) / 2;
    half[k] = (hi[k]! - lo[k]!) / 2;
  }
  return { mid, half };
}

/**
 * How far any point within `reach` of the pitch axis can move between position `x, y, z, pitch` and
 * any position of the box.
 */
export function travel(
  box: PositionBox,
  x: number,
  y: number,
  z: number,
  pitch: number,
  reach: number,
): number {
  const dx = Math.abs(box.mid[0]! - x) + box.half[0]!;
  const dy = Math.abs(box.mid[1]! - y) + box.half[1]!;
  const dz = Math.abs(box.mid[2]! - z) + box.half[2]!;
  const turn = Math.abs(box.mid[3]! - pitch) + box.half[3]!;
  return Math.sqrt(dx * dx + dy * dy + dz * dz) + reach * Math.min(turn, 2);
}

/** The low and high ends of position ranges, as the solver orders coordinates. */
export function endsOf(ranges: PositionRanges): { lo: Float64Array; hi: Float64Array } {
  const all = [ranges.setback, ranges.offset, ranges.height, ranges.pitch];
  return {
    lo: Float64Array.from(all, (range) => range.min),
    hi: Float64Array.from(all, (range) => range.max),
  };
}
