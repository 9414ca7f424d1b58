/**
 * Measures contacts, counts the work, and remembers where each was last measured: a stored gap less
 * the travel since is a lower bound, and saves most measurements.
 */

import type { Bay } from './bay.js';
import type { Contact } from './contact.js';
import type { PositionBox } from '../box.js';
import { travel } from '../box.js';
import type { Effort } from '../answer.js';
import { createProbe, probe } from './probe.js';
import type { Probe } from './probe.js';
import { limitSlack, LIMIT_SLACK, readyLimit } from './limits.js';
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
    this.last = like?.last ?? new Float64Array(5 * bay.contacts.length).fill(NaN);
  }

  counts(): Effort {
    const { boxes, gaps, lps } = this.effort;
    return { boxes, gaps, lps };
  }

  measure(contact: Contact, x: ArrayLike<number>, out: Probe): void {
    this.effort.gaps++;
    probe(contact, x[0]!, x[1]!, x[2]!, x[3]!, out);
    const i = 5 * contact.id;
    this.last[i] = out.lower;
    this.last[i + 1] = x[0]!;
    this.last[i + 2] = x[1]!;
    this.last[i + 3] = x[2]!;
    this.last[i + 4] = x[3]!;
  }

  /** A lower bound on the contact's gap anywhere in the box, without measuring; -Infinity if none. */
  remembered(contact: Contact, box: PositionBox): number {
    const i = 5 * contact.id;
    const gap = this.last[i]!;
    if (Number.isNaN(gap)) return -Infinity;
    const { last } = this;
    const { reach } = contact;
    return gap - travel(box, last[i + 1]!, last[i + 2]!, last[i + 3]!, last[i + 4]!, reach);
  }

  /** The same at one position. */
  rememberedAt(contact: Contact, x: ArrayLike<number>): number {
    const i = 5 * contact.id;
    const gap = this.last[i]!;
    if (Number.isNaN(gap)) return -Infinity;
    const dx = x[0]! - this.last[i + 1]!;
    const dy = x[1]! - this.last[i + 2]!;
    const dz = x[2]! - this.last[i + 3]!;
    const turn = Math.min(2, Math.abs(x[3]! - this.last[i + 4]!));
    return gap - Math.sqrt(dx * dx + dy * dy + dz * dz) - contact.reach * turn;
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
        for (const combo of group.combos) {
          if (isOpen(group.choices, combo.options, domains)) ids.push(...combo.contacts);
        }
      }
      let fixed = Infinity;
      for (const group of bay.fixed) {
        for (const combo of group.combos) {
          if (combo.holds && isOpen(group.choices, combo.options, domains)) {
            fixed = Math.min(fixed, combo.gap - combo.needed);
          }
        }
      }
      const limits = bay.limits
        .filter(({ when }) => !when || set[when.choice] === when.option)
        .map(({ limit }) => readyLimit(bay.scenario, limit));
      known = {
        set,
        contacts: Int32Array.from(ids),
        limits,
        fixed,
        fixedMost: fixedCap(bay.fixed, domains),
      };
      this.sets.set(key, known);
    }
    return known;
  }

  /** Whether every limit holds at a position, to within LIMIT_SLACK. */
  withinLimits(of: SetContacts, x: ArrayLike<number>): boolean {
    return of.limits.every((limit) => limitSlack(limit, of.set, x) >= -LIMIT_SLACK);
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
      this.measure(contact, x, this.scratch);
      least = Math.min(least, this.scratch.lower - contact.needed);
      if (least < floor) return least;
    }
    return least;
  }
}
