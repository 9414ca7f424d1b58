/**
 * Whether a rule is kept all over a box of positions: proved by bounds on ever smaller pieces, refuted by
 * a place where the gap as measured is too small.
 */

import { DECISION_SLACK } from '../decision.js';
import type { Contact } from '../measuring/contact.js';
import { createProbe } from '../measuring/probe.js';
import type { Meter } from '../measuring/meter.js';
import { bracketOf, CELL, cellOf, createOver, leastOver } from './least-over.js';
import type { Cell } from './least-over.js';

/** `at`: a position where it is missed; absent where neither could be shown. */
export type Kept = { readonly kept: true } | { readonly kept: false; readonly at?: Float64Array };

export const KEPT: Kept = { kept: true };
const UNSETTLED: Kept = { kept: false };

/** A bound this close under what is there is as good as it gets: millimetres, and part of the bracket. */
const FINEST = 1e-6;
const FINEST_PART = 0.02;

const over = createOver();
const probe = createProbe();

/**
 * A contact's margin, nowhere in the box to be under zero as measured.
 * @param most pieces to look at before it is left unsettled.
 */
export function keepsContact(
  meter: Meter,
  contact: Contact,
  lo: ArrayLike<number>,
  hi: ArrayLike<number>,
  most: number,
): Kept {
  const missed = contact.needed - DECISION_SLACK;
  const wanted = contact.needed + bracketOf(contact) - DECISION_SLACK;
  const finest = Math.max(FINEST, FINEST_PART * bracketOf(contact));
  const pieces: Cell[] = [cellOf(contact, lo, hi)];
  for (let n = 0; n < most; n++) {
    const piece = pieces.pop();
    if (!piece) return KEPT;
    meter.effort.gaps += 2;
    leastOver(contact, piece, over);
    if (over.least >= wanted) continue;
    if (over.middle < missed) return { kept: false, at: middleOf(piece) };
    const at = over.corner.slice(0, 4);
    const there = Math.min(over.atCorner, gapAt(meter, contact, at, missed));
    if (there < missed) return { kept: false, at };
    if (there - over.least < finest) return UNSETTLED;
    pieces.push(...halves(piece, widest(over.loss)));
  }
  return UNSETTLED;
}

/** A contact's gap as measured at a position, or less where that is known not to be under `missed`. */
function gapAt(meter: Meter, contact: Contact, x: Float64Array, missed: number): number {
  const known = meter.rememberedAt(contact, x);
  if (known >= missed) return Infinity;
  meter.measure(contact, x, probe);
  return probe.lower;
}

function middleOf({ lo, hi }: Cell): Float64Array {
  return Float64Array.from([0, 1, 2, 3], (k) => (lo[k]! + hi[k]!) / 2);
}

function widest(loss: Float64Array): number {
  let most = 0;
  for (let k = 1; k < CELL; k++) if (loss[k]! > loss[most]!) most = k;
  return most;
}

/** The two halves of a piece across one slot, the one with the worst corner last. */
function halves({ lo, hi }: Cell, k: number): Cell[] {
  const middle = (lo[k]! + hi[k]!) / 2;
  const below = { lo, hi: Float64Array.from(hi) };
  const above = { lo: Float64Array.from(lo), hi };
  below.hi[k] = middle;
  above.lo[k] = middle;
  return k < 4 && over.corner[k]! < middle ? [above, below] : [below, above];
}
