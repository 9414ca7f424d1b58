/** What `place` should answer of a planted bay, from the closed form. Millimetres. */

import { unitOf } from './doc.js';
import type { Plant } from './planted.js';
import { TOLERANCE } from './solve.js';

/** Too near zero to say which way an answer within the tolerance must fall. */
export function isDoubtful(margin: number): boolean {
  return Math.abs(margin) < 1.5 * TOLERANCE;
}

/** What the three answers should be, from the closed form. */
export function wantedOf({
  sets,
  marginOf,
  workOf,
  doc,
}: Pick<Plant, 'sets' | 'marginOf' | 'workOf' | 'doc'>) {
  const unit = unitOf(doc);
  const worth = (doc.worth ?? 0) * unit;
  const all = sets.map((set) => ({ set, margin: marginOf(set) * unit, ...workOf(set) }));
  const best = Math.max(...all.map(({ margin }) => margin));
  const cheapest = (reach: number) => {
    const enough = all.filter(({ margin }) => margin >= reach);
    enough.sort((a, b) => a.hours - b.hours || a.cost - b.cost || b.margin - a.margin);
    return enough[0];
  };
  const clear = (reach: number) =>
    all.every(
      ({ margin }) => Math.abs(margin - reach) < 1e-9 || Math.abs(margin - reach) > 2 * TOLERANCE,
    );
  return {
    best,
    asItStands: all[0]!,
    main: cheapest(best - worth)!,
    mainIsClear: clear(best - worth),
    least: cheapest(0),
    leastIsClear: clear(0),
  };
}

export type Wanted = ReturnType<typeof wantedOf>;
