/**
 * Why no position leaves more than so much margin, as a tree that anyone can check: branch and bound once more,
 * with the number to stay under known from the start, and every leaf closed by rows that carry their proof.
 */

import type {
  CertifiedPair,
  CertifiedRow,
  Four,
  LimitRow,
  MarginRow,
  Reason,
  Tree,
} from '../../model/certificate.js';
import { partUnder } from '../../model/options.js';
import type { OptionDomains } from '../../model/options.js';
import type { Limit, Scenario } from '../../model/scenario.js';
import { boxOf, endsOf } from '../box.js';
import type { PositionBox } from '../box.js';
import { createLpResult, solveHardRows, solveLp } from '../bounding/lp.js';
import { rowAbove } from '../bounding/merge-rows.js';
import type { Group } from '../measuring/bay.js';
import { createProbe } from '../measuring/probe.js';
import { CLOSED, FIRM, LOOSE } from '../measuring/view.js';
import type { View } from '../measuring/view.js';
import { compareWork } from '../measuring/work.js';
import type { Work } from '../measuring/work.js';
import { Rows } from '../rows.js';
import { Lookout } from '../searching/lookout.js';
import { Relaxation } from '../searching/relaxation.js';
import type { SearchRequest } from '../searching/request.js';
import { Sieve } from '../searching/sift.js';
import { choiceToDecide, coordinateToSplit } from '../searching/split.js';
import { fixedRow } from './fixed-rows.js';
import { limitNumbers, provedLimitRows } from './limit-rows.js';
import { mostOf, provedRows } from './margin-rows.js';
import type { ProvedRow } from './margin-rows.js';

/** Millimetres by which a leaf must stay under what is claimed. */
const SPARE = 1e-7;
/** By which a box may reach past the end of a coordinate's limit: what lies further is refuted by it. */
const PAST = 1e-6;
/** Rounds of sharpening: those of the search's own rows, and those of rows with their proof. */
const SEARCH_ROUNDS = 3;
const PROOF_ROUNDS = 6;
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

/** A row of a leaf's own program, and what it becomes in the certificate. */
type Written = { readonly row: number } & (
  { readonly margin: Omit<MarginRow, 'value' | 'slopes'> } | { readonly limit: LimitRow }
);

export class Refutation {
  private readonly sieve: Sieve;
  private readonly relaxation: Relaxation;
  private readonly lookout: Lookout;
  private readonly probe = createProbe();
  private readonly rows = new Rows();
  private readonly lp = createLpResult();
  private readonly hard = createLpResult();
  private readonly numbers: ReadonlyMap<Limit, number>;
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
    this.numbers = limitNumbers(meter.bay.scenario);
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
      const closed = this.leaf(view, box, [sifted.by]);
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
      const closed = this.leaf(view, box, [...carriers]);
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
        const closed = this.leaf(view, boxOf(lo, hi), []);
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

  /** A leaf from rows of these contacts, sharpened where its program is too hopeful. */
  private leaf(view: View, box: PositionBox, ids: readonly number[]): Tree | undefined {
    const { rows, lp } = this;
    const free = [0, 1, 2, 3].map((k) => box.half[k]! > 0);
    const written: Written[] = [];
    rows.clear();
    for (const limit of provedLimitRows(view, box, this.numbers)) {
      const row = this.add(-1, true, limit);
      written.push({ row, limit });
    }
    const subjects = this.subjectsOf(view, ids);
    for (const subject of subjects) {
      for (const x of this.firstPlaces(subject, box)) this.addRows(view, subject, box, x, written);
    }
    for (let round = 0; ; round++) {
      const bound = this.bound(free);
      if (bound <= this.asked.most - SPARE) return this.written(written);
      if (round === PROOF_ROUNDS) return undefined;
      const x = new Float64Array(4);
      for (let k = 0; k < 4; k++) x[k] = box.mid[k]! + box.half[k]! * lp.u[k]!;
      const u = Float64Array.from(lp.u);
      let cut = false;
      for (const subject of subjects) {
        const from = rows.count;
        this.addRows(view, subject, box, x, written);
        for (let row = from; row < rows.count; row++) cut ||= rows.at(row, u) < bound - SPARE;
      }
      if (!cut) return undefined;
    }
  }

  /** What the program proves; where no point keeps the limits, with their shares alone. */
  private bound(free: readonly boolean[]): number {
    const { rows, lp, hard } = this;
    solveLp(rows, free, lp);
    if (lp.missed <= 0 && lp.bound < Infinity) return lp.bound;
    const shares = rows.share.slice(0, rows.count);
    solveHardRows(rows, free, hard);
    if (hard.bound < -SPARE) return -Infinity;
    rows.share.set(shares);
    return lp.bound;
  }

