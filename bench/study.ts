/**
 * The study bay proved to 0.005 in. Boxes, gaps and programs are counted, so these rows hold whatever
 * the machine is doing.
 */

import { readFileSync } from 'node:fs';
import { readScenario } from '../src/model/read.js';
import { compileBay } from '../src/solver/bay.js';
import { Meter } from '../src/solver/meter.js';
import { MARGIN } from '../src/solver/objective.js';
import { Search } from '../src/solver/search.js';
import type { BenchRow } from './harness.js';

const INCH = 25.4;
const TOLERANCE = 0.005 * INCH;
/** Best margin of the bay as it stands, in: the study's own published answer. */
const KNOWN = 0.07162;
const BUDGET = { boxes: 300, gaps: 10_000, lps: 350 } as const;

export function benchStudy(): Promise<BenchRow[]> {
  const { scenario } = readScenario(readFileSync('tests/bays/study.json', 'utf8'), 'json');
  if (!scenario) throw new Error('the study bay does not read');
  const bay = compileBay(scenario);
  const rows: BenchRow[] = [];
  for (const [name, domains] of [
    ['all options', bay.domains],
    ['as it stands', [[0]]],
  ] as const) {
    const meter = new Meter(bay);
    const start = performance.now();
    const search = new Search({
      meter,
      domains,
      objective: MARGIN,
      ranges: scenario.position,
      tolerance: TOLERANCE,
      start: [],
    });
    const { best, bound, done } = search.run(10_000);
    const time = performance.now() - start;
    if (!done || !best || bound - best.value > TOLERANCE + 1e-9) throw new Error(`${name}: open`);
    if (name === 'as it stands' && Math.abs(best.value / INCH - KNOWN) > 0.005) {
      throw new Error(`${name}: ${best.value / INCH} in, not ${KNOWN}`);
    }
    rows.push({ name: `${name}, time`, value: time, unit: 'ms', checked: 1 });
    for (const key of ['boxes', 'gaps', 'lps'] as const) {
      rows.push({
        name: `${name}, ${key}`,
        value: meter.effort[key],
        unit: key,
        wanted: `at most ${BUDGET[key]}`,
        met: meter.effort[key] <= BUDGET[key],
        counted: true,
        checked: 1,
      });
    }
  }
  return Promise.resolve(rows);
}
