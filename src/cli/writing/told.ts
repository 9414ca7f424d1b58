/** What goes out past a report's own lines, with nothing in it that a terminal would act on. */

import { clean } from '../../words/text.js';
import type { Look } from '../../words/text.js';

// JSON.stringify escapes the first 32 control characters and half letters, and leaves these: other control
// characters (U+009B begins a sequence as ESC [ does), what turns the direction of text, what cannot be seen.
// A new line is the JSON's own, between values.
const UNSEEN = /(?!\n)[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu;

/** An answer for programs: JSON over lines, its texts as they are but written so that a terminal shows them. */
export function jsonText(answer: object): string {
  return `${JSON.stringify(answer, null, 2).replace(UNSEEN, escapes)}\n`;
}

function escapes(character: string): string {
  const units = Array.from({ length: character.length }, (_, i) => character.charCodeAt(i));
  return units.map((unit) => `\\u${unit.toString(16).padStart(4, '0')}`).join('');
}

/** Says that a file was written, whatever its path is made of. */
export function writtenText(path: string, look: Look): string {
  return `Written: ${clean(path, look)}\n`;
}
