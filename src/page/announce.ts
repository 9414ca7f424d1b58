/** What a screen reader is told without being asked: the last word once things have come to rest. */

import { el } from './dom.js';
import { spoken } from './spoken.js';

/** Milliseconds of quiet before anything is said. */
const QUIET = 500;

export class Announcer {
  readonly element = el('p', {
    class: 'unseen',
    attrs: { role: 'status', 'aria-live': 'polite', 'aria-atomic': 'true' },
  });
  private timer = 0;

  /** Says it after a moment, unless something else is to be said by then. */
  say(text: string): void {
    window.clearTimeout(this.timer);
    this.timer = window.setTimeout(() => {
      this.element.textContent = spoken(text);
    }, QUIET);
  }
}
