/** The linear programs of the demo's boxes: the library we use, and `yalps` in its place. */

import { performance } from 'node:perf_hooks';
import { solve as yalps } from 'yalps';
import { boxOf, endsOf } from '../src/solver/box.js';
import { createLpResult, solveLp } from '../src/solver/bounding/lp.js';
import { compileBay } from '../src/solver/measuring/compile.js';
import { Meter } from '../src/solver/measuring/meter.js';
import { Rows } from '../src/solver/rows.js';
import { MARGIN } from '../src/solver/searching/objective.js';
import { Relaxation } from '../src/solver/searching/relaxation.js';
import { Sieve } from '../src/solver/searching/sift.js';
import { between, seeded } from '../tests/geometry/random.js';
import { median } from './harness.js';
import type { BenchRow } from './harness.js';
import { scenarioAt } from './placing.js';

const FREE = [true, true, true, true];
/** Millimetres by which two optima of one program may differ. */
const SAME = 1e-6;
/** What a millimetre of a missed hard row costs, as in `lp.ts`. */
const HARD_PRICE = 200;

/** Medians a program, model building with it, and how far the optima differ. */
export function benchLps(short: boolean): Promise<BenchRow[]> {
  const programs = programsOf(short ? 30 : 300);
  const out = createLpResult();
  const [ours, theirs]: [number[], number[]] = [[], []];
  let checked = 0;
  for (let round = 0; round < (short ? 2 : 6); round++) {
    ours.length = theirs.length = 0;
    checked = 0;
    for (const rows of programs) {
      let start = performance.now();
      solveLp(rows, FREE, out);
      ours.push(performance.now() - start);
      start = performance.now();
      const best = byYalps(rows);
      theirs.push(performance.now() - start);
      if (best === undefined || out.faulty) continue;
      if (Math.abs(best - out.value) > SAME)
        throw new Error(`${out.value} by ours, ${best} by yalps`);
      checked++;
    }
  }
  const [a, b] = [1000 * median(ours), 1000 * median(theirs)];
  return Promise.resolve([
    {
      name: 'a linear program of the demo',
      value: a,
      unit: 'us',
      against: { name: 'yalps in its place', value: b },
      ratio: a / b,
      checked,
      note: `${programs.length} programs of ${median(programs.map(({ count }) => count))} rows at the median`,
    },
  ]);
}

/** The rows of boxes of all sizes, drawn at random. */
function programsOf(count: number): Rows[] {
  const random = seeded(31);
  const scenario = scenarioAt('scenarios/orchard-hauler.yaml');
  const meter = new Meter(compileBay(scenario));
  const { domains, contacts } = meter.bay;
  const view = meter.views.of(domains)!;
  const asked = { meter, domains, objective: MARGIN, tolerance: 0.4, start: [] };
  const relaxation = new Relaxation({ ...asked, ranges: scenario.position });
  const ends = endsOf(scenario.position);
  return Array.from({ length: count }, () => {
    const part = between(random, 0, 1);
    const lo = Float64Array.from(ends.lo, (low, k) =>
      between(random, low, ends.hi[k]! - part * (ends.hi[k]! - low)),
    );
    const hi = lo.map((low, k) => low + part * (ends.hi[k]! - ends.lo[k]!));
    const active = Int32Array.from(contacts, ({ id }) => id);
    const low = new Float64Array(contacts.length).fill(-Infinity);
    const node = { lo, hi, view, bound: Infinity, active, low };
    const box = boxOf(lo, hi);
    const sifted = new Sieve(meter).sift(node, box, Infinity, -Infinity);
    if ('most' in sifted) throw new Error('nothing can fail at no margin at all');
    relaxation.build(view, view.limits, box, sifted.measured);
    return copyOf(relaxation.rows);
  });
}

function copyOf(from: Rows): Rows {
  const rows = new Rows();
  for (let row = 0; row < from.count; row++) {
    rows.add(from.source[row]!, from.hard[row] === 1);
    rows.values[row] = from.values[row]!;
    for (let k = 0; k < 4; k++) rows.slopes[4 * row + k] = from.slopes[4 * row + k]!;
  }
  return rows;
}

/** The optimum of the same program: m counted from where no row is under it, u from -1. */
function byYalps(rows: Rows): number | undefined {
  let lift = 0;
  for (let row = 0; row < rows.count; row++)
    lift = Math.max(lift, rows.spread(row) - rows.values[row]!);
  const variables: Record<string, Record<string, number>> = { m: { m: 1 }, s: { m: -HARD_PRICE } };
  const constraints: Record<string, { max: number }> = {};
  for (let k = 0; k < 4; k++) {
    variables[`u${k}`] = { [`end${k}`]: 1 };
    constraints[`end${k}`] = { max: 2 };
  }
  for (let row = 0; row < rows.count; row++) {
    const isHard = rows.hard[row] === 1;
    variables[isHard ? 's' : 'm']![`r${row}`] = isHard ? -1 : 1;
    let corner = rows.values[row]!;
    for (let k = 0; k < 4; k++) {
      const slope = rows.slopes[4 * row + k]!;
      corner -= slope;
      if (slope !== 0) variables[`u${k}`]![`r${row}`] = -slope;
    }
    constraints[`r${row}`] = { max: corner + (isHard ? 0 : lift) };
  }
  const { status, result } = yalps({
    direction: 'maximize',
    objective: 'm',
    constraints,
    variables,
  });
  return status === 'optimal' ? result - lift : undefined;
}
