/** A report as labelled lines, before any of it is coloured or joined. */

import { clean, columns, fit, inert, pad, wrap } from '../../words/text.js';
import type { Look } from '../../words/text.js';

type Tone = 'good' | 'bad' | 'open';

export interface Line {
  /** Stands in the left column; empty on a section's further lines. */
  readonly label: string;
  readonly text: string;
  /** The headline's, for the words that give the answer. */
  readonly tone?: Tone;
  /** From the left edge, over the label's column. */
  readonly flush?: boolean;
}

/** A part of the report that can say the same in fewer lines. */
export interface Section {
  readonly lines: readonly Line[];
  /** The same in at most so many lines, ending with how much was left out. */
  readonly shorter?: (most: number) => readonly Line[];
  /** The fewest lines that still say something; the section's length unless given. */
  readonly least?: number;
  /** Sections of a lower number are shortened first; never unless given. */
  readonly yields?: number;
}

/** Columns of the label and the space after it. */
const LABEL = 10;

/** A section of one line or more that must be said whole. */
export function whole(lines: readonly Line[]): Section {
  return { lines };
}

/** Text wrapped under a label. */
export function paragraph(label: string, text: string, look: Look): Line[] {
  return wrap(text, look.width - LABEL).map((line, index) => ({
    label: index === 0 ? label : '',
    text: line,
  }));
}

/** Pieces under a label, broken only between pieces where they allow it. */
export function list(
  label: string,
  pieces: readonly string[],
  joiner: string,
  look: Look,
  room: { readonly least?: number; readonly yields?: number } = {},
): Section {
  return {
    lines: pack(label, pieces, joiner, look, Infinity),
    shorter: (most) => pack(label, pieces, joiner, look, most),
    ...room,
  };
}

/** Sections cut to a number of lines between them; those cut belong in full below. */
export function fold(
  sections: readonly Section[],
  most: number,
): { readonly shown: readonly Line[]; readonly cut: readonly Section[] } {
  const room = sections.map((section) => section.lines.length);
  let over = room.reduce((sum, lines) => sum + lines, 0) - most;
  const order = sections
    .map((section, s) => ({ ...section, s }))
    .filter(({ yields }) => yields !== undefined)
    .sort((a, b) => a.yields! - b.yields!);
  for (const { least, s } of order) {
    const gives = Math.max(0, Math.min(over, room[s]! - (least ?? room[s]!)));
    room[s]! -= gives;
    over -= gives;
  }
  const shown = sections.flatMap((section, s) =>
    room[s]! < section.lines.length ? section.shorter!(room[s]!) : section.lines,
  );
  return { shown, cut: sections.filter((section, s) => room[s]! < section.lines.length) };
}

/** Lines as text, each within the width and ended by a newline. */
export function print(lines: readonly Line[], look: Look): string {
  return lines.map((line) => `${printLine(line, look)}\n`).join('');
}

function printLine({ text: raw, ...rest }: Line, look: Look): string {
  // Names are cleaned where they are put in; one that was forgotten ends here.
  const line = { ...rest, text: inert(raw) };
  if (line.flush === true) return fit(line.text, look.width, look);
  const label = clean(line.label, look);
  if (line.tone !== undefined) {
    const said = fit(line.text, look.width - columns(label) - (label === '' ? 0 : 1), look);
    const answer = colour(label, TONES[line.tone], look);
    return label === '' ? said : `${answer} ${said}`;
  }
  const text = fit(line.text, look.width - LABEL, look);
  return `${colour(label, BOLD, look)}${pad('', LABEL - columns(label))}${text}`.trimEnd();
}

const BOLD = '1';
const TONES: Readonly<Record<Tone, string>> = { good: '1;32', bad: '1;31', open: '1;33' };

function colour(text: string, code: string, look: Look): string {
  return look.colour && !look.plain && text !== '' ? `\u001b[${code}m${text}\u001b[0m` : text;
}

function pack(
  label: string,
  pieces: readonly string[],
  joiner: string,
  look: Look,
  most: number,
): Line[] {
  const width = look.width - LABEL;
  for (let kept = pieces.length; kept > 0; kept--) {
    const left = pieces.length - kept;
    const said = left === 0 ? pieces : [...pieces.slice(0, kept), `${left} more`];
    const lines = flow(said, joiner, width);
    if (lines.length <= most) return labelled(label, lines);
  }
  return labelled(label, pieces.length === 0 ? [] : [fit(pieces.join(joiner), width, look)]);
}

function flow(pieces: readonly string[], joiner: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  pieces.forEach((piece, index) => {
    const last = index === pieces.length - 1;
    const said = last ? piece : piece + joiner.trimEnd();
    const gap = line === '' ? '' : ' ';
    if (columns(line) + gap.length + columns(said) <= width) {
      line += gap + said;
      return;
    }
    if (line !== '') lines.push(line);
    const broken = wrap(said, width);
    lines.push(...broken.slice(0, -1));
    line = broken.at(-1)!;
  });
  if (line !== '') lines.push(line);
  return lines;
}

function labelled(label: string, lines: readonly string[]): Line[] {
  return lines.map((text, index) => ({ label: index === 0 ? label : '', text }));
}
