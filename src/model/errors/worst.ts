/**
 * The worst case of a scenario: every solid grown by its measuring errors.
 *
 * Whatever the true measurements are within their errors, and however the builder's tape then sets the
 * engine (`drift.ts` says how it is set, and which errors cancel), each true solid of the engine lies
 * inside its grown one, seen from where the scenario puts the engine, and each of the chassis inside
 * its own. A gap only falls as solids grow, in every measure, so a gap of the worst case is one that
 * no true bay is below. It is a bound: errors are let pull each face its worst way at once.
 *
 * Sweeps, ways out, moves of options, lift and angles are taken as exact, those of turns and of rock
 * included, and limits are held as drawn. The pivot of a turn errs as any point does. On
 * which side of each other parts lie along an axis stays what it is as drawn.
 *
 * Gaps between parts of one side do not feel how the engine is set. `oneSide` holds the solids grown by
 * their own errors alone; gaps of that sort are measured there.
 */

import { driftOf, errorsOf, ownDrift } from './drift.js';
import type { Drift, Lean } from './drift.js';
import { grown } from '../solids/grow.js';
import type { Limit, Option, Part, Scenario } from '../scenario.js';

/** What the solids are grown for: gaps between the two sides, or gaps within one, which nothing sets. */
type Between = 'sides' | 'one side';

/**
 * The worst case; the scenario itself where nothing has an error. It holds for positions whose pitch
 * is within the scenario's range.
 * @param lean of the engine; none unless given.
 */
export function worstCase(s: Scenario, lean?: Lean): Scenario {
  if (!hasErrors(s)) return s;
  return { ...grownFor(s, 'sides', lean), oneSide: grownFor(s, 'one side') };
}

/** Whether any measurement may be off. */
export function hasErrors(s: Scenario): boolean {
  return s.measurements.some(({ error }) => error > 0);
}

function grownFor(s: Scenario, between: Between, lean?: Lean): Scenario {
  const drifts = new Map<string, Drift>();
  const driftFor = (part: Part): Drift => {
    const { side, mirrored, turn } = part;
    const find = () => (between === 'one side' ? ownDrift(s, part) : driftOf(s, side, part, lean));
    if (turn !== undefined) return find();
    const key = `${side} ${mirrored}`;
    if (!drifts.has(key)) drifts.set(key, find());
    return drifts.get(key)!;
  };
  const part = (one: Part): Part => {
    const drift = driftFor(one);
    return {
      ...one,
      solids: one.solids.map((solid) => grown(solid, drift, (taken) => errorsOf(s, taken))),
    };
  };
  const option = (one: Option): Option => ({
    ...one,
    add: one.add.map(part),
    replace: one.replace.map(part),
    limits: one.limits.map(copied),
  });
  return {
    ...s,
    parts: s.parts.map(part),
    choices: s.choices.map(({ name, options }) => ({ name, options: options.map(option) })),
    limits: s.limits.map(copied),
    drawn: s.drawn ?? s,
  };
}

/** The scenario as it would be with one measurement, by its index, taken again without error. */
export function takenAgain(s: Scenario, measurement: number): Scenario {
  const measurements = s.measurements.map((one, i) =>
    i === measurement ? { ...one, error: 0 } : one,
  );
  return { ...s, measurements };
}

/** What is made ready for one scenario is remembered by its limit, so each has limits of its own. */
function copied(limit: Limit): Limit {
  return { ...limit };
}
