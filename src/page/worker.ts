/**
 * The worker's entry: solves one question at a time in short stretches, so that a word to stop is heard
 * between them.
 */

import { readScenario } from '../model/read.js';
import type { Signal } from '../solver/asked.js';
import type { Order, Report } from './protocol.js';
import { solvingOf } from './solving.js';

/** Milliseconds of work before the worker listens, and between words on how far it is. */
const STRETCH = 25;
const TELL = 150;

/** A worker's own scope, as far as it is used here. */
interface Scope {
  onmessage: ((event: MessageEvent<Order>) => void) | null;
  postMessage(report: Report): void;
}
const scope = self as unknown as Scope;

let current = 0;
let stopped = false;

scope.onmessage = ({ data }) => {
  if (data.do === 'stop') {
    if (data.id === current) stopped = true;
    return;
  }
  current = data.id;
  stopped = false;
  void solve(data);
};

async function solve({ id, text, question }: Extract<Order, { do: 'solve' }>): Promise<void> {
  try {
    const { scenario, problems } = readScenario(text, 'auto');
    const search = scenario ? solvingOf(scenario, question) : { message: problems[0]!.message };
    if ('message' in search) {
      scope.postMessage({ say: 'refused', id, message: search.message });
      return;
    }
    let word: Signal = 'go';
    let breathed = performance.now();
    let told = -Infinity;
    for (;;) {
      const step = search.next(word);
      if (step.done === true) {
        scope.postMessage({ say: 'done', id, answer: step.value });
        return;
      }
      const now = performance.now();
      if (now - told >= TELL) {
        scope.postMessage({ say: 'progress', id, progress: step.value });
        told = now;
      }
      if (now - breathed >= STRETCH) {
        await breath();
        breathed = performance.now();
        if (id !== current) return;
        if (stopped) word = 'asked';
      }
    }
  } catch (error) {
    scope.postMessage({ say: 'refused', id, message: `this went wrong: ${String(error)}` });
  }
}

function breath(): Promise<void> {
  return new Promise((resolve) => void setTimeout(resolve));
}
