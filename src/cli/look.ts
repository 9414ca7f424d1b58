/** How a report may look here: colour only on a terminal that has not been asked to do without. */

import type { Io } from './io.js';
import { WIDTH } from './report/text.js';
import type { Look } from './report/text.js';

/** `NO_COLOR` counts when it is set and not empty (no-color.org). */
export function lookFor(io: Io, plain: boolean): Look {
  const wanted = (io.env['NO_COLOR'] ?? '') === '' && io.env['TERM'] !== 'dumb';
  return { width: WIDTH, plain, colour: !plain && io.outIsTerminal && wanted };
}
