/** Runs `place` to its end, as a caller does who has all the time. */

import type { Scenario } from '../../src/model/scenario.js';
import type { PlaceAnswer, Progress } from '../../src/solver/answer.js';
import { place } from '../../src/solver/place.js';
import type { PlaceRequest, Signal } from '../../src/solver/asked.js';

/** The default tolerance of the command line: 1/64 in, in millimetres. */
export const TOLERANCE = 25.4 / 64;

/** Boxes after which a test's search is stopped, so that a fault fails instead of hanging. */
const MOST_STEPS = 5000;

export function requestFor(scenario: Scenario, more: Partial<PlaceRequest> = {}): PlaceRequest {
  return {
    aim: 'margin',
    keep: 0,
    tolerance: TOLERANCE,
    pins: {},
    allowed: scenario.choices.map((choice) => choice.options.map((_, index) => index)),
    ...more,
  };
}

export function solve(scenario: Scenario, more: Partial<PlaceRequest> = {}): PlaceAnswer {
  const steps = place(scenario, requestFor(scenario, more));
  let step = steps.next();
  for (let n = 0; !step.done; n++) step = steps.next(n < MOST_STEPS ? 'go' : 'time');
  return step.value;
}

/** Runs any search to its end, or to where a test gives up. */
export function toEnd<T>(
  steps: Generator<Progress, T, Signal>,
  signal: (n: number) => Signal = (n) => (n < 50 * MOST_STEPS ? 'go' : 'time'),
): T {
  let step = steps.next();
  for (let n = 0; !step.done; n++) step = steps.next(signal(n));
  return step.value;
}
