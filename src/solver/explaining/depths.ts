/** How deep cuts must at least go for a wish: on the marks of a tape, the cheapest that do. */

import { trimWork } from '../../model/trims.js';
import type { Trim } from '../../model/scenario.js';
import type { Verdict } from '../answer.js';
import type { Steps } from '../answering/searches.js';
import { compareWork } from '../measuring/work.js';

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
 * One trim is halved, two are followed along the edge of what does; of more, each is halved in turn
 * while the others stay, and what comes of it is not proved the cheapest.
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
  else for (const t of trims.keys()) yield* search.halve(t);
  return { depths: search.best, least: search.decided && trims.length <= 2 };
}

class DepthSearch {
  decided = true;
  best: readonly number[];
  private readonly marks: readonly (readonly number[])[];

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

  private workOf(depths: readonly number[]) {
    const works = this.trims.map((trim, t) => trimWork(trim, depths[t]!));
    return works.reduce((a, b) => ({ hours: a.hours + b.hours, cost: a.cost + b.cost }));
  }

  private *does(depths: readonly number[]): Steps<boolean> {
    const possible = yield* this.oracle(depths);
    this.decided &&= possible !== 'undecided';
    return possible === 'yes';
  }
}
