/** What a failed mount may drive the engine into, and must not. */

import type { Kind } from '../kinds.js';
import type { Part, Scenario } from '../scenario.js';

/** Brakes, steering and throttle: codes of practice ask that a failed mount leaves them alone. */
const LIFTED_AGAINST: ReadonlySet<Kind | undefined> = new Set<Kind>([
  'brake booster',
  'brake line',
  'steering valve',
  'steering box',
  'steering shaft',
  'steering linkage',
  'throttle linkage',
]);

/** Whether the engine's lift is checked against a part. */
export function isLiftedAgainst({ side, kind }: Part): boolean {
  return side === 'chassis' && LIFTED_AGAINST.has(kind);
}

/** How far the engine may lift as two parts in use meet, millimetres: 0 within one side. */
export function liftBetween({ lift }: Scenario, a: Part, b: Part): number {
  if (a.side === b.side) return 0;
  return isLiftedAgainst(a) || isLiftedAgainst(b) ? lift : 0;
}
