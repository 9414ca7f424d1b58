/** Every campaign by name, in the order they run. */

import { DEGENERATE } from './degenerate.js';
import { FITUP } from './fitup.js';
import { LARGE } from './large.js';
import { MUTATED } from './mutated.js';
import { PLANTED } from './planted.js';
import { RANDOM } from './random.js';
import type { Subject } from './subject.js';
import { WISHES } from './wishes.js';

export const SUBJECTS: Readonly<Record<string, Subject>> = {
  planted: PLANTED,
  random: RANDOM,
  degenerate: DEGENERATE,
  wishes: WISHES,
  large: LARGE,
  mutated: MUTATED,
  fitup: FITUP,
};
