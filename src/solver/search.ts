/**
 * Spatial branch and bound over boxes of positions and open choices.
 *
 * Sound by construction: a node's bound is a certified LP over rows that overestimate margins
 * everywhere in its box; leaving a row out only loosens it. A node is closed only when its bound is
 * under what is already in hand, or when a rule provably fails all over it.
 */

import { workOf } from '../model/options.js';
import type { OptionSet, PositionRanges } from '../model/scenario.js';
import { axisRow, cornerRow, witnessRow } from './bounds.js';
import type { Contact } from './bay.js';
import { boxOf, travel } from './box.js';
import type { PositionBox } from './box.js';
import { climb } from './climb.js';
import type { Climbed } from './climb.js';
import { complete, hasWork } from './complete.js';
import type { Completions } from './complete.js';
import { Heap } from './heap.js';
import { heightRows, isSettled, narrowByLimits, readyLimit } from './limits.js';
import { createLpResult, solveHardRows, solveLp } from './lp.js';
import type { Meter, SetContacts } from './meter.js';
import { DECISION_SLACK } from './decision.js';
import type { Node, Outcome } from './node.js';
import { rowAbove } from './merge-rows.js';
import { overlapRow } from './overlap-row.js';
import type { Objective } from './objective.js';
import { createProbe } from './probe.js';
import type { Probe } from './probe.js';
import { Rows } from './rows.js';
import { CLOSED, compareWork, DORMANT, FIRM, LOOSE, Views } from './view.js';
import type { Domains, View, Work } from './view.js';
import { endsOf } from './box.js';

/** A place in hand: a position under a complete option set, its value certified from below. */
export interface Candidate {
  readonly x: Float64Array;
  readonly set: OptionSet;
  readonly value: number;
  readonly work: Work;
}

export interface SearchRequest {
  readonly meter: Meter;
  readonly domains: Domains;
  readonly objective: Objective;
  /** Millimetres between bound and best at which `best` counts as proved. */
  readonly tolerance: number;
  /**
   * With a number: find the least work whose value reaches it, not the best value. A set is refuted
   * when its bound is below it.
   */
  readonly reach?: number;
  /** Only sets of exactly this work. */
  readonly work?: Work;
  /** Where the search may go. */
  readonly ranges: PositionRanges;
  /** Score the position's own rules only, not those that options alone decide. */
  readonly ignoreFixed?: boolean;
  readonly start: readonly Candidate[];
}

export interface SearchState {
  best: Candidate | undefined;
  /** Proved upper bound of the value over everything asked. */
  bound: number;
  /** True once nothing is left to search. */
  done: boolean;
  /** Sets of less work than the best that could not be refuted; `reach` only. */
  readonly stuck: Node[];
}

/** A box is not split once no point of it can move further than this, millimetres. */
const SMALLEST_TRAVEL = 1e-4;
/** Of the contacts measured in a node before, at most this many are measured at its middle. */
const MOST_MEASURED = 60;
/** At most this many cut rounds a node. */
const CUT_ROUNDS = 3;
/** And at most this many cuts a round. */
const CUTS = 4;
/** Of the nearest pairs that may pass each other in the box, how many get corner rows. */
const CORNER_ROWS = 8;

export class Search {
  readonly state: SearchState;
  private readonly heap: Heap<Node>;
  private readonly views: Views;
  private readonly rows = new Rows();
  private readonly lp = createLpResult();
  private readonly hard = createLpResult();
  private readonly probes: Probe[] = [];
  private readonly cut = createProbe();
  private readonly free = [true, true, true, true];

  constructor(private readonly request: SearchRequest) {
    const { meter, objective } = request;
    this.views = new Views(meter.bay);
    this.state = { best: undefined, bound: Infinity, done: false, stuck: [] };
    this.heap = new Heap<Node>(request.reach === undefined ? byBound : byWork);
    for (const candidate of request.start) this.offer(candidate);
    const view = this.views.of(request.domains);
    if (view) {
      const { contacts } = meter.bay;
      const { lo, hi } = endsOf(request.ranges);
      const active = Int32Array.from(
        contacts.map((c) => c.id).filter((id) => view.status[id] !== CLOSED),
      );
      const low = new Float64Array(active.length).fill(-Infinity);
      const top =
        objective.kind === 'margin'
          ? Infinity
          : Math.max(
              objective.sign * lo[objective.coordinate]!,
              objective.sign * hi[objective.coordinate]!,
            );
      this.push({ lo, hi, view, bound: top, active, low });
    }
    this.settle();
  }

