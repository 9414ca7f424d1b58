/**
 * What a campaign is made of. A subject says what it holds true and tries one case at a time; a case is a
 * number, from which its seed follows, so that any one can be tried again by itself.
 */

import type { Random } from '../tests/geometry/random.js';

/** How often what happened, by name; summed over all cases. */
export type Counts = Readonly<Record<string, number>>;

export interface Case {
  /** From 1. */
  readonly number: number;
  /** Its own, from the campaign's seed and its number. */
  readonly seed: number;
  readonly random: Random;
}

export interface Result {
  /** What went wrong, a sentence each; none where all was well. */
  readonly faults: readonly string[];
  readonly counts: Counts;
  /** What the case was about, kept beside the progress when it failed: a file, as a rule. */
  readonly exhibit?: { readonly ending: string; readonly text: string };
}

type Trial = (one: Case) => Result | Promise<Result>;

export interface Subject {
  /** What it holds true of every case. */
  readonly claim: string;
  /** How many cases, and how many of them with `--short`. */
  readonly runs: number;
  readonly shortRuns: number;
  /** Seconds of the wall's clock that one case may take before it counts as hung and is killed. */
  readonly seconds: number;
  /** MiB of heap that the cases may take. */
  readonly memory: number;
  /** Makes ready what all cases need, once a thread. */
  open(): Promise<Trial>;
  /**
   * What the counts of all cases together must show: above all that enough cases said something, for a
   * campaign that applies to nothing proves nothing. Sentences, as for faults.
   */
  judge?(counts: Counts, cases: number): readonly string[];
}

/** Notes what a case holds true, and what turned out not to be. */
export class Notes {
  readonly faults: string[] = [];
  readonly counts: Record<string, number> = {};

  /** A fault unless it holds. */
  hold(holds: boolean, otherwise: string | (() => string)): void {
    if (holds) return;
    this.faults.push(typeof otherwise === 'string' ? otherwise : otherwise());
  }

  count(what: string, by = 1): void {
    this.counts[what] = (this.counts[what] ?? 0) + by;
  }

  result(exhibit?: Result['exhibit']): Result {
    const { faults, counts } = this;
    return { faults, counts, ...(exhibit && { exhibit }) };
  }
}

/**
 * A fault for every count that is less than so many in a hundred cases, by more than chance may take from so
 * few: three deviations of a count.
 */
export function atLeast(
  counts: Counts,
  cases: number,
  wanted: Readonly<Record<string, number>>,
): string[] {
  return Object.entries(wanted).flatMap(([what, share]) => {
    const one = Math.min(1, share / 100);
    const least = (share / 100) * cases - 3 * Math.sqrt(one * (1 - one) * cases);
    const found = counts[what] ?? 0;
    if (found >= least) return [];
    return [`'${what}' came up ${found} times, ${Math.ceil(least)} or more are wanted`];
  });
}
