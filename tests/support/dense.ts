/**
 * Dense search with local polishing: the answer found without any of the search's ideas. Many random
 * places under every option set, the best of them improved by ever smaller random steps.
 */

import { optionSets } from '../../src/model/options.js';
import type { OptionSet, Position, PositionRanges, Scenario } from '../../src/model/scenario.js';
import type { Standing } from '../../src/solver/answer.js';
import { compileBay } from '../../src/solver/measuring/compile.js';
import { positionOf, standingAt } from '../../src/solver/measuring/measure.js';
import { Meter } from '../../src/solver/measuring/meter.js';
import { between } from '../geometry/random.js';
import type { Random } from '../geometry/random.js';

export interface Dense {
  /** Greatest score of a place within the limits; -Infinity when none was met. */
  readonly score: number;
  readonly position: Position;
  readonly set: OptionSet;
  readonly places: number;
}

export interface DenseRequest {
  readonly random: Random;
  readonly places: number;
  /** How many of the best places of each option set are polished. */
  readonly polished: number;
  readonly ranges?: PositionRanges;
  readonly sets?: readonly OptionSet[];
  /** What to maximise: the margin unless given. */
  readonly score?: (standing: Standing) => number;
}

/** Where a step falls under this, mm, polishing ends. */
const FINEST = 1e-4;

export function denseSearch(scenario: Scenario, request: DenseRequest): Dense {
  const { random } = request;
  const meter = new Meter(compileBay(scenario));
  const ranges = request.ranges ?? scenario.position;
  const all = [ranges.setback, ranges.offset, ranges.height, ranges.pitch];
  const sets = request.sets ?? [...optionSets(scenario)];
  let places = 0;
  const scoreAt = (x: Float64Array, set: OptionSet): number => {
    places++;
    const standing = standingAt(meter, set, x);
    if (standing.limits.some(({ met }) => !met)) return -Infinity;
    return request.score ? request.score(standing) : standing.margin;
  };
  const anywhere = (): Float64Array =>
    Float64Array.from(all, ({ min, max }) => between(random, min, max));

  let best = { score: -Infinity, x: anywhere(), set: sets[0]! };
  for (const set of sets) {
    const tried = Array.from({ length: Math.ceil(request.places / sets.length) }, () => {
      const x = anywhere();
      return { x, set, score: scoreAt(x, set) };
    }).sort((a, b) => b.score - a.score);
    for (let start of tried.slice(0, request.polished)) {
      let step = 12;
      while (step > FINEST) {
        let improved = false;
        for (let n = 0; n < 10 && !improved; n++) {
          const x = Float64Array.from(start.x, (v, k) => {
            const { min, max } = all[k]!;
            const size = k === 3 ? step / 300 : step;
            return Math.min(max, Math.max(min, v + between(random, -size, size)));
          });
          const score = scoreAt(x, set);
          if (score <= start.score) continue;
          start = { x, set, score };
          improved = true;
        }
        step *= improved ? 1.3 : 0.6;
      }
      if (start.score > best.score) best = start;
    }
  }
  return { score: best.score, position: positionOf(best.x), set: best.set, places };
}
