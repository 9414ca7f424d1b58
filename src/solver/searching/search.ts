/**
 * Spatial branch and bound over boxes of positions and open choices.
 *
 * Sound by construction: a node's bound is a certified LP over rows that overestimate margins
 * everywhere in its box; leaving a row out only loosens it. A node is closed only when its bound is
 * under what is already in hand, or when a rule provably fails all over it.
 */

import { boxOf, endsOf } from '../box.js';
import type { PositionBox } from '../box.js';
import { hasWork } from './complete.js';
import { DECISION_SLACK } from '../decision.js';
import { Heap } from '../heap.js';
import { InHand } from './in-hand.js';
import { createNarrowed, narrow } from '../bounding/narrow.js';
import { narrowByLimits } from '../measuring/limits.js';
import { Lookout } from './lookout.js';
import type { Node, Outcome } from './node.js';
import type { Objective } from './objective.js';
import { Relaxation } from './relaxation.js';
import { clearOf } from './request.js';
import type { Candidate, SearchRequest } from './request.js';
import { Sieve } from './sift.js';
import { choiceToDecide, coordinateToSplit, isTooSmall } from './split.js';
import { CLOSED } from '../measuring/view.js';
import type { Views } from '../measuring/view.js';
import { compareWork } from '../measuring/work.js';

export interface SearchState {
  readonly best: Candidate | undefined;
  /** Proved upper bound of the value over everything asked. */
  readonly bound: number;
  /** True once nothing is left to search. */
  readonly done: boolean;
  /** Nodes too small to split that could not be closed either: they stay open for good. */
  readonly stuck: readonly Node[];
  /** Nodes still to be visited, in no order. */
  readonly open: readonly Node[];
}

/** A box of which some coordinate keeps no more than this part is looked at again before it is split. */
const NARROW = 0.8;
/** Of the tolerance, what is left above the best for what is cut off: a bound is told as it is proved. */
const NARROW_PART = 1 / 4;
/** At most this many rounds of sharpening a node. */
const CUT_ROUNDS = 3;

export class Search {
  private readonly heap: Heap<Node>;
  private readonly views: Views;
  private readonly sieve: Sieve;
  private readonly relaxation: Relaxation;
  private readonly lookout: Lookout;
  private readonly inHand: InHand;
  private readonly narrowed = createNarrowed();
  private readonly stuck: Node[] = [];
  private bound = Infinity;
  private done = false;
  /** Greatest bound of any node closed so far. */
  private closedAbove = -Infinity;

  constructor(private readonly request: SearchRequest) {
    const { meter } = request;
    this.views = meter.views;
    this.sieve = new Sieve(meter);
    this.relaxation = new Relaxation(request);
    this.lookout = new Lookout(request);
    this.inHand = new InHand(request);
    this.heap = new Heap<Node>(request.reach === undefined ? byBound : byWork);
    const root = this.root();
    if (root) this.push(root);
    this.settle();
  }

  get state(): SearchState {
    const { bound, done, stuck } = this;
    return { best: this.inHand.best, bound, done, stuck, open: this.heap.all() };
  }

  /** Work through at most `boxes` nodes. */
  run(boxes: number): SearchState {
    for (let n = 0; n < boxes && !this.done; n++) {
      const node = this.heap.pop();
      if (!node) break;
      if (!this.isClosed(node)) {
        this.request.meter.effort.boxes++;
        const outcome = this.visit(node);
        if (outcome.kind === 'stuck') this.stuck.push({ ...node, bound: outcome.bound });
        else if (outcome.kind === 'split') for (const child of outcome.children) this.push(child);
      }
      this.settle();
    }
    return this.state;
  }

  private root(): Node | undefined {
    const { meter, domains, objective, ranges } = this.request;
    const view = this.views.of(domains);
    if (!view) return undefined;
    const { lo, hi } = endsOf(ranges);
    const box = boxOf(lo, hi);
    // What an earlier search measured is remembered; what is far from tightest then waits from the start.
    const known = meter.bay.contacts
      .filter(({ id }) => view.status[id] !== CLOSED)
      .map((contact) => ({ id: contact.id, low: meter.remembered(contact, box) - contact.needed }))
      .sort((a, b) => a.low - b.low);
    const active = Int32Array.from(known, ({ id }) => id);
    const low = Float64Array.from(known, (one) => one.low);
    return { lo, hi, view, bound: greatest(objective, lo, hi), active, low };
  }

  /** Drop finished work from the top; what remains, and what was let go, decides the bound. */
  private settle(): void {
    let top = this.heap.peek();
    for (; top && this.isClosed(top); top = this.heap.peek()) this.heap.pop();
    this.done = top === undefined;
    if (this.request.reach !== undefined) return;
    const best = this.inHand.best?.value ?? -Infinity;
    let bound = Math.max(best, this.closedAbove, top?.bound ?? -Infinity);
    for (const node of this.stuck) bound = Math.max(bound, node.bound);
    this.bound = Math.min(this.bound, bound);
  }

  /** What a node's bound must exceed to be worth a visit. */
  private cutoff(): number {
    const { reach, tolerance } = this.request;
    if (reach !== undefined) return reach - DECISION_SLACK;
    return (this.inHand.best?.value ?? -Infinity) + tolerance;
  }

  private isBeaten(bound: number): boolean {
    const cutoff = this.cutoff();
    const beaten = this.request.reach === undefined ? bound <= cutoff : bound < cutoff;
    if (beaten) this.closedAbove = Math.max(this.closedAbove, bound);
    return beaten;
  }

