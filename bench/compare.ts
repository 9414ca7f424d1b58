/**
 * The demo's options side by side, on two threads against one.
 *
 * Threads that run already answer nearly twice as fast when there are two. The command, started anew, gains
 * less: each thread compiles its code for itself, about 3 s of processor time, which one thread alone leaves to
 * the idle core. Both are timed; the target is held by the first.
 */

import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { pathToFileURL } from 'node:url';
import { Tinypool } from 'tinypool';
import type { CaseJob } from '../src/cli/running/case-worker.js';
import { asItStands, caseOf } from '../src/model/asked/cases.js';
import type { Case } from '../src/model/asked/cases.js';
import type { CaseDone } from '../src/solver/explaining/compare.js';
import { TOLERANCE } from '../tests/support/solve.js';
import type { BenchRow } from './harness.js';
import { median } from './harness.js';
import { scenarioAt } from './placing.js';

const DEMO = 'scenarios/orchard-hauler.yaml';
/** Every set of four choices, as one weighs them: each case is a search of its own. */
const CASES = ['on the block', 'remote'].flatMap((filter) =>
  ['mechanical', 'electric puller', 'electric pusher'].flatMap((fan) =>
    ['inside the rails', 'outside the rails', 'block huggers'].flatMap((headers) =>
      ['high', 'low'].map((valve) => ({
        'oil filter': filter,
        fan,
        headers,
        'steering valve': valve,
      })),
    ),
  ),
);
const TYPED = [
  'compare',
  DEMO,
  '--plain',
  ...CASES.flatMap((one) => [
    '--case',
    Object.entries(one)
      .map((pair) => pair.join('='))
      .join('; '),
  ]),
];
/** By how much two cores must beat one. */
const WANTED = 1.6;

export async function benchCompare(short: boolean): Promise<BenchRow[]> {
  return [await threadsRow(short), commandRow(short)];
}

/** The same answers, by one thread and by two that have answered every case before. */
async function threadsRow(short: boolean): Promise<BenchRow> {
  const scenario = scenarioAt(DEMO);
  const named = CASES.map((one, n) => {
    const options = Object.entries(one).map(([choice, option]) => ({ choice, option }));
    return caseOf(scenario, `case ${n}`, { ranges: {}, options });
  });
  const cases = [asItStands(scenario), ...named];
  const job = (): CaseJob => ({
    scenario,
    cases,
    request: { tolerance: TOLERANCE, units: scenario.units },
    signal: new SharedArrayBuffer(4),
    memory: 512,
  });
  const [one, two] = [await warmed(1, job(), short), await warmed(2, job(), short)];
  const runs: { one: number; two: number }[] = [];
  let checked = 0;
  try {
    for (let n = 0; n < (short ? 1 : 5); n++) {
      const [single, double] = [await pass(one, cases), await pass(two, cases)];
      if (JSON.stringify(single.done) !== JSON.stringify(double.done))
        throw new Error('the threads change the answer');
      checked += cases.length;
      runs.push({ one: single.time, two: double.time });
    }
  } finally {
    await Promise.all([one.destroy(), two.destroy()]);
  }
  const ratio = median(runs.map((run) => run.one / run.two));
  return {
    name: `${cases.length} cases of the demo, on two threads that run`,
    value: median(runs.map((run) => run.two)),
    unit: 'ms',
    against: { name: 'one such thread', value: median(runs.map((run) => run.one)) },
    ratio,
    wanted: `at least ${WANTED} times faster`,
    ...(os.availableParallelism() > 1 && { met: ratio >= WANTED }),
    checked,
  };
}

/** A pool whose threads have all compiled what the cases need. */
async function warmed(threads: number, job: CaseJob, short: boolean): Promise<Tinypool> {
  const filename = pathToFileURL('dist/case-worker.js').href;
  const pool = new Tinypool({
    filename,
    workerData: job,
    minThreads: threads,
    maxThreads: threads,
    idleTimeout: 60_000,
  });
  for (let n = 0; n < (short ? 1 : 2) * threads; n++) await pass(pool, job.cases);
  return pool;
}

async function pass(
  pool: Tinypool,
  cases: readonly Case[],
): Promise<{ time: number; done: readonly CaseDone[] }> {
  const start = performance.now();
  const done = await Promise.all(
    cases.map((_, index) => pool.run(index, { name: 'answerCase' }) as Promise<CaseDone>),
  );
  return { time: performance.now() - start, done };
}

/** The command as it is typed; the one thread has it without its worker's file. Both print the same. */
function commandRow(short: boolean): BenchRow {
  const folder = mkdtempSync(join(os.tmpdir(), 'berth-bench-'));
  try {
    cpSync('dist', join(folder, 'dist'), { recursive: true });
    writeFileSync(join(folder, 'package.json'), '{ "type": "module" }');
    rmSync(join(folder, 'dist', 'case-worker.js'));
    const one = join(folder, 'dist', 'berth.js');
    const runs = Array.from({ length: short ? 1 : 3 }, () => {
      const [many, single] = [timed('dist/berth.js'), timed(one)];
      if (many.out !== single.out) throw new Error('the threads change the answer');
      return { many: many.time, single: single.time, cases: many.cases };
    });
    const many = median(runs.map((run) => run.many));
    const single = median(runs.map((run) => run.single));
    const ratio = median(runs.map((run) => run.single / run.many));
    return {
      name: `${CASES.length} cases of the demo, the command on all cores`,
      value: many,
      unit: 'ms',
      against: { name: 'the command on one thread', value: single },
      ratio,
      checked: runs.length * runs[0]!.cases,
      note: 'whole processes, started in turn; what they print is compared',
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function timed(command: string): { time: number; out: string; cases: number } {
  const start = performance.now();
  const { status, stdout } = spawnSync(process.execPath, [command, ...TYPED], { encoding: 'utf8' });
  const time = performance.now() - start;
  if (status !== 0) throw new Error(`the comparison ended with status ${status}`);
  return { time, out: stdout, cases: CASES.length + 1 };
}
