/** Margins drawn on a terminal: upward the room to spare, along it whatever it depends on. */

import { maxOf, minOf } from '../../model/extremes.js';
import { columns, pad } from '../../words/text.js';
import type { Look } from '../../words/text.js';

interface PlotPoint {
  readonly x: number;
  /** -Infinity is not drawn. */
  readonly y: number;
}

export interface Plot {
  /** The line, left to right. */
  readonly line: readonly PlotPoint[];
  /** `level` to the next point, then straight up or down; or `straight` to it. */
  readonly drawn: 'level' | 'straight';
  /** Drawn over the line. */
  readonly marks: readonly (PlotPoint & { readonly text: string })[];
  readonly xWords: (x: number) => string;
  readonly yWords: (y: number) => string;
  readonly xTitle: string;
}

/** Lines of the drawing without its axis. */
const ROWS = 11;
/** Columns before the drawing, and at most for what is said of a height. */
const INDENT = 2;
const LONGEST_LABEL = 14;

/** The drawing, 13 lines; nothing where there is nothing to draw. */
export function plot(told: Plot, look: Look): string[] {
  const seen = [...told.line, ...told.marks].filter(({ y }) => Number.isFinite(y));
  if (seen.length === 0) return [];
  const xs = told.line.map(({ x }) => x);
  const [left, right] = [minOf(xs), maxOf(xs)];
  // What fits lies above zero, so zero is always there to see.
  const ys = [0, ...seen.map(({ y }) => y)];
  const [low, high] = [minOf(ys), maxOf(ys)];
  const rowOf = (y: number) =>
    high === low ? 0 : Math.round(((high - y) / (high - low)) * (ROWS - 1));
  const labels = labelsOf(low, high, rowOf, told.yWords);
  const wide = Math.min(LONGEST_LABEL, maxOf([...labels.values()].map(columns)));
  const width = look.width - INDENT - wide - 3;
  const columnOf = (x: number) =>
    right === left ? 0 : Math.round(((x - left) / (right - left)) * (width - 1));
  const ink = look.plain ? PLAIN : FINE;
  const grid = Array.from({ length: ROWS }, () => Array.from({ length: width }, () => ' '));
  grid[rowOf(0)]!.fill(ink.zero);
  drawLine(grid, told, columnOf, rowOf, ink);
  for (const mark of told.marks) write(grid, columnOf(mark.x), rowOf(mark.y), mark.text);
  const margin = ' '.repeat(INDENT);
  const rows = grid.map((row, r) => {
    return `${margin}${pad(labels.get(r) ?? '', wide)} ${ink.side}${row.join('')}`.trimEnd();
  });
  const [from, to] = [told.xWords(left), told.xWords(right)];
  const gap = width + 1 - columns(from) - columns(to);
  const between = centred(told.xTitle, Math.max(columns(told.xTitle) + 2, gap));
  return [
    ...rows,
    `${margin}${' '.repeat(wide + 1)}${ink.corner}${ink.under.repeat(width)}`,
    `${margin}${' '.repeat(wide + 1)}${from}${between}${to}`.trimEnd(),
  ];
}

const PLAIN = { dot: '*', up: '|', level: '-', zero: '.', side: '|', corner: '+', under: '-' };
const FINE = { dot: '•', up: '│', level: '─', zero: '·', side: '│', corner: '└', under: '─' };

function labelsOf(
  low: number,
  high: number,
  rowOf: (y: number) => number,
  words: (y: number) => string,
): Map<number, string> {
  const labels = new Map<number, string>();
  for (const y of [(low + high) / 2, low, high, 0]) labels.set(rowOf(y), words(y));
  return labels;
}

function drawLine(
  grid: string[][],
  { line, drawn }: Plot,
  columnOf: (x: number) => number,
  rowOf: (y: number) => number,
  ink: typeof PLAIN,
): void {
  line.forEach((point, n) => {
    if (!Number.isFinite(point.y)) return;
    const next = line[n + 1];
    const [column, row] = [columnOf(point.x), rowOf(point.y)];
    const ends = next && Number.isFinite(next.y) ? next : undefined;
    if (ends && drawn === 'level') {
      for (let c = column; c <= columnOf(ends.x); c++) grid[row]![c] = ink.level;
      const [top, bottom] = [row, rowOf(ends.y)].sort((a, b) => a - b) as [number, number];
      for (let r = top + 1; r < bottom; r++) grid[r]![columnOf(ends.x)] = ink.up;
    }
    if (ends && drawn === 'straight') {
      for (let c = column; c <= columnOf(ends.x); c++) {
        const share = columnOf(ends.x) === column ? 0 : (c - column) / (columnOf(ends.x) - column);
        grid[rowOf(point.y + share * (ends.y - point.y))]![c] = ink.dot;
      }
    }
    if (drawn === 'straight') grid[row]![column] = ink.dot;
  });
}

function write(grid: string[][], column: number, row: number, text: string): void {
  if (!Number.isFinite(row)) return;
  const cells = grid[row]!;
  const start = Math.min(column, cells.length - text.length);
  [...text].forEach((character, n) => (cells[start + n] = character));
}

function centred(text: string, width: number): string {
  const left = Math.floor((width - columns(text)) / 2);
  return ' '.repeat(left) + pad(text, width - left);
}
