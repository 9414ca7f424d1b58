/** Runs a search step by step: shows how far it is, keeps the clock, and stops it when asked. */

import type { Units } from '../../model/text/tape.js';
import type { Progress } from '../../solver/answer.js';
import type { Signal } from '../../solver/asked.js';
import type { Interrupt } from './interrupt.js';
import type { Io } from '../io.js';
import { columns, fit, WIDTH } from '../../words/text.js';
import type { Look } from '../../words/text.js';
import { boundWords, countOf, spare } from '../../words/words.js';

/** Milliseconds: a search shorter than this shows nothing. */
export const QUIET = 500;

/** Milliseconds between looks at the clock's consequences: signals, and the line. */
const BREATH = 30;
const REDRAW = 100;

const CLEAR_LINE = '\r\u001b[2K';

export type Search<T> = Generator<Progress, T, Signal>;

/** How progress is told. */
export interface Showing {
  /** Seconds, or none: what to call the limit that the search is held to. */
  readonly limit?: number;
  readonly units: Units;
  readonly look: Look;
}

/** Drives a search to its answer; from its first step on, what stops it leaves the best so far. */
export async function drive<T>(
  search: Search<T>,
  io: Io,
  interrupt: Interrupt,
  showing: Showing,
): Promise<T> {
  const began = io.now();
  let breathed = began;
  const line = new ProgressLine(io, showing.look);
  try {
    let word: Signal = 'go';
    for (;;) {
      const step = search.next(word);
      interrupt.listen();
      if (step.done === true) return step.value;
      const now = io.now();
      if (now - breathed >= BREATH) {
        await io.breathe();
        breathed = io.now();
      }
      if (now - began >= QUIET) {
        line.draw(now, progressLines(step.value, (now - began) / 1000, showing.units));
      }
      word = interrupt.word();
    }
  } finally {
    line.clear();
  }
}

/** One line on a terminal, drawn over and over. */
export class ProgressLine {
  private drawn = -Infinity;
  private used = 0;

  constructor(
    private readonly io: Io,
    private readonly look: Look,
  ) {}

  /** Draws the longest of the lines that fits, at most ten times a second. */
  draw(now: number, lines: readonly string[]): void {
    if (!this.io.errIsTerminal || now - this.drawn < REDRAW) return;
    // One column short of the edge, where some terminals would start a new line.
    const width = Math.min(WIDTH, this.io.errColumns ?? WIDTH) - 1;
    const line = fit(lines.find((one) => columns(one) <= width) ?? lines.at(-1)!, width, this.look);
    this.io.err(this.clearing() + line);
    this.drawn = now;
    this.used = columns(line);
  }

  clear(): void {
    if (this.drawn > -Infinity) this.io.err(this.clearing());
  }

  /** Plain text has no word for clearing a line but writing over it. */
  private clearing(): string {
    return this.look.plain ? `\r${' '.repeat(this.used)}\r` : CLEAR_LINE;
  }
}

/** `all options: best 3/16 to spare, at most 7/8 to spare; 1204 boxes, 2 s`, then shorter ones. */
function progressLines(progress: Progress, seconds: number, units: Units): string[] {
  const { best, bound, effort, count } = progress;
  const doing = progress.doing + (count === undefined ? '' : ` ${count.at} of ${count.of}`);
  // A search for a coordinate has no margin to tell of.
  const at =
    best === undefined || bound === undefined ? '' : `${marginWords(best, bound, units)}; `;
  const time = `${Math.floor(seconds)} s`;
  return [
    `${doing}: ${at}${countOf(effort.boxes, 'box', 'boxes')}, ${time} (Ctrl-C to stop)`,
    `${doing}: ${at}${time} (Ctrl-C to stop)`,
    `${at}${time} (Ctrl-C to stop)`,
    `${doing}, ${time} (Ctrl-C to stop)`,
    `${time}, Ctrl-C to stop`,
  ];
}

function marginWords(best: number, bound: number, units: Units): string {
  const found = best === -Infinity ? 'nothing found yet' : `best ${spare(best, units)}`;
  const most = Number.isFinite(bound) ? `at most ${boundWords(bound, units)}` : 'no bound yet';
  return `${found}, ${most}`;
}
