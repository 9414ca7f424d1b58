/** A thread that answers cases, one a task, of the job it was started with. */

import { Tinypool } from 'tinypool';
import type { Case } from '../../model/asked/cases.js';
import type { Scenario } from '../../model/scenario.js';
import { CaseBench, unsearchedDone } from '../../solver/explaining/compare.js';
import type { CaseDone, CompareRequest } from '../../solver/explaining/compare.js';
import { isFull } from './memory.js';

export interface CaseJob {
  readonly scenario: Scenario;
  readonly cases: readonly Case[];
  readonly request: CompareRequest;
  /** MiB for each thread. */
  readonly memory: number;
  /** One 32-bit index into `SIGNALS`, read between any two steps. */
  readonly signal: SharedArrayBuffer;
}

/** What a thread is told, by its number. */
export const SIGNALS = ['go', 'time', 'asked', 'memory'] as const;

/** Milliseconds between looks at memory. */
const LOOK = 100;

let bench: CaseBench | undefined;

/** Answers the case of this index; undecided where the word is to stop. */
export function answerCase(index: number): CaseDone {
  const { scenario, cases, request, signal, memory } = Tinypool.workerData as CaseJob;
  const heard = new Int32Array(signal);
  let looked = performance.now();
  const word = () => {
    const said = SIGNALS[Atomics.load(heard, 0)]!;
    if (said !== 'go' || performance.now() - looked < LOOK) return said;
    looked = performance.now();
    return isFull(memory) ? 'memory' : 'go';
  };
  const stopped = word();
  if (stopped !== 'go') return unsearchedDone(scenario, cases[index]!, stopped);
  bench ??= new CaseBench(scenario, cases, request);
  const steps = bench.answer(cases[index]!);
  let step = steps.next();
  while (step.done !== true) step = steps.next(word());
  return step.value;
}
