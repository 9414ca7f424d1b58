/** Time and memory against the number of parts and of choices, on bays whose answer is planted. */

import { spawnSync } from 'node:child_process';
import type { BenchRow } from './harness.js';

/** Millimetres, but for `time` (ms) and `memory` (MiB). */
export interface GrowthResult {
  readonly time: number;
  readonly memory: number;
  /** The best margin over all option sets, by construction, and under the set answered. */
  readonly planted: number;
  readonly plantedHere: number;
  readonly margin: number;
  readonly bestBound: number;
  readonly proved: boolean;
}

/** Parts a side: multiples of the six walls, from about 10 to about 200. */
const PARTS = [12, 30, 60, 120, 198];
const CHOICES = [1, 4, 7, 10];
const LARGE = { parts: 60, choices: 8, seconds: 30, memory: 300 } as const;
/** Milliseconds after which a bay is given up, undecided. */
const LIMIT = 60_000;
const TOLERANCE = 25.4 / 64;
const ROUNDING = 1e-6;

/** Three answers and the wishes each time; every answer is checked against the planted one. */
export async function benchGrowth(short: boolean): Promise<BenchRow[]> {
  const sizes = short
    ? [
        [12, 1],
        [12, 3],
      ]
    : [...PARTS.map((n) => [n, 2]), ...CHOICES.map((n) => [30, n])];
  const rows = sizes.map(([parts, choices]): BenchRow => {
    const result = run(parts!, choices!);
    return {
      name: `${parts} x ${parts} parts, ${choices} choices`,
      value: result.time,
      unit: 'ms',
      checked: 1,
      note: `peak ${Math.round(result.memory)} MiB${result.proved ? '' : '; NOT proved in time'}`,
    };
  });
  if (short) return rows;
  const large = run(LARGE.parts, LARGE.choices);
  const name = `${LARGE.parts} x ${LARGE.parts} parts, ${LARGE.choices} choices`;
  rows.push(
    {
      name: `${name}: time`,
      value: large.time,
      unit: 'ms',
      wanted: `proved in under ${LARGE.seconds} s`,
      met: large.proved && large.time < 1000 * LARGE.seconds,
      checked: 1,
    },
    {
      name: `${name}: memory`,
      value: large.memory,
      unit: 'MiB',
      wanted: `under ${LARGE.memory} MiB, the whole process`,
      met: large.memory < LARGE.memory,
      checked: 1,
    },
  );
  return rows;
}

function run(parts: number, choices: number): GrowthResult {
  const args = ['tools/run-ts.mjs', 'bench/growth-one.ts', `${parts}`, `${choices}`, `${LIMIT}`];
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
  if (status !== 0) throw new Error(`${parts} parts, ${choices} choices: ${stderr}`);
  const result = JSON.parse(stdout) as GrowthResult;
  const { planted, plantedHere, margin, bestBound, proved } = result;
  if (bestBound < planted - ROUNDING)
    throw new Error(`bound ${bestBound} under the truth ${planted}`);
  if (margin > plantedHere + ROUNDING)
    throw new Error(`${margin} where ${plantedHere} is the most`);
  if (proved && margin < plantedHere - TOLERANCE) {
    throw new Error(`${margin} proved best where ${plantedHere} can be had`);
  }
  return result;
}
