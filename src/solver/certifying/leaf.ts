/** A leaf of a certificate's tree: rows with their proof that together hold a box under what is claimed. */

import type {
  CertifiedPair,
  CertifiedRow,
  Four,
  LimitRow,
  MarginRow,
  Reason,
  Tree,
} from '../../model/certificate.js';
import type { OptionDomains } from '../../model/options.js';
import type { Limit } from '../../model/scenario.js';
import type { PositionBox } from '../box.js';
import { createLpResult, solveHardRows, solveLp } from '../bounding/lp.js';
import { rowAbove } from '../bounding/merge-rows.js';
import type { Meter } from '../measuring/meter.js';
import { createProbe } from '../measuring/probe.js';
import { FIRM, LOOSE } from '../measuring/view.js';
import type { View } from '../measuring/view.js';
import { Rows } from '../rows.js';
import { pairOfGroup, solidsOf } from './certified-pair.js';
import { limitNumbers, provedLimitRows } from './limit-rows.js';
import { mostOf, provedRows } from './margin-rows.js';
import type { ProvedRow } from './margin-rows.js';

/** Millimetres by which a leaf must stay under what is claimed. */
export const SPARE = 1e-7;
/** Rounds of sharpening of rows with their proof. */
const PROOF_ROUNDS = 6;

/** A row of a leaf's own program, and what it becomes in the certificate. */
type Written = { readonly row: number } & (
  { readonly margin: Omit<MarginRow, 'value' | 'slopes'> } | { readonly limit: LimitRow }
);

/** A pair with its open variants, each as contacts. */
interface Subject {
  readonly group: number;
  readonly combos: readonly (readonly number[])[];
}

/** Writes the leaves of a tree. */
export class Leaves {
  private readonly probe = createProbe();
  private readonly rows = new Rows();
  private readonly lp = createLpResult();
  private readonly hard = createLpResult();
  private readonly numbers: ReadonlyMap<Limit, number>;

  /**
   * @param most millimetres: no position of a leaf leaves more.
   * @param pairOf the number of a pair in the certificate's list.
   */
  constructor(
    private readonly meter: Meter,
    private readonly most: number,
    private readonly pairOf: (pair: CertifiedPair) => number,
  ) {
    this.numbers = limitNumbers(meter.bay.scenario);
  }

  /** A leaf from rows of these contacts, sharpened where its program is too hopeful. */
  of(view: View, box: PositionBox, ids: readonly number[]): Tree | undefined {
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
      if (bound <= this.most - SPARE) return this.written(written);
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
    const { most } = this;
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
    const { contacts } = this.meter.bay;
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
    const { contacts } = this.meter.bay;
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
    { group, combos }: Subject,
    box: PositionBox,
    x: Float64Array,
    written: Written[],
  ): void {
    const pair = this.pairOf(pairOfGroup(this.meter.bay.groups[group]!));
    if (combos.length === 1 && combos[0]!.length === 1) {
      const id = combos[0]![0]!;
      for (const proved of this.rowsOf(id, view.domains, box, x)) {
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
        for (const proved of this.rowsOf(id, view.domains, box, x)) {
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
    box: PositionBox,
    x: Float64Array,
  ): ProvedRow[] {
    const { meter, probe } = this;
    const { scenario, contacts, groups } = meter.bay;
    const contact = contacts[id]!;
    meter.measure(contact, x, probe);
    const solids = solidsOf(scenario, groups[contact.group]!, id, domains);
    return provedRows(contact, box, probe, solids);
  }
}
