/** The least work that reaches a margin: found where limits are tight, named where it stays open. */

import { expect, test } from 'vitest';
import { compileBay } from '../../src/solver/measuring/compile.js';
import { Meter } from '../../src/solver/measuring/meter.js';
import { MARGIN } from '../../src/solver/searching/objective.js';
import { place } from '../../src/solver/place.js';
import { Search } from '../../src/solver/searching/search.js';
import type { PlaceAnswer } from '../../src/solver/answer.js';
import { scenarioOf } from '../support/doc.js';
import { heldBay } from '../support/held.js';
import { requestFor, solve, TOLERANCE } from '../support/solve.js';

test.each([
  [400, 590],
  [418, 564],
  [400, 594],
])(
  'limits at %i and %i: a place that misses one starts a climb to one that reaches',
  (low, pad) => {
    const scenario = heldBay(low, pad, { lamp: { stays: {}, goes: { hours: 2 } } });
    const common = {
      meter: new Meter(compileBay(scenario)),
      domains: [[0, 1]],
      objective: MARGIN,
      ranges: scenario.position,
      tolerance: TOLERANCE,
    };
    const best = new Search({ ...common, start: [] }).run(500).best!;
    // The best place is in hand with the dearer option, which makes no difference to any margin.
    const dear = { ...best, set: [1], work: { hours: 2, cost: 0 } };
    const search = new Search({ ...common, start: [dear], reach: best.value - 3 });
    const state = search.run(50);
    expect(state.done).toBe(true);
    expect(state.best).toMatchObject({ set: [0], work: { hours: 0 } });
    const { meter } = common;
    expect(meter.withinLimits(meter.contactsOf([0]), state.best!.x)).toBe(true);
  },
);

test('a search for less work that is stopped names the cheaper sets it leaves open', () => {
  const scenario = scenarioOf({
    units: 'mm',
    position: { setback: [-50, 50], offset: [-50, 50], height: [-50, 50], pitch: [-2, 2] },
    engine: {
      block: { box: { x: [-400, 0], y: [-100, 100], z: [-100, 100] } },
      knob: { box: { x: [-409, -400], y: [-10, 10], z: [-10, 10] } },
    },
    chassis: {
      core: { box: { x: [-500, -420], y: [-300, 300], z: [-300, 300] } },
      wall: { box: { x: [12, 100], y: [-300, 300], z: [-300, 300] } },
      floor: { box: { x: [-500, 100], y: [-300, 300], z: [-300, -125] } },
    },
    rules: [{ between: ['engine', 'chassis'], gap: 10 }],
    choices: { knob: { stays: {}, goes: { remove: ['knob'], hours: 1 } } },
    worth: 3,
  });
  const whole = solve(scenario, { only: 'main' });
  expect(whole).toMatchObject({ main: { options: [1], best: 'proved' }, cheaperUndecided: [] });
  const steps = place(scenario, requestFor(scenario, { only: 'main' }));
  let step = steps.next();
  let stopped = false;
  while (!step.done) {
    const atLeastWork = step.value.doing === 'least work';
    stopped ||= atLeastWork;
    step = steps.next(atLeastWork ? 'time' : 'go');
  }
  expect(stopped).toBe(true);
  const answer: PlaceAnswer = step.value;
  expect(answer).toMatchObject({
    stopped: 'time',
    main: { options: [1] },
    cheaperUndecided: [[0]],
  });
});
