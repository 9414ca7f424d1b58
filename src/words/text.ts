/** Text that is safe on a terminal and as wide as it looks: names come from files, so from anyone. */

/** How a report may look. */
export interface Look {
  /** Columns. */
  readonly width: number;
  /** ASCII only, and no colour. */
  readonly plain: boolean;
  readonly colour: boolean;
}

/** Every report fits this many columns. */
export const WIDTH = 80;

export const PLAIN_LOOK: Look = { width: WIDTH, plain: true, colour: false };

// Terminal sequences whole (so that no '[31m' is left behind), then single control characters,
// direction overrides, and marks that take no room and can be stacked without end.
const SEQUENCES =
  /(?:\u001b\[|\u009b)[0-?]*[ -/]*[@-~]|\u001b[\]PX^_][^\u0007\u001b\u009c]*(?:\u0007|\u001b\\|\u009c)?/g;
const UNSAFE = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Cn}\u2028\u2029]/gu;
const MARKS = /\p{M}+/gu;
const WIDE =
  /\p{Emoji_Presentation}|[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\ua960-\ua97f\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff01-\uff60\uffe0-\uffe6\u{20000}-\u{3fffd}]/u;

/** One line of text with nothing in it that a terminal would act on; ASCII only where asked. */
export function clean(text: string, look: Pick<Look, 'plain'>): string {
  const composed = text.normalize('NFC').replace(SEQUENCES, '').replace(/\s+/g, ' ');
  const safe = composed.replace(UNSAFE, '').replace(MARKS, '').trim();
  if (!look.plain) return safe;
  return safe
    .normalize('NFKD')
    .replace(MARKS, '')
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/[\u2018\u2019]/g, "'")
    .replace(/[\u201c\u201d]/g, '"')
    .replace(/\u2026/g, '...')
    .replace(/[^\x20-\x7e]/gu, '?');
}

/** Text of any spacing without what a terminal would act on: the last look at what is already put together. */
export function inert(text: string): string {
  return text.replace(SEQUENCES, '').replace(UNSAFE, '');
}

/** Columns that cleaned text takes. */
export function columns(text: string): number {
  let sum = 0;
  for (const character of text) sum += WIDE.test(character) ? 2 : 1;
  return sum;
}

/** Cleaned text cut to a width, with an ellipsis where something is gone. */
export function fit(text: string, width: number, look: Look): string {
  if (columns(text) <= width) return text;
  const ellipsis = look.plain ? '...' : '…';
  const room = width - columns(ellipsis);
  if (room <= 0) return ellipsis.slice(0, Math.max(0, width));
  return head(text, room, 0).trimEnd() + ellipsis;
}

/** A name from a file, cleaned, and cut so that it cannot fill a page. */
export function name(text: string, look: Look, longest = 48): string {
  return fit(clean(text, look), longest, look) || '(no name)';
}

/** Text padded on the right to a width. */
export function pad(text: string, width: number): string {
  return text + ' '.repeat(Math.max(0, width - columns(text)));
}

/** Cleaned text broken between words into lines of a width; longer words are broken anywhere. */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    let rest = word;
    if (line !== '' && columns(line) + 1 + columns(rest) <= width) {
      line += ` ${rest}`;
      continue;
    }
    if (line !== '') lines.push(line);
    while (columns(rest) > width) {
      const start = head(rest, width, 1);
      lines.push(start);
      rest = rest.slice(start.length);
    }
    line = rest;
  }
  if (line !== '' || lines.length === 0) lines.push(line);
  return lines;
}

/** As many whole characters from the start as the width holds, or the least there must be. */
function head(text: string, width: number, least: 0 | 1): string {
  let kept = '';
  let used = 0;
  for (const character of text) {
    used += columns(character);
    if (used > width && (least === 0 || kept !== '')) break;
    kept += character;
  }
  return kept;
}