  /** Work through at most `boxes` nodes. */
  run(boxes: number): SearchState {
    for (let n = 0; n < boxes && !this.state.done; n++) {
      const node = this.heap.pop();
      if (!node) break;
      if (!this.isClosed(node)) {
        this.request.meter.effort.boxes++;
        const outcome = this.visit(node);
        if (outcome.kind === 'stuck') this.state.stuck.push({ ...node, bound: outcome.bound });
        else if (outcome.kind === 'split') for (const child of outcome.children) this.push(child);
      }
      this.settle();
    }
    return this.state;
  }

  /** Drop finished work from the top; what remains, and what was let go, decides the bound. */
  private settle(): void {
    let top = this.heap.peek();
    for (; top && this.isClosed(top); top = this.heap.peek()) this.heap.pop();
    this.state.done = top === undefined;
    if (this.request.reach !== undefined) return;
    let bound = Math.max(
      this.state.best?.value ?? -Infinity,
      this.closedAbove,
      top?.bound ?? -Infinity,
    );
    for (const node of this.state.stuck) bound = Math.max(bound, node.bound);
    this.state.bound = Math.min(this.state.bound, bound);
  }

  /** Greatest bound of any node closed so far. */
  private closedAbove = -Infinity;

  /** What a node's bound must exceed to be worth a visit. */
  private cutoff(): number {
    const { reach, tolerance } = this.request;
    if (reach !== undefined) return reach - DECISION_SLACK;
    return (this.state.best?.value ?? -Infinity) + tolerance;
  }

  private isBeaten(bound: number): boolean {
    const beaten =
      this.request.reach === undefined ? bound <= this.cutoff() : bound < this.cutoff();
    if (beaten) this.closedAbove = Math.max(this.closedAbove, bound);
    return beaten;
  }

  private isClosed(node: Node): boolean {
    const { best } = this.state;
    const { reach, work } = this.request;
    const { leastWork, mostWork } = node.view;
    if (work && (compareWork(leastWork, work) > 0 || compareWork(mostWork, work) < 0)) return true;
    if (work && !hasWork(this.request.meter.bay.scenario, node.view, work)) return true;
    if (reach !== undefined && best && compareWork(leastWork, best.work) >= 0) return true;
    return this.isBeaten(node.bound);
  }

  private push(node: Node): void {
    if (!this.isClosed(node)) this.heap.push(node);
  }

  /** Take a place in hand if it is better than the one there. */
  private offer(candidate: Candidate): boolean {
    if (candidate.value === -Infinity) return false;
    const { best } = this.state;
    const { reach } = this.request;
    if (reach !== undefined) {
      if (candidate.value < reach - DECISION_SLACK) return false;
      if (best) {
        const order = compareWork(candidate.work, best.work);
        if (order > 0 || (order === 0 && candidate.value <= best.value)) return false;
      }
    } else if (best && candidate.value <= best.value) return false;
    this.state.best = candidate;
    return true;
  }

