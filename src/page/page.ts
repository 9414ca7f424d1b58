/** What the panels and views of the page share: the scenario as last read well, the state, and what to do. */

import type { Scenario } from '../model/scenario.js';
import type { Reading, Standing } from '../solver/answer.js';
import { keyOf } from '../solver/measuring/reading-key.js';
import type { Look } from '../words/text.js';
import type { Telling } from '../words/words.js';
import type { Bench } from './bench.js';
import type { Moving } from './live.js';
import type { Looking, Place, State } from './state.js';

/** Everything measured so far at the present place. */
export interface Measured {
  /** The worst first, as they are while the engine moves. */
  readonly worst: readonly Moving[];
  /** All of it, once at rest. */
  readonly standing?: Standing;
}

export interface Page {
  readonly scenario: Scenario;
  /** The text that the scenario was read from. */
  readonly text: string;
  readonly telling: Telling;
  readonly bench: Bench;
  readonly state: State;
  readonly measured: Measured;
  /** Which pair is marked. */
  readonly chosen: string | undefined;
  /** @param by changes of the same name in a row are undone as one. */
  change(next: Partial<State>, by?: string): void;
  look(looking: Looking): void;
  /** What comes next is undone by itself. */
  ended(): void;
  choose(pair: string | undefined): void;
  say(text: string): void;
  /** Measures another place, at rest. */
  measure(place: Place): Standing;
}

/** Part of the page: made once for a scenario, then kept up to date. */
export interface Panel {
  readonly element: HTMLElement;
  /** The state or what was measured has changed. */
  update(): void;
}

/** Nothing is cut to the width of a terminal. */
export const PAGE_LOOK: Look = { width: 400, plain: false, colour: false };

/** What tells a pair and its measure from others. */
export function pairKey(
  reading: Pick<Reading, 'between' | 'measured' | 'comingOut' | 'withdrawn'>,
): string {
  return `${keyOf(reading)}\n${reading.withdrawn?.part ?? ''}`;
}
