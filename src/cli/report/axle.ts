/** What the front axle carries before and after. */

import type { OptionSet } from '../../model/scenario.js';
import type { Standing } from '../../solver/answer.js';
import { axleWords } from '../../words/axle.js';
import type { Telling } from '../../words/words.js';
import { paragraph, whole } from './lines.js';
import type { Section } from './lines.js';

/** One line; nothing where the file has no weights. */
export function axleSection(
  set: OptionSet,
  { position }: Pick<Standing, 'position'>,
  telling: Telling,
): Section {
  const words = axleWords(set, position, telling);
  return whole(words === undefined ? [] : paragraph('Axle', words, telling.look));
}
