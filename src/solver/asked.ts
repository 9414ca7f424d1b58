/** What `place` is asked, and what its caller answers to each progress report. */

import type { Coordinate, Range } from '../model/scenario.js';
import type { Aim, Stopped } from './answer.js';

export interface PlaceRequest {
  readonly aim: Aim;
  /** Millimetres of margin that an aim other than `margin` must keep. */
  readonly keep: number;
  /** Millimetres between margin and bound at which the answer counts as proved. */
  readonly tolerance: number;
  /** Whose marks a setting stands on, 1/16 in or 1 mm; the file's unless given. */
  readonly units?: 'in' | 'mm';
  /** Narrower ranges for some coordinates, inside the file's. */
  readonly pins: Partial<Readonly<Record<Coordinate, Range>>>;
  /** Option indexes allowed per choice. */
  readonly allowed: readonly (readonly number[])[];
  /** `main`: leave out the other two answers and the wishes; `place`: and the slack about it. */
  readonly only?: 'main' | 'place';
}

export type Signal = 'go' | Stopped;
