/** The position as a builder sets it: on a grid of tape and protractor steps. */

import type { Meter, SetContacts } from '../measuring/meter.js';

/** Millimetres: two settings whose margins differ by less are as good as each other. */
const LEVEL = 1e-3;

/** Length and angle steps of a setting. */
export interface Grid {
  /** Millimetres. */
  readonly length: number;
  /** Radians. */
  readonly angle: number;
}

/** 1/16 in or 1 mm, and 0.1 degree. */
export function gridOf(units: 'in' | 'mm'): Grid {
  return { length: units === 'in' ? 25.4 / 16 : 1, angle: Math.PI / 1800 };
}

/**
 * The best of the grid points within one step of the optimum (81 when nothing is pinned), ranges and
 * limits kept, pinned coordinates unrounded. A coordinate whose range holds no grid point near the
 * optimum keeps the optimum's own value. The nearest to the optimum wins a tie.
 */
export function settingNear(
  meter: Meter,
  of: SetContacts,
  lo: Float64Array,
  hi: Float64Array,
  optimum: Float64Array,
  grid: Grid,
): Float64Array {
  const ticks = [0, 1, 2, 3].map((k) =>
    ticksNear(optimum[k]!, lo[k]!, hi[k]!, k === 3 ? grid.angle : grid.length),
  );
  const points: Float64Array[] = [];
  for (const a of ticks[0]!) {
    for (const b of ticks[1]!) {
      for (const c of ticks[2]!)
        for (const d of ticks[3]!) points.push(Float64Array.of(a, b, c, d));
    }
  }
  const far = (x: Float64Array): number =>
    x.reduce(
      (sum, v, k) => sum + Math.abs(v - optimum[k]!) / (k === 3 ? grid.angle : grid.length),
      0,
    );
  const near = points.map((point) => ({ point, far: far(point) })).sort((a, b) => a.far - b.far);
  let best: Float64Array | undefined;
  let value = -Infinity;
  for (const { point } of near) {
    if (!meter.withinLimits(of, point)) continue;
    const margin = meter.marginAt(of, point, value);
    if (best === undefined || margin > value + LEVEL) {
      best = point;
      value = margin;
    }
  }
  return best ?? optimum;
}

function ticksNear(value: number, lo: number, hi: number, step: number): number[] {
  if (hi - lo <= 1e-12) return [Math.min(hi, Math.max(lo, value))];
  const middle = Math.round(value / step);
  const ticks = [middle - 1, middle, middle + 1].map((n) => n * step);
  const inside = ticks.filter((t) => t >= lo - 1e-9 && t <= hi + 1e-9);
  return inside.length > 0 ? inside.map((t) => Math.min(hi, Math.max(lo, t))) : [value];
}