  private visit(node: Node): Outcome {
    const { meter, objective } = this.request;
    const { view } = node;
    const lo = Float64Array.from(node.lo);
    const hi = Float64Array.from(node.hi);
    const limits = view.limits.map(({ limit }) => readyLimit(meter.bay.scenario, limit));
    if (!narrowByLimits(limits, lo, hi)) return { kind: 'closed' };
    const box = boxOf(lo, hi);
    for (let k = 0; k < 4; k++) this.free[k] = box.half[k]! > 0;

    const cap = this.request.ignoreFixed ? Infinity : view.cap;
    let bound = node.bound;
    if (objective.kind === 'margin') bound = Math.min(bound, cap);
    else if (cap < objective.keep - DECISION_SLACK) return { kind: 'closed' };
    if (this.isBeaten(bound)) return { kind: 'closed' };

    const kept = this.sift(node, box, bound);
    if (!kept) return { kind: 'closed' };
    const { active, low, measured } = kept;

    this.rows.clear();
    if (objective.kind === 'coordinate') this.objectiveRow(box);
    const settledSet = view.domains.map((d) => d[0]!);
    for (const limit of limits) {
      if (limit.kind === 'height' && isSettled(limit, view.domains)) {
        heightRows(limit, settledSet, box, this.rows);
      }
    }
    this.contactRows(view, box, measured);
    bound = Math.min(bound, this.solve());

    let at = this.positionAt(box);
    let seen = this.look(node, active, at);
    for (let round = 0; round < CUT_ROUNDS && bound >= this.cutoff(); round++) {
      if (!this.addCuts(view, box, seen, bound)) break;
      const before = bound;
      bound = Math.min(bound, this.solve());
      if (before - bound < 0.1 * Math.max(this.request.tolerance, before - this.cutoff())) break;
      at = this.positionAt(box);
      seen = this.look(node, active, at);
    }
    if (this.isBeaten(bound)) return { kind: 'closed' };
    return this.branch(node, lo, hi, box, bound, active, low, seen);
  }

  /**
   * Measure what may matter in the box; undefined when some firm rule proves the box closed. Contacts
   * that stay clear of the bound all over the box are left out for good.
   */
  private sift(
    node: Node,
    box: PositionBox,
    bound: number,
  ): { active: Int32Array; low: Float64Array; measured: Measured[] } | undefined {
    const { meter, objective } = this.request;
    const { contacts } = meter.bay;
    const { status } = node.view;
    const clear = this.clearOf(bound);
    const fails = objective.kind === 'margin' ? this.cutoff() : objective.keep - DECISION_SLACK;
    const order = Array.from(node.active.keys()).sort((a, b) => node.low[a]! - node.low[b]!);
    const active: number[] = [];
    const low: number[] = [];
    const measured: Measured[] = [];
    for (const i of order) {
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
      const w = this.probeSlot(measured.length);
      meter.measure(contact, box.mid, w);
      const moves = travel(
        box,
        box.mid[0]!,
        box.mid[1]!,
        box.mid[2]!,
        box.mid[3]!,
        contact.engine.reach(contact.rock),
      );
      const least = w.lower - moves - contact.needed;
      const most = w.upper + moves - contact.needed;
      if (status[id] !== LOOSE && most < fails) {
        if (objective.kind === 'margin') this.closedAbove = Math.max(this.closedAbove, most);
        return undefined;
      }
      if (least > clear) continue;
      active.push(id);
      low.push(Math.max(node.low[i]!, remembered, least));
      measured.push({ id, w, margin: w.upper - contact.needed, row: -1 });
    }
    return { active: Int32Array.from(active), low: Float64Array.from(low), measured };
  }

  /** A contact whose margin exceeds this all over a box cannot matter there. */
  private clearOf(bound: number): number {
    const { objective, reach } = this.request;
    if (objective.kind === 'coordinate') return objective.keep;
    return reach === undefined ? bound : Math.min(bound, reach);
  }

  private probeSlot(i: number): Probe {
    let slot = this.probes[i];
    if (!slot) this.probes[i] = slot = createProbe();
    return slot;
  }

  /** Rows of everything measured: firm contacts each, loose pairs one above all their variants. */
  private contactRows(view: View, box: PositionBox, measured: Measured[]): void {
    const { meter } = this.request;
    const { contacts } = meter.bay;
    const passing: Measured[] = [];
    for (const m of measured) {
      const contact = contacts[m.id]!;
      m.row = contact.axis >= 0 ? axisRow(contact, box, m.w, this.rows) : this.nearestRow(m, box);
      if (m.row < 0) passing.push(m);
      else if (contact.axis >= 0 && view.status[m.id] !== LOOSE) this.pitchEnds(m, box);
    }
    passing.sort((a, b) => a.margin - b.margin);
    for (const m of passing.slice(0, CORNER_ROWS)) {
      const contact = contacts[m.id]!;
      m.row = this.cornerRow(contact, box, m.w.rock);
    }
    const byId = new Map(measured.map((m) => [m.id, m.row]));
    for (const group of view.loose) this.mergeRows(group.combos, byId);
    for (const m of measured) {
      if (m.row < 0) continue;
      if (view.status[m.id] === LOOSE) this.silence(m.row);
      else if (this.request.objective.kind === 'coordinate') this.harden(m.row);
    }
  }

