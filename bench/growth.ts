/**
 * Time and memory against the number of parts and of choices, on bays whose answer is planted: the
 * built command on a file, as a person runs it.
 */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import type { Plant } from '../tests/support/planted.js';
import type { BenchRow } from './harness.js';
import { LARGE as BAY, plantedBay, textOfPlant } from './large-bay.js';

interface Growth {
  /** Milliseconds and MiB of the whole process. */
  readonly time: number;
  readonly memory: number;
  readonly proved: boolean;
}

/** What the command says, inches. */
interface Said {
  readonly best: string;
  readonly margin: number;
  readonly bestBound: number;
  readonly options: Readonly<Record<string, string>>;
  readonly stopped: string | null;
}

/** Parts a side: multiples of the six walls, from about 10 to about 200. */
const PARTS = [12, 30, 60, 120, 198];
const CHOICES = [1, 4, 7, 10];
const LARGE = { ...BAY, seconds: 5, memory: 300 } as const;
/** Seconds after which a bay is given up, undecided. */
const LIMIT = 120;
/** Inches: the command's default tolerance, and its rounding on print. */
const TOLERANCE = 1 / 64;
const ROUNDING = 1e-5;
/** Prints the peak memory of the process it is loaded into, in KiB, to its error stream. */
const PEAK = `data:text/javascript,process.on('exit',()=>console.error('peak '+process.resourceUsage().maxRSS))`;

/** Three answers and the wishes each time; every answer is checked against the planted one. */
export async function benchGrowth(short: boolean): Promise<BenchRow[]> {
  const sizes = short
    ? [
        [12, 1],
        [12, 3],
      ]
    : [...PARTS.map((n) => [n, 2]), ...CHOICES.map((n) => [30, n])];
  const rows = sizes.map(([parts, choices]): BenchRow => {
    const { time, memory, proved } = run(parts!, choices!);
    return {
      name: `${parts} x ${parts} parts, ${choices} choices`,
      value: time,
      unit: 'ms',
      checked: 1,
      note: `peak ${Math.round(memory)} MiB${proved ? '' : '; NOT proved in time'}`,
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

function run(parts: number, choices: number): Growth {
  const planted = plantedBay(parts, choices);
  const directory = mkdtempSync(join(tmpdir(), 'berth-bench-'));
  try {
    const file = join(directory, 'bay.json');
    writeFileSync(file, textOfPlant(planted));
    const start = performance.now();
    const args = ['--import', PEAK, 'dist/berth.js', 'place', file, '--json'];
    const limit = ['--time-limit', `${LIMIT}`];
    const { status, stdout, stderr } = spawnSync(process.execPath, [...args, ...limit], {
      encoding: 'utf8',
      maxBuffer: 1 << 28,
    });
    const time = performance.now() - start;
    if (status === 2 || status === null) throw new Error(`${parts} parts, ${choices}: ${stderr}`);
    const said = JSON.parse(stdout) as Said;
    const memory = Number(/^peak (\d+)$/m.exec(stderr)?.[1]) / 1024;
    return { time, memory, proved: isProved(said, planted) };
  } finally {
    rmSync(directory, { recursive: true, force: true });
  }
}

/** Whether the answer is proved; throws where it is false. */
function isProved(said: Said, planted: Plant): boolean {
  const most = Math.max(...planted.sets.map((set) => planted.marginOf(set)));
  const here = planted.marginOf(setOf(said, planted));
  const { margin, bestBound } = said;
  if (bestBound < most - ROUNDING) throw new Error(`bound ${bestBound} under the truth ${most}`);
  if (margin > here + ROUNDING) throw new Error(`${margin} where ${here} is the most`);
  const proved = said.best === 'proved' && said.stopped === null;
  if (proved && margin < here - TOLERANCE) {
    throw new Error(`${margin} proved best where ${here} can be had`);
  }
  return proved;
}

function setOf({ options }: Said, { doc }: Plant): number[] {
  return Object.entries(doc.choices ?? {}).map(([choice, all]) =>
    Object.keys(all).indexOf(options[choice]!),
  );
}
