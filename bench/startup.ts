/** How long `berth --help` takes, against Node on an empty file. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import type { BenchRow } from './harness.js';
import { median } from './harness.js';

const COMMAND = 'dist/berth.js';
const WANTED_RATIO = 2;

/** Starts Node on the arguments; returns the time in ms and what it printed. Throws if it fails. */
function start(...args: string[]): { time: number; output: string } {
  const begin = performance.now();
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
  const time = performance.now() - begin;
  if (status !== 0) throw new Error(`node ${args.join(' ')} ended with ${status}: ${stderr}`);
  return { time, output: stdout };
}

/**
 * Medians of interleaved runs, so that a busy machine slows both alike. Every help text is checked
 * for the name of the main command, and every empty run for having printed nothing.
 */
export async function benchStartup(short: boolean): Promise<BenchRow[]> {
  const runs = short ? 5 : 31;
  const directory = mkdtempSync(join(tmpdir(), 'berth-bench-'));
  try {
    const empty = join(directory, 'empty.js');
    writeFileSync(empty, '');
    start(empty); // both once beforehand, to fill the file cache
    start(COMMAND, '--help');
    const emptyTimes: number[] = [];
    const helpTimes: number[] = [];
    let checked = 0;
    for (let run = 0; run < runs; run += 1) {
      const nothing = start(empty);
      const help = start(COMMAND, '--help');
      if (nothing.output !== '') throw new Error('an empty file printed something');
      if (!/\bplace\b/.test(help.output)) throw new Error('the help text does not name place');
      checked += 1;
      emptyTimes.push(nothing.time);
      helpTimes.push(help.time);
    }
    const value = median(helpTimes);
    const emptyTime = median(emptyTimes);
    const ratio = value / emptyTime;
    return [
      {
        name: 'berth --help',
        value,
        unit: 'ms',
        against: { name: 'node on an empty file', value: emptyTime },
        ratio,
        wanted: `at most ${WANTED_RATIO} x an empty file`,
        met: ratio <= WANTED_RATIO,
        checked,
        note: `medians of ${runs} interleaved runs`,
      },
    ];
  } finally {
    rmSync(directory, { recursive: true, force: true });
  }
}
