/**
 * What no rule looks at. A search sees parts through rules alone: a part that none covers may stand
 * inside another at the best place there is.
 */

import { partNames, partUnder, sideOf } from '../../model/options.js';
import { pairRules } from '../../model/precedence.js';
import type { OptionSet, Rule, Scenario } from '../../model/scenario.js';
import type { Standing } from '../answer.js';
import { DECISION_SLACK } from '../decision.js';
import { measureAt } from './measure.js';

export interface Unruled {
  /** Parts that stand under the option set. */
  readonly standing: number;
  /** Of those, the parts that some rule measures in place. */
  readonly covered: number;
  /** Parts that no rule measures, though some part of the other side is not exempt from them. */
  readonly parts: readonly string[];
  /** Pairs across the sides that overlap at the position with no rule between them, worst first. */
  readonly overlaps: readonly Overlap[];
}

interface Overlap {
  /** Engine part first. */
  readonly between: readonly [string, string];
  /** Millimetres of the shortest move that parts them; more than 0. */
  readonly depth: number;
}

/** Holds wherever nothing else does, exemptions included, and loses to any other rule. */
export const LAST: Rule = {
  between: [
    { level: 'side', name: 'engine' },
    { level: 'side', name: 'chassis' },
  ],
  gap: 0,
  measured: 'nearest',
  comingOut: false,
  origin: { from: 'rule book', source: 'no rule' },
};

/**
 * Which parts no rule looks at under an option set, and which of them overlap where it stands.
 * @param standing the position, measured under that set.
 */
export function unruledAt(scenario: Scenario, set: OptionSet, standing: Standing): Unruled {
  const names = partNames(scenario).filter((name) => partUnder(scenario, name, set) !== undefined);
  const inPlace = standing.readings.filter((reading) => !reading.comingOut);
  const covered = new Set(inPlace.flatMap(({ between }) => between));
  const withLast = { ...scenario, rules: [...scenario.rules, LAST] };
  const bare = barePairs(withLast, set, names);
  const inBare = new Set(bare.flat());
  return {
    standing: names.length,
    covered: names.filter((name) => covered.has(name)).length,
    parts: names.filter((name) => !covered.has(name) && inBare.has(name)),
    overlaps: bare.length === 0 ? [] : overlaps(withLast, set, standing, bare),
  };
}

/** Pairs across the sides, engine part first, between which nothing but the last rule holds. */
function barePairs(
  withLast: Scenario,
  set: OptionSet,
  names: readonly string[],
): (readonly [string, string])[] {
  const of = (side: 'engine' | 'chassis') =>
    names.filter((name) => sideOf(withLast, name) === side);
  const pairs: (readonly [string, string])[] = [];
  for (const engine of of('engine')) {
    for (const chassis of of('chassis')) {
      const first = partUnder(withLast, engine, set)!.part;
      const second = partUnder(withLast, chassis, set)!.part;
      const rules = pairRules(withLast, first, second, set).rules.filter((r) => !r.comingOut);
      if (rules.length === 1 && rules[0]!.rule === LAST) pairs.push([engine, chassis]);
    }
  }
  return pairs;
}

function overlaps(
  withLast: Scenario,
  set: OptionSet,
  { position }: Standing,
  bare: readonly (readonly [string, string])[],
): Overlap[] {
  const keys = new Set(bare.map((pair) => JSON.stringify(pair)));
  return measureAt(withLast, set, position)
    .readings.filter(
      ({ rule, gap, between }) =>
        rule === LAST && gap < -DECISION_SLACK && keys.has(JSON.stringify(between)),
    )
    .map(({ between, gap }) => ({ between, depth: -gap }));
}