  /** A row from the box's corners, or a better one where the solids overlap throughout. */
  private cornerRow(contact: Contact, box: PositionBox, rock: number): number {
    const { rows } = this;
    const row = rows.count;
    this.request.meter.effort.gaps += cornerRow(contact, box, rock, rows);
    const cores = contact.needed + contact.engine.shape.ball + contact.chassis.ball;
    if (rows.values[row]! + rows.spread(row) + cores > 0) return row;
    if (!overlapRow(contact, box, rock, rows)) return row;
    const better = row + 1;
    if (rows.values[better]! + rows.spread(better) < rows.values[row]! + rows.spread(row)) {
      rows.move(better, row);
    }
    rows.drop();
    return row;
  }

  private nearestRow(m: Measured, box: PositionBox): number {
    const contact = this.request.meter.bay.contacts[m.id]!;
    return m.w.overlap ? -1 : witnessRow(contact, box, m.w, this.rows);
  }

  /** An axis rule's other support points, where pitch changes which point is nearest. */
  private pitchEnds(m: Measured, box: PositionBox): void {
    const { meter } = this.request;
    if (box.half[3] === 0) return;
    const contact = meter.bay.contacts[m.id]!;
    for (const end of [-1, 1]) {
      const x = Float64Array.from(box.mid);
      x[3]! += end * box.half[3]!;
      meter.measure(contact, x, this.cut);
      if (this.cut.ex === m.w.ex && this.cut.ey === m.w.ey && this.cut.ez === m.w.ez) continue;
      const row = axisRow(contact, box, this.cut, this.rows);
      if (this.request.objective.kind === 'coordinate') this.harden(row);
    }
  }

  /** A row above the gaps of every open variant of a pair: the greatest, lifted over the others. */
  private mergeRows(
    combos: readonly (readonly number[])[],
    rowOf: ReadonlyMap<number, number>,
  ): void {
    const { rows } = this;
    const least: number[] = [];
    for (const combo of combos) {
      let row = -1;
      for (const id of combo) {
        const candidate = rowOf.get(id) ?? -1;
        if (candidate >= 0 && (row < 0 || rows.values[candidate]! < rows.values[row]!))
          row = candidate;
      }
      // A variant that is clear all over the box frees the pair.
      if (row < 0) return;
      least.push(row);
    }
    const merged = rowAbove(rows, least);
    if (this.request.objective.kind === 'coordinate') this.harden(merged);
  }

  private keep(): number {
    const { objective } = this.request;
    return objective.kind === 'coordinate' ? objective.keep : 0;
  }

  /** A variant's own row speaks only through the merged one. */
  private silence(row: number): void {
    this.rows.values[row] = 1e12;
    this.rows.slopes.fill(0, 4 * row, 4 * row + 4);
  }

  /** In a search for a coordinate every rule is a hard row: margin - keep >= 0. */
  private harden(row: number): void {
    this.rows.hard[row] = 1;
    this.rows.values[row]! -= this.keep();
  }

  private objectiveRow(box: PositionBox): void {
    const { objective } = this.request;
    if (objective.kind !== 'coordinate') return;
    const row = this.rows.add(-1, false);
    const k = objective.coordinate;
    this.rows.values[row] = objective.sign * box.mid[k]!;
    this.rows.slopes[4 * row + k] = objective.sign * box.half[k]!;
  }

  private solve(): number {
    const { effort } = this.request.meter;
    effort.lps++;
    solveLp(this.rows, this.free, this.lp);
    if (this.lp.faulty) effort.faults++;
    if (this.lp.missed <= 0) return this.lp.bound;
    effort.lps++;
    solveHardRows(this.rows, this.free, this.hard);
    return this.hard.bound < -DECISION_SLACK ? -Infinity : this.lp.bound;
  }

