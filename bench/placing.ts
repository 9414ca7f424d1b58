/** How the solver's benchmarks read a bay, place an engine and race `highs` on one pitch of it. */

import { readFileSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { readScenario } from '../src/model/read.js';
import type { Scenario } from '../src/model/scenario.js';
import type { PlaceAnswer } from '../src/solver/answer.js';
import { compileBay } from '../src/solver/measuring/compile.js';
import { place } from '../src/solver/place.js';
import type { PlaceRequest } from '../src/solver/asked.js';
import { loadHighs } from '../tests/support/highs.js';
import { straightBayOf, straightProgram } from '../tests/support/milp.js';
import { requestFor } from '../tests/support/solve.js';
import { median } from './harness.js';

export const IN = 25.4;
export const DEGREE = Math.PI / 180;
/** Millimetres: the tolerances of `highs` through a big constant. */
const THEIRS = 1e-4;

/** Reads a scenario of the repository; throws what is wrong with it. */
export function scenarioAt(path: string): Scenario {
  const { scenario, problems } = readScenario(textOf(path), 'auto');
  if (scenario) return scenario;
  throw new Error(`${path}: ${problems.map(({ message }) => message).join('; ')}`);
}

export function textOf(path: string): string {
  return readFileSync(path, 'utf8');
}

export interface Timed {
  readonly answer: PlaceAnswer;
  /** Milliseconds. */
  readonly time: number;
}

/** Places the engine; stops with what it has after `limit` ms. */
function placeTimed(scenario: Scenario, more: Partial<PlaceRequest>, limit = Infinity): Timed {
  const start = performance.now();
  const steps = place(scenario, requestFor(scenario, more));
  let step = steps.next();
  while (!step.done) step = steps.next(performance.now() - start < limit ? 'go' : 'time');
  return { answer: step.value, time: performance.now() - start };
}

/** The median time of several placings, the first `warm` left out: they pay for compiling the code. */
export function placeMedian(
  scenario: Scenario,
  more: Partial<PlaceRequest>,
  runs: number,
  warm = 1,
): Timed {
  const all = Array.from({ length: runs + warm }, () => placeTimed(scenario, more)).slice(warm);
  return { answer: all[0]!.answer, time: median(all.map(({ time }) => time)) };
}

export interface Slices {
  /** Milliseconds: the median of the program as one would write it down. */
  readonly time: number;
  readonly checked: number;
  /** What a reader must know of the race. */
  readonly note: string;
}

/**
 * The median time `highs` takes for the bay at some pitches (radians), programs built beforehand and,
 * where there are several pitches, `highs` warmed up by `warm` runs on the first. Every slice is checked: its best
 * place is one of the bay's, so it cannot exceed `bound` (mm); and a smaller program of it, without
 * the pairs and directions that the ranges rule out, must come to the same.
 */
export async function sliceMedian(
  scenario: Scenario,
  pitches: readonly number[],
  allowed: PlaceRequest['allowed'],
  bound: number,
  warm = 1,
): Promise<Slices> {
  const highs = await loadHighs();
  const bay = compileBay(scenario, { allowed });
  const slices = pitches.map((pitch) => {
    const straight = straightBayOf(bay, pitch);
    return { pitch, plain: straightProgram(straight, true), small: straightProgram(straight) };
  });
  const solved = (slice: ReturnType<typeof straightProgram>) => {
    const start = performance.now();
    const { margin, integers } = slice.solve(highs);
    return { margin, integers, time: performance.now() - start };
  };
  for (let n = 0; n < warm && slices.length > 1; n++) solved(slices[0]!.plain);
  const all = slices.map(({ pitch, plain, small }) => {
    const [own, other] = [solved(plain), solved(small)];
    const at = `at ${pitch / DEGREE} degrees highs finds ${own.margin}`;
    if (own.margin > bound + THEIRS) throw new Error(`${at}, over the bound ${bound}`);
    if (Math.abs(own.margin - other.margin) > THEIRS) throw new Error(`${at} and ${other.margin}`);
    return { own, other };
  });
  const small = median(all.map(({ other }) => other.time));
  return {
    time: median(all.map(({ own }) => own.time)),
    checked: 2 * all.length,
    note:
      `median of ${all.length} pitches, ${all[0]!.own.integers} integers; ` +
      `reduced to ${all[0]!.other.integers} beforehand, highs takes ${small.toFixed(0)} ms`,
  };
}

/** Throws unless the main answer is proved; says of what in the message. */
export function expectProved(answer: PlaceAnswer, what: string): void {
  if (answer.main.best === 'proved' && answer.stopped === undefined) return;
  throw new Error(`${what}: not proved (${answer.stopped ?? 'open'})`);
}
