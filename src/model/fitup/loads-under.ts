/** What rides in the vehicle under a set of chosen options. */

import { choicesTouching, moveUnder } from '../options.js';
import type { OptionSet, Scenario } from '../scenario.js';
import type { Load, Weights } from './weight.js';

/** A load that is in the vehicle, where it is in the frame of its side. */
export type StandingLoad = Pick<Load, 'name' | 'side' | 'mass' | 'at'>;

/** The loads that go in under an option set: those of parts only while they stand, moved with them. */
export function loadsUnder(s: Scenario, weights: Weights, set: OptionSet): readonly StandingLoad[] {
  return weights.in.flatMap((load) => {
    const standing = loadUnder(s, load, set);
    return standing === undefined ? [] : [standing];
  });
}

/** One load under an option set; undefined where its part does not stand. A cut takes no weight off. */
export function loadUnder(s: Scenario, load: Load, set: OptionSet): StandingLoad | undefined {
  const { name, side, mass, at, part } = load;
  if (part === undefined) return { name, side, mass, at };
  const move = moveUnder(s, part, set);
  if (move === undefined) return undefined;
  return { name, side, mass, at: [at[0] + move[0], at[1] + move[1], at[2] + move[2]] };
}

/** The choices that decide whether and where a load is in. */
export function choicesOfLoad(s: Scenario, { part }: Load): readonly number[] {
  return part === undefined ? [] : choicesTouching(s, part);
}
