/** Which measurement to take again first: what its error alone costs at a place. */

import { restingOn } from '../../model/errors/resting.js';
import type { OptionSet, Part, Position, Scenario } from '../../model/scenario.js';
import { takenAgain, worstCase } from '../../model/errors/worst.js';
import type { Reading, Standing } from '../answer.js';
import { DECISION_SLACK } from '../decision.js';
import { measureAt } from './measure.js';
import { keyOf } from './reading-key.js';

/** What one measurement would buy, taken again without error. Millimetres, 0 or more. */
export interface Again {
  /** Its index in `Scenario.measurements`. */
  readonly measurement: number;
  /** By how much the tightest guaranteed margin would rise at the same place. */
  readonly gain: number;
  /** By how much the tightest rule's own would: more than the gain where others are as tight. */
  readonly ofTightest: number;
}

/**
 * Every measurement with an error, the one to take again first before the others: by its gain, then by
 * what it buys at the tightest rule, then as the file has them. None where there is no rule.
 * @param s as drawn, held to the ranges that the worst case is to hold for.
 */
export function measureAgain(s: Scenario, set: OptionSet, position: Position): Again[] {
  const before = measureAt(worstCase(s), set, position);
  const tightest = before.readings[0];
  if (tightest === undefined) return [];
  // A measurement that the tightest rule does not rest on leaves it, and with it the margin, as it is.
  const felt = restingOn(s, tightest.between);
  const names = rivals(before, marginOf(tightest, measureAt(s, set, position)));
  const all = s.measurements.flatMap(({ error }, measurement): Again[] => {
    if (error === 0) return [];
    if (!felt.has(measurement)) return [{ measurement, gain: 0, ofTightest: 0 }];
    const after = measureAt(only(worstCase(takenAgain(s, measurement)), names), set, position);
    const gain = gained(before.margin, after.margin);
    const ofTightest = gained(tightest.margin, marginOf(tightest, after));
    return [{ measurement, gain, ofTightest }];
  });
  return all.sort(
    (a, b) => b.gain - a.gain || b.ofTightest - a.ofTightest || a.measurement - b.measurement,
  );
}

/** What is within rounding of nothing is nothing, so that it ranks nowhere. */
function gained(before: number, after: number): number {
  return after - before > DECISION_SLACK ? after - before : 0;
}

/** The parts of the rules that may be the tightest once the tightest one has risen to `most`. */
function rivals({ readings }: Standing, most: number): ReadonlySet<string> {
  const near = readings.filter(({ margin }, i) => i === 0 || margin <= most);
  return new Set(near.flatMap(({ between }) => between));
}

/** The least margin of the readings that are told by the same words. */
function marginOf(reading: Reading, { readings }: Standing): number {
  const key = keyOf(reading);
  return readings.find((one) => keyOf(one) === key)?.margin ?? Infinity;
}

/** The scenario with those parts alone, for what its rules measure between them. */
function only(s: Scenario, names: ReadonlySet<string>): Scenario {
  const kept = (parts: readonly Part[]) => parts.filter(({ name }) => names.has(name));
  const { oneSide } = s;
  return {
    ...s,
    parts: kept(s.parts),
    limits: [],
    choices: s.choices.map((choice) => ({
      ...choice,
      options: choice.options.map((option) => ({
        ...option,
        add: kept(option.add),
        replace: kept(option.replace),
        limits: [],
      })),
    })),
    ...(oneSide && { oneSide: only(oneSide, names) }),
  };
}
