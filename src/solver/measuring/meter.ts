/**
 * Measures contacts, counts the work, and remembers where each was last measured: a stored gap less
 * what the way from there can take off it is a lower bound, and saves most measurements.
 */

import type { Bay, Group } from './bay.js';
import type { Contact } from './contact.js';
import type { PositionBox } from '../box.js';
import { travel } from '../box.js';
import type { Effort } from '../answer.js';
import { createProbe, probe } from './probe.js';
import type { Probe } from './probe.js';
import { limitSlack, readyLimit } from './limits.js';
import { LIMIT_SLACK } from '../decision.js';
import type { ReadyLimit } from './limits.js';
import type { OptionSet } from '../../model/scenario.js';
import { fixedCap, isOpen, Views } from './view.js';

/** The contacts and limits of one complete option set. */
export interface SetContacts {
  readonly set: OptionSet;
  readonly contacts: Int32Array;
  readonly limits: readonly ReadyLimit[];
  /** Least margin of the rules that no position changes, from below and from above. */
  readonly fixed: number;
  readonly fixedMost: number;
}

/** Millimetres past what matters now to which a gap is measured, for it may matter near by. */
export const SPARE = 5;

/** Numbers remembered of a contact: its gap, where that was, and the direction that parts its solids. */
const KEPT = 8;

export class Meter {
  readonly effort: { boxes: number; gaps: number; lps: number; faults: number };
  /** What the searches of this bay see of it with some choices open. */
  readonly views: Views;
  private readonly last: Float64Array;
  private readonly sets = new Map<string, SetContacts>();
  private readonly scratch = createProbe();

  /** @param like the meter of a bay of the same contacts, whose memory and counts this one shares. */
  constructor(
    readonly bay: Bay,
    like?: Meter,
  ) {
    this.views = new Views(bay);
    this.effort = like?.effort ?? { boxes: 0, gaps: 0, lps: 0, faults: 0 };
    this.last = like?.last ?? new Float64Array(KEPT * bay.contacts.length).fill(NaN);
  }

  counts(): Effort {
    const { boxes, gaps, lps } = this.effort;
    return { boxes, gaps, lps };
  }

  /** Measure as if for the first time: the same to the last digit, whatever was measured before. */
  measureAfresh(contact: Contact, x: ArrayLike<number>, out: Probe): void {
    this.last.fill(NaN, KEPT * contact.id, KEPT * (contact.id + 1));
    this.measure(contact, x, out);
  }

  /** @param enough a gap that is known to be so great need be known no better. */
  measure(contact: Contact, x: ArrayLike<number>, out: Probe, enough = Infinity): void {
    this.effort.gaps++;
    const { last } = this;
    const i = KEPT * contact.id;
    // What parted the solids last is likely to be near what parts them now; NaN before the first time.
    out.nx = last[i + 5]!;
    out.ny = last[i + 6]!;
    out.nz = last[i + 7]!;
    probe(contact, x[0]!, x[1]!, x[2]!, x[3]!, out, enough);
    last[i] = out.lower;
    last[i + 1] = x[0]!;
    last[i + 2] = x[1]!;
    last[i + 3] = x[2]!;
    last[i + 4] = x[3]!;
    last[i + 5] = out.nx;
    last[i + 6] = out.ny;
    last[i + 7] = out.nz;
  }

  /**
   * A lower bound on the contact's gap anywhere in the box, without measuring; -Infinity if none.
   *
   * Any direction bounds the gap from below by how far the solids lie apart along it. Where `lower` is
   * just that for the n remembered, the engine moving by d changes it by n . d, and its turning, which
   * moves points across the pitch axis alone, by at most that travel times the part of n across it. Where
   * motions change n from moment to moment, all of the travel may come off.
   */
  remembered(contact: Contact, box: PositionBox): number {
    const { last } = this;
    const i = KEPT * contact.id;
    const gap = last[i]!;
    if (Number.isNaN(gap)) return -Infinity;
    const { reach } = contact;
    const x = last[i + 1]!;
    const y = last[i + 2]!;
    const z = last[i + 3]!;
    const pitch = last[i + 4]!;
    if (!hasOneDirection(contact)) return gap - travel(box, x, y, z, pitch, reach);
    const { mid, half } = box;
    const nx = last[i + 5]!;
    const ny = last[i + 6]!;
    const nz = last[i + 7]!;
    const moved = nx * (mid[0]! - x) + ny * (mid[1]! - y) + nz * (mid[2]! - z);
    const wide = Math.abs(nx) * half[0]! + Math.abs(ny) * half[1]! + Math.abs(nz) * half[2]!;
    const turn = Math.abs(mid[3]! - pitch) + half[3]!;
    return gap + moved - wide - reach * Math.min(turn, 2) * Math.sqrt(nx * nx + nz * nz);
  }

