/**
 * Why no position leaves more than so much margin, as a tree that anyone can check: branch and bound once more,
 * with the number to stay under known from the start, and every leaf closed by rows that carry their proof.
 */

import type { CertifiedPair, Tree } from '../../model/certificate.js';
import { boxOf, endsOf } from '../box.js';
import { CLOSED } from '../measuring/view.js';
import type { View } from '../measuring/view.js';
import { compareWork } from '../measuring/work.js';
import type { Work } from '../measuring/work.js';
import { Lookout } from '../searching/lookout.js';
import { Relaxation } from '../searching/relaxation.js';
import type { SearchRequest } from '../searching/request.js';
import { Sieve } from '../searching/sift.js';
import { choiceToDecide, coordinateToSplit } from '../searching/split.js';
import { fixedRow } from './fixed-rows.js';
import { Leaves, SPARE } from './leaf.js';

/** By which a box may reach past the end of a coordinate's limit: what lies further is refuted by it. */
const PAST = 1e-6;
/** Rounds of sharpening of the search's own rows. */
const SEARCH_ROUNDS = 3;
/** Boxes after which a certificate is given up. */
const MOST_BOXES = 20_000;

interface Node {
  readonly lo: Float64Array;
  readonly hi: Float64Array;
  readonly view: View;
  readonly active: Int32Array;
  readonly low: Float64Array;
}

/** What a tree is to prove. */
export interface Refuting {
  readonly request: SearchRequest;
  /** Millimetres: no position in the request's ranges leaves more. */
  readonly most: number;
  /** Only sets of less work than this are spoken of. */
  readonly less?: Work;
}

export class Refutation {
  private readonly sieve: Sieve;
  private readonly relaxation: Relaxation;
  private readonly lookout: Lookout;
  private readonly leaves: Leaves;
  private boxes = 0;
  /** Why there is no tree, where there is none. */
  why = 'a rule or limit that carries it has no proof that can be written down';

  /** @param pairOf the number of a pair in the certificate's list. */
  constructor(
    private readonly asked: Refuting,
    private readonly pairOf: (pair: CertifiedPair) => number,
  ) {
    const { meter } = asked.request;
    this.sieve = new Sieve(meter);
    this.relaxation = new Relaxation(asked.request);
    this.lookout = new Lookout(asked.request);
    this.leaves = new Leaves(meter, asked.most, pairOf);
  }

  /** The tree, or undefined where there is none, for the reason in `why`; yields at every box. */
  *tree(): Generator<void, Tree | undefined, boolean> {
    const { request } = this.asked;
    const { meter, domains, ranges } = request;
    const view = meter.views.of(domains);
    if (!view) return { none: 'options' };
    const contacts = meter.bay.contacts.filter(({ id }) => view.status[id] !== CLOSED);
    return yield* this.of({
      ...endsOf(ranges),
      view,
      active: Int32Array.from(contacts, ({ id }) => id),
      low: new Float64Array(contacts.length).fill(-Infinity),
    });
  }

  private *of(node: Node): Generator<void, Tree | undefined, boolean> {
    const { request, most, less } = this.asked;
    if (less && compareWork(node.view.leastWork, less) >= 0) return { none: 'work' };
    if (this.boxes++ >= MOST_BOXES) {
      this.why = 'it would take too many boxes';
      return undefined;
    }
    if (!(yield)) {
      this.why = 'it was stopped';
      return undefined;
    }
    const past = this.pastLimit(node);
    if (past) return yield* past;
    const { view, lo, hi } = node;
    const box = boxOf(lo, hi);
    if (!request.ignoreFixed && view.cap <= most - SPARE) {
      const row = fixedRow(request.meter.bay, view, most, this.pairOf);
      if (row) return { rows: [row], shares: [1] };
    }
    let sifted = this.sieve.sift({ ...node, bound: Infinity }, box, most, most);
    if ('most' in sifted) {
      const closed = this.leaves.of(view, box, [sifted.by]);
      if (closed) return closed;
      sifted = this.sieve.sift({ ...node, bound: Infinity }, box, most, -Infinity);
      if ('most' in sifted) throw new Error('nothing fails at no margin at all');
    }
    const { relaxation } = this;
    const { active, low, measured } = sifted;
    relaxation.build(view, view.limits, box, measured);
    let bound = relaxation.solve();
    const look = () => this.lookout.look(view, active, Infinity, most, relaxation.position(box));
    let seen = look();
    for (let round = 0; round < SEARCH_ROUNDS && bound > most; round++) {
      if (!relaxation.sharpen(view, box, seen, bound, Math.max(0, bound - most))) break;
      bound = Math.min(bound, relaxation.solve());
      seen = look();
    }
    if (bound <= most) {
      const carriers = new Set<number>();
      relaxation.carriers(carriers);
      const closed = this.leaves.of(view, box, [...carriers]);
      if (closed) return closed;
    }
    const rest: Node = { lo, hi, view, active, low };
    const choice = choiceToDecide(request, view, seen, most);
    if (choice !== undefined) return yield* this.decide(choice, rest);
    const over = Math.max(0, bound - most);
    const k = coordinateToSplit(relaxation, box, seen, over, request.tolerance, view.limits);
    if (k >= 0) return yield* this.halves(rest, k, box.mid[k]!);
    if (view.undecided.length > 0) return yield* this.decide(view.undecided[0]!, rest);
    return undefined;
  }

  /** Cuts off what lies past the end of a coordinate's limit; undefined where nothing does. */
  private pastLimit(node: Node): Generator<void, Tree | undefined, boolean> | undefined {
    const { view, lo, hi } = node;
    for (const limit of view.limits) {
      if (limit.kind !== 'coordinate') continue;
      const { coordinate: k } = limit;
      const { min, max } = limit.limit;
      if (hi[k]! < min - PAST / 2 || lo[k]! > max + PAST / 2) {
        const closed = this.leaves.of(view, boxOf(lo, hi), []);
        return finished(closed);
      }
      if (lo[k]! < min - 2 * PAST) return this.halves(node, k, min - PAST);
      if (hi[k]! > max + 2 * PAST) return this.halves(node, k, max + PAST);
    }
    return undefined;
  }

  private *halves(node: Node, k: number, at: number): Generator<void, Tree | undefined, boolean> {
    const hi = Float64Array.from(node.hi);
    const lo = Float64Array.from(node.lo);
    hi[k] = at;
    lo[k] = at;
    const low = yield* this.of({ ...node, hi });
    if (!low) return undefined;
    const high = yield* this.of({ ...node, lo });
    return high && { split: k as 0 | 1 | 2 | 3, at, parts: [low, high] };
  }

  private *decide(choice: number, node: Node): Generator<void, Tree | undefined, boolean> {
    const { views } = this.asked.request.meter;
    const { domains } = node.view;
    const options: (readonly [number, Tree])[] = [];
    for (const option of domains[choice]!) {
      const view = views.of(domains.map((domain, c) => (c === choice ? [option] : domain)));
      const tree = view ? yield* this.of({ ...node, view }) : ({ none: 'options' } as const);
      if (!tree) return undefined;
      options.push([option, tree]);
    }
    return { choice, options };
  }
}

function* finished(tree: Tree | undefined): Generator<void, Tree | undefined, boolean> {
  yield* [];
  return tree;
}
