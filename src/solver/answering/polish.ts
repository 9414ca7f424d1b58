/**
 * From a best place to the best-centred of the best: with the tightest margin held, raise the next
 * tightest, and so on. Local, and it proves nothing: only the tightest margin is proved.
 */

import { climb, loadedContacts } from '../searching/climb.js';
import type { ClimbRequest } from '../searching/climb.js';
import type { Meter, SetContacts } from '../measuring/meter.js';
import { MARGIN } from '../searching/objective.js';
import { createProbe } from '../measuring/probe.js';
import { Span } from './span.js';

/** Levels of margin raised in turn, unless the position is settled sooner. */
const LEVELS = 60;
/** By how much a held margin may give way to rounding, millimetres (under 1e-6 in). */
const GIVE = 1e-5;
/** The last trust radius: 1e-6 in, in millimetres. */
const FINEST = 25.4e-6;
/** Two slopes this close to each other, relative to their size, settle one direction. */
const PARALLEL = 1e-5;
/** How far towards the middle a place moves where no margin minds, largest first. */
const STEPS_TO_MIDDLE = [1, 0.75, 0.5, 0.25];

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
  const free = lo.reduce((n, low, k) => (hi[k]! > low ? n + 1 : n), 0);
  const settled = new Span(PARALLEL);
  let { x, value } = climb(request, start);
  for (let level = 0; level < LEVELS && Number.isFinite(value); level++) {
    // Hold what carries the load; what is only level with it may still rise.
    const loaded = loadedContacts({ ...request, hold }, x);
    if (loaded.length === 0) break;
    for (const { id, slope } of loaded) {
      const contact = meter.bay.contacts[id]!;
      meter.measure(contact, x, scratch);
      hold.set(id, scratch.lower - contact.needed - GIVE);
      settled.add(slope);
    }
    // Contacts that carry the load together let the place move only across all of their slopes.
    if (settled.size >= free || hold.size === of.contacts.length) break;
    const next: ClimbRequest = { ...request, hold, steps: 24, radius: 4, finest: 1e-3 };
    const better = climb(next, x);
    if (better.value === -Infinity) break;
    x = better.x;
    value = better.value;
  }
  return settled.size < free ? towardsMiddle(meter, of, lo, hi, x) : x;
}

/**
 * Where a coordinate makes no difference to any margin: the frame's centre for the offset, the middle
 * of the range for the others, or as near to it as no margin minds.
 */
function towardsMiddle(
  meter: Meter,
  of: SetContacts,
  lo: Float64Array,
  hi: Float64Array,
  start: Float64Array,
): Float64Array {
  const margins = marginsAt(meter, of, start);
  let x = start;
  for (const k of [1, 3, 2, 0]) {
    const target = k === 1 ? Math.min(hi[1]!, Math.max(lo[1]!, 0)) : (lo[k]! + hi[k]!) / 2;
    for (const step of STEPS_TO_MIDDLE) {
      const moved = Float64Array.from(x);
      moved[k]! += step * (target - x[k]!);
      if (moved[k] === x[k] || !meter.withinLimits(of, moved)) continue;
      if (marginsAt(meter, of, moved).some((margin, i) => margin < margins[i]! - GIVE)) continue;
      x = moved;
      break;
    }
  }
  return x;
}

function marginsAt(meter: Meter, of: SetContacts, x: Float64Array): Float64Array {
  return Float64Array.from(of.contacts, (id) => {
    const contact = meter.bay.contacts[id]!;
    meter.measure(contact, x, scratch);
    return scratch.lower - contact.needed;
  });
}
