/**
 * From a best place to the best-centred of the best: with the tightest margin held, raise the next
 * tightest, and so on. Local, and it proves nothing: only the tightest margin is proved.
 */

import { climb, loadedContacts } from './climb.js';
import type { ClimbRequest } from './climb.js';
import type { Meter, SetContacts } from './meter.js';
import { MARGIN } from './objective.js';
import { createProbe } from './probe.js';

/** Levels of margin raised in turn: more than there are coordinates to settle. */
const LEVELS = 8;
/** By how much a held margin may give way to rounding, millimetres (under 1e-6 in). */
const GIVE = 1e-5;
/** The last trust radius: 1e-6 in, in millimetres. */
const FINEST = 25.4e-6;

const scratch = createProbe();

export function polish(
  meter: Meter,
  of: SetContacts,
  lo: Float64Array,
  hi: Float64Array,
  start: Float64Array,
): Float64Array {
  const hold = new Map<number, number>();
  const request: ClimbRequest = {
    meter,
    of,
    lo,
    hi,
    objective: MARGIN,
    steps: 60,
    radius: 1,
    finest: FINEST,
  };
  let { x, value } = climb(request, start);
  for (let level = 0; level < LEVELS && Number.isFinite(value); level++) {
    // Hold what carries the load; what is only level with it may still rise.
    const loaded = loadedContacts({ ...request, hold }, x);
    if (loaded.length === 0) break;
    for (const id of loaded) {
      const contact = meter.bay.contacts[id]!;
      meter.measure(contact, x, scratch);
      hold.set(id, scratch.lower - contact.needed - GIVE);
    }
    if (hold.size === of.contacts.length) break;
    const next: ClimbRequest = { ...request, hold, steps: 24, radius: 4, finest: 1e-3 };
    const better = climb(next, x);
    if (better.value === -Infinity) break;
    x = better.x;
    value = better.value;
  }
  return x;
}
