/**
 * Cases side by side: the best place of each option set within its own ranges, proved, beside the bay as
 * it stands. One compiled bay serves all; every case is measured afresh, so that its answer is the same
 * in whatever order, and on whatever thread, the cases are answered.
 */

import type { Case, Clash } from '../../model/asked/cases.js';
import { asItStands } from '../../model/asked/cases.js';
import { workOf } from '../../model/options.js';
import type { OptionRef, OptionSet, Scenario } from '../../model/scenario.js';
import type { Effort, Placement, Progress, Standing, Verdict, Stopped } from '../answer.js';
import type { PlaceRequest, Signal } from '../asked.js';
import { verdict } from '../answering/placement.js';
import { Searches } from '../answering/searches.js';
import type { Steps } from '../answering/searches.js';
import { compileBay } from '../measuring/compile.js';
import type { Bay } from '../measuring/bay.js';

export type CompareRequest = Pick<PlaceRequest, 'tolerance' | 'units'>;

/** What one case leaves. */
export interface CaseAnswer {
  readonly name: string;
  readonly options: OptionSet;
  readonly hours: number;
  readonly cost: number;
  /** Millimetres that the case wants every rule to leave; 0 unless it says. */
  readonly wanted: number;
  readonly brought: readonly OptionRef[];
  /** Why its options cannot stand; there is no place then. */
  readonly clash?: Clash;
  /** The best place; only what binds is told of the readings. Absent where none was searched for. */
  readonly placement?: Placement;
  /** Whether any position leaves what is wanted. */
  readonly fits: Verdict;
  /** Millimetres that the best place has over that of the bay as it stands; absent unless both are proved. */
  readonly gain?: number;
}

export interface Comparison {
  readonly standing: CaseAnswer;
  /** In the order asked. */
  readonly cases: readonly CaseAnswer[];
  readonly tolerance: number;
  readonly stopped?: Stopped;
  readonly effort: Effort;
}

/** One case answered, and what that took. */
export interface CaseDone {
  readonly answer: CaseAnswer;
  readonly stopped?: Stopped;
  readonly effort: Effort;
}

const NO_EFFORT: Effort = { boxes: 0, gaps: 0, lps: 0 };

/** Answers cases of one bay, one at a time. */
export class CaseBench {
  private readonly bay: Bay;
  private readonly allowed: PlaceRequest['allowed'];

  /** @param cases all that will be asked: the bay is made ready for their options and no others. */
  constructor(
    private readonly scenario: Scenario,
    cases: readonly Case[],
    private readonly request: CompareRequest,
  ) {
    const sets = [asItStands(scenario), ...cases].map(({ set }) => set);
    this.allowed = scenario.choices.map((_, c) =>
      [...new Set(sets.map((set) => set[c]!))].sort((a, b) => a - b),
    );
    this.bay = compileBay(scenario, { allowed: this.allowed });
  }

  /** The best place of a case, proved unless it was stopped. */
  *answer(one: Case): Steps<CaseDone> {
    const begun = unsearched(this.scenario, one);
    if (one.clash) return { answer: { ...begun, fits: 'no' }, effort: NO_EFFORT };
    const { scenario, allowed, bay } = this;
    const request = { ...this.request, aim: 'margin', keep: 0, pins: one.ranges, allowed } as const;
    const searches = new Searches(scenario, request, bay);
    const placement = told(yield* searches.placement(one.set, [], 'cases'));
    const { stopped, meter } = searches;
    return {
      answer: { ...begun, placement, fits: wantedVerdict(placement, one.margin) },
      ...(stopped && { stopped }),
      effort: meter.counts(),
    };
  }
}

/** Compares cases one after the other. */
export function* compareCases(
  scenario: Scenario,
  cases: readonly Case[],
  request: CompareRequest,
): Generator<Progress, Comparison, Signal> {
  const bench = new CaseBench(scenario, cases, request);
  const all = [asItStands(scenario), ...cases];
  const done: CaseDone[] = [];
  for (const one of all) {
    const stopped = done.at(-1)?.stopped;
    if (stopped) {
      done.push(unsearchedDone(scenario, one, stopped));
      continue;
    }
    const steps = bench.answer(one);
    let step = steps.next();
    while (step.done !== true) {
      const count = { at: done.length + 1, of: all.length };
      step = steps.next(yield { ...step.value, count });
    }
    done.push(step.value);
  }
  return comparisonOf(done, request.tolerance);
}

/** Answers put beside the first of them, the bay as it stands. */
export function comparisonOf(done: readonly CaseDone[], tolerance: number): Comparison {
  const [standing, ...cases] = done.map(({ answer }) => answer);
  const stopped = done.find((one) => one.stopped)?.stopped;
  const sum = (of: keyof Effort) => done.reduce((n, { effort }) => n + effort[of], 0);
  return {
    standing: standing!,
    cases: cases.map((answer) => gained(answer, standing!)),
    tolerance,
    ...(stopped && { stopped }),
    effort: { boxes: sum('boxes'), gaps: sum('gaps'), lps: sum('lps') },
  };
}

/** A case that no search was begun for, and why: undecided, without a place. */
export function unsearchedDone(scenario: Scenario, one: Case, stopped: Stopped): CaseDone {
  return { answer: unsearched(scenario, one), stopped, effort: NO_EFFORT };
}

function unsearched(scenario: Scenario, one: Case): CaseAnswer {
  const { name, set, brought, clash, margin } = one;
  return {
    name,
    options: set,
    ...workOf(scenario, set),
    wanted: margin,
    brought,
    ...(clash && { clash }),
    fits: clash ? 'no' : 'undecided',
  };
}

/** The standing that is shown of a placement: the setting, or the optimum where only that fits. */
export function shownOf({ optimum, setting }: Placement): Standing {
  return optimum.fits && !setting.fits ? optimum : setting;
}

/** Whether a placement has a place that meets every limit. */
export function meetsLimits({ optimum }: Placement): boolean {
  return optimum.limits.every((limit) => limit.met);
}

function gained(answer: CaseAnswer, standing: CaseAnswer): CaseAnswer {
  const [own, base] = [answer.placement, standing.placement];
  if (!own || !base || !isProvedPlace(own) || !isProvedPlace(base)) return answer;
  const gain = own.optimum.margin - base.optimum.margin;
  return Number.isFinite(gain) ? { ...answer, gain } : answer;
}

function isProvedPlace(placement: Placement): boolean {
  return meetsLimits(placement) && placement.best === 'proved';
}

function wantedVerdict(placement: Placement, wanted: number): Verdict {
  if (wanted === 0 || !meetsLimits(placement)) return placement.fits;
  return verdict(placement.optimum.margin - wanted, placement.bound - wanted);
}

/** A placement with the readings that bind, all that a comparison tells. */
function told({ optimum, setting, ...rest }: Placement): Placement {
  const binding = optimum.readings.filter((reading) => reading.binding);
  return {
    ...rest,
    optimum: { ...optimum, readings: binding },
    setting: { ...setting, readings: [] },
  };
}
