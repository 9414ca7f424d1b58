/**
 * Whether a row lies at or above the room left to a limit, at every position of a box and under every
 * option still open. Boxes in which that cannot be told are halved.
 */

import type { Four, LimitRow } from '../model/certificate.js';
import type { OptionDomains } from '../model/options.js';
import type { OptionSet, Scenario } from '../model/scenario.js';
import type { Range4 } from './box.js';
import { limitsOf, setsFor, sidesOf } from './limit-sides.js';
import { pointOf } from './position-point.js';
import type { Point, Side } from './position-point.js';
import { constant, leastOf, minus, plus, scaled } from './slopes.js';
import type { Sloped } from './slopes.js';

/** How often a box may be halved. */
const MOST_HALVINGS = 20;

/** Why the row is no row, or undefined where it is one. */
export function faultOfLimitRow(
  row: LimitRow,
  s: Scenario,
  domains: OptionDomains,
  box: Range4,
  keepOn: () => boolean,
): string | undefined {
  const brought = limitsOf(s)[row.limit];
  if (!brought) return 'there is no such limit';
  if (!(row.scale > 0)) return 'a limit has no scale';
  const { when, limit } = brought;
  if (when) {
    const open = domains[when.choice]!;
    if (open.length !== 1 || open[0] !== when.option) return 'its limit does not hold there';
  }
  for (const set of setsFor(s, limit, domains)) {
    const sides = sidesOf(s.drawn ?? s, limit, set);
    if (!sides.some((side) => isAbove(row, side, box, box, MOST_HALVINGS, keepOn))) {
      return 'the row dips below a limit';
    }
  }
  return undefined;
}

/** Millimetres, radians or kilograms by which a place may miss a limit and count as keeping it. */
const LIMIT_SLACK = 1e-7;

/** Why a place breaks a limit; undefined where it keeps all that hold under the set. */
export function faultOfLimits(s: Scenario, set: OptionSet, place: Four): string | undefined {
  const at = pointOf({ lo: place, hi: place });
  for (const [i, { limit, when }] of limitsOf(s).entries()) {
    if (when && set[when.choice] !== when.option) continue;
    const sides = sidesOf(s.drawn ?? s, limit, set);
    if (sides.some((side) => !(side(at).middle.lo >= -LIMIT_SLACK)))
      return `limit ${i + 1} is missed`;
  }
  return undefined;
}

/** Whether the row stays above one side all over a piece of its box. */
function isAbove(
  row: LimitRow,
  side: Side,
  whole: Range4,
  piece: Range4,
  left: number,
  keepOn: () => boolean,
): boolean {
  const at = pointOf(piece);
  const room = minus(rowAt(row, whole, at), scaled(side(at), row.scale));
  if (leastOf(room, piece.lo, piece.hi, at.middle) >= 0) return true;
  if (left === 0 || !keepOn() || !(room.middle.lo >= 0)) return false;
  // Along the coordinate over which the slopes are known the least well.
  let widest = 0;
  let most = -1;
  for (const k of [0, 1, 2, 3] as const) {
    const slope = room.slopes[k] ?? { lo: 0, hi: 0 };
    const doubt = (slope.hi - slope.lo) * (piece.hi[k] - piece.lo[k]);
    if (doubt > most) [widest, most] = [k, doubt];
  }
  const cut = at.middle[widest]!;
  if (!(cut > piece.lo[widest]! && cut < piece.hi[widest]!)) return false;
  const half = (low: boolean): Range4 => ({
    lo: piece.lo.map((x, k) => (k === widest && !low ? cut : x)) as unknown as Four,
    hi: piece.hi.map((x, k) => (k === widest && low ? cut : x)) as unknown as Four,
  });
  return [true, false].every((low) => isAbove(row, side, whole, half(low), left - 1, keepOn));
}

/** The row as a function of the position. */
function rowAt({ value, slopes }: LimitRow, { lo, hi }: Range4, at: Point): Sloped {
  let sum = constant(value);
  for (const k of [0, 1, 2, 3] as const) {
    const half = (hi[k] - lo[k]) / 2;
    if (half === 0 || slopes[k] === 0) continue;
    const along = minus(at.x[k], constant(lo[k] + half));
    // Less what rounding of the middle may come to, in half widths.
    const off = (4 * Number.EPSILON * Math.max(Math.abs(lo[k]), Math.abs(hi[k]))) / half + 1e-12;
    const hair = constant(-Math.abs(slopes[k]) * off);
    sum = plus(plus(sum, scaled(along, slopes[k] / half)), hair);
  }
  return sum;
}