  /** The rows that carry the program, with their shares; a single row where that alone is enough. */
  private written(written: readonly Written[]): Tree {
    const { rows } = this;
    const { most } = this.asked;
    const kept: CertifiedRow[] = [];
    const shares: number[] = [];
    const alone = written.find(
      (one) => 'margin' in one && rows.values[one.row]! + rows.spread(one.row) <= most - SPARE,
    );
    for (const one of alone ? [alone] : written) {
      const share = alone ? 1 : rows.share[one.row]!;
      if (!(share > 0)) continue;
      const value = rows.values[one.row]!;
      const slopes = [...rows.slopes.subarray(4 * one.row, 4 * one.row + 4)] as unknown as Four;
      kept.push('limit' in one ? one.limit : { ...one.margin, value, slopes });
      shares.push(share);
    }
    return { rows: kept, shares };
  }

  private add(
    source: number,
    isHard: boolean,
    { value, slopes }: Pick<ProvedRow, 'value' | 'slopes'>,
  ): number {
    const row = this.rows.add(source, isHard);
    this.rows.values[row] = value;
    this.rows.slopes.set(slopes, 4 * row);
    return row;
  }

  /** What rows are made of: a firm contact, or a pair with all its open variants. */
  private subjectsOf(view: View, ids: readonly number[]): Subject[] {
    const { contacts } = this.asked.request.meter.bay;
    const subjects = new Map<string, Subject>();
    for (const id of ids) {
      const { group } = contacts[id]!;
      if (view.status[id] === FIRM) subjects.set(`c${id}`, { group, combos: [[id]] });
      if (view.status[id] !== LOOSE) continue;
      const loose = view.loose.find((one) => one.group === group);
      if (loose) subjects.set(`g${group}`, loose);
    }
    return [...subjects.values()];
  }

  /** Where a subject is measured first: at the middle, and at both ends of pitch where it is along an axis. */
  private firstPlaces({ combos }: Subject, box: PositionBox): Float64Array[] {
    const { contacts } = this.asked.request.meter.bay;
    const middle = Float64Array.from(box.mid);
    const isAxis = contacts[combos[0]![0]!]!.axis >= 0;
    if (!isAxis || box.half[3] === 0) return [middle];
    return [0, -1, 1].map((way) => {
      const x = Float64Array.from(box.mid);
      x[3]! += way * box.half[3]!;
      return x;
    });
  }

  /** Rows of a subject measured at a position: of a firm contact its own, of open variants one above them all. */
  private addRows(
    view: View,
    { group: number, combos }: Subject,
    box: PositionBox,
    x: Float64Array,
    written: Written[],
  ): void {
    const { bay } = this.asked.request.meter;
    const group = bay.groups[number]!;
    const { scenario } = bay;
    const pair = this.pairOf(pairOfGroup(group));
    if (combos.length === 1 && combos[0]!.length === 1) {
      const id = combos[0]![0]!;
      for (const proved of this.rowsOf(id, view.domains, group, scenario, box, x)) {
        const row = this.add(id, false, proved);
        written.push({ row, margin: { pair, reasons: [proved.reason] } });
      }
      return;
    }
    const from = this.rows.count;
    const reasons: Reason[] = [];
    const variants: number[] = [];
    for (const ids of combos) {
      let least: ProvedRow | undefined;
      for (const id of ids) {
        for (const proved of this.rowsOf(id, view.domains, group, scenario, box, x)) {
          if (!least || mostOf(proved) < mostOf(least)) least = proved;
        }
      }
      if (!least) return;
      reasons.push(least.reason);
      variants.push(this.add(-1, false, least));
    }
    const merged = rowAbove(this.rows, variants);
    this.rows.move(merged, from);
    while (this.rows.count > from + 1) this.rows.drop();
    // What two doubles add up to may be a hair less than either meant.
    this.rows.values[from]! += 1e-9;
    written.push({ row: from, margin: { pair, reasons } });
  }

  private rowsOf(
    id: number,
    domains: OptionDomains,
    group: Group,
    scenario: Scenario,
    box: PositionBox,
    x: Float64Array,
  ): ProvedRow[] {
    const { meter } = this.asked.request;
    const contact = meter.bay.contacts[id]!;
    meter.measure(contact, x, this.probe);
    return provedRows(contact, box, this.probe, solidsOf(scenario, group, id, domains));
  }
}

/** A pair with its open variants, each as contacts. */
interface Subject {
  readonly group: number;
  readonly combos: readonly (readonly number[])[];
}

function* finished(tree: Tree | undefined): Generator<void, Tree | undefined, boolean> {
  yield* [];
  return tree;
}

export function pairOfGroup({ between, measured, withdrawn }: Group): CertifiedPair {
  return { parts: between, measured, ...(withdrawn !== undefined && { out: withdrawn }) };
}

/** Which solid of either part a contact is of. */
export function solidsOf(
  s: Scenario,
  { combos, choices, between }: Group,
  id: number,
  domains: OptionDomains,
): readonly [number, number] {
  const combo = combos.find(({ contacts }) => contacts.includes(id))!;
  const set = domains.map((domain) => domain[0]!);
  choices.forEach((choice, i) => (set[choice] = combo.options[i]!));
  const many = partUnder(s, between[1], set)!.part.solids.length;
  const at = combo.contacts.indexOf(id);
  return [Math.floor(at / many), at % many];
}
