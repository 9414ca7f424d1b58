/** Small pieces of HTML; every text is escaped here and nowhere else. */

import { escaped } from '../../drawings/text.js';
import type { Line } from '../report/lines.js';

/** Text as element content. */
export function safe(text: string): string {
  return escaped(text);
}

export function heading(text: string): string {
  return `<h2>${safe(text)}</h2>`;
}

export function paragraphOf(text: string, className?: string): string {
  return `<p${className === undefined ? '' : ` class="${className}"`}>${safe(text)}</p>`;
}

/** Stands for a line to write on among the cells of a table; what follows it is its number. */
export const BLANK = '\0blank';

export function tableOf(
  heads: readonly string[],
  rows: readonly (readonly string[])[],
  className: string,
): string {
  const cell = (text: string) =>
    text.startsWith(BLANK)
      ? `<td class="blank">${safe(text.slice(BLANK.length))}</td>`
      : `<td>${safe(text)}</td>`;
  const head =
    heads.length === 0
      ? ''
      : `<thead><tr>${heads.map((text) => `<th>${safe(text)}</th>`).join('')}</tr></thead>`;
  const body = rows.map((row) => `<tr>${row.map(cell).join('')}</tr>`).join('\n');
  return `<table class="${className}">${head}<tbody>\n${body}\n</tbody></table>`;
}

/** Lines of a report as rows of a label and what it says; tables of a report are left out. */
export function told(lines: readonly Line[]): string {
  const rows: { label: string; text: string }[] = [];
  for (const { label, text, flush } of lines) {
    if (flush === true) continue;
    const last = rows.at(-1);
    if (label === '' && last) last.text += ` ${text}`;
    else rows.push({ label, text });
  }
  if (rows.length === 0) return '';
  const body = rows.map(
    ({ label, text }) => `<tr><th scope="row">${safe(label)}</th><td>${safe(text)}</td></tr>`,
  );
  return `<table class="told"><tbody>\n${body.join('\n')}\n</tbody></table>`;
}