  private positionAt(box: PositionBox): Float64Array {
    return Float64Array.from(box.mid, (mid, k) => mid + box.half[k]! * this.lp.u[k]!);
  }

  /** Measure the active contacts at a position, choose options there, and take it in hand. */
  private look(node: Node, active: Int32Array, x: Float64Array): Seen {
    const { meter, objective, reach } = this.request;
    const { contacts, scenario } = meter.bay;
    const { view } = node;
    const margins = new Map<number, number>();
    let firm = Infinity;
    let firmId = -1;
    for (const id of active) {
      const contact = contacts[id]!;
      const remembered = meter.rememberedAt(contact, x) - contact.needed;
      const optional = view.status[id] === LOOSE || view.status[id] === DORMANT;
      if (!optional && remembered > firm) continue;
      if (optional && remembered > this.clearOf(node.bound)) continue;
      meter.measure(contact, x, this.cut);
      const margin = this.cut.lower - contact.needed;
      margins.set(id, margin);
      if (!optional && margin < firm) {
        firm = margin;
        firmId = id;
      }
    }
    const comboMargins = view.open.map((group) =>
      group.combos.map((combo) =>
        Math.min(Infinity, ...combo.contacts.map((id) => margins.get(id) ?? Infinity)),
      ),
    );
    const enough = reach ?? (objective.kind === 'coordinate' ? objective.keep : Infinity);
    const fixedOf = (set: OptionSet): number =>
      this.request.ignoreFixed ? Infinity : meter.contactsOf(set).fixed;
    const completions = complete(scenario, view, comboMargins, fixedOf, enough, this.request.work);
    const margin = Math.min(firm, completions?.chosen.margin ?? -Infinity);
    const seen: Seen = { x, firm, firmId, completions, margin, margins };
    if (completions) this.consider(seen, node.bound);
    return seen;
  }

  /** Offer the position seen, and climb from it when that may pay. */
  private consider(seen: Seen, bound: number): void {
    const { meter, objective, reach } = this.request;
    const { set } = seen.completions!.chosen;
    const of = meter.contactsOf(set);
    const fixed = this.request.ignoreFixed ? Infinity : of.fixed;
    const work = workOf(meter.bay.scenario, set);
    const { best } = this.state;
    if (reach !== undefined && best && compareWork(work, best.work) >= 0) return;
    if (objective.kind === 'margin') {
      // Exact wherever the value may be taken in hand: at the reach, or above the best.
      const floor = reach === undefined ? (best?.value ?? -Infinity) : reach - CLIMB_WORTH;
      const own =
        seen.margin <= this.clearOf(bound) ? seen.margin : meter.marginAt(of, seen.x, floor);
      const value = meter.withinLimits(of, seen.x) ? Math.min(own, fixed) : -Infinity;
      const promising = value > floor;
      if (!promising && best) return;
      if (reach !== undefined && value >= reach) {
        this.offer({ x: seen.x, set, value, work });
        return;
      }
    } else {
      if (fixed < objective.keep - DECISION_SLACK) return;
      if (seen.margin < objective.keep - CLIMB_WORTH) return;
    }
    const climbed = this.climbFrom(of, seen.x, objective, best ? 12 : 30);
    const value = objective.kind === 'margin' ? Math.min(climbed.value, fixed) : climbed.value;
    this.offer({ x: climbed.x, set, value, work });
  }

  private climbFrom(
    of: SetContacts,
    start: Float64Array,
    objective: Objective,
    steps: number,
  ): Climbed {
    const { meter } = this.request;
    const { lo, hi } = endsOf(this.request.ranges);
    if (!narrowByLimits(of.limits, lo, hi)) return { x: start, value: -Infinity };
    const radius = CLIMB_RADIUS;
    return climb({ meter, of, lo, hi, objective, steps, radius, finest: CLIMB_FINEST }, start);
  }

  /** Rows at the position just seen, of the contacts that make it worse than the program thought. */
  private addCuts(view: View, box: PositionBox, seen: Seen, bound: number): boolean {
    if (this.request.objective.kind !== 'margin') return false;
    const over = Math.max(0, bound - this.cutoff());
    const worst = [...seen.margins]
      .filter(([id, margin]) => view.status[id] === FIRM && margin < bound - 0.25 * over)
      .sort((a, b) => a[1] - b[1])
      .slice(0, CUTS);
    let added = false;
    for (const [id] of worst) added = this.addCut(id, box, seen.x, bound - 0.1 * over) || added;
    return added;
  }

