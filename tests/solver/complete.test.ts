import { expect, test } from 'vitest';
import { compileBay } from '../../src/solver/measuring/compile.js';
import { hasOneOfWork, hasWork } from '../../src/solver/searching/complete.js';
import { Meter } from '../../src/solver/measuring/meter.js';
import type { Work } from '../../src/solver/measuring/work.js';
import { scenarioOf } from '../support/doc.js';
import type { BayDoc } from '../support/doc.js';

/** For each work asked, whether some set has it, and whether exactly one has. */
function judge(choices: BayDoc['choices'], works: readonly Work[]): boolean[][] {
  const scenario = scenarioOf({
    units: 'mm',
    position: { setback: 0, offset: 0, height: 0, pitch: 0 },
    engine: { block: { box: { x: [-100, 0], y: [-50, 50], z: [-50, 50] } } },
    chassis: { wall: { box: { x: [60, 100], y: [-50, 50], z: [-50, 50] } } },
    rules: [{ between: ['engine', 'chassis'], gap: 0 }],
    ...(choices && { choices }),
  });
  const { views, bay } = new Meter(compileBay(scenario));
  const view = views.of(bay.domains)!;
  return works.map((w) => [hasWork(scenario, view, w), hasOneOfWork(scenario, view, w)]);
}

const ONE_HOUR = { hours: 1, cost: 0 };

test('sets of one work are counted: none, one, or more', () => {
  const first = { stays: {}, goes: { hours: 1 } };
  const second = { stays: {}, goes: { hours: 1, cost: 30 }, moves: { hours: 2 } };
  // Of 2 h: both go, for 30; or the first stays and the second moves, for nothing.
  const works = [ONE_HOUR, { hours: 2, cost: 30 }, { hours: 2, cost: 0 }, { hours: 4, cost: 0 }];
  const once = [true, true];
  expect(judge({ first, second }, works)).toEqual([once, once, once, [false, false]]);
  const twice = { stays: {}, goes: { hours: 1 }, moves: { hours: 1 } };
  expect(judge({ twice }, [ONE_HOUR])).toEqual([[true, false]]);
});
