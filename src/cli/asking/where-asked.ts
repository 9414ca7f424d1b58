/** Where the engine is to be: as typed, or where `berth place` sets it; and the options that go with it. */

import type { OptionSet } from '../../model/scenario.js';
import type { Seat } from '../../model/stance.js';
import type { Placement } from '../../solver/answer.js';
import { shownOf } from '../../solver/explaining/compare.js';
import { place } from '../../solver/place.js';
import { domainsAsked, optionNames, optionSetAsked } from './options-asked.js';
import { positionAsked } from './asked.js';
import type { Interrupt } from '../running/interrupt.js';
import type { Io } from '../io.js';
import type { Opened } from './opened.js';
import { drive } from '../running/progress.js';
import { DEFAULT_TOLERANCE } from './tolerance.js';

/** As commander gives them: all text. */
export interface WhereOptions {
  readonly at?: string;
  readonly option?: readonly string[];
}

export interface Where {
  readonly position: Seat;
  readonly set: OptionSet;
  /** How good the place is, where it was searched for. */
  readonly found?: Pick<Placement, 'fits' | 'best'>;
}

/**
 * Without a place typed it is searched for, under the options held; a place typed takes the first option of
 * what is not held.
 * @throws UserError for anything wrong with the options.
 */
export async function whereAsked(
  { scenario, units, showing }: Opened,
  { at, option = [] }: WhereOptions,
  io: Io,
  interrupt: Interrupt,
): Promise<Where> {
  const names = optionNames(option);
  const allowed = domainsAsked(scenario, names);
  if (at !== undefined) {
    const position = positionAsked(at, units, scenario);
    return { position, set: optionSetAsked(scenario, names) };
  }
  const request = {
    aim: 'margin',
    keep: 0,
    pins: {},
    tolerance: DEFAULT_TOLERANCE,
    units,
    allowed,
    only: 'main',
  } as const;
  const { main } = await drive(place(scenario, request), io, interrupt, showing);
  return { position: shownOf(main).position, set: main.options, found: main };
}

/** What a place searched for is, where it is not the best that fits, proved; nothing otherwise. */
export function placeDoubt(found: Where['found']): string {
  if (!found || (found.fits === 'yes' && found.best === 'proved')) return '';
  if (found.fits === 'no') return 'nothing fits: this is the least bad place';
  return 'not proved: this is the best place found so far';
}
