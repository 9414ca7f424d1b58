/**
 * The main job: where the engine sits. Runs the searches that an answer needs, one after the other, as
 * a generator, so that the caller keeps the clock, shows progress and may stop it at any time.
 */

import { firstOptions, isCompatible } from '../model/options.js';
import type { OptionSet, Scenario } from '../model/scenario.js';
import { aimedPlacement } from './answering/aimed.js';
import type { PlaceAnswer, Placement, Progress } from './answer.js';
import type { PlaceRequest, Signal } from './asked.js';
import { hasOneOfWork } from './searching/complete.js';
import { DECISION_SLACK } from './decision.js';
import { finishPlacement, verdict } from './answering/placement.js';
import type { Candidate } from './searching/request.js';
import type { SearchState } from './searching/search.js';
import { Searches } from './answering/searches.js';
import type { Steps } from './answering/searches.js';
import { otherPlaces } from './explaining/other-places.js';
import { slackAbout } from './explaining/slack.js';
import { wishesFor } from './answering/wishes.js';
import { compareWork } from './measuring/work.js';

/** The main answer, and cheaper option sets that could not be ruled out. */
interface Main {
  readonly placement: Placement;
  readonly undecided: readonly OptionSet[];
}

/**
 * Place the engine. Yields after every few nodes; answer `'go'` to go on, anything else to stop with
 * the best so far, undecided. The answer is data: nothing that fits is an answer too.
 */
export function* place(
  scenario: Scenario,
  request: PlaceRequest,
): Generator<Progress, PlaceAnswer, Signal> {
  const searches = new Searches(scenario, request);
  const answer = yield* answerOf(searches);
  const { stopped, meter } = searches;
  return { ...answer, ...(stopped && { stopped }), effort: meter.counts() };
}

function* answerOf(searches: Searches): Steps<Omit<PlaceAnswer, 'effort' | 'stopped'>> {
  const { request } = searches;
  const best = yield* searches.run({ doing: 'all options' });
  const found = best.best;
  searches.ceiling = best.bound;
  if (!found) return nowhere(searches, best);
  const aimed =
    request.aim === 'margin' ? undefined : yield* aimedPlacement(searches, request.aim, found);
  const main = aimed ? { placement: aimed, undecided: [] } : yield* worthwhile(searches, found);
  const answer = {
    aim: aimed ? request.aim : ('margin' as const),
    ...(request.aim !== 'margin' && !aimed && { aimMissed: keepVerdict(searches) }),
    tolerance: request.tolerance,
    main: main.placement,
    bestBound: Math.max(best.bound, found.value, main.placement.optimum.margin),
    cheaperUndecided: main.undecided,
    anyFits: verdict(found.value, best.bound),
  };
  if (request.only === 'place') return { ...answer, wishes: [] };
  const slack = yield* slackAbout(searches, main.placement.options, main.placement.setting);
  if (request.only === 'main') return { ...answer, wishes: [], ...(slack && { slack }) };
  const asItStands = yield* standing(searches);
  const least = yield* leastWork(searches, found);
  const wishes = yield* wishesFor(searches, main.placement);
  const elsewhere = aimed ? undefined : yield* otherPlaces(searches, main.placement);
  return {
    ...answer,
    wishes,
    ...(slack && { slack }),
    ...(elsewhere && { otherPlaces: elsewhere }),
    ...(asItStands && { asItStands }),
    ...(least && { leastWork: least }),
  };
}

/** The main answer alone, its searches run by another's: the roomiest place at the least work. */
export function* mainPlacement(searches: Searches): Steps<Placement> {
  return (yield* answerOf(searches)).main;
}

/** The option set that the answer takes: the least work within `worth` of the best, proved. */
function* worthwhile(searches: Searches, found: Candidate): Steps<Main> {
  const reach = found.value - searches.scenario.worth;
  const { least, undecided } = yield* cheapest(searches, reach, found);
  return { placement: yield* searches.placement(least.set, [least], 'all options'), undecided };
}

/**
 * The least work whose value reaches `reach`; among sets of equal work, the greatest value.
 * @param known a candidate that reaches it.
 */
function* cheapest(
  searches: Searches,
  reach: number,
  known: Candidate,
): Steps<{ least: Candidate; undecided: readonly OptionSet[] }> {
  const start = [known, ...searches.seeds(reach)];
  const state = yield* searches.run({ doing: 'least work', start, reach });
  const least = state.best ?? known;
  const open = [...state.stuck, ...state.open].filter(
    (node) => compareWork(node.view.leastWork, least.work) < 0,
  );
  const sets = new Map(open.map(({ view }) => [view, view.domains.map((domain) => domain[0]!)]));
  const undecided = [...sets.values()];
  // Among the sets of that very work, the greatest margin: settled where there is but one, or where
  // this one has all that any set can have.
  const { scenario, meter, bay } = searches;
  const view = meter.views.of(bay.domains);
  if (least.value >= searches.ceiling - searches.tolerance) return { least, undecided };
  if (view && hasOneOfWork(scenario, view, least.work)) return { least, undecided };
  const { work } = least;
  const equals = yield* searches.run({ doing: 'least work', start: [least], work });
  return { least: equals.best ?? least, undecided };
}

function* standing(searches: Searches): Steps<Placement | undefined> {
  const { scenario, bay, stopped } = searches;
  const first = bay.domains.map((domain) => domain[0]!);
  const set = isCompatible(scenario, first) ? first : firstOptions(scenario);
  const allowed = set.every((option, c) => bay.domains[c]!.includes(option));
  if (!allowed || !isCompatible(scenario, set) || stopped) return undefined;
  return yield* searches.placement(set, [], 'as it stands');
}

function* leastWork(searches: Searches, found: Candidate): Steps<Placement | undefined> {
  if (found.value < -DECISION_SLACK || searches.stopped) return undefined;
  const { least } = yield* cheapest(searches, 0, found);
  if (searches.stopped) return undefined;
  return yield* searches.placement(least.set, [least], 'least work');
}

/** Whether the margin to keep is proved to be more than any place has. */
function keepVerdict({ ceiling, request }: Searches): 'no' | 'undecided' {
  return ceiling < request.keep - DECISION_SLACK ? 'no' : 'undecided';
}

/** No position meets the limits: the nearest to them, so that the answer says something. */
function nowhere(searches: Searches, state: SearchState): Omit<PlaceAnswer, 'effort' | 'stopped'> {
  const { bay, ranges, request } = searches;
  const set = bay.domains.map((domain) => domain[0] ?? 0);
  const { bound } = state;
  const placement = finishPlacement(searches, set, undefined, bound, { ranges });
  const fits = verdict(-Infinity, bound);
  return {
    aim: request.aim,
    tolerance: request.tolerance,
    main: { ...placement, fits },
    bestBound: bound,
    cheaperUndecided: [],
    anyFits: fits,
    wishes: [],
  };
}
