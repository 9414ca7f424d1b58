/**
 * Other places as good as the answer: ahead of the crossmember where the answer is behind it.
 *
 * As good is a margin within the file's `worth` of the answer's. A place is another one where it lies
 * outside a box about the answer on whose faces nothing is as good, so that no way to it stays as good:
 * the dip between the two is proved. What the boxes of all places known leave of the ranges is
 * searched until nothing there is as good, under any options, or the effort is spent.
 */

import type { OtherPlaces, Placement } from '../answer.js';
import { endsOf } from '../box.js';
import { DECISION_SLACK } from '../decision.js';
import { vectorOf } from '../measuring/measure.js';
import type { Searches, Steps } from '../answering/searches.js';
import { slabs } from './conditions.js';
import type { Corners } from './conditions.js';
import { anyReaching, rangesOf, regionAbout } from './region.js';
import type { Budget } from './region.js';

/** So many others are named. */
const MOST_PLACES = 3;
/** Of the boxes that the answer took, the part that looking for others may, and the least. */
const BOXES_PART = 1 / 4;
const LEAST_BOXES = 120;

/** The others; undefined where the answer does not fit. */
export function* otherPlaces(searches: Searches, main: Placement): Steps<OtherPlaces | undefined> {
  const { margin } = main.optimum;
  if (!main.optimum.fits || !Number.isFinite(margin) || searches.stopped) return undefined;
  const { scenario, request, meter } = searches;
  const worth = Math.max(scenario.worth, request.tolerance);
  const reach = Math.max(margin - worth, -DECISION_SLACK);
  const budget = { left: Math.max(LEAST_BOXES, BOXES_PART * meter.effort.boxes) };
  const ends = endsOf(searches.ranges);
  const own = yield* regionAbout(
    searches,
    vectorOf(main.optimum.position),
    ends,
    ends,
    reach,
    budget,
  );
  const found = own.shut
    ? yield* outside(searches, own.box, ends, reach, budget)
    : { places: [], complete: false };
  return { ...found, reach, own: rangesOf(own.box) };
}

function* outside(
  searches: Searches,
  own: Corners,
  ends: Corners,
  reach: number,
  budget: Budget,
): Steps<Pick<OtherPlaces, 'places' | 'complete'>> {
  const places: Placement[] = [];
  let complete = true;
  const open = slabs(ends, own);
  for (let slab = open.pop(); slab; slab = open.pop()) {
    const answer = yield* anyReaching(searches, rangesOf(slab), reach, budget, true);
    if (answer.found === 'unknown') complete = false;
    if (answer.found !== 'some') continue;
    if (places.length >= MOST_PLACES) return { places, complete: false };
    const { x, set } = answer.candidate;
    const { box } = yield* regionAbout(searches, x, beside(own, x, ends), ends, reach, budget);
    const within = { ranges: rangesOf(box) };
    const place = yield* searches.placement(set, [answer.candidate], 'other places', within);
    places.push(place);
    // What its box leaves of the slab it was found in, and of the others.
    const rest = [slab, ...open.splice(0)].flatMap((piece) => without(piece, box));
    open.push(...rest);
  }
  places.sort((a, b) => b.optimum.margin - a.optimum.margin);
  return { places, complete: complete && !searches.stopped };
}

/** The ranges on the side of a box that a place outside it lies on. */
function beside(box: Corners, x: Float64Array, ends: Corners): Corners {
  const lo = Float64Array.from(ends.lo);
  const hi = Float64Array.from(ends.hi);
  const k = [0, 1, 2, 3].find((i) => x[i]! < box.lo[i]! || x[i]! > box.hi[i]!) ?? 0;
  if (x[k]! < box.lo[k]!) hi[k] = box.lo[k]!;
  else lo[k] = box.hi[k]!;
  return { lo, hi };
}

/** What a box leaves of a piece. */
function without(piece: Corners, box: Corners): Corners[] {
  const inside = {
    lo: piece.lo.map((low, k) => Math.max(low, box.lo[k]!)),
    hi: piece.hi.map((high, k) => Math.min(high, box.hi[k]!)),
  };
  if (inside.lo.some((low, k) => low > inside.hi[k]!)) return [piece];
  return slabs(piece, inside);
}
