/** The page's end of the worker: one question at a time, with progress, that can be stopped. */

import type { Progress } from '../solver/answer.js';
import type { Answers, Order, Question, Report } from './protocol.js';

export interface Asking<K extends Question['kind']> {
  readonly progress: (progress: Progress) => void;
  readonly done: (answer: Answers[K]) => void;
  readonly refused: (message: string) => void;
}

/** What browsers have that know trusted types; the rest take a plain address. */
interface TrustedTypes {
  createPolicy(
    name: string,
    rules: { readonly createScriptURL: (url: string) => string },
  ): { createScriptURL(url: string): string };
}

/** The one policy that the page's own allows (`tools/page.mjs`): nothing else of it may become code. */
const WORKERS = 'berth-worker';

let workers: { createScriptURL(url: string): string } | undefined;

function trusted(url: string): string {
  const { trustedTypes } = window as { readonly trustedTypes?: TrustedTypes };
  workers ??= trustedTypes?.createPolicy(WORKERS, { createScriptURL: (own) => own });
  return workers?.createScriptURL(url) ?? url;
}

export class Bench {
  private worker: Worker | undefined;
  private id = 0;
  private asking: Asking<Question['kind']> | undefined;

  /** @param source the worker's script. */
  constructor(private readonly source: string) {}

  /** Asks; what was asked before is given up without an answer. */
  ask<Q extends Question>(text: string, question: Q, asking: Asking<Q['kind']>): void {
    this.id++;
    this.asking = asking;
    this.post({ do: 'solve', id: this.id, text, question });
  }

  /** Ends the question with what is known so far. */
  stop(): void {
    this.post({ do: 'stop', id: this.id });
  }

  /** Gives the question up: nothing more is heard of it. */
  drop(): void {
    if (!this.asking) return;
    this.asking = undefined;
    this.stop();
  }

  private post(order: Order): void {
    this.worker ??= this.started();
    this.worker.postMessage(order);
  }

  private started(): Worker {
    const url = URL.createObjectURL(new Blob([this.source], { type: 'text/javascript' }));
    const worker = new Worker(trusted(url));
    URL.revokeObjectURL(url);
    worker.onmessage = ({ data }: MessageEvent<Report>) => this.heard(data);
    worker.onerror = () => {
      this.asking?.refused('this browser could not start the solver');
      this.asking = undefined;
    };
    return worker;
  }

  private heard(report: Report): void {
    if (report.id !== this.id || !this.asking) return;
    const asking = this.asking;
    if (report.say === 'progress') {
      asking.progress(report.progress);
      return;
    }
    this.asking = undefined;
    if (report.say === 'done') asking.done(report.answer);
    else asking.refused(report.message);
  }
}
