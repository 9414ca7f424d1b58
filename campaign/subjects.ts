/** Every campaign by name, in the order they run. */

import { FITUP } from './fitup.js';
import { MUTATED } from './mutated.js';
import { PLANTED } from './planted.js';
import { RANDOM } from './random.js';
import type { Subject } from './subject.js';

export const SUBJECTS: Readonly<Record<string, Subject>> = {
  planted: PLANTED,
  random: RANDOM,
  mutated: MUTATED,
  fitup: FITUP,
};
