/** Whether a place leaves what it is said to: every rule that holds there, by a direction for each pair. */

import type { CertifiedPair, CertifiedPlace, Four } from '../model/certificate.js';
import type { OptionSet, Vec3 } from '../model/scenario.js';
import { faultOfLimits } from './limit-row.js';
import { add, exactly } from './outward.js';
import type { Pairs, Standing } from './pairs.js';
import { Parting } from './parting.js';

/** Millimetres by which a margin may fall short of what is said: of what is printed, nothing. */
const MARGIN_SLACK = 2.54e-5;

/** Why the place is not what it is said to be, or that `keepOn` said no; undefined where it is. */
export function faultOfPlace(
  place: CertifiedPlace,
  set: OptionSet,
  pairs: Pairs,
  named: readonly CertifiedPair[],
  keepOn: () => boolean,
): string | undefined {
  const limits = faultOfLimits(pairs.scenario, set, place.at);
  if (limits !== undefined) return limits;
  const directions = new Map<string, Vec3[]>();
  for (const [pair, solids, along] of place.parted) {
    const one = named[pair];
    if (!one) continue;
    const key = keyOf(one, solids);
    directions.set(key, [...(directions.get(key) ?? []), along]);
  }
  const domains = set.map((option) => [option]);
  const { names } = pairs;
  for (let i = 0; i < names.length; i++) {
    for (let j = i + 1; j < names.length; j++) {
      const [a, b] = [names[i]!, names[j]!];
      for (const pair of held(pairs, a, b, set)) {
        if (!keepOn()) return 'it was stopped';
        const [standing] = pairs.under(pair, domains);
        if (!standing) return `${a} - ${b}: a rule that holds there cannot be measured`;
        if (standing.oneSide && pair.out !== undefined) continue;
        const fault = faultOfPair(place, pair, standing, pairs, directions);
        if (fault !== undefined) return fault;
      }
    }
  }
  return undefined;
}

function held(pairs: Pairs, a: string, b: string, set: OptionSet): readonly CertifiedPair[] {
  const straight = pairs.knows({ parts: [a, b], measured: 'nearest' });
  return pairs.holding(straight ? [a, b] : [b, a], set);
}

/** How a direction is looked up. */
function keyOf({ parts, measured, out }: CertifiedPair, solids: readonly number[]): string {
  return JSON.stringify([parts, measured, out ?? '', solids]);
}

function faultOfPair(
  { at, margin }: CertifiedPlace,
  pair: CertifiedPair,
  standing: Standing,
  pairs: Pairs,
  directions: ReadonlyMap<string, readonly Vec3[]>,
): string | undefined {
  const needed = add(exactly(margin - MARGIN_SLACK), exactly(standing.needed));
  const [one, other] = standing.places;
  for (const i of one.part.solids.keys()) {
    for (const j of other.part.solids.keys()) {
      const along = standing.along ? [standing.along] : directions.get(keyOf(pair, [i, j]));
      if (!along) return `${pair.parts.join(' - ')}: no direction parts them`;
      const apart = new Parting(standing, pairs, [i, j], along, standing.oneSide ? ORIGIN : at);
      if (!apart.leaves(needed.hi)) {
        return `${pair.parts.join(' - ')}: less is left there than is said`;
      }
    }
  }
  return undefined;
}

const ORIGIN: Four = [0, 0, 0, 0];
