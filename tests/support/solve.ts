/** Runs `place` to its end, as a caller does who has all the time. */

import type { Scenario } from '../../src/model/scenario.js';
import type { PlaceAnswer } from '../../src/solver/answer.js';
import { place } from '../../src/solver/place.js';
import type { PlaceRequest } from '../../src/solver/place.js';

/** The default tolerance of the command line: 1/64 in, in millimetres. */
export const TOLERANCE = 25.4 / 64;

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
  while (!step.done) step = steps.next('go');
  return step.value;
}
