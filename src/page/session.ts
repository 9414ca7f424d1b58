/**
 * One scenario on the page: its history, what is measured at the present place, and the moment when it has
 * come to rest. Knows nothing of elements; whoever listens draws.
 */

import type { Scenario } from '../model/scenario.js';
import type { Standing } from '../solver/answer.js';
import { begun, changed, ended, redone, replaced, undone } from './history.js';
import type { History } from './history.js';
import { Live } from './live.js';
import type { Measured } from './page.js';
import type { Looking, Place, State } from './state.js';

/** Rules followed while the engine moves. */
export const FOLLOWED = 8;

export class Session {
  private history: History<State>;
  private live: { readonly key: string; readonly meter: Live } | undefined;
  private last: Measured = { worst: [] };

  constructor(
    readonly scenario: Scenario,
    readonly text: string,
    state: State,
  ) {
    this.history = begun(state);
  }

  get state(): State {
    return this.history.now;
  }

  get measured(): Measured {
    return this.last;
  }

  get canUndo(): boolean {
    return this.history.past.length > 0;
  }

  get canRedo(): boolean {
    return this.history.future.length > 0;
  }

  change(next: Partial<State>, by: string): void {
    this.history = changed(this.history, { ...this.state, ...next }, by);
  }

  ended(): void {
    this.history = ended(this.history);
  }

  /** Which way it looks is nothing to undo. */
  look(looking: Looking): void {
    this.history = replaced(this.history, { ...this.state, looking });
  }

  undo(): void {
    this.went(undone(this.history));
  }

  redo(): void {
    this.went(redone(this.history));
  }

  private went(history: History<State>): void {
    const { looking } = this.state;
    this.history = replaced(history, { ...history.now, looking });
  }

  /** The worst rules at the present place, while it may be about to change. */
  follow(): void {
    this.last = { worst: this.meter(this.state).worst(this.state.position, FOLLOWED) };
  }

  /** All rules at the present place; the worst of those that a position changes lead. */
  settle(): void {
    const standing = this.measure(this.state);
    const worst = standing.readings.filter(({ fixed }) => !fixed).slice(0, FOLLOWED);
    this.last = { worst, standing };
  }

  /** Any place, at rest. */
  measure(place: Place): Standing {
    return this.meter(place).rest(place.position);
  }

  private meter(place: Place): Live {
    const key = JSON.stringify([place.options, place.depths]);
    if (this.live?.key === key) return this.live.meter;
    const meter = new Live(this.scenario, place);
    // Places kept for comparison come and go; only the present one is worth remembering.
    if (key === JSON.stringify([this.state.options, this.state.depths])) this.live = { key, meter };
    return meter;
  }
}
