/**
 * Another state of this repository against this one, in one run: their solvers take turns, so that what
 * the machine does meanwhile slows both. `npm run bench -- --against OTHER-CHECKOUT`.
 */

import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { performance } from 'node:perf_hooks';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import type { readScenario as Read } from '../src/model/read.js';
import type { Effort, PlaceAnswer } from '../src/solver/answer.js';
import type { place as Place } from '../src/solver/place.js';
import type { PlaceRequest } from '../src/solver/asked.js';
import { requestFor } from '../tests/support/solve.js';
import { median } from './harness.js';
import { largeBay } from './large-bay.js';
import { IN, textOf } from './placing.js';

interface Solver {
  readonly readScenario: typeof Read;
  readonly place: typeof Place;
}

interface Task {
  readonly name: string;
  readonly text: string;
  readonly more: Partial<PlaceRequest>;
  readonly rounds: number;
}

const CACHE = resolve('node_modules/.cache/berth');
const TASKS: readonly Task[] = [
  {
    name: 'study bay, main answer',
    text: textOf('tests/bays/study.json'),
    more: { only: 'place', tolerance: 0.005 * IN },
    rounds: 15,
  },
  {
    name: 'demo, main answer',
    text: textOf('scenarios/orchard-hauler.yaml'),
    more: { only: 'place' },
    rounds: 7,
  },
  {
    name: 'demo, whole answer',
    text: textOf('scenarios/orchard-hauler.yaml'),
    more: {},
    rounds: 3,
  },
  { name: '60 x 60 parts, main answer', text: largeBay(), more: { only: 'place' }, rounds: 1 },
  { name: '60 x 60 parts, whole answer', text: largeBay(), more: {}, rounds: 1 },
];

/** The solver of a checkout, bundled beside ours so that packages are found. */
async function solverOf(checkout: string, name: string): Promise<Solver> {
  const outfile = join(CACHE, `against-${name}.mjs`);
  mkdirSync(CACHE, { recursive: true });
  await build({
    absWorkingDir: checkout,
    stdin: {
      contents: `export { readScenario } from './src/model/read.js';
        export { place } from './src/solver/place.js';`,
      resolveDir: checkout,
    },
    outfile,
    bundle: true,
    packages: 'external',
    format: 'esm',
    platform: 'node',
    target: 'node20',
    logLevel: 'warning',
  });
  return (await import(pathToFileURL(outfile).href)) as Solver;
}

/** Milliseconds from the scenario to its answer. */
function timed(solver: Solver, task: Task): { time: number; answer: PlaceAnswer } {
  const { scenario } = solver.readScenario(task.text, 'auto');
  if (!scenario) throw new Error(`${task.name}: the file is not read`);
  const start = performance.now();
  const steps = solver.place(scenario, requestFor(scenario, task.more));
  for (let step = steps.next(); ; step = steps.next('go')) {
    if (step.done) return { answer: step.value, time: performance.now() - start };
  }
}

function work({ boxes, gaps, lps }: Effort): string {
  return `${boxes} boxes, ${gaps} gaps, ${lps} LPs`;
}

/**
 * Prints what both take for the same answers; throws where one is not proved, or they differ.
 * @param checkout the folder of the other state, its packages installed.
 * @param only a part of a task's name; all of them where it is empty.
 */
export async function runAgainst(checkout: string, only: string): Promise<void> {
  const before = await solverOf(resolve(checkout), 'before');
  const after = await solverOf(process.cwd(), 'after');
  for (const task of TASKS.filter(({ name }) => name.includes(only))) {
    // The first round pays for compiling the code.
    let [was, is] = [timed(before, task), timed(after, task)];
    const times = { before: [] as number[], after: [] as number[] };
    for (let n = 0; n < task.rounds; n++) {
      [was, is] = [timed(before, task), timed(after, task)];
      times.before.push(was.time);
      times.after.push(is.time);
    }
    const margins = [was, is].map(({ answer }) => answer.main.optimum.margin);
    const apart = Math.abs(margins[0]! - margins[1]!);
    const proved = [was, is].every(({ answer }) => answer.main.best === 'proved');
    if (!(apart <= IN / 64) || !proved) {
      throw new Error(`${task.name}: the answers are ${apart} mm apart, or not proved`);
    }
    const [a, b] = [median(times.before), median(times.after)];
    const ratio = (b / a).toFixed(3);
    console.log(`${task.name}: ${a.toFixed(1)} ms before, ${b.toFixed(1)} ms after, ratio ${ratio}
  before: ${work(was.answer.effort)}
  after:  ${work(is.answer.effort)}
  medians of ${task.rounds} rounds in turn; both proved, margins ${apart.toExponential(1)} mm apart`);
  }
}
