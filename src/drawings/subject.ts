/** What a set of drawings is of, and the words on it. */

import type { OptionSet, Scenario } from '../model/scenario.js';
import type { Units } from '../model/text/tape.js';
import type { Standing } from '../solver/answer.js';

export interface Subject {
  readonly scenario: Scenario;
  readonly set: OptionSet;
  readonly standing: Standing;
  readonly units: Units;
  /** The options in words. */
  readonly options: string;
  /** ISO, such as 2026-03-01. */
  readonly date: string;
}
