/**
 * The demo without a proof: a direct search from many starts, on the same measurements. It is told the
 * best margin, which nobody has, and stops once it is as near to it as a proof must be.
 */

import { performance } from 'node:perf_hooks';
import { optionSets } from '../src/model/options.js';
import type { OptionSet, Scenario } from '../src/model/scenario.js';
import { endsOf } from '../src/solver/box.js';
import { compileBay } from '../src/solver/measuring/compile.js';
import { Meter } from '../src/solver/measuring/meter.js';
import { between, seeded } from '../tests/geometry/random.js';
import type { Random } from '../tests/geometry/random.js';
import { median } from './harness.js';
import type { BenchRow } from './harness.js';
import { expectProved, IN, placeMedian, scenarioAt } from './placing.js';

const PATH = 'scenarios/orchard-hauler.yaml';
const TOLERANCE = IN / 64;
/** Milliseconds after which a start's luck is given up. */
const PATIENCE = 20_000;
/** Millimetres: the first step along a coordinate, and the step at which a start is done. */
const FIRST_STEP = 25;
const LAST_STEP = 0.02;
/** Radians of pitch that count as a millimetre. */
const PITCH_STEP = 1 / 500;

interface Direct {
  /** Milliseconds until it was near enough; `PATIENCE` and more where it never was. */
  readonly time: number;
  readonly starts: number;
  readonly margin: number;
}

/** The time to the best of all options within the tolerance, by search with a proof and without. */
export function benchDirect(short: boolean): Promise<BenchRow[]> {
  const scenario = scenarioAt(PATH);
  // The dearest set may be the roomiest: then it is that one which is looked for.
  const ours = placeMedian({ ...scenario, worth: 0 }, { only: 'place' }, short ? 1 : 5, 2);
  expectProved(ours.answer, 'the demo');
  const { bestBound, main } = ours.answer;
  const wanted = main.optimum.margin - TOLERANCE;
  const seeds = short ? [1] : [1, 2, 3, 4, 5, 6, 7];
  const all = seeds.map((seed) => directSearch(scenario, seeded(seed), wanted));
  for (const { margin } of all) {
    if (margin > bestBound) throw new Error(`a direct search finds ${margin}, over ${bestBound}`);
  }
  const [time, near] = [
    median(all.map((one) => one.time)),
    all.filter((one) => one.margin >= wanted),
  ];
  return Promise.resolve([
    {
      name: 'roomiest place of all options, proved to 1/64 in',
      value: ours.time,
      unit: 'ms',
      against: { name: 'a direct search from many starts, without a proof', value: time },
      ratio: ours.time / time,
      checked: all.length,
      note:
        `${near.length} of ${all.length} came within 1/64 in in ${PATIENCE / 1000} s, ` +
        `from ${median(all.map((one) => one.starts))} starts at the median; none beat the bound`,
    },
  ]);
}

/** Compass search: along each coordinate both ways, half as far when nothing is better; then options by ones. */
function directSearch(scenario: Scenario, random: Random, wanted: number): Direct {
  const begun = performance.now();
  const meter = new Meter(compileBay(scenario));
  const sets = [...optionSets(scenario)];
  const { lo, hi } = endsOf(scenario.position);
  let margin = -Infinity;
  let starts = 0;
  const passed = (): number => performance.now() - begun;
  const isOver = (): boolean => margin >= wanted || passed() > PATIENCE;
  const scoreOf = (set: OptionSet, x: Float64Array, floor: number): number => {
    const of = meter.contactsOf(set);
    return meter.withinLimits(of, x) ? Math.min(of.fixed, meter.marginAt(of, x, floor)) : -Infinity;
  };
  while (!isOver()) {
    starts++;
    let set = sets[Math.floor(random() * sets.length)]!;
    let x = Float64Array.from(lo, (low, k) => between(random, low, hi[k]!));
    let score = scoreOf(set, x, -Infinity);
    for (let step = FIRST_STEP; step >= LAST_STEP && !isOver();) {
      let improved = false;
      for (let k = 0; k < 8; k++) {
        const by = (k & 1 ? step : -step) * (k >> 1 === 3 ? PITCH_STEP : 1);
        const next = Float64Array.from(x);
        next[k >> 1] = Math.min(hi[k >> 1]!, Math.max(lo[k >> 1]!, x[k >> 1]! + by));
        const value = scoreOf(set, next, score);
        if (value <= score) continue;
        [x, score, improved] = [next, value, true];
      }
      for (const other of sets) {
        if (other.filter((option, c) => option !== set[c]).length !== 1) continue;
        const value = scoreOf(other, x, score);
        if (value <= score) continue;
        [set, score, improved] = [other, value, true];
      }
      margin = Math.max(margin, score);
      if (!improved) step /= 2;
    }
  }
  return { time: passed(), starts, margin };
}
