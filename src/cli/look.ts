/** How a report may look here: colour on a terminal that has not been asked to do without, and its size. */

import type { Io } from './io.js';
import { WIDTH } from '../words/text.js';
import type { Look } from '../words/text.js';

/** `NO_COLOR` counts when it is set and not empty (no-color.org). */
export function lookFor(io: Io, plain: boolean): Look {
  const wanted = (io.env['NO_COLOR'] ?? '') === '' && io.env['TERM'] !== 'dumb';
  return { width: WIDTH, plain, colour: !plain && io.outIsTerminal && wanted };
}

/** What a terminal shows that does not say its size. */
const ROWS = 24;
/** The prompt that comes back. */
const PROMPT = 1;
/** What npm prints above a script that it runs: two lines of its own between two empty ones. */
const NPM_LINES = 4;
/** Fewer lines than these cannot hold an answer; what is above them scrolls. */
const LEAST_SCREEN = 16;

/** Lines that a report may have so that its first one is still in sight when it ends. */
export function screenOf(io: Io): number {
  const isNpm = io.env['npm_lifecycle_event'] !== undefined;
  const isLoud = isNpm && io.env['npm_config_loglevel'] !== 'silent';
  const rows = io.outRows ?? ROWS;
  return Math.max(LEAST_SCREEN, rows - PROMPT - (isLoud ? NPM_LINES : 0));
}
