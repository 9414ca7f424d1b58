/** The demo's options side by side: the built command on all cores against itself on one. */

import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import type { BenchRow } from './harness.js';
import { median } from './harness.js';

/** Every set of four choices, as one weighs them: each case is a search of its own. */
const CASES = ['on the block', 'remote'].flatMap((filter) =>
  ['mechanical', 'electric puller', 'electric pusher'].flatMap((fan) =>
    ['inside the rails', 'outside the rails', 'block huggers'].flatMap((headers) =>
      ['high', 'low'].map(
        (valve) => `oil filter=${filter}; fan=${fan}; headers=${headers}; steering valve=${valve}`,
      ),
    ),
  ),
);
const TYPED = [
  'compare',
  'scenarios/orchard-hauler.yaml',
  '--plain',
  ...CASES.flatMap((one) => ['--case', one]),
];
/** By how much two cores must beat one. */
const WANTED = 1.6;

/** Both print the same, letter for letter; the one core has the command without its worker's file. */
export function benchCompare(short: boolean): Promise<BenchRow[]> {
  return Promise.resolve(rows(short));
}

function rows(short: boolean): BenchRow[] {
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
    const enough = os.availableParallelism() > 1;
    return [
      {
        name: `${CASES.length} cases of the demo, on all cores`,
        value: many,
        unit: 'ms',
        against: { name: 'one core', value: single },
        ratio,
        wanted: `at least ${WANTED} times faster`,
        ...(enough && { met: ratio >= WANTED }),
        checked: runs.length * runs[0]!.cases,
        note: 'whole processes, started in turn; what they print is compared',
      },
    ];
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
