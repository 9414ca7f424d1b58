/** Which motions a set of links holds, and which it leaves free. */

import { STANCE_MOTIONS } from '../../model/stance.js';
import type { Stance, StanceMotion } from '../../model/stance.js';
import * as trig from '../../model/trig.js';
import { dot, singular } from '../singular.js';
import { lengthSlopes } from './links.js';
import type { Link } from './links.js';

/** A motion that lengthens no link by more than this share of its own way counts as free. */
export const BARELY = 0.01;
/** What a motion brings with it is not worth telling under this share of it. */
const TELLING = 0.02;

/** A motion left free, with what goes with it. */
export interface FreeMotion {
  readonly motion: StanceMotion;
  /** Millimetres of each other motion, scaled, for a scaled millimetre of this one. */
  readonly brings: readonly { readonly motion: StanceMotion; readonly by: number }[];
}

export interface Freedom {
  /** Orthonormal scaled directions that links hold, and those that they leave free: six in all. */
  readonly held: readonly (readonly number[])[];
  readonly free: readonly (readonly number[])[];
  readonly motions: readonly FreeMotion[];
}

/** What the links hold about a stance, to first order. */
export function freedomOf(links: readonly Link[], stance: Stance): Freedom {
  return freedomOfRows(links.map((link) => lengthSlopes(link, stance)));
}

/** The same for any readings, by their scaled slopes. */
export function freedomOfRows(rows: readonly ArrayLike<number>[], barely = BARELY): Freedom {
  const { values, right } = singular(rows, 6);
  const held = right.filter((_, k) => values[k]! > barely);
  const free = right.filter((_, k) => !(values[k]! > barely));
  return { held, free, motions: named(free) };
}

/**
 * Free directions as motions by name: those free by themselves first, then a reduced basis, each with one
 * motion of its own that no other brings.
 */
function named(free: readonly (readonly number[])[]): FreeMotion[] {
  const rest = free.map((direction) => [...direction]);
  const pivots: number[] = [];
  const taken: number[][] = [];
  while (rest.length > 0) {
    const pivot = mostAlone(rest, pivots);
    const row = rest.reduce((a, b) => (Math.abs(b[pivot]!) > Math.abs(a[pivot]!) ? b : a));
    rest.splice(rest.indexOf(row), 1);
    const own = row.map((value) => value / row[pivot]!);
    for (const other of [...rest, ...taken]) subtract(other, own, other[pivot]!);
    pivots.push(pivot);
    taken.push(own);
  }
  return taken.map((row, i) => ({
    motion: STANCE_MOTIONS[pivots[i]!]!,
    brings: row.flatMap((by, k) => {
      return k === pivots[i] || Math.abs(by) < TELLING ? [] : [{ motion: STANCE_MOTIONS[k]!, by }];
    }),
  }));
}

/** The motion that lies the most in the directions' span, of those not yet taken. */
function mostAlone(rows: readonly (readonly number[])[], taken: readonly number[]): number {
  const share = (k: number): number => (taken.includes(k) ? -1 : spanned(rows, k));
  return [0, 1, 2, 3, 4, 5].reduce((a, b) => (share(b) > share(a) + 1e-9 ? b : a));
}

/** The length of a motion's projection on the span of rows, which need not be orthonormal. */
function spanned(rows: readonly (readonly number[])[], motion: number): number {
  const { values, right } = singular(rows, 6);
  let sum = 0;
  right.forEach((direction, k) => {
    if (values[k]! > 1e-9 * values[0]!) sum += trig.squared(direction[motion]!);
  });
  return Math.sqrt(sum);
}

function subtract(from: number[], row: readonly number[], times: number): void {
  for (let k = 0; k < from.length; k++) from[k]! -= times * row[k]!;
}

/** As many links as there are independent ones, the best of them, as indexes in rising order. */
export function independentLinks(rows: readonly ArrayLike<number>[], barely = BARELY): number[] {
  const rest = rows.map((row) => Array.from(row));
  const chosen: number[] = [];
  for (;;) {
    const sizes = rest.map((row, i) => (chosen.includes(i) ? 0 : Math.sqrt(dot(row, row))));
    const best = sizes.reduce((a, size, i) => (size > sizes[a]! + 1e-12 ? i : a), 0);
    if (!(sizes[best]! > barely)) return chosen.sort((a, b) => a - b);
    const own = rest[best]!.map((value) => value / sizes[best]!);
    for (const row of rest) subtract(row, own, dot(row, own));
    chosen.push(best);
  }
}
