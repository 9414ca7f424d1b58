/** Which measurements a gap between parts can rest on. */

import { AXES } from '../scenario.js';
import type { Scenario } from '../scenario.js';
import { setFrom } from './set-from.js';

/**
 * Every measurement, by its index, that may be felt where these parts stand: those of their numbers,
 * under any option, and those of the datums that the engine is set from.
 */
export function restingOn(s: Scenario, names: readonly string[]): ReadonlySet<number> {
  const options = s.choices.flatMap((choice) => choice.options);
  const parts = [...s.parts, ...options.flatMap(({ add, replace }) => [...add, ...replace])];
  const named = parts.filter(({ name }) => names.includes(name));
  const measured = named.flatMap(({ solids, turn }) => [...solids, ...(turn ? [turn] : [])]);
  const found = new Set(measured.flatMap(({ taken = {} }) => Object.values(taken).flat()));
  for (const side of ['engine', 'chassis'] as const) {
    for (const axis of AXES) {
      for (const taken of Object.values(setFrom(axis, side, s)?.taken ?? {})) {
        for (const m of taken) found.add(m);
      }
    }
  }
  return found;
}
