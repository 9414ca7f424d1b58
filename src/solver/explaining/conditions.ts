/** What a box about a setting must keep: every rule and limit that a position can change. */

import { maxOf } from '../../model/extremes.js';
import type { Stop } from '../answer.js';
import { boxOf, travel, PITCH_TRAVEL } from '../box.js';
import type { Contact } from '../measuring/contact.js';
import { limitSlack, slackOver } from '../measuring/limits.js';
import { LIMIT_SLACK } from '../decision.js';
import type { JointLimit } from '../measuring/joint-limit.js';
import type { HeightLimit } from '../measuring/height-limit.js';
import type { WeightLimit } from '../measuring/weight-limit.js';
import type { Meter, SetContacts } from '../measuring/meter.js';
import { createProbe } from '../measuring/probe.js';
import { KEPT, keepsContact } from './keeps.js';
import type { Kept } from './keeps.js';
import { bracketOf } from './least-over.js';

/** The corners of a box of positions, low and high. */
export interface Corners {
  readonly lo: Float64Array;
  readonly hi: Float64Array;
}

export interface Condition {
  readonly stop: Stop;
  /**
   * Whether it holds all over a box; `inside`, a box within it, is known to be kept.
   * @param most pieces of the box to look at before it is left unsettled.
   */
  keeps(box: Corners, inside: Corners, most: number): Kept;
}

/** Every condition of an option set, those nearest to being missed at `x` first. */
export function conditionsAt(meter: Meter, of: SetContacts, x: Float64Array): Condition[] {
  const probe = createProbe();
  const contacts = [...of.contacts].map((id) => {
    const contact = meter.bay.contacts[id]!;
    meter.measure(contact, x, probe);
    return new ContactCondition(meter, contact, x, probe.lower - contact.needed);
  });
  contacts.sort((a, b) => a.margin - b.margin);
  const limits = of.limits.filter((limit) => limit.kind !== 'coordinate');
  return [...limits.map((limit) => limitCondition(limit, of)), ...contacts];
}

class ContactCondition implements Condition {
  readonly stop: Stop;
  /** The last box proved. */
  private proved: Corners | undefined;

  constructor(
    private readonly meter: Meter,
    private readonly contact: Contact,
    private readonly x: Float64Array,
    readonly margin: number,
  ) {
    const { between, measured, comingOut } = meter.bay.groups[contact.group]!;
    this.stop = { by: 'rule', rule: { between, measured, comingOut } };
  }

  keeps(box: Corners, inside: Corners, most: number): Kept {
    if (this.isFar(box) || (this.proved && isWithin(box, this.proved))) return KEPT;
    const { meter, contact } = this;
    for (const slab of slabs(box, inside)) {
      const kept = keepsContact(meter, contact, slab.lo, slab.hi, most);
      if (!kept.kept) return kept;
    }
    this.proved = { lo: Float64Array.from(box.lo), hi: Float64Array.from(box.hi) };
    return KEPT;
  }

  /** Whether nothing in the box is far enough from the setting to matter. */
  private isFar({ lo, hi }: Corners): boolean {
    const { x, contact } = this;
    const moves = travel(boxOf(lo, hi), x[0]!, x[1]!, x[2]!, x[3]!, contact.reach);
    return this.margin - moves >= bracketOf(contact);
  }
}

function limitCondition(
  limit: HeightLimit | JointLimit | WeightLimit,
  { set }: SetContacts,
): Condition {
  const missed = (x: Float64Array): boolean => limitSlack(limit, set, x) < -LIMIT_SLACK;
  const holds = ({ lo, hi }: Corners): boolean => slackOver(limit, set, lo, hi) >= -LIMIT_SLACK;
  return {
    stop: { by: 'limit', limit: limit.limit },
    keeps: (box, _, most) => {
      if (holds(box)) return KEPT;
      const corners = limit.kind === 'height' ? heightCorners : cornersOf;
      const at = corners(box.lo, box.hi).find(missed);
      if (at) return { kept: false, at };
      return limit.kind !== 'height' && holdsInPieces(box, holds, most) ? KEPT : { kept: false };
    },
  };
}

/** Whether something holds in every piece of a box, halved along its longest side where it is not seen to. */
function holdsInPieces(box: Corners, holds: (piece: Corners) => boolean, most: number): boolean {
  const waiting = [box];
  for (let n = 0; n < most; n++) {
    const piece = waiting.pop();
    if (!piece) return true;
    if (holds(piece)) continue;
    const { lo, hi } = piece;
    const widths = lo.map((low, k) => (hi[k]! - low) * (k === 3 ? PITCH_TRAVEL : 1));
    const k = widths.indexOf(maxOf(widths));
    const middle = (lo[k]! + hi[k]!) / 2;
    const at = (end: Float64Array): Float64Array => end.map((v, c) => (c === k ? middle : v));
    waiting.push({ lo, hi: at(hi) }, { lo: at(lo), hi });
  }
  return false;
}

/** Where a height is looked at first: lowest and highest, at pitches across the range. */
function heightCorners(lo: Float64Array, hi: Float64Array): Float64Array[] {
  return [0, 0.25, 0.5, 0.75, 1].flatMap((part) =>
    [lo[2]!, hi[2]!].map((height) =>
      Float64Array.of(lo[0]!, lo[1]!, height, lo[3]! + part * (hi[3]! - lo[3]!)),
    ),
  );
}

/** The corners of a box, at which a joint or a load is looked at first. */
function cornersOf(lo: Float64Array, hi: Float64Array): Float64Array[] {
  return Array.from({ length: 16 }, (_, mask) =>
    lo.map((low, k) => ((mask >> k) & 1 ? hi[k]! : low)),
  );
}

function isWithin(box: Corners, other: Corners): boolean {
  return box.lo.every((v, k) => v >= other.lo[k]! && box.hi[k]! <= other.hi[k]!);
}

/** What a box has beyond one inside it, as boxes side by side. */
export function slabs(box: Corners, inside: Corners): Corners[] {
  const all: Corners[] = [];
  const lo = Float64Array.from(inside.lo);
  const hi = Float64Array.from(inside.hi);
  for (let k = 0; k < 4; k++) {
    if (box.lo[k]! < lo[k]!) {
      const below = { lo: Float64Array.from(lo), hi: Float64Array.from(hi) };
      below.lo[k] = box.lo[k]!;
      below.hi[k] = lo[k]!;
      all.push(below);
      lo[k] = box.lo[k]!;
    }
    if (box.hi[k]! > hi[k]!) {
      const above = { lo: Float64Array.from(lo), hi: Float64Array.from(hi) };
      above.hi[k] = box.hi[k]!;
      above.lo[k] = hi[k]!;
      all.push(above);
      hi[k] = box.hi[k]!;
    }
  }
  return all;
}