  /** A row that cuts the program's point below `under`; false when there is none to be had. */
  private addCut(id: number, box: PositionBox, x: Float64Array, under: number): boolean {
    const { meter } = this.request;
    const { rows } = this;
    const contact = meter.bay.contacts[id]!;
    meter.measure(contact, x, this.cut);
    if (contact.axis >= 0) {
      const row = axisRow(contact, box, this.cut, rows);
      if (rows.at(row, this.lp.u) < under) return true;
      rows.drop();
      return false;
    }
    if (!this.cut.overlap) {
      const row = witnessRow(contact, box, this.cut, rows);
      if (row >= 0 && rows.at(row, this.lp.u) < under) return true;
      if (row >= 0) rows.drop();
    }
    const row = this.cornerRow(contact, box, this.cut.rock);
    if (rows.at(row, this.lp.u) < under) return true;
    rows.drop();
    return false;
  }

  private branch(
    node: Node,
    lo: Float64Array,
    hi: Float64Array,
    box: PositionBox,
    bound: number,
    active: Int32Array,
    low: Float64Array,
    seen: Seen,
  ): Outcome {
    const { view } = node;
    const choice = this.choiceToBranch(view, seen);
    const widest = this.dimensionToSplit(box, seen, bound);
    if (choice === undefined && widest < 0) {
      if (view.undecided.length > 0)
        return this.branchChoice(view.undecided[0]!, node, lo, hi, bound, active, low);
      return { kind: 'stuck', bound };
    }
    if (choice !== undefined) return this.branchChoice(choice, node, lo, hi, bound, active, low);
    const middle = box.mid[widest]!;
    const leftHi = Float64Array.from(hi);
    leftHi[widest] = middle;
    const rightLo = Float64Array.from(lo);
    rightLo[widest] = middle;
    return {
      kind: 'split',
      children: [
        { lo, hi: leftHi, view, bound, active, low },
        { lo: rightLo, hi, view, bound, active, low },
      ],
    };
  }

  private branchChoice(
    choice: number,
    node: Node,
    lo: Float64Array,
    hi: Float64Array,
    bound: number,
    active: Int32Array,
    low: Float64Array,
  ): Outcome {
    const children: Node[] = [];
    for (const option of node.view.domains[choice]!) {
      const view = this.views.of(node.view.domains.map((d, c) => (c === choice ? [option] : d)));
      if (view) children.push({ lo, hi, view, bound, active, low });
    }
    return { kind: 'split', children };
  }

  /** The open choice to decide next, where the options rather than the box hold the place back. */
  private choiceToBranch(view: View, seen: Seen): number | undefined {
    const { undecided } = view;
    const { meter, objective, reach } = this.request;
    if (undecided.length === 0) return undefined;
    if (!seen.completions) return undecided[0];
    // For the least work, what stops the cheapest set decides; else what stops the best one. Where
    // work is prescribed, open choices make the bound worthless, so they are decided first.
    const { chosen, cheapest } = seen.completions;
    const completion = reach === undefined ? chosen : cheapest;
    if (reach === undefined && !this.request.work) {
      const enough = objective.kind === 'margin' ? this.cutoff() : objective.keep - NEARLY_MET;
      if (seen.firm < enough) return undefined;
    }
    if (completion.margin < Math.min(seen.firm, reach ?? Infinity)) {
      const open = completion.tightest < 0 ? undefined : view.open[completion.tightest];
      return open?.choices.find((c) => view.domains[c]!.length > 1) ?? undecided[0];
    }
    const allowed = meter.withinLimits(meter.contactsOf(completion.set), seen.x);
    return allowed ? undefined : undecided[0];
  }

