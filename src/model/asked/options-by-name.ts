/** From the names a person gives (`oil filter=remote`) to options, with every mistake said. */

import { nearestName } from '../text/nearest.js';
import { allDomains, optionSets } from '../options.js';
import type { OptionDomains } from '../options.js';
import type { Problem } from '../text/problem.js';
import type { Choice, Option, OptionRef, OptionSet, Scenario } from '../scenario.js';

/**
 * Pins the options a person named and leaves the rest open. Problems: a choice or option of no such
 * name (with the nearest one), one choice named twice, options that cannot go together.
 */
export function domainsByName(
  s: Scenario,
  picks: readonly OptionRef[],
): { readonly domains: OptionDomains; readonly problems: readonly Problem[] } {
  const domains = allDomains(s).map((options) => options);
  const problems: Problem[] = [];
  const named = new Map<string, string>();
  for (const pick of picks) {
    const found = indexesOf(s, pick);
    if ('problem' in found) {
      problems.push(found.problem);
      continue;
    }
    const before = named.get(pick.choice);
    if (before !== undefined && before !== pick.option) {
      problems.push(
        problem('duplicate', `'${pick.choice}' cannot be both '${before}' and '${pick.option}'`),
      );
    }
    named.set(pick.choice, pick.option);
    domains[found.choice] = [found.option];
  }
  if (problems.length === 0 && optionSets(s, domains).next().done === true) {
    const what = picks.map((pick) => `${pick.choice}=${pick.option}`).join(', ');
    problems.push(problem('excluded', `these options cannot go together: ${what}`));
  }
  return { domains, problems };
}

/**
 * The option set with the options a person named, and otherwise the bay as it stands; where that
 * does not go together, the first compatible set in the document's order.
 */
export function optionSetByName(
  s: Scenario,
  picks: readonly OptionRef[],
): { readonly set: OptionSet } | { readonly problems: readonly Problem[] } {
  const { domains, problems } = domainsByName(s, picks);
  if (problems.length > 0) return { problems };
  const first = optionSets(s, domains).next();
  // domainsByName has made sure that there is one.
  if (first.done === true) throw new RangeError('no compatible option set');
  return { set: first.value };
}

type Found = { readonly choice: number; readonly option: number } | { readonly problem: Problem };

function indexesOf(s: Scenario, pick: OptionRef): Found {
  const choice = s.choices.findIndex((candidate) => candidate.name === pick.choice);
  if (choice < 0) return { problem: unknown('choice', pick.choice, s.choices, 'a choice') };
  const { options } = s.choices[choice]!;
  const option = options.findIndex((candidate) => candidate.name === pick.option);
  if (option < 0) {
    return { problem: unknown('option', pick.option, options, `an option of '${pick.choice}'`) };
  }
  return { choice, option };
}

function unknown(
  what: string,
  read: string,
  known: readonly (Choice | Option)[],
  expected: string,
): Problem {
  const names = known.map((one) => one.name);
  const nearest = nearestName(read, names);
  return {
    ...problem('unknown name', `there is no ${what} called '${read}'`),
    read,
    expected: names.length === 0 ? expected : `${expected}: ${names.join(', ')}`,
    ...(nearest === undefined ? {} : { nearest }),
  };
}

function problem(code: Problem['code'], message: string): Problem {
  return { code, severity: 'error', message, path: [] };
}
