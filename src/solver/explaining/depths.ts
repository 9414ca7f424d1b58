/** How deep cuts must at least go for a wish: on the marks of a tape, the cheapest that do. */

import { maxOf } from '../../model/extremes.js';
import { trimWork } from '../../model/trims.js';
import type { Trim } from '../../model/scenario.js';
import type { Verdict } from '../answer.js';
import type { Steps } from '../answering/searches.js';
import { compareWork } from '../measuring/work.js';
import type { Work } from '../measuring/work.js';

/** Decides with these trims so deep, in millimetres; deeper cuts never turn 'yes' into 'no'. */
export type DepthOracle = (depths: readonly number[]) => Steps<Verdict>;

export interface Depths {
  /** Millimetres, by trim. */
  readonly depths: readonly number[];
  /** Whether no cheaper depths on the marks will do, proved. */
  readonly least: boolean;
}

/**
 * The cheapest depths on the marks of a tape, all of them more than 0, that do; with the deepest known to.
 * One trim is halved, two are followed along the edge of what does. Of more, each is halved in turn while the
 * others stay, and then boxes of depths are divided, the cheapest first, until none cheaper can do.
 * @param step millimetres between marks; the deepest cut counts as one.
 */
export function* cheapestDepths(
  trims: readonly Trim[],
  step: number,
  oracle: DepthOracle,
): Steps<Depths> {
  const search = new DepthSearch(trims, step, oracle);
  if (trims.length === 1) yield* search.halve(0);
  else if (trims.length === 2) yield* search.followEdge();
  else {
    for (const t of trims.keys()) yield* search.halve(t);
    yield* search.divide();
  }
  return { depths: search.best, least: search.decided };
}

/** Depths tried before the cheapest of three cuts or more is left unproved. */
const MOST_TRIED = 600;

/** All marks from one corner to another, as indexes by trim. */
interface DepthBox {
  readonly from: readonly number[];
  readonly to: readonly number[];
  readonly least: Work;
}

class DepthSearch {
  decided = true;
  best: readonly number[];
  private readonly marks: readonly (readonly number[])[];
  private readonly doing: (readonly number[])[] = [];
  private readonly failing: (readonly number[])[] = [];

  constructor(
    private readonly trims: readonly Trim[],
    step: number,
    private readonly oracle: DepthOracle,
  ) {
    this.marks = trims.map(({ upTo }) => {
      const count = Math.ceil(upTo / step - 1e-9);
      return Array.from({ length: count }, (_, i) => (i < count - 1 ? (i + 1) * step : upTo));
    });
    this.best = trims.map(({ upTo }) => upTo);
    this.doing.push(this.best);
  }

  /** The least mark of one trim that does, the others as they are. */
  *halve(t: number): Steps<void> {
    const marks = this.marks[t]!;
    let no = -1;
    let yes = marks.indexOf(this.best[t]!);
    while (yes - no > 1) {
      const middle = (yes + no) >> 1;
      const depths = this.best.map((depth, u) => (u === t ? marks[middle]! : depth));
      if (yield* this.does(depths)) yes = middle;
      else no = middle;
    }
    this.best = this.best.map((depth, u) => (u === t ? marks[yes]! : depth));
  }

  /** From the first trim at its deepest and the second at its least, along what just does. */
  *followEdge(): Steps<void> {
    const [first, second] = this.marks as [readonly number[], readonly number[]];
    let i = first.length - 1;
    let j = 0;
    while (i >= 0 && j < second.length) {
      const depths = [first[i]!, second[j]!];
      if (yield* this.does(depths)) {
        if (this.isBetter(depths)) this.best = depths;
        i--;
      } else j++;
    }
  }

  /** Less work than the best so far or, for the same work, less metal. */
  private isBetter(depths: readonly number[]): boolean {
    const order = compareWork(this.workOf(depths), this.workOf(this.best));
    const deep = (all: readonly number[]) => all.reduce((sum, depth) => sum + depth, 0);
    return order < 0 || (order === 0 && deep(depths) < deep(this.best));
  }

  /** Boxes in order of the work of their shallowest corner: none is left that could be cheaper. */
  *divide(): Steps<void> {
    const boxes: DepthBox[] = [
      this.boxOf(
        this.marks.map(() => 0),
        this.marks.map((m) => m.length - 1),
      ),
    ];
    for (let tried = 0; boxes.length > 0; tried++) {
      boxes.sort((a, b) => compareWork(b.least, a.least));
      const { from, to, least } = boxes.pop()!;
      if (compareWork(least, this.workOf(this.best)) >= 0) return;
      if (tried >= MOST_TRIED) {
        this.decided = false;
        return;
      }
      if (!(yield* this.does(this.depthsAt(to)))) continue;
      if (yield* this.does(this.depthsAt(from))) this.best = this.depthsAt(from);
      else boxes.push(...this.halves(from, to));
    }
  }

  /** A box cut in two across its longest side. */
  private halves(from: readonly number[], to: readonly number[]): DepthBox[] {
    const sides = from.map((mark, t) => to[t]! - mark);
    const longest = sides.indexOf(maxOf(sides));
    if (sides[longest] === 0) return [];
    const middle = (from[longest]! + to[longest]!) >> 1;
    const moved = (marks: readonly number[], mark: number) =>
      marks.map((own, t) => (t === longest ? mark : own));
    return [this.boxOf(from, moved(to, middle)), this.boxOf(moved(from, middle + 1), to)];
  }

  private boxOf(from: readonly number[], to: readonly number[]): DepthBox {
    return { from, to, least: this.workOf(this.depthsAt(from)) };
  }

  private depthsAt(marks: readonly number[]): number[] {
    return marks.map((mark, t) => this.marks[t]![mark]!);
  }

  private workOf(depths: readonly number[]) {
    const works = this.trims.map((trim, t) => trimWork(trim, depths[t]!));
    return works.reduce((a, b) => ({ hours: a.hours + b.hours, cost: a.cost + b.cost }));
  }

  /** What is deeper throughout than depths that do, does too; what is shallower than depths that do not, does not. */
  private *does(depths: readonly number[]): Steps<boolean> {
    const within = (a: readonly number[], b: readonly number[]) => a.every((d, t) => d <= b[t]!);
    if (this.doing.some((known) => within(known, depths))) return true;
    if (this.failing.some((known) => within(depths, known))) return false;
    const possible = yield* this.oracle(depths);
    this.decided &&= possible !== 'undecided';
    (possible === 'yes' ? this.doing : this.failing).push(depths);
    return possible === 'yes';
  }
}
