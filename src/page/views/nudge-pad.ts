/** Buttons that move the engine by a step along the two ways of the view, and pitch it; arrow keys do the same. */

import type { Coordinate } from '../../model/scenario.js';
import { coordinateWords } from '../../words/where.js';
import { button, el, mark, write } from '../dom.js';
import type { Page, Panel } from '../page.js';
import { nudged, stepsOf, waysOf } from '../steps.js';
import type { Step } from '../steps.js';
import { ways } from './compass.js';

interface Move {
  readonly coordinate: Coordinate;
  readonly way: 1 | -1;
}
type Slot = 'left' | 'right' | 'up' | 'down' | 'less' | 'more';
const SLOTS: readonly Slot[] = ['left', 'right', 'up', 'down', 'less', 'more'];
const KEYS: Readonly<Record<string, Slot>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
  PageUp: 'less',
  PageDown: 'more',
};
const TURNS: Readonly<Record<Slot, readonly [string, number, number]>> = {
  left: ['Turn left', -1, 0],
  right: ['Turn right', 1, 0],
  up: ['Look higher', 0, 1],
  down: ['Look lower', 0, -1],
  less: ['', 0, 0],
  more: ['', 0, 0],
};

export class NudgePad implements Panel {
  readonly element: HTMLElement;
  private readonly buttons: Readonly<Record<Slot, HTMLButtonElement>>;
  private readonly sizes: readonly HTMLButtonElement[];
  private step: Step;

  /** @param turn turns the view in three dimensions by presses to the side and up. */
  constructor(
    private readonly page: Page,
    private readonly turn: (across: number, up: number) => void,
  ) {
    const steps = stepsOf(page.scenario);
    this.step = steps[0]!;
    const made = SLOTS.map((slot) => [
      slot,
      button('', () => this.go(slot, this.step), { class: slot }),
    ]);
    this.buttons = Object.fromEntries(made) as Record<Slot, HTMLButtonElement>;
    this.sizes = steps.map((step) =>
      button(step.name, () => {
        this.step = step;
        this.update();
      }),
    );
    this.element = el(
      'div',
      { class: 'pad' },
      el(
        'div',
        { class: 'ways', attrs: { role: 'group', 'aria-label': 'Move the engine a step' } },
        ...SLOTS.map((slot) => this.buttons[slot]),
      ),
      el(
        'div',
        { class: 'sizes', attrs: { role: 'group', 'aria-label': 'Size of a step' } },
        el('span', { class: 'label' }, 'Step'),
        ...this.sizes,
      ),
    );
  }

  update(): void {
    const { scenario, state } = this.page;
    const steps = stepsOf(scenario);
    this.sizes.forEach((size, i) =>
      mark(size, 'aria-pressed', String(steps[i]?.name === this.step.name)),
    );
    for (const slot of SLOTS) {
      const made = this.buttons[slot];
      const move = this.moveOf(slot);
      write(made, move ? waysOf(scenario, move.coordinate)[move.way > 0 ? 1 : 0] : TURNS[slot][0]);
      made.hidden = made.textContent === '';
      const range = move && scenario.position[move.coordinate];
      const isOut =
        move && range
          ? move.way > 0
            ? state.position[move.coordinate] >= range.max
            : state.position[move.coordinate] <= range.min
          : false;
      // A button at its end stays where the finger and the focus are.
      mark(made, 'aria-disabled', isOut ? 'true' : undefined);
    }
  }

  /** Whether the key is one of the pad's. */
  key({ key, shiftKey, repeat }: KeyboardEvent): boolean {
    const slot = KEYS[key];
    if (slot === undefined) return false;
    const steps = stepsOf(this.page.scenario);
    const at = steps.findIndex(({ name }) => name === this.step.name);
    const larger = steps[at + 1] ?? this.step;
    this.go(slot, shiftKey ? larger : this.step, repeat ? 'held' : '');
    return true;
  }

  /** @param by a key held down is undone as one. */
  private go(slot: Slot, step: Step, by = ''): void {
    const { page } = this;
    const move = this.moveOf(slot);
    if (!move) {
      const [, across, up] = TURNS[slot];
      this.turn(across, up);
      return;
    }
    const { coordinate, way } = move;
    const position = nudged(page.scenario, page.state.position, coordinate, way, step);
    page.change({ position }, by);
    page.say(coordinateWords(coordinate, position[coordinate], page.telling));
  }

  private moveOf(slot: Slot): Move | undefined {
    const { looking } = this.page.state;
    if (looking === 'turn') return undefined;
    if (slot === 'less' || slot === 'more') {
      return { coordinate: 'pitch', way: slot === 'more' ? 1 : -1 };
    }
    const { across, up } = ways(looking);
    const isAcross = slot === 'left' || slot === 'right';
    const { coordinate, sign } = isAcross ? across : up;
    const isMore = (slot === 'right' || slot === 'up') === sign > 0;
    return { coordinate, way: isMore ? 1 : -1 };
  }
}
