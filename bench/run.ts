/**
 * Runs the benchmarks: `npm run bench -- [--short] [--only NAME]`. With `--against CHECKOUT` another state of
 * this repository and this one take turns at the main jobs instead.
 *
 * Exit status 1 when an answer is wrong, when a benchmark checked nothing, or when a target is
 * missed; with --short only targets that are counts can be missed, for a few seconds of a shared
 * machine's clock prove nothing.
 */
import os from 'node:os';
import { parseArgs } from 'node:util';
import { runAgainst } from './against.js';
import { benchCompare } from './compare.js';
import { benchDemo } from './demo.js';
import { benchGrowth } from './growth.js';
import type { Benchmark, BenchRow } from './harness.js';
import { benchDistances } from './distances.js';
import { benchPage } from './page.js';
import { benchSlide } from './slide.js';
import { benchStartup } from './startup.js';
import { benchStudy } from './study.js';
import { benchWhy } from './why.js';

/** All benchmarks, in the order they run. */
const BENCHMARKS: ReadonlyArray<{ name: string; run: Benchmark }> = [
  { name: 'startup', run: benchStartup },
  { name: 'study', run: benchStudy },
  { name: 'demo', run: benchDemo },
  { name: 'compare', run: benchCompare },
  { name: 'slide', run: benchSlide },
  { name: 'why', run: benchWhy },
  { name: 'page', run: benchPage },
  { name: 'growth', run: benchGrowth },
  { name: 'distances', run: distanceRows },
];

/** Pairs a second against manifold-3d, as rows. */
async function distanceRows(short: boolean): Promise<BenchRow[]> {
  const rows = await benchDistances(short);
  return rows.map((row) => ({
    name: row.name,
    value: row.ours_us,
    unit: 'us',
    against: { name: 'manifold-3d minGap', value: row.theirs_us },
    ratio: row.ratio,
    checked: row.checked,
  }));
}

const MEBIBYTE = 1024 * 1024;

function machine(): string {
  const [first] = os.cpus();
  const memory = (bytes: number): string => `${Math.round(bytes / MEBIBYTE)} MiB`;
  return [
    `CPU     ${first?.model.trim() ?? 'unknown'}, ${os.availableParallelism()} cores`,
    `memory  ${memory(os.totalmem())}, ${memory(os.freemem())} free`,
    `node    ${process.version} on ${os.platform()} ${os.arch()}`,
  ].join('\n');
}

/** Four figures, or a whole number when it is a large one. */
function figure(value: number): string {
  return Math.abs(value) >= 1000
    ? Math.round(value).toString()
    : Number(value.toPrecision(4)).toString();
}

function describe(row: BenchRow): string {
  const lines = [`  ${row.name}: ${figure(row.value)} ${row.unit}`];
  if (row.against) {
    lines[0] += `, against ${figure(row.against.value)} ${row.unit} for ${row.against.name}`;
  }
  if (row.ratio !== undefined) lines[0] += `, ratio ${row.ratio.toFixed(2)}`;
  if (row.wanted !== undefined) {
    const verdict = row.met === undefined ? 'not judged' : row.met ? 'met' : 'NOT MET';
    lines.push(`    wanted ${row.wanted}: ${verdict}`);
  }
  lines.push(`    ${row.checked} answers checked${row.note === undefined ? '' : `; ${row.note}`}`);
  return lines.join('\n');
}

/** Why this row fails the run, or undefined when it does not. */
function fault(row: BenchRow, short: boolean): string | undefined {
  if (!(row.checked > 0)) return `${row.name} checked no answer`;
  if (!Number.isFinite(row.value)) return `${row.name} measured nothing`;
  if (row.met === false && (row.counted === true || !short)) {
    return `${row.name} missed its target: ${row.wanted ?? 'unnamed'}`;
  }
  return undefined;
}

/** Runs one benchmark, prints its rows, and returns its faults. */
async function runOne(name: string, run: Benchmark, short: boolean): Promise<string[]> {
  console.log(`\n${name}`);
  try {
    const rows = await run(short);
    if (rows.length === 0) return [`${name} reported nothing`];
    for (const row of rows) console.log(describe(row));
    return rows.flatMap((row) => fault(row, short) ?? []);
  } catch (error) {
    console.error(error);
    return [`${name} broke off: ${error instanceof Error ? error.message : String(error)}`];
  }
}

async function main(): Promise<number> {
  const { values } = parseArgs({
    options: {
      short: { type: 'boolean', default: false },
      only: { type: 'string' },
      against: { type: 'string' },
    },
  });
  if (values.against !== undefined) {
    console.log(machine());
    await runAgainst(values.against, values.only ?? '');
    return 0;
  }
  const chosen = BENCHMARKS.filter(({ name }) => values.only === undefined || name === values.only);
  if (chosen.length === 0) {
    console.error(`no benchmark is called ${values.only ?? ''}; there are:`);
    for (const { name } of BENCHMARKS) console.error(`  ${name}`);
    return 2;
  }
  console.log(machine());
  const faults: string[] = [];
  for (const { name, run } of chosen) faults.push(...(await runOne(name, run, values.short)));
  console.log(faults.length === 0 ? '\nall benchmarks stand' : '\nfaults:');
  for (const text of faults) console.log(`  ${text}`);
  return faults.length === 0 ? 0 : 1;
}

process.exitCode = await main();