  private isClosed(node: Node): boolean {
    const { best } = this.inHand;
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

  private visit(node: Node): Outcome {
    const { objective } = this.request;
    const { view } = node;
    const lo = Float64Array.from(node.lo);
    const hi = Float64Array.from(node.hi);
    if (!narrowByLimits(view.limits, view.domains, lo, hi)) return CLOSED_NODE;
    const box = boxOf(lo, hi);

    const cap = this.request.ignoreFixed ? Infinity : view.cap;
    let bound = node.bound;
    if (objective.kind === 'margin') bound = Math.min(bound, cap);
    else if (cap < objective.keep - DECISION_SLACK) return CLOSED_NODE;
    if (this.isBeaten(bound)) return CLOSED_NODE;

    const isMargin = objective.kind === 'margin';
    const fails = isMargin ? this.cutoff() : objective.keep - DECISION_SLACK;
    const sifted = this.sieve.sift(node, box, clearOf(this.request, bound), fails);
    if ('most' in sifted) {
      if (isMargin) this.closedAbove = Math.max(this.closedAbove, sifted.most);
      this.request.rests?.add(sifted.by);
      return CLOSED_NODE;
    }
    const { relaxation } = this;
    const { active, low } = sifted;
    relaxation.build(view, view.limits, box, sifted.measured);
    const rests = this.request.rests && new Set<number>();
    // The program of a later round has the rows of the one before, and a bound as low.
    const solve = () => {
      const solved = relaxation.solve();
      if (rests && solved <= bound) relaxation.carriers(rests);
      bound = Math.min(bound, solved);
    };
    solve();
    // What was proved of the node before it was visited decides what its points are measured for.
    const look = () => {
      const x = relaxation.position(box);
      const seen = this.lookout.look(view, active, node.bound, this.cutoff(), x);
      this.inHand.consider(seen, node.bound);
      return seen;
    };
    let seen = look();
    for (let round = 0; round < CUT_ROUNDS && bound >= this.cutoff(); round++) {
      const over = Math.max(0, bound - this.cutoff());
      if (!relaxation.sharpen(view, box, seen, bound, over)) break;
      const before = bound;
      solve();
      if (before - bound < 0.1 * Math.max(this.request.tolerance, before - this.cutoff())) break;
      seen = look();
    }
    if (this.isBeaten(bound)) {
      for (const id of rests ?? []) this.request.rests!.add(id);
      return CLOSED_NODE;
    }

    const rest = { lo, hi, view, bound, active, low };
    if (!isTooSmall(box) && this.narrow(box, lo, hi) <= NARROW) {
      return { kind: 'split', children: [rest] };
    }
    const choice = choiceToDecide(this.request, view, seen, this.cutoff());
    if (choice !== undefined) return this.decide(choice, rest);
    const over = bound - this.cutoff();
    const k = coordinateToSplit(relaxation, box, seen, over, this.request.tolerance, view.limits);
    if (k >= 0) return halves(rest, k, (lo[k]! + hi[k]!) / 2);
    if (view.undecided.length > 0) return this.decide(view.undecided[0]!, rest);
    return { kind: 'stuck', bound };
  }

  /**
   * Cut the ends off a box where one row of its program leaves too little; returns the part that is left
   * of the coordinate that lost most.
   */
  private narrow(box: PositionBox, lo: Float64Array, hi: Float64Array): number {
    const { narrowed, relaxation } = this;
    const { reach, tolerance } = this.request;
    const isBest = reach === undefined;
    const cutoff = this.cutoff() - (isBest ? (1 - NARROW_PART) * tolerance : 0);
    narrow(relaxation.rows, cutoff, -DECISION_SLACK, narrowed);
    // What soft rows cut off is let go as any node is whose bound is the cutoff.
    if (narrowed.soft && isBest) this.closedAbove = Math.max(this.closedAbove, cutoff);
    for (const row of narrowed.by) {
      const id = relaxation.rows.source[row]!;
      if (id >= 0) this.request.rests?.add(id);
    }
    let left = 1;
    for (let k = 0; k < 4; k++) {
      const [low, high] = [narrowed.low[k]!, narrowed.high[k]!];
      if (box.half[k] === 0) continue;
      if (low > -1) lo[k] = box.mid[k]! + box.half[k]! * low;
      if (high < 1) hi[k] = box.mid[k]! + box.half[k]! * high;
      left = Math.min(left, (high - low) / 2);
    }
    return left;
  }

  /** One child for each open option of a choice. */
  private decide(choice: number, node: Node): Outcome {
    const { domains } = node.view;
    const children: Node[] = [];
    for (const option of domains[choice]!) {
      const view = this.views.of(domains.map((d, c) => (c === choice ? [option] : d)));
      if (view) children.push({ ...node, view });
    }
    return { kind: 'split', children };
  }
}

const CLOSED_NODE: Outcome = { kind: 'closed' };

/** No position between the ends has a greater value. */
function greatest(objective: Objective, lo: Float64Array, hi: Float64Array): number {
  if (objective.kind === 'margin') return Infinity;
  const { sign, coordinate } = objective;
  return Math.max(sign * lo[coordinate]!, sign * hi[coordinate]!);
}

/** A node cut in two across one coordinate. */
function halves(node: Node, k: number, middle: number): Outcome {
  const hi = Float64Array.from(node.hi);
  const lo = Float64Array.from(node.lo);
  hi[k] = middle;
  lo[k] = middle;
  return {
    kind: 'split',
    children: [
      { ...node, hi },
      { ...node, lo },
    ],
  };
}

function byBound(a: Node, b: Node): boolean {
  return a.bound > b.bound;
}

function byWork(a: Node, b: Node): boolean {
  const order = compareWork(a.view.leastWork, b.view.leastWork);
  return order !== 0 ? order < 0 : a.bound > b.bound;
}
