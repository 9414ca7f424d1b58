/** What to tape on the engine once it hangs where it is meant to, and what each should read there. */

import type { OptionSet, Scenario } from '../../model/scenario.js';
import type { Stance } from '../../model/stance.js';
import { bestNext, candidates } from './next-readings.js';
import { expectedOf, PairBook } from './observed.js';
import type { Wanted } from './observed.js';

/** Points and gaps, beside the angles and the adjusters: enough that one misread shows. */
const MOST = 8;

export interface ToTape {
  readonly wanted: Wanted;
  /** Millimetres or radians: what it reads where the engine is meant to be. */
  readonly expected: number;
}

/** Adjusters of the mock-up first, in its order; then pitch and roll; then the points and gaps that tell the most beside those. */
export function readingsToTape(
  scenario: Scenario,
  set: OptionSet,
  meant: Stance,
): readonly ToTape[] {
  const book = new PairBook(scenario, set);
  const all = candidates(scenario, book, meant, new Set());
  const of = (kind: Wanted['of']) => all.filter(({ wanted }) => wanted.of === kind);
  const angles = of('angle');
  // The adjusters go when the mounts are made, so that the rest must tell the place without them.
  const others = [...of('point'), ...of('gap')];
  const rows = angles.map(({ row }) => row);
  const best = bestNext(others, rows, MOST);
  const told = (['point', 'gap'] as const).flatMap((kind) => best.filter((one) => one.of === kind));
  const chosen = [...of('adjuster'), ...angles].map(({ wanted }) => wanted);
  return [...chosen, ...told].flatMap((wanted) => {
    const expected = expectedOf(wanted, scenario, book)?.(meant).value;
    return expected === undefined ? [] : [{ wanted, expected }];
  });
}
