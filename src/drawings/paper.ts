/**
 * A drawing being written: SVG elements in millimetres of paper, y downwards, and the box of every text,
 * so that what is written can be checked never to overlap.
 */

import type { Box, Place } from './labels.js';
import { escaped, FACE, TEXT_SIZE, textWidth } from './text.js';

/** A text and the room kept for it. */
export interface TextBox {
  readonly text: string;
  readonly box: Box;
}

export interface TextStyle {
  readonly size?: number;
  readonly bold?: boolean;
}

export class Paper {
  readonly texts: TextBox[] = [];
  private readonly parts: string[] = [];

  constructor(
    readonly width: number,
    readonly height: number,
  ) {}

  /** An element as it is; its texts must be escaped already. */
  add(element: string): void {
    this.parts.push(element);
  }

  /** Cleaned text with its low corner at x and its middle at y. */
  text(
    x: number,
    y: number,
    text: string,
    { size = TEXT_SIZE, bold = false }: TextStyle = {},
  ): void {
    if (text === '') return;
    const w = textWidth(text, size) * (bold ? BOLD : 1);
    this.texts.push({ text, box: { x, y: y - 0.6 * size, w, h: 1.2 * size } });
    const weight = bold ? ' font-weight="bold"' : '';
    const own = size === TEXT_SIZE ? '' : ` font-size="${n(size)}"`;
    // The letters' middle lies about a third of their size above the line they stand on.
    this.add(
      `<text x="${n(x)}" y="${n(y + 0.36 * size)}" fill="#000"${own}${weight}>${escaped(text)}</text>`,
    );
  }

  line([x1, y1]: Place, [x2, y2]: Place, style: string): void {
    this.add(`<path d="M${n(x1)} ${n(y1)}L${n(x2)} ${n(y2)}" ${style}/>`);
  }

  box({ x, y, w, h }: Box, style: string): void {
    this.add(`<rect x="${n(x)}" y="${n(y)}" width="${n(w)}" height="${n(h)}" ${style}/>`);
  }

  /** The whole drawing; `title` and `described` are read out to who cannot see it. */
  svg(title: string, described: string): string {
    const { width, height } = this;
    return `<svg xmlns="http://www.w3.org/2000/svg" width="${n(width)}mm" height="${n(height)}mm" viewBox="0 0 ${n(width)} ${n(height)}" role="img" data-berth-drawing="1" font-family="${FACE}" font-size="${TEXT_SIZE}" fill="none" stroke-linecap="round" stroke-linejoin="round">
<title>${escaped(title)}</title>
<desc>${escaped(described)}</desc>
<rect width="${n(width)}" height="${n(height)}" fill="#fff"/>
${this.parts.join('\n')}
</svg>
`;
  }
}

/** How much wider bold text may be. */
export const BOLD = 1.16;

/** A number as SVG has it, to hundredths. */
export function n(value: number): string {
  return String(Math.round(value * 100) / 100 + 0);
}

/** A path of runs, each closed or not. */
export function pathOf(runs: readonly (readonly Place[])[], closed: boolean): string {
  return runs
    .map((run) => `M${run.map(([x, y]) => `${n(x)} ${n(y)}`).join('L')}${closed ? 'Z' : ''}`)
    .join('');
}
