/**
 * Shares: the multipliers of the first-order model at a position. A rule's share is the margin gained
 * per unit of room given at it; shares sum to 1. Where several sets of multipliers are optimal, room
 * given at a rule earns the least that its share can be, and room taken there costs the greatest.
 */

import { minOf } from '../../model/extremes.js';
import type { Position } from '../../model/scenario.js';
import type { Reading } from '../answer.js';
import { createLpResult, solveLp } from '../bounding/lp.js';
import { multiplierRanges } from '../bounding/multipliers.js';
import type { Multiplier } from '../bounding/multipliers.js';
import { Rows } from '../rows.js';

const rows = new Rows();
const lp = createLpResult();

/** Half the model's box, millimetres: wide against rounding, narrow against curvature. */
const MODEL_HALF = 0.05;
/** The same for pitch, radians. */
const MODEL_TURN = 1e-4;
/** Millimetres above the tightest margin up to which a rule enters the model. */
const MODEL_DEPTH = 0.2;
/** A share below this is none. */
const LEAST_SHARE = 1e-6;
/** Millimetres given to a rule and taken from it, to see what that gains and costs in the model. */
const SHARE_STEP = 1e-3;
/** Millimetres: rows no further apart than this, all over the box, are one. */
const SAME_ROW = 1e-9;
/** Shares no further apart than this are one. */
const ONE_SHARE = 0.01;

/**
 * Readings with the share of each binding rule. `free` tells which coordinates may move; `room` the
 * way left to each end of their ranges, so that a range end can carry part of the load.
 */
export function withShares(
  readings: readonly Reading[],
  room: { readonly down: Position; readonly up: Position },
): Reading[] {
  const tightest = minOf(readings.filter((r) => !r.fixed).map((r) => r.margin));
  rows.clear();
  const names = ['setback', 'offset', 'height', 'pitch'] as const;
  const half = names.map((name) => (name === 'pitch' ? MODEL_TURN : MODEL_HALF));
  const lo = names.map((name, k) => -Math.min(half[k]!, room.down[name]));
  const hi = names.map((name, k) => Math.min(half[k]!, room.up[name]));
  readings.forEach((reading, i) => {
    if (!reading.slope || reading.margin > tightest + MODEL_DEPTH) return;
    const row = rows.add(i, false);
    let value = reading.margin;
    names.forEach((name, k) => {
      value += (reading.slope![name] * (lo[k]! + hi[k]!)) / 2;
      rows.slopes[4 * row + k] = (reading.slope![name] * (hi[k]! - lo[k]!)) / 2;
    });
    rows.values[row] = value;
  });
  if (rows.count === 0) return [...readings];
  solveLp(
    rows,
    lo.map((low, k) => hi[k]! - low > 1e-12),
    lp,
  );
  const share = new Map<number, number>();
  for (let row = 0; row < rows.count; row++) {
    if (rows.share[row]! > LEAST_SHARE) share.set(rows.source[row]!, rows.share[row]!);
  }
  const ranges = shareRanges(lo.map((low, k) => hi[k]! - low > 1e-12));
  return readings.map((reading, i) => {
    const range = ranges.get(i);
    const own = share.get(i) ?? (range && 0);
    if (own === undefined) return reading;
    return { ...reading, binding: true, share: own, ...(range && { shareRange: range }) };
  });
}

/** Rows asked for their ranges: of more that are as tight as one another, any is taken to have none or all. */
const MOST_ASKED = 100;
const ANY_SHARE: Multiplier = { least: 0, most: 1 };

/** By reading, how far its share may lie apart; only those whose share is not one number. */
function shareRanges(free: readonly boolean[]): Map<number, Multiplier> {
  const ranges = new Map<number, Multiplier>();
  const kinds = [...kindsOf().values()];
  // A row that is not tight at the optimum has no share in any set of them.
  const asked = kinds.flatMap(({ row }, k) => (isTight(row) ? [k] : []));
  if (asked.length > MOST_ASKED) {
    const all = asked.flatMap((k) => kinds[k]!.twins);
    return new Map(all.map((row) => [rows.source[row]!, ANY_SHARE]));
  }
  // Counted from where every variable is 0 or more: u from -1, the margin from under any row.
  const corner = (row: number): number =>
    free.reduce((sum, is, k) => sum - (is ? rows.slopes[4 * row + k]! : 0), rows.values[row]!);
  const lift = 1 - minOf(kinds.map(({ row }) => corner(row)));
  const open = [0, 1, 2, 3].filter((k) => free[k]);
  const margins = kinds.map(({ row }) => ({
    coefficients: [1, ...open.map((k) => -rows.slopes[4 * row + k]!)],
    limit: corner(row) + lift,
  }));
  const ends = open.map((k) => ({
    coefficients: [0, ...open.map((other) => (other === k ? 1 : 0))],
    limit: 2,
  }));
  const costs = [1, ...open.map(() => 0)];
  const found = multiplierRanges([...margins, ...ends], costs, asked, SHARE_STEP) ?? [];
  found.forEach(({ least, most }, n) => {
    const { twins } = kinds[asked[n]!]!;
    // Of several that are one row, room at one alone gains nothing, and any may have all of the share.
    const from = twins.length > 1 || least < ONE_SHARE ? 0 : least;
    const own = twins.reduce((sum, twin) => sum + rows.share[twin]!, 0);
    // A range that leaves out a set known to be optimal is the library's fault, and says nothing.
    if (most - from <= ONE_SHARE || own < least - ONE_SHARE || own > most + ONE_SHARE) return;
    const range = { least: from, most: Math.min(1, most) };
    for (const twin of twins) ranges.set(rows.source[twin]!, range);
  });
  return ranges;
}

/** Rows that are one and the same, and the first of them. */
interface SameRows {
  readonly row: number;
  readonly twins: number[];
}

/** Rows by their slopes and values, without those that a row of the same slopes lies under by more than a step. */
function kindsOf(): Map<string, SameRows> {
  const least = new Map<string, number>();
  const slopesOf = (row: number) =>
    [0, 1, 2, 3].map((k) => Math.round(rows.slopes[4 * row + k]! / SAME_ROW)).join();
  for (let row = 0; row < rows.count; row++) {
    const key = slopesOf(row);
    least.set(key, Math.min(least.get(key) ?? Infinity, rows.values[row]!));
  }
  const kinds = new Map<string, SameRows>();
  for (let row = 0; row < rows.count; row++) {
    const slopes = slopesOf(row);
    const over = rows.values[row]! - least.get(slopes)!;
    if (over > SHARE_STEP) continue;
    const key = `${slopes} ${Math.round(over / SAME_ROW)}`;
    const known = kinds.get(key);
    if (known) known.twins.push(row);
    else kinds.set(key, { row, twins: [row] });
  }
  return kinds;
}

/** Whether a row lies so near to the program's optimum that a step of room may count. */
function isTight(row: number): boolean {
  return rows.at(row, lp.u) <= lp.bound + SHARE_STEP + SAME_ROW;
}
