/**
 * Positions are printed to so many decimals; the position measured is the one printed, so it is
 * rounded first.
 */

/** Steps of the printed position: 1e-5 in or 1e-4 mm, and 1e-5 degree. */
export function printedPosition(
  x: Float64Array,
  lo: Float64Array,
  hi: Float64Array,
  units: 'in' | 'mm',
): Float64Array {
  return x.map((value, k) => {
    if (hi[k]! - lo[k]! <= 1e-12) return value;
    const unit = k === 3 ? Math.PI / 180 : units === 'in' ? 25.4 : 1;
    const decimals = k !== 3 && units === 'mm' ? 1e4 : 1e5;
    const rounded = (Math.round((value / unit) * decimals) / decimals) * unit;
    return rounded < lo[k]! || rounded > hi[k]! ? value : rounded;
  });
}
