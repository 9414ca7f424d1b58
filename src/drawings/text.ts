/**
 * Text on a drawing: safe to write into SVG, and never wider than it is taken to be, whichever of the
 * usual sans-serif faces a reader has. Millimetres of paper.
 */

import { clean } from '../words/text.js';

/** The face asked for, and what it may be instead. */
export const FACE = "Arial, Helvetica, 'Liberation Sans', 'DejaVu Sans', sans-serif";

/** Millimetres: the least size of any text, 10 pt and a little. */
export const TEXT_SIZE = 3.6;

// Shares of the size of the text: the wider of Arial's and DejaVu Sans' letters, which are the narrowest and
// the widest of the usual faces, rounded up.
const GROUPS: readonly (readonly [number, string])[] = [
  [0.28, "ijl'"],
  [0.3, 'I'],
  [0.34, ' ,./:;\\|'],
  [0.4, '!f()[]-t'],
  [0.47, 'r"'],
  [0.53, 'sJ*`z'],
  [0.56, 'cL?_'],
  [0.6, 'kvxy'],
  [0.64, 'abdeghnopqu0123456789$FT{}'],
  [0.69, 'ABEKPSVXYZ'],
  [0.76, 'CHNRU'],
  [0.79, 'DGOQ&'],
  [0.84, '#+<=>^~w'],
  [0.87, 'M'],
  [0.98, 'm%'],
  [1, 'W@'],
];
const SHARES = new Map(
  GROUPS.flatMap(([share, letters]) => [...letters].map((one) => [one, share] as const)),
);
const FULL =
  /\p{Emoji_Presentation}|[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\ua960-\ua97f\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff01-\uff60\uffe0-\uffe6\u{20000}-\u{3fffd}]/u;

/** An upper bound of the width of cleaned text in the usual faces. */
export function textWidth(text: string, size = TEXT_SIZE): number {
  let width = 0;
  for (const character of text) width += shareOf(character);
  return width * size;
}

function shareOf(character: string): number {
  return SHARES.get(character) ?? (FULL.test(character) ? 1.4 : 1.05);
}

/** One line of text as on a terminal, in any letters. */
function cleaned(text: string): string {
  return clean(text, { plain: false });
}

/** Cleaned text cut to a width, with an ellipsis where something is gone. */
export function fitted(text: string, width: number, size = TEXT_SIZE): string {
  const clean = cleaned(text);
  if (textWidth(clean, size) <= width) return clean;
  const room = width - textWidth('…', size);
  let kept = '';
  for (const character of clean) {
    if (textWidth(kept + character, size) > room) break;
    kept += character;
  }
  return `${kept.trimEnd()}…`;
}

/** Words on as many lines as they need, each of them fitted; the last one ends in an ellipsis if more was said. */
export function wrapped(text: string, width: number, most: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of cleaned(text).split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line === '' || textWidth(longer) <= width || lines.length === most - 1) line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line].map((one) => fitted(one, width));
}

/** Text as the content or an attribute of an SVG or HTML element. */
export function escaped(text: string): string {
  return cleaned(text)
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;')
    .replace(/'/g, '&#39;');
}
