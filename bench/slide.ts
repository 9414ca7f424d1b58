/** A slide over the demo's whole range against one main answer, and the trade of all its sets. */

import { performance } from 'node:perf_hooks';
import { measureAt } from '../src/solver/measuring/measure.js';
import { frontier } from '../src/solver/explaining/frontier.js';
import { slide } from '../src/solver/explaining/slide.js';
import { requestFor, toEnd } from '../tests/support/solve.js';
import type { BenchRow } from './harness.js';
import { placeMedian, scenarioAt } from './placing.js';

const STEPS = 40;
/** How many main answers a slide may cost. */
const WANTED = 10;

/** Every point is measured again at its place, and none may exceed what is proved of all. */
export function benchSlide(short: boolean): Promise<BenchRow[]> {
  const scenario = scenarioAt('scenarios/orchard-hauler.yaml');
  const { tolerance, allowed } = requestFor(scenario);
  const main = placeMedian(scenario, { only: 'place' }, short ? 1 : 3);
  const range = scenario.position.offset;
  const [slid, slideTime] = timed(() =>
    toEnd(slide(scenario, { tolerance, allowed, along: 'offset', range, steps: STEPS })),
  );
  const [traded, tradeTime] = timed(() =>
    toEnd(frontier(scenario, { tolerance, allowed, pins: {} })),
  );
  if (!slid.proved || traded.best !== 'proved') throw new Error('a proof is open');
  const places = [...slid.points.map(({ placement }) => placement), ...traded.points];
  for (const { options, optimum } of places) {
    const again = measureAt(scenario, options, optimum.position).margin;
    if (Math.abs(again - optimum.margin) > 1e-6) throw new Error(`measured again, ${again}`);
    const over = optimum.margin - main.answer.bestBound;
    if (over > 1e-3) throw new Error(`a point has ${over} mm more than any may have`);
  }
  const row = (name: string, time: number, checked: number): BenchRow => ({
    name,
    value: time,
    unit: 'ms',
    against: { name: 'one main answer', value: main.time },
    ratio: time / main.time,
    checked,
  });
  return Promise.resolve([
    {
      ...row(`${STEPS} points along offset, with their ends`, slideTime, slid.points.length),
      wanted: `at most ${WANTED} x one main answer`,
      met: slideTime <= WANTED * main.time,
    },
    row('the trade of work and margin', tradeTime, traded.points.length),
  ]);
}

function timed<T>(work: () => T): [T, number] {
  const start = performance.now();
  const value = work();
  return [value, performance.now() - start];
}
