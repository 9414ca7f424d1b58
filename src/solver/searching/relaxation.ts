/**
 * The linear program of a box: a row above each contact's margin, solved for a bound and a point, and
 * sharpened by rows at that point where it was too hopeful.
 */

import type { OptionDomains } from '../../model/options.js';
import type { OptionSet } from '../../model/scenario.js';
import { axisRow, cornerRow, witnessRow } from '../bounding/bounds.js';
import type { Contact } from '../measuring/contact.js';
import type { PositionBox } from '../box.js';
import { DECISION_SLACK, LIMIT_SLACK } from '../decision.js';
import { heightRows, isSettled } from '../measuring/height-limit.js';
import type { ReadyLimit } from '../measuring/limits.js';
import { createLpResult, lowestCeiling, solveHardRows, solveLp } from '../bounding/lp.js';
import { rowAbove } from '../bounding/merge-rows.js';
import { overlapRow } from '../bounding/overlap-row.js';
import { createProbe } from '../measuring/probe.js';
import type { Probe } from '../measuring/probe.js';
import type { SearchRequest } from './request.js';
import { Rows } from '../rows.js';
import type { Seen } from './lookout.js';
import type { Measured } from './sift.js';
import { FIRM, LOOSE } from '../measuring/view.js';
import type { View } from '../measuring/view.js';

/** At most this many cuts a round. */
const CUTS = 4;
/** Of the nearest pairs that may pass each other in the box, how many get corner rows. */
const CORNER_ROWS = 8;
/** The value of a row that says nothing, millimetres. */
const SILENT = 1e12;

export class Relaxation {
  readonly rows = new Rows();
  /** Where the last program's best point lies in the box, [-1, 1] a coordinate. */
  readonly u: Float64Array;
  private readonly lp = createLpResult();
  private readonly hard = createLpResult();
  private readonly probe = createProbe();
  /** The middle of a box at one end of its pitch. */
  private readonly end = new Float64Array(4);
  private readonly free = [true, true, true, true];
  private readonly rowOf: Int32Array;
  /** What the last program proved. */
  private bound = Infinity;
  /** The least, over the box's rows of firm contacts, of the most that a row allows the margin. */
  private ceiling = Infinity;

  constructor(private readonly request: SearchRequest) {
    this.u = this.lp.u;
    this.rowOf = new Int32Array(request.meter.bay.contacts.length).fill(-1);
  }

  /** The margin that every rule must keep in a search for a coordinate; 0 in one for the margin. */
  get keep(): number {
    const { objective } = this.request;
    return objective.kind === 'coordinate' ? objective.keep : 0;
  }

  /** The rows of a box: the objective's, the limits', and those of everything measured. */
  build(
    view: View,
    limits: readonly ReadyLimit[],
    box: PositionBox,
    measured: readonly Measured[],
  ): void {
    this.rows.clear();
    this.ceiling = Infinity;
    for (let k = 0; k < 4; k++) this.free[k] = box.half[k]! > 0;
    this.objectiveRow(box);
    const settled = settledSet(view.domains);
    for (const limit of limits) {
      if (limit.kind === 'height' && isSettled(limit, view.domains)) {
        heightRows(limit, settled, box, this.rows);
      }
      if (limit.kind === 'joint') limit.addRows(box, LIMIT_SLACK, this.rows);
      if (limit.kind === 'weight') limit.addRows(view.domains, box, LIMIT_SLACK, this.rows);
    }
    this.contactRows(view, box, measured);
  }

  /** A proved bound of the value in the box; -Infinity where no point of it keeps the hard rows. */
  solve(): number {
    const { rows, free, lp, hard } = this;
    const { effort } = this.request.meter;
    effort.lps++;
    solveLp(rows, free, lp);
    if (lp.faulty) effort.faults++;
    this.bound = lp.bound;
    // Without a rule in the box nothing was asked of the limits yet.
    if (lp.missed <= 0 && this.bound < Infinity) return this.bound;
    effort.lps++;
    const shares = rows.share.slice(0, rows.count);
    solveHardRows(rows, free, hard);
    rows.share.set(shares);
    if (hard.bound < -DECISION_SLACK) this.bound = -Infinity;
    return this.bound;
  }

