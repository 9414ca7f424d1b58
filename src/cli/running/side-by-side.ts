/**
 * Cases on several threads: this one takes cases too, so that no core is idle and a case that a thread
 * fails at is answered here. Every case is answered alike wherever it is, so the answer is that of one thread.
 */

import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { asItStands } from '../../model/asked/cases.js';
import type { Case } from '../../model/asked/cases.js';
import type { Scenario } from '../../model/scenario.js';
import type { Signal } from '../../solver/asked.js';
import { CaseBench, comparisonOf, unsearchedDone } from '../../solver/explaining/compare.js';
import type { CaseDone, CompareRequest, Comparison } from '../../solver/explaining/compare.js';
import type { CaseJob } from './case-worker.js';
import { USUAL_MEMORY } from './interrupt.js';
import type { Interrupt } from './interrupt.js';
import type { Io } from '../io.js';
import { ProgressLine, QUIET } from './progress.js';
import type { Showing } from './progress.js';

/** Beside the bundled command; there is none where the source itself runs. */
const WORKER = new URL('./case-worker.js', import.meta.url);

/** Pairs of parts times cases under which one thread is done before another has started. */
const WORTH_A_THREAD = 2000;
/** More threads than this only wait for memory. */
const MOST_THREADS = 8;
/** MiB that a thread needs at least. */
const LEAST_EACH = 256;
/** Milliseconds between looks at signals and at the other threads. */
const BREATH = 10;
const WATCH = 25;
/** Milliseconds that a thread waits for its next case: as good as for ever. */
const IDLE = 60_000;

/** What a thread runs for each case: the worker's own name for it. */
const ANSWER = 'answerCase';

/** Numbers of `SIGNALS`, which is not imported: the worker's file is for threads alone. */
const WORDS = { go: 0, time: 1, asked: 2, memory: 3 } as const;

/** Where the cases run, for tests and benchmarks to say otherwise. */
export interface Threads {
  readonly worker?: URL;
  readonly most?: number;
  /** MiB for all of them together. */
  readonly memory?: number;
}

/** How many threads beside this one the cases are worth; none where the worker's file is missing. */
export function threadsFor(
  scenario: Scenario,
  cases: number,
  { worker = WORKER, most = MOST_THREADS, memory = USUAL_MEMORY }: Threads = {},
): number {
  const engine = scenario.parts.filter(({ side }) => side === 'engine').length;
  const pairs = engine * (scenario.parts.length - engine);
  if (cases * pairs < WORTH_A_THREAD || !existsSync(fileURLToPath(worker))) return 0;
  const room = Math.floor(memory / LEAST_EACH);
  return Math.max(0, Math.min(most, availableParallelism(), cases, room) - 1);
}

/** Compares cases, each on whichever thread is free. */
export async function sideBySide(
  scenario: Scenario,
  others: readonly Case[],
  request: CompareRequest,
  io: Io,
  interrupt: Interrupt,
  showing: Showing,
  threads: number,
  worker: URL = WORKER,
): Promise<Comparison> {
  const { Tinypool } = await import('tinypool');
  const cases = [asItStands(scenario), ...others];
  const signal = new SharedArrayBuffer(4);
  const memory = Math.floor(interrupt.shared(threads + 1));
  const job: CaseJob = { scenario, cases, request, signal, memory };
  const run = new Run(scenario, cases, io, interrupt, showing, new Int32Array(signal));
  const pool = new Tinypool({
    filename: worker.href,
    workerData: job,
    minThreads: 0,
    maxThreads: threads,
    idleTimeout: IDLE,
    resourceLimits: { maxOldGenerationSizeMb: memory },
  });
  // A thread that cannot start would be started again and again: no case waits for it.
  const broken = new Promise<never>((_, fail) => pool.on('error', fail));
  broken.catch(() => undefined);
  const watching = run.watch();
  try {
    const there = Array.from({ length: threads }, () =>
      run.lane((index) =>
        Promise.race([pool.run(index, { name: ANSWER }) as Promise<CaseDone>, broken]),
      ),
    );
    const bench = new CaseBench(scenario, cases, request);
    // Any case may be left undecided from now on.
    interrupt.listen();
    const here = run.lane((index) => run.answer(bench, index));
    await Promise.all([here, ...there]);
    // What a thread failed at.
    for (const index of run.left()) run.done[index] = await run.answer(bench, index);
  } finally {
    run.end();
    await Promise.all([watching, ended(pool)]);
  }
  return comparisonOf(run.done as CaseDone[], request.tolerance);
}

/** A pool of threads, as its package keeps it. */
interface Pool {
  readonly threads: readonly object[];
  destroy(): Promise<void>;
}

/**
 * Ends the threads of a pool. One may fail while it is waited for; the package then calls for a listener to be
 * taken off that its threads do not know how to take off, and throws where nobody could catch it.
 */
export async function ended(pool: Pool): Promise<void> {
  for (const thread of pool.threads) {
    if (!('removeListener' in thread)) Object.assign(thread, { removeListener: () => thread });
  }
  // A failure has been told already, by its case.
  await pool.destroy().catch(() => undefined);
}

/** The cases of one comparison, handed out in order, and the word that stops them. */
class Run {
  readonly done: (CaseDone | undefined)[];
  private next = 0;
  private ended = false;
  private readonly began: number;
  private readonly line: ProgressLine;

  constructor(
    private readonly scenario: Scenario,
    private readonly cases: readonly Case[],
    private readonly io: Io,
    private readonly interrupt: Interrupt,
    private readonly showing: Showing,
    private readonly signal: Int32Array,
  ) {
    this.done = cases.map(() => undefined);
    this.began = io.now();
    this.line = new ProgressLine(io, showing.look);
  }

  /** Takes one case after another until none is left, or one fails. */
  async lane(answer: (index: number) => Promise<CaseDone>): Promise<void> {
    while (this.next < this.cases.length) {
      const index = this.next++;
      try {
        this.done[index] = await answer(index);
      } catch {
        return;
      }
    }
  }

  left(): number[] {
    return this.done.flatMap((one, index) => (one === undefined ? [index] : []));
  }

  /** Answers a case on this thread, with room for signals and for the other threads. */
  async answer(bench: CaseBench, index: number): Promise<CaseDone> {
    const one = this.cases[index]!;
    const stopped = this.word();
    if (stopped !== 'go') return unsearchedDone(this.scenario, one, stopped);
    const steps = bench.answer(one);
    let step = steps.next();
    let breathed = this.io.now();
    while (step.done !== true) {
      if (this.io.now() - breathed >= BREATH) {
        await this.io.breathe();
        breathed = this.io.now();
      }
      step = steps.next(this.word());
    }
    return step.value;
  }

  /** Keeps the clock and the line while other threads work. */
  async watch(): Promise<void> {
    while (!this.ended && this.left().length > 0) {
      this.word();
      const now = this.io.now();
      if (now - this.began >= QUIET) {
        const of = this.cases.length;
        const seconds = Math.floor((now - this.began) / 1000);
        const text = `${of - this.left().length} of ${of} cases, ${seconds} s`;
        this.line.draw(now, [`${text} (Ctrl-C to stop)`, text]);
      }
      await wait(WATCH);
    }
  }

  end(): void {
    this.ended = true;
    this.line.clear();
  }

  /** What every thread is told now. */
  private word(): Signal {
    const word = this.interrupt.word();
    Atomics.store(this.signal, 0, WORDS[word]);
    return word;
  }
}
