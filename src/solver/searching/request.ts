/** What a search is asked, and what follows from it for every part of the search. */

import type { OptionSet, PositionRanges } from '../../model/scenario.js';
import type { Meter } from '../measuring/meter.js';
import type { Objective } from './objective.js';
import type { OptionDomains } from '../../model/options.js';
import type { Work } from '../measuring/work.js';

/** A place in hand: a position under a complete option set, its value certified from below. */
export interface Candidate {
  readonly x: Float64Array;
  readonly set: OptionSet;
  readonly value: number;
  readonly work: Work;
}

export interface SearchRequest {
  readonly meter: Meter;
  readonly domains: OptionDomains;
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
  /** With `reach`: whether any place reaches it is all that is asked, not how far past it one goes. */
  readonly decides?: boolean;
  /** Gathers the contacts that the search's refutations rest on. */
  readonly rests?: Set<number>;
  /** Take places as they are met, without climbing from them: for a question that expects a no. */
  readonly still?: boolean;
}

/** A contact whose margin exceeds this all over a box of that bound cannot matter there. */
export function clearOf({ objective, reach }: SearchRequest, bound: number): number {
  if (objective.kind === 'coordinate') return objective.keep;
  return reach === undefined ? bound : Math.min(bound, reach);
}

/** The least margin that a set leaves in the rules no position changes, where they count. */
export function fixedMarginOf({ meter, ignoreFixed }: SearchRequest, set: OptionSet): number {
  return ignoreFixed ? Infinity : meter.fixedUnder(set);
}