  /** Replaces a set by the contacts whose rows carry the last bound; none where the limits alone do. */
  carriers(of: Set<number>): void {
    of.clear();
    if (this.bound === -Infinity) return;
    const { rows } = this;
    const lowest = lowestCeiling(rows);
    const alone = lowest >= 0 && rows.values[lowest]! + rows.spread(lowest) <= this.bound;
    for (let row = 0; row < rows.count; row++) {
      const carries = alone ? row === lowest : rows.share[row]! > 0;
      if (carries && rows.source[row]! >= 0) of.add(rows.source[row]!);
    }
  }

  /** The position of the last program's best point. */
  position(box: PositionBox): Float64Array {
    const x = new Float64Array(4);
    for (let k = 0; k < 4; k++) x[k] = box.mid[k]! + box.half[k]! * this.u[k]!;
    return x;
  }

  /**
   * Add rows at the position just seen, of the firm contacts that make it worse than the program
   * thought; false where there are none to be had.
   * @param over by how much the bound exceeds what would close the box, 0 or more.
   */
  sharpen(view: View, box: PositionBox, seen: Seen, bound: number, over: number): boolean {
    if (this.request.objective.kind !== 'margin') return false;
    const worst = [...seen.margins]
      .filter(([id, margin]) => view.status[id] === FIRM && margin < bound - 0.25 * over)
      .sort((a, b) => a[1] - b[1])
      .slice(0, CUTS);
    let added = false;
    for (const [id] of worst) added = this.addCut(id, box, seen.x, bound - 0.1 * over) || added;
    return added;
  }

  /** The row of this contact that is least at the program's point, or -1. */
  tightestRowOf(id: number): number {
    const { rows } = this;
    let tightest = -1;
    for (let row = 0; row < rows.count && id >= 0; row++) {
      if (rows.source[row] !== id) continue;
      if (tightest < 0 || rows.at(row, this.u) < rows.at(tightest, this.u)) tightest = row;
    }
    return tightest;
  }

  /** Rows of everything measured: firm contacts each, loose pairs one above all their variants. */
  private contactRows(view: View, box: PositionBox, measured: readonly Measured[]): void {
    const { contacts } = this.request.meter.bay;
    const passing: Measured[] = [];
    for (const m of measured) {
      if (this.isIdle(m)) continue;
      const contact = contacts[m.id]!;
      m.row = contact.axis >= 0 ? axisRow(contact, box, m.w, this.rows) : this.nearestRow(m, box);
      if (m.row < 0) passing.push(m);
      else if (view.status[m.id] !== LOOSE) {
        this.lowerCeiling(m.row);
        if (contact.axis >= 0) this.pitchEnds(m, box);
      }
    }
    let left = CORNER_ROWS;
    for (const m of passing) {
      if (left === 0) break;
      if (this.isIdle(m)) continue;
      left--;
      m.row = this.cornerRow(contacts[m.id]!, box, m.w);
      if (view.status[m.id] !== LOOSE) this.lowerCeiling(m.row);
    }
    for (const m of measured) this.rowOf[m.id] = m.row;
    for (const group of view.loose) this.mergeRows(group.combos);
    for (const m of measured) {
      this.rowOf[m.id] = -1;
      if (m.row < 0) continue;
      if (view.status[m.id] === LOOSE) this.silence(m.row);
      else this.harden(m.row);
    }
  }

  /**
   * Whether no row of it can carry the bound: it never comes down to where another row ends. A row
   * left out only loosens the program, and this one would not even do that.
   */
  private isIdle({ low }: Measured): boolean {
    return low >= this.ceiling;
  }

  /** Note a row that bounds the margin all over the box. */
  private lowerCeiling(row: number): void {
    if (this.request.objective.kind !== 'margin') return;
    this.ceiling = Math.min(this.ceiling, this.rows.values[row]! + this.rows.spread(row));
  }

