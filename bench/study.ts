/** The study bay: counted work of its proof, and its time against `highs` on single pitches. */

import { performance } from 'node:perf_hooks';
import type { Scenario } from '../src/model/scenario.js';
import { compileBay } from '../src/solver/measuring/compile.js';
import { Meter } from '../src/solver/measuring/meter.js';
import { MARGIN } from '../src/solver/searching/objective.js';
import { Search } from '../src/solver/searching/search.js';
import { median } from './harness.js';
import type { BenchRow } from './harness.js';
import { DEGREE, expectProved, IN, placeMedian, scenarioAt, sliceMedian } from './placing.js';

const PATH = 'tests/bays/study.json';
/** Millimetres: 0.005 in. */
const TOLERANCE = 0.005 * IN;
/** Inches: the best margin with the filter on the block, as the study found it. */
const AS_IT_STANDS = 0.07162;
/** Runs that ours and `highs` each get before they are timed: both are compiled while they run. */
const WARM = 20;
const WANTED = { boxes: 28, gaps: 2400, lps: 56 } as const;

/**
 * Counts are those of the search that proves the bay, with the first option set alone and with the
 * choice open; two times are told: from the scenario to that proof, and of the whole main answer.
 */
export async function benchStudy(short: boolean): Promise<BenchRow[]> {
  const scenario = scenarioAt(PATH);
  const every = scenario.choices.map(({ options }) => options.map((_, o) => o));
  const first = every.map(() => [0]);
  const warm = short ? 1 : WARM;
  const warmth = short ? 'ours warmed by one run' : `both warmed by ${WARM} runs`;
  const rows: BenchRow[] = [];
  for (const [name, allowed] of [
    ['as it stands', first],
    ['as given', every],
  ] as const) {
    const meter = new Meter(compileBay(scenario, { allowed }));
    const { state } = searchOf(meter, scenario.position);
    const { answer, time } = placeMedian(
      scenario,
      { allowed, tolerance: TOLERANCE, only: 'place' },
      short ? 3 : 15,
      warm,
    );
    expectProved(answer, name);
    const found = state.best!.value;
    if (!state.done || state.bound - found > TOLERANCE) throw new Error(`${name}: not proved`);
    if (Math.abs(found - answer.main.optimum.margin) > TOLERANCE) {
      throw new Error(
        `${name}: the search says ${found}, the answer ${answer.main.optimum.margin}`,
      );
    }
    if (name === 'as it stands' && Math.abs(found - AS_IT_STANDS * IN) > TOLERANCE) {
      throw new Error(`${name}: margin ${found / IN} in, not ${AS_IT_STANDS}`);
    }
    const whole = answer.effort;
    for (const count of ['boxes', 'gaps', 'lps'] as const) {
      const value = meter.counts()[count];
      rows.push({
        name: `${name}: ${count}`,
        value,
        unit: count,
        wanted: `at most ${WANTED[count]} to prove 0.005 in`,
        met: value <= WANTED[count],
        counted: true,
        checked: 1,
        note: `the proving search; the whole main answer, polish and setting with it, ${whole[count]}`,
      });
    }
    const pitches = (short ? [3] : [1, 3, 5]).map((degrees) => degrees * DEGREE);
    const slice = await sliceMedian(scenario, pitches, allowed, answer.bestBound, warm);
    const proof = proofMedian(scenario, allowed, found, short ? 3 : 15, warm);
    const against = { name: 'one pitch by highs', value: slice.time };
    rows.push({
      name: `${name}: time to prove`,
      value: proof,
      unit: 'ms',
      against,
      ratio: proof / slice.time,
      wanted: 'at most 1/3 of one pitch',
      met: proof <= slice.time / 3,
      checked: slice.checked + 1,
      note: `the scenario made ready and proved; of highs its solving alone; ${warmth}; highs: ${slice.note}`,
    });
    rows.push({
      name: `${name}: time of the whole main answer`,
      value: time,
      unit: 'ms',
      against,
      ratio: time / slice.time,
      checked: 1,
      note: 'the same, polished, set on the tape marks, measured and explained, which highs does not do',
    });
  }
  return rows;
}

/** Median milliseconds from the scenario to its proof; throws where it is not `found` that is proved. */
function proofMedian(
  scenario: Scenario,
  allowed: readonly (readonly number[])[],
  found: number,
  runs: number,
  warm: number,
): number {
  const times = Array.from({ length: runs + warm }, () => {
    const start = performance.now();
    const { state } = searchOf(new Meter(compileBay(scenario, { allowed })), scenario.position);
    const time = performance.now() - start;
    if (!state.done || state.best?.value !== found) throw new Error(`proved ${state.best?.value}`);
    return time;
  });
  return median(times.slice(warm));
}

function searchOf(meter: Meter, ranges: ReturnType<typeof scenarioAt>['position']): Search {
  const search = new Search({
    meter,
    domains: meter.bay.domains,
    objective: MARGIN,
    ranges,
    tolerance: TOLERANCE,
    start: [],
  });
  search.run(10_000);
  return search;
}