  /** The same at one position. */
  rememberedAt(contact: Contact, x: ArrayLike<number>): number {
    const { last } = this;
    const i = KEPT * contact.id;
    const gap = last[i]!;
    if (Number.isNaN(gap)) return -Infinity;
    const dx = x[0]! - last[i + 1]!;
    const dy = x[1]! - last[i + 2]!;
    const dz = x[2]! - last[i + 3]!;
    const turn = contact.reach * Math.min(2, Math.abs(x[3]! - last[i + 4]!));
    if (!hasOneDirection(contact)) return gap - Math.sqrt(dx * dx + dy * dy + dz * dz) - turn;
    const nx = last[i + 5]!;
    const ny = last[i + 6]!;
    const nz = last[i + 7]!;
    return gap + nx * dx + ny * dy + nz * dz - turn * Math.sqrt(nx * nx + nz * nz);
  }

  /** Everything that holds under a complete option set. */
  contactsOf(set: OptionSet): SetContacts {
    const key = set.join();
    let known = this.sets.get(key);
    if (!known) {
      const { bay } = this;
      const domains = set.map((o) => [o]);
      const ids: number[] = [];
      for (const group of bay.groups) {
        for (const id of group.combos[group.comboOf(set)]?.contacts ?? []) ids.push(id);
      }
      const limits = bay.limits
        .filter(({ when }) => !when || set[when.choice] === when.option)
        .map(({ limit }) => readyLimit(bay.scenario, limit));
      known = {
        set,
        contacts: Int32Array.from(ids),
        limits,
        fixed: this.fixedUnder(set),
        fixedMost: fixedCap(bay.fixed, domains),
      };
      this.sets.set(key, known);
    }
    return known;
  }

  /** The least margin of the pairs that no position changes, under a complete option set. */
  fixedUnder(set: OptionSet): number {
    const domains = set.map((o) => [o]);
    let fixed = Infinity;
    for (const group of this.bay.fixed) {
      for (const combo of group.combos) {
        if (combo.holds && isOpen(group.choices, combo.options, domains)) {
          fixed = Math.min(fixed, combo.gap - combo.needed);
        }
      }
    }
    return fixed;
  }

  /** Whether every limit holds at a position, to within LIMIT_SLACK. */
  withinLimits(of: SetContacts, x: ArrayLike<number>): boolean {
    return of.limits.every((limit) => limitSlack(limit, of.set, x) >= -LIMIT_SLACK);
  }

  /**
   * The least margin of one rule at a position under a complete option set, certified from below: exact
   * when it is under `floor`, otherwise some number that is not.
   */
  leastAt(group: Group, set: OptionSet, x: ArrayLike<number>, floor: number): number {
    let least = Infinity;
    for (const id of group.combos[group.comboOf(set)]?.contacts ?? []) {
      const contact = this.bay.contacts[id]!;
      const low = this.rememberedAt(contact, x) - contact.needed;
      if (low >= floor) continue;
      this.measure(contact, x, this.scratch);
      least = Math.min(least, this.scratch.lower - contact.needed);
    }
    return least;
  }

  /**
   * The least margin over the set's contacts at a position, certified from below: exact when it is at
   * least `floor`, otherwise some number under `floor`. Rules that no position changes are left out.
   */
  marginAt(of: SetContacts, x: ArrayLike<number>, floor: number): number {
    let least = Infinity;
    const { contacts } = this.bay;
    for (const id of of.contacts) {
      const contact = contacts[id]!;
      if (this.rememberedAt(contact, x) - contact.needed > least) continue;
      this.measure(contact, x, this.scratch, least + contact.needed + SPARE);
      least = Math.min(least, this.scratch.lower - contact.needed);
      if (least < floor) return least;
    }
    return least;
  }
}

/** Whether one direction parts the solids at every moment of their motions: an axis, or no motion. */
function hasOneDirection(c: Contact): boolean {
  return c.axis >= 0 || (c.rock === 0 && !c.motion);
}
