/**
 * Positions are printed to so many decimals; the position measured is the one printed, so it is
 * rounded first.
 */

/**
 * The nearest position on the steps of print (1e-5 in or 1e-4 mm, and 1e-5 degree) that is `allowed`,
 * each coordinate rounded either way or a step further; pinned ones stay. Where no such position is
 * allowed, the position itself.
 */
export function printedPosition(
  x: Float64Array,
  lo: Float64Array,
  hi: Float64Array,
  units: 'in' | 'mm',
  allowed: (x: Float64Array) => boolean,
): Float64Array {
  const ways = Array.from(x, (value, k) => roundings(value, lo[k]!, hi[k]!, stepOf(k, units)));
  const all: Float64Array[] = [];
  for (const setback of ways[0]!)
    for (const offset of ways[1]!)
      for (const height of ways[2]!)
        for (const pitch of ways[3]!) all.push(Float64Array.of(setback, offset, height, pitch));
  const unitOf = ways.map((_, k) => stepOf(k, units).unit);
  const far = all.map((at) =>
    unitOf.reduce((sum, unit, k) => sum + Math.abs(at[k]! - x[k]!) / unit, 0),
  );
  // Mostly the nearest is allowed, so the next is looked for only when it is not.
  for (let left = all.length; left > 0; left--) {
    let nearest = 0;
    for (let i = 1; i < far.length; i++) if (far[i]! < far[nearest]!) nearest = i;
    if (allowed(all[nearest]!)) return all[nearest]!;
    far[nearest] = Infinity;
  }
  return x;
}

/** A printed step is one unit over so many. */
interface Step {
  readonly unit: number;
  readonly per: number;
}

function stepOf(k: number, units: 'in' | 'mm'): Step {
  if (k === 3) return { unit: Math.PI / 180, per: 1e5 };
  return units === 'in' ? { unit: 25.4, per: 1e5 } : { unit: 1, per: 1e4 };
}

/**
 * A value rounded down and up, and a step further each way, for where limits meet at a slant; within its
 * range, itself where it is pinned or none is.
 */
function roundings(value: number, lo: number, hi: number, { unit, per }: Step): number[] {
  if (hi - lo <= 1e-12) return [value];
  const steps = (value / unit) * per;
  const [down, up] = [Math.floor(steps), Math.ceil(steps)];
  const ways = [down - 1, down, up, up + 1].map((n) => (n / per) * unit);
  const inside = [...new Set(ways)].filter((v) => v >= lo && v <= hi);
  return inside.length > 0 ? inside : [value];
}