  /**
   * The coordinate whose width costs the bound most, or -1 when the box is too small to split. The
   * blame lies with the rows that carry the bound, where their own slack could close the box, and else
   * with the contact that is worst at the program's point, if its row is loose.
   */
  private dimensionToSplit(box: PositionBox, seen: Seen, bound: number): number {
    const { rows } = this;
    const over = bound - this.cutoff();
    const blame = this.blame.fill(0);
    let carried = 0;
    for (let row = 0; row < rows.count; row++) {
      if (rows.share[row]! > 0) carried += this.blameRow(row, rows.share[row]!, box, seen);
    }
    if (carried < 0.5 * over) {
      const loose = this.tightestRowOf(seen.firmId);
      if (loose >= 0) {
        blame.fill(0);
        this.blameRow(loose, 1, box, seen);
      }
    }
    let best = -1;
    let widest = -1;
    let width = 0;
    for (let k = 0; k < 4; k++) {
      const moves = box.half[k]! * (k === 3 ? PITCH_TRAVEL : 1);
      if (moves < SMALLEST_TRAVEL) continue;
      if (moves > width) {
        width = moves;
        widest = k;
      }
      if (blame[k]! > 0 && (best < 0 || blame[k]! > blame[best]!)) best = k;
    }
    return best >= 0 && blame[best]! > 1e-3 * this.request.tolerance ? best : widest;
  }

  private readonly blame = new Float64Array(4);

  /**
   * Share out a row's slack at the program's point among the coordinates: as its maker estimated, and
   * what that leaves unexplained by how far the point lies from the middle, where the row is tight.
   * Returns the slack, or the estimate where the contact was not measured there.
   */
  private blameRow(row: number, weight: number, box: PositionBox, seen: Seen): number {
    const { rows, blame } = this;
    const u = this.lp.u;
    let estimated = 0;
    let moved = 0;
    for (let k = 0; k < 4; k++) {
      estimated += rows.blame[4 * row + k]!;
      moved += Math.abs(u[k]!) * box.half[k]! * (k === 3 ? PITCH_TRAVEL : 1);
    }
    const margin = seen.margins.get(rows.source[row]!);
    const known = margin !== undefined && rows.hard[row] === 0;
    const slack = known ? Math.max(0, rows.at(row, u) - margin) : estimated;
    const scale = estimated > 0 ? Math.min(1, slack / estimated) : 0;
    const rest = moved > 0 ? Math.max(0, slack - estimated) / moved : 0;
    for (let k = 0; k < 4; k++) {
      const far = Math.abs(u[k]!) * box.half[k]! * (k === 3 ? PITCH_TRAVEL : 1);
      blame[k]! += weight * (rows.blame[4 * row + k]! * scale + far * rest);
    }
    return weight * slack;
  }

  /** The row of this contact that is least at the program's point, or -1. */
  private tightestRowOf(id: number): number {
    const { rows } = this;
    let tightest = -1;
    for (let row = 0; row < rows.count && id >= 0; row++) {
      if (rows.source[row] !== id) continue;
      const at = rows.at(row, this.lp.u);
      if (tightest < 0 || at < rows.at(tightest, this.lp.u)) tightest = row;
    }
    return tightest;
  }
}

/** In a search for a coordinate, a rule missed by less than this is the box's doing. */
const NEARLY_MET = 1;
/** Millimetres of usual travel for a radian of pitch, for comparing widths. */
const PITCH_TRAVEL = 500;
const CLIMB_RADIUS = 12;
const CLIMB_FINEST = 1e-3;
/** In a search for the least work, climb from places this close to reaching it. */
const CLIMB_WORTH = 6;

interface Measured {
  readonly id: number;
  readonly w: Probe;
  /** Upper end of the margin at the box's middle. */
  readonly margin: number;
  row: number;
}

interface Seen {
  readonly x: Float64Array;
  /** Least margin of the firm contacts. */
  readonly firm: number;
  readonly firmId: number;
  readonly completions: Completions | undefined;
  readonly margin: number;
  /** What was measured there, by contact. */
  readonly margins: ReadonlyMap<number, number>;
}

function byBound(a: Node, b: Node): boolean {
  return a.bound > b.bound;
}

function byWork(a: Node, b: Node): boolean {
  const order = compareWork(a.view.leastWork, b.view.leastWork);
  return order !== 0 ? order < 0 : a.bound > b.bound;
}
