/** Looking at one position: what the contacts that matter leave there, and which options suit it. */

import { complete } from './complete.js';
import type { Completions } from './complete.js';
import { SPARE } from '../measuring/meter.js';
import { createProbe } from '../measuring/probe.js';
import { clearOf, fixedMarginOf } from './request.js';
import type { SearchRequest } from './request.js';
import { DORMANT, LOOSE } from '../measuring/view.js';
import type { View } from '../measuring/view.js';

export interface Seen {
  readonly x: Float64Array;
  /** Least margin of the firm contacts; Infinity without any. */
  readonly firm: number;
  /** The contact at that margin, or -1. */
  readonly firmId: number;
  readonly completions: Completions | undefined;
  /** Least margin under the options chosen; -Infinity where none go together. */
  readonly margin: number;
  /** What was measured there, by contact. */
  readonly margins: ReadonlyMap<number, number>;
}

export class Lookout {
  private readonly probe = createProbe();

  constructor(private readonly request: SearchRequest) {}

  /**
   * Measure the active contacts of a node at a position and choose its open options there.
   * @param bound what is proved of the node: a margin above it needs no measuring.
   * @param cutoff what its bound must exceed to be worth a visit: a firm contact that may be under it is
   * measured even where another is worse, for such are what the program is cut by.
   */
  look(view: View, active: Int32Array, bound: number, cutoff: number, x: Float64Array): Seen {
    const { meter, objective, reach, work } = this.request;
    const { contacts, scenario } = meter.bay;
    const clear = clearOf(this.request, bound);
    const margins = new Map<number, number>();
    const under = Math.min(clear, cutoff);
    let firm = Infinity;
    let firmId = -1;
    for (const id of active) {
      const contact = contacts[id]!;
      const remembered = meter.rememberedAt(contact, x) - contact.needed;
      const optional = view.status[id] === LOOSE || view.status[id] === DORMANT;
      const idle = optional ? clear : Math.max(firm, under);
      if (remembered > idle) continue;
      meter.measure(contact, x, this.probe, idle + contact.needed + SPARE);
      const margin = this.probe.lower - contact.needed;
      margins.set(id, margin);
      if (!optional && margin < firm) {
        firm = margin;
        firmId = id;
      }
    }
    const marginOf = (id: number): number => margins.get(id) ?? Infinity;
    const enough = reach ?? (objective.kind === 'coordinate' ? objective.keep : Infinity);
    const completions = complete({
      scenario,
      view,
      marginOf,
      fixedOf: (set) => fixedMarginOf(this.request, set),
      enough,
      ...(work && { work }),
    });
    const margin = Math.min(firm, completions?.chosen.margin ?? -Infinity);
    return { x, firm, firmId, completions, margin, margins };
  }
}
