/** A place as wishes, written as `--want` and `--case` take them. */

import { asItStands } from '../model/asked/cases.js';
import { COORDINATES } from '../model/scenario.js';
import type { Scenario } from '../model/scenario.js';
import { exactDegrees, exactTape } from '../model/text/tape.js';
import type { Place } from './state.js';

/** The position, and the options that differ from the bay as it stands: `setback=25 1/2; oil filter=remote`. */
export function wantsOf(s: Scenario, { position, options }: Place): string {
  const standing = asItStands(s).set;
  const named = s.choices.flatMap((choice, c) =>
    options[c] === standing[c] ? [] : [`${choice.name}=${choice.options[options[c]!]!.name}`],
  );
  // What the file pins is not a wish, and its rounding could put it outside.
  const free = COORDINATES.filter((name) => s.position[name].min < s.position[name].max);
  const places = free.map((name) => {
    const value = position[name];
    return `${name}=${name === 'pitch' ? exactDegrees(value) : exactTape(value, s.units)}`;
  });
  return [...named, ...places].join('; ');
}
