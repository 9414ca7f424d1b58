/** The main answer where an aim other than the roomiest place is asked for. */

import type { OptionDomains } from '../../model/options.js';
import { COORDINATE_INDEX, COORDINATE_OF, inside, markBeyond, targetsOf } from './aims.js';
import type { SpecialAim } from './aims.js';
import type { Placement } from '../answer.js';
import { DECISION_SLACK } from '../decision.js';
import type { Candidate } from '../searching/request.js';
import { only } from './searches.js';
import type { Searches, Steps } from './searches.js';
import { gridOf } from './setting.js';
import { provedOr } from './wishes.js';

/**
 * The place for an aim: its coordinate at the best it can be, then the best margin there. Undefined
 * where no place keeps the margin asked for.
 */
export function* aimedPlacement(
  searches: Searches,
  aim: SpecialAim,
  found: Candidate,
): Steps<Placement | undefined> {
  const { request, scenario } = searches;
  if (found.value < request.keep - DECISION_SLACK) return undefined;
  const target = yield* extreme(searches, aim, found);
  if (!target) return undefined;
  const coordinate = COORDINATE_OF[aim];
  const { candidate, best } = target;
  const at = candidate.x[COORDINATE_INDEX[aim]]!;
  const ranges = { ...searches.ranges, [coordinate]: { min: at, max: at } };
  const seed = { ...candidate, value: searches.ownMargin(candidate) };
  const step = gridOf(request.units ?? scenario.units).length;
  const mark = markBeyond(aim, at, step, searches.ranges[coordinate]);
  const settings = { ...searches.ranges, [coordinate]: { min: mark, max: mark } };
  const asking = { ranges, settings };
  const placement = yield* searches.placement(candidate.set, [seed], 'all options', asking);
  // Proved only if the coordinate is, and the margin there.
  return { ...placement, best: best === 'proved' ? placement.best : best };
}

/** The best value of an aim over all options, at the least work within `worth` of it. */
function* extreme(
  searches: Searches,
  aim: SpecialAim,
  found: Candidate,
): Steps<{ candidate: Candidate; best: 'proved' | 'undecided' } | undefined> {
  const { request, scenario } = searches;
  let best: Candidate | undefined;
  let proved = true;
  for (const [objective, ranges] of targetsOf(aim, request.keep, searches.ranges)) {
    const { coordinate, sign } = objective;
    const within = inside(found.x[coordinate]!, ranges[COORDINATE_OF[aim]]);
    const start = within ? [{ ...found, value: sign * found.x[coordinate]! }] : [];
    const state = yield* searches.run({ doing: 'all options', ranges, objective, start });
    proved &&= provedOr(searches, state) === 'proved';
    if (!state.best) continue;
    const reach = state.best.value - scenario.worth;
    const cheap = yield* searches.run({
      doing: 'least work',
      ranges,
      objective,
      start: [state.best],
      reach,
    });
    const seed = cheap.best ?? state.best;
    const domains: OptionDomains = only(seed.set);
    const own = yield* searches.run({
      doing: 'all options',
      domains,
      ranges,
      objective,
      start: [seed],
    });
    const candidate = own.best ?? seed;
    proved &&= provedOr(searches, own) === 'proved';
    const nearer = !best || aim !== 'centre' || Math.abs(candidate.x[1]!) < Math.abs(best.x[1]!);
    if (nearer) best = candidate;
  }
  return best && { candidate: best, best: proved ? 'proved' : 'undecided' };
}
