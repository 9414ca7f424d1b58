/** Which contacts may still matter in a box: most never do, and that is most of the work saved. */

import { travel } from '../box.js';
import type { PositionBox } from '../box.js';
import type { Meter } from '../measuring/meter.js';
import type { Node } from './node.js';
import { createProbe } from '../measuring/probe.js';
import type { Probe } from '../measuring/probe.js';
import { CLOSED, DORMANT, LOOSE } from '../measuring/view.js';

/** Of the contacts measured in a node before, at most this many are measured at its middle. */
const MOST_MEASURED = 60;

/** A contact measured at the middle of a box. */
export interface Measured {
  readonly id: number;
  readonly w: Probe;
  /** Upper end of the margin there. */
  readonly margin: number;
  /** A lower bound of the margin over the box. */
  readonly low: number;
  /** Its row in the box's program, once it has one; -1 until then. */
  row: number;
}

/** What is left of a node's contacts, those with the least lower bound first. */
export interface Sifted {
  readonly active: Int32Array;
  /** For each, a lower bound of its margin over the box; -Infinity where it was never measured. */
  readonly low: Float64Array;
  /** Those with the least margin first. */
  readonly measured: readonly Measured[];
}

/** No margin in the box is greater than this, and that is too little. */
export interface Failed {
  readonly most: number;
  /** The contact that leaves no more. */
  readonly by: number;
}

export class Sieve {
  private readonly probes: Probe[] = [];

  constructor(private readonly meter: Meter) {}

  /**
   * Measure what may matter in the box. Contacts that stay above `clear` all over it are left out for
   * good; where a firm one stays below `fails` all over it, nothing in the box is of any use.
   */
  sift(node: Node, box: PositionBox, clear: number, fails: number): Sifted | Failed {
    const { meter } = this;
    const { contacts } = meter.bay;
    const { status } = node.view;
    const active: number[] = [];
    const low: number[] = [];
    const measured: Measured[] = [];
    for (let i = 0; i < node.active.length; i++) {
      const id = node.active[i]!;
      if (status[id] === CLOSED || node.low[i]! > clear) continue;
      const contact = contacts[id]!;
      const remembered = meter.remembered(contact, box) - contact.needed;
      if (remembered > clear) continue;
      // What was measured before and is far from tightest can wait for a cut to call it.
      const waits = measured.length >= MOST_MEASURED && node.low[i]! > -Infinity;
      if (status[id] === DORMANT || waits) {
        active.push(id);
        low.push(Math.max(node.low[i]!, remembered));
        continue;
      }
      const w = this.slot(measured.length);
      const moves = travelFromMiddle(box, contact.reach);
      meter.measure(contact, box.mid, w, clear + contact.needed + moves);
      const least = meter.remembered(contact, box) - contact.needed;
      const most = w.upper + moves - contact.needed;
      if (status[id] !== LOOSE && most < fails) return { most, by: id };
      if (least > clear) continue;
      const lowest = Math.max(node.low[i]!, remembered, least);
      active.push(id);
      low.push(lowest);
      measured.push({ id, w, margin: w.upper - contact.needed, low: lowest, row: -1 });
    }
    measured.sort((a, b) => a.margin - b.margin);
    return { ...inOrder(active, low), measured };
  }

  private slot(i: number): Probe {
    return (this.probes[i] ??= createProbe());
  }
}

function travelFromMiddle(box: PositionBox, reach: number): number {
  const { mid } = box;
  return travel(box, mid[0]!, mid[1]!, mid[2]!, mid[3]!, reach);
}

function inOrder(
  active: readonly number[],
  low: readonly number[],
): { active: Int32Array; low: Float64Array } {
  const order = Array.from(low.keys()).sort((a, b) => low[a]! - low[b]!);
  const sorted = { active: new Int32Array(order.length), low: new Float64Array(order.length) };
  order.forEach((from, to) => {
    sorted.active[to] = active[from]!;
    sorted.low[to] = low[from]!;
  });
  return sorted;
}
