/** A question to the worker: its buttons, how far it is, a button to stop it, and where the answer goes. */

import type { Progress } from '../../solver/answer.js';
import { boundWords, countOf, spare } from '../../words/words.js';
import { button, el, write } from '../dom.js';
import type { Page } from '../page.js';
import type { Answers, Question } from '../protocol.js';
import { capital } from './verdict.js';

export interface SolverBlock {
  readonly element: HTMLElement;
  /** Where answers are shown. */
  readonly answer: HTMLElement;
  ask<Q extends Question>(question: Q, show: (answer: Answers[Q['kind']]) => readonly Node[]): void;
}

export function solverBlock(page: Page, ...buttons: readonly HTMLElement[]): SolverBlock {
  const told = el('p', { class: 'told' });
  const bar = el('progress', { attrs: { 'aria-label': 'Solving' } });
  const stop = button('Stop', () => page.bench.stop(), { class: 'stop' });
  const running = el('div', { class: 'running' }, bar, told, stop);
  const answer = el('div', { class: 'answer' });
  running.hidden = true;
  const element = el(
    'div',
    { class: 'solver' },
    el('div', { class: 'asks' }, ...buttons),
    running,
    answer,
  );
  const end = (nodes: readonly Node[], words: string) => {
    const hadFocus = document.activeElement === stop;
    running.hidden = true;
    answer.replaceChildren(...nodes);
    answer.setAttribute('tabindex', '-1');
    if (hadFocus) answer.focus();
    page.say(words);
  };
  return {
    element,
    answer,
    ask: (question, show) => {
      running.hidden = false;
      answer.replaceChildren();
      write(told, 'Solving');
      page.say('Solving');
      page.bench.ask(page.text, question, {
        progress: (progress) => write(told, progressWords(progress, page)),
        done: (found) => {
          const nodes = show(found);
          end(nodes, nodes[0]?.textContent ?? 'Done');
        },
        refused: (message) => end([el('p', { class: 'wrong' }, capital(message))], message),
      });
    },
  };
}

function progressWords({ doing, count, best, bound, effort }: Progress, page: Page): string {
  const { units } = page.telling;
  const of = count ? ` ${count.at} of ${count.of}` : '';
  const found =
    best === undefined || bound === undefined
      ? ''
      : `: ${best === -Infinity ? 'nothing found yet' : `best ${spare(best, units)}`}, at most ${boundWords(bound, units)}`;
  return `${capital(doing)}${of}${found}; ${countOf(effort.boxes, 'box', 'boxes')} looked at`;
}
