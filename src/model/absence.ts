/** What is not there for a while: off for the hoist, or not on yet. */

import { partUnder } from './options.js';
import { keyOf, keysOf } from './rule-index.js';
import type { OptionSet, RuleEnd, Scenario } from './scenario.js';

/** Whether a part is one of those named, by itself, its group or its kind, under an option set. */
export function absence(
  scenario: Scenario,
  set: OptionSet,
  named: readonly RuleEnd[],
): (part: string) => boolean {
  const keys = new Set(named.map(keyOf));
  return (name) => {
    const part = partUnder(scenario, name, set)?.part;
    return part !== undefined && keysOf(scenario, part).some(({ key }) => keys.has(key));
  };
}
