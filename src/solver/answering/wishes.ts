/** The wish lines: centred, lowest and rearmost under the main answer's options, and what each leaves. */

import type { OptionSet } from '../../model/scenario.js';
import { COORDINATE_OF, pinned, TOWARDS } from './aims.js';
import type { Placement, Wish } from '../answer.js';
import { DECISION_SLACK } from '../decision.js';
import { standingAt } from '../measuring/measure.js';
import { verdict } from './placement.js';
import type { Candidate } from '../searching/request.js';
import type { SearchState } from '../searching/search.js';
import { only } from './searches.js';
import type { Searches, Steps } from './searches.js';

/**
 * Boxes that one wish may cost. A wish is an aside: where its place lies on a knife's edge the proof
 * would take longer than the answer, so its bound is left as far as it came.
 */
const WISH_BOXES = 300;

/** What each wish would leave; none where the main answer itself does not fit. */
export function* wishesFor(searches: Searches, main: Placement): Steps<Wish[]> {
  if (main.optimum.margin < -DECISION_SLACK) return [];
  const wishes: Wish[] = [];
  for (const aim of ['centre', 'low', 'back'] as const) {
    if (searches.stopped) break;
    const wish =
      aim === 'centre'
        ? yield* centred(searches, main)
        : yield* furthest(searches, aim, main.options, searches.candidate(main));
    if (wish) wishes.push(wish);
  }
  return wishes;
}

/** The lowest or rearmost place that keeps every rule; undefined where the coordinate is pinned. */
function* furthest(
  searches: Searches,
  aim: 'low' | 'back',
  set: OptionSet,
  from: Candidate,
): Steps<Wish | undefined> {
  const { keep } = searches.request;
  const objective = TOWARDS[aim](keep);
  if (pinned(searches.ranges[COORDINATE_OF[aim]])) return undefined;
  const { coordinate, sign } = objective;
  const keeps = from.value >= keep - DECISION_SLACK;
  const start = keeps ? [{ ...from, value: sign * from.x[coordinate]! }] : [];
  const state = yield* searches.run({
    doing: 'wishes',
    domains: only(set),
    objective,
    start,
    ignoreFixed: true,
    boxes: WISH_BOXES,
  });
  const bound = sign * state.bound;
  const best = provedOr(searches, state);
  // Without a place, the bound proves that there is none once nothing is left of it.
  if (!state.best)
    return { aim, fits: state.bound === -Infinity ? 'no' : 'undecided', best, bound };
  const standing = standingAt(searches.meter, set, state.best.x);
  return { aim, standing, fits: standing.fits ? 'yes' : 'undecided', best, bound };
}

/** The best place at offset zero; undefined where the ranges leave no choice or no centre. */
function* centred(searches: Searches, main: Placement): Steps<Wish | undefined> {
  const set = main.options;
  const { offset } = searches.ranges;
  if (pinned(offset) || offset.min > 0 || offset.max < 0) return undefined;
  const ranges = { ...searches.ranges, offset: { min: 0, max: 0 } };
  const from = searches.candidate(main);
  const start = from.x[1] === 0 ? [from] : [];
  const state = yield* searches.run({
    doing: 'wishes',
    domains: only(set),
    ranges,
    start,
    boxes: WISH_BOXES,
  });
  const { bound } = state;
  const best = provedOr(searches, state);
  const aim = 'centre';
  if (!state.best) return { aim, fits: verdict(-Infinity, bound), best, bound };
  const standing = standingAt(searches.meter, set, state.best.x);
  return { aim, standing, fits: verdict(state.best.value, bound), best, bound };
}

/** Whether a search came within the tolerance of its own bound. */
export function provedOr(
  { request }: Searches,
  { best, bound }: SearchState,
): 'proved' | 'undecided' {
  const proved = bound - (best?.value ?? -Infinity) <= request.tolerance;
  return proved || bound === -Infinity ? 'proved' : 'undecided';
}
