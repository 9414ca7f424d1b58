/** Taped readings as what they should be, wherever the engine sits. */

import { lengthOf, lengthSlopes, scaledSlopes, TURN_ARM } from '../../geometry/adjusters/links.js';
import type { MeasuredReading } from '../../model/fitup/measured.js';
import { AXES } from '../../model/scenario.js';
import type { OptionSet, Scenario, Vec3 } from '../../model/scenario.js';
import { carried, slopesAlong } from '../../model/stance.js';
import type { Stance } from '../../model/stance.js';
import * as trig from '../../model/trig.js';
import { LAST } from '../measuring/unruled.js';
import { deviationOf } from './estimate.js';
import type { Expected, Observed } from './estimate.js';
import { restingGapOf, restingPairs } from './resting.js';
import type { RestingPair } from './resting.js';

/** Pairs of a bay by what a reading calls them. */
export class PairBook {
  readonly pairs: readonly RestingPair[];
  private readonly byEnds = new Map<string, RestingPair>();

  constructor(scenario: Scenario, set: OptionSet) {
    this.pairs = restingPairs({ ...scenario, rules: [...scenario.rules, LAST] }, set);
    for (const pair of this.pairs) {
      const key = endsOf(pair);
      if (!this.byEnds.has(key)) this.byEnds.set(key, pair);
    }
  }

  /** The pair, where both parts stand and the file says on which side of each other they lie. */
  find(ends: Ends): RestingPair | undefined {
    return this.byEnds.get(endsOf(ends));
  }
}

type Ends = Pick<RestingPair, 'between' | 'measured'>;

function endsOf({ between, measured }: Ends): string {
  return JSON.stringify([...between, measured]);
}

/** A reading to be fitted; undefined for a gap that the bay does not have as it is chosen. */
export function observed(
  reading: MeasuredReading,
  scenario: Scenario,
  book: PairBook,
): Observed | undefined {
  const expected = expectedOf(reading, scenario, book);
  const { name, value, error } = reading;
  return expected && { name, value, deviation: deviationOf(error), expected };
}

/** What a reading should be at a stance: mm or radians, and its slopes by scaled motion. */
export function expectedOf(
  reading: Wanted,
  scenario: Scenario,
  book: PairBook,
): ((stance: Stance) => Expected) | undefined {
  switch (reading.of) {
    case 'gap': {
      const pair = book.find(reading);
      return (
        pair &&
        ((stance) => {
          const { lower, point, opens } = restingGapOf(pair, stance);
          return { value: lower, slopes: scaledSlopes(slopesAlong(stance, point, opens)) };
        })
      );
    }
    case 'point': {
      const { point, axis } = reading;
      const k = AXES.indexOf(axis);
      const along = AXES.map((one) => (one === axis ? 1 : 0)) as unknown as Vec3;
      return (stance) => {
        const at = carried(stance, point);
        return { value: at[k]!, slopes: scaledSlopes(slopesAlong(stance, at, along)) };
      };
    }
    case 'angle':
      return reading.angle === 'pitch' ? pitchRead : rollRead;
    case 'adjuster': {
      const link = scenario.mockup?.adjusters.find(({ name }) => name === reading.adjuster);
      return (
        link &&
        ((stance) => ({ value: lengthOf(link, stance), slopes: lengthSlopes(link, stance) }))
      );
    }
  }
}

/** A reading without what it reads. */
export type Wanted = MeasuredReading extends infer One
  ? One extends MeasuredReading
    ? Omit<One, 'value' | 'error'>
    : never
  : never;

/** An angle finder along the crankshaft reads its pitch, whatever the engine's roll and yaw. */
function pitchRead({ pitch }: Stance): Expected {
  return { value: pitch, slopes: [0, 0, 0, 1 / TURN_ARM, 0, 0] };
}

/** One across it reads how far the engine's own Y rises: the arc sine of cos(pitch) sin(roll). */
function rollRead({ pitch, roll }: Stance): Expected {
  const rise = trig.cos(pitch) * trig.sin(roll);
  const run = Math.sqrt(1 - rise * rise);
  const byPitch = (-trig.sin(pitch) * trig.sin(roll)) / run;
  const byRoll = (trig.cos(pitch) * trig.cos(roll)) / run;
  return { value: trig.asin(rise), slopes: [0, 0, 0, byPitch / TURN_ARM, byRoll / TURN_ARM, 0] };
}
