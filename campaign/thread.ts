/**
 * The thread that tries cases, and the one that watches over it. A case that takes too long, or more
 * memory than it may, ends the thread and not the campaign: the next case gets another.
 */

import { parentPort, Worker, workerData } from 'node:worker_threads';
import { seeded } from '../tests/geometry/random.js';
import { caseSeed } from './seeds.js';
import { SUBJECTS } from './subjects.js';
import type { Result, Subject } from './subject.js';

interface Given {
  readonly name: string;
  readonly seed: number;
}

/** Within a thread: tries the cases that it is sent, one at a time, to the end of the process. */
export async function serve(): Promise<void> {
  const { name, seed } = workerData as Given;
  const trial = await SUBJECTS[name]!.open();
  const port = parentPort!;
  port.on('message', (number: number) => {
    const own = caseSeed(name, seed, number);
    const tried = new Promise<Result>((resolve) => {
      resolve(trial({ number, seed: own, random: seeded(own) }));
    });
    tried.then(
      (result) => port.postMessage(result),
      (error: unknown) => port.postMessage(broken(error)),
    );
  });
  port.postMessage('ready');
}

function broken(error: unknown): Result {
  const said = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return { faults: [`threw ${said}`], counts: { threw: 1 } };
}

/** A thread that tries cases of one subject. */
export class Trier {
  private worker: Worker | undefined;

  constructor(
    private readonly given: Given,
    private readonly subject: Subject,
  ) {}

  /** Tries one case; a hang, a crash or too much memory is a result too. */
  async attempt(number: number): Promise<Result> {
    const { seconds } = this.subject;
    const worker = this.worker ?? (await this.started());
    if ('faults' in worker) return worker;
    this.worker = worker;
    const answer = heard(worker, 1000 * seconds);
    worker.postMessage(number);
    const said = await answer;
    if (typeof said === 'object') return said;
    await this.close();
    return said === 'silence'
      ? { faults: [`hung: no answer in ${seconds} s`], counts: { hung: 1 } }
      : { faults: [`ended its thread: ${said}`], counts: { crashed: 1 } };
  }

  async close(): Promise<void> {
    await this.worker?.terminate();
    this.worker = undefined;
  }

  private async started(): Promise<Worker | Result> {
    const worker = new Worker(process.argv[1]!, {
      workerData: this.given,
      resourceLimits: { maxOldGenerationSizeMb: this.subject.memory },
    });
    // Heard of by whoever waits for the next answer; an error that nobody hears would end the process.
    worker.on('error', () => {});
    const said = await heard(worker, OPENING);
    if (said === 'ready') return worker;
    await worker.terminate();
    const how = typeof said === 'string' ? said : said.faults.join('; ');
    return { faults: [`could not begin: ${how}`], counts: {} };
  }
}

/** Milliseconds to make ready. */
const OPENING = 120_000;

/** The next thing a thread says: a result, `ready`, `silence` when it says nothing in time, or how it ended. */
function heard(worker: Worker, most: number): Promise<Result | string> {
  return new Promise((resolve) => {
    const timer = setTimeout(() => end('silence'), most);
    const message = (said: Result | string): void => end(said);
    const fault = (error: Error): void => end(error.message);
    const exit = (status: number): void => end(`exit status ${status}`);
    const end = (said: Result | string): void => {
      clearTimeout(timer);
      worker.off('message', message).off('error', fault).off('exit', exit);
      resolve(said);
    };
    worker.on('message', message).on('error', fault).on('exit', exit);
  });
}