  private nearestRow(m: Measured, box: PositionBox): number {
    const contact = this.request.meter.bay.contacts[m.id]!;
    return m.w.overlap ? -1 : witnessRow(contact, box, m.w, this.rows);
  }

  /** A row from the box's corners, or a better one where the solids overlap throughout. */
  private cornerRow(contact: Contact, box: PositionBox, w: Probe): number {
    const { rows } = this;
    const row = rows.count;
    this.request.meter.effort.gaps += cornerRow(contact, box, w, rows);
    const cores = contact.needed + contact.engine.shape.ball + contact.chassis.ball;
    if (rows.values[row]! + rows.spread(row) + cores > 0) return row;
    if (!overlapRow(contact, box, w, rows)) return row;
    const better = row + 1;
    if (rows.values[better]! + rows.spread(better) < rows.values[row]! + rows.spread(row)) {
      rows.move(better, row);
    }
    rows.drop();
    return row;
  }

  /** An axis rule's other support points, where pitch changes which point is nearest. */
  private pitchEnds(m: Measured, box: PositionBox): void {
    const { meter } = this.request;
    if (box.half[3] === 0) return;
    const contact = meter.bay.contacts[m.id]!;
    const w = this.probe;
    for (const end of [-1, 1]) {
      this.end.set(box.mid);
      this.end[3]! += end * box.half[3]!;
      meter.measure(contact, this.end, w);
      if (w.ex === m.w.ex && w.ey === m.w.ey && w.ez === m.w.ez) continue;
      this.harden(axisRow(contact, box, w, this.rows));
    }
  }

  /** A row above the gaps of every open variant of a pair, unless some variant has none. */
  private mergeRows(combos: readonly (readonly number[])[]): void {
    const { rows, rowOf } = this;
    const least: number[] = [];
    for (const combo of combos) {
      let row = -1;
      for (const id of combo) {
        const candidate = rowOf[id]!;
        if (candidate >= 0 && (row < 0 || rows.values[candidate]! < rows.values[row]!)) {
          row = candidate;
        }
      }
      // A variant that is clear all over the box frees the pair.
      if (row < 0) return;
      least.push(row);
    }
    this.harden(rowAbove(rows, least));
  }

  /** A variant's own row speaks only through the merged one. */
  private silence(row: number): void {
    this.rows.values[row] = SILENT;
    this.rows.slopes.fill(0, 4 * row, 4 * row + 4);
  }

  /** In a search for a coordinate every rule is a hard row: margin - keep >= 0. */
  private harden(row: number): void {
    if (this.request.objective.kind !== 'coordinate') return;
    this.rows.hard[row] = 1;
    this.rows.values[row]! -= this.keep;
  }

  private objectiveRow(box: PositionBox): void {
    const { objective } = this.request;
    if (objective.kind !== 'coordinate') return;
    const row = this.rows.add(-1, false);
    const k = objective.coordinate;
    this.rows.values[row] = objective.sign * box.mid[k]!;
    this.rows.slopes[4 * row + k] = objective.sign * box.half[k]!;
  }

  /** A row that cuts the program's point below `under`; false when there is none to be had. */
  private addCut(id: number, box: PositionBox, x: Float64Array, under: number): boolean {
    const { meter } = this.request;
    const contact = meter.bay.contacts[id]!;
    meter.measure(contact, x, this.probe);
    if (contact.axis >= 0) return this.cuts(axisRow(contact, box, this.probe, this.rows), under);
    if (!this.probe.overlap) {
      const row = witnessRow(contact, box, this.probe, this.rows);
      if (row >= 0 && this.cuts(row, under)) return true;
    }
    return this.cuts(this.cornerRow(contact, box, this.probe), under);
  }

  /** Whether the last row cuts the program's point below `under`; taken back if not. */
  private cuts(row: number, under: number): boolean {
    if (this.rows.at(row, this.u) < under) return true;
    this.rows.drop();
    return false;
  }
}

function settledSet(domains: OptionDomains): OptionSet {
  return domains.map((domain) => domain[0]!);
}
