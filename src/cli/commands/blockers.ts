/** `berth blockers`: why a wish cannot be had, and what would make it possible. */

import { why } from '../../solver/explaining/why.js';
import { wantsAsked } from '../asking/asked.js';
import type { Interrupt } from '../running/interrupt.js';
import type { Io } from '../io.js';
import { opened, tellPrograms } from '../asking/opened.js';
import type { CommonOptions } from '../asking/opened.js';
import { drive } from '../running/progress.js';
import { blockersReport } from '../report/blockers.js';
import { print } from '../report/lines.js';
import { STATUS } from '../status.js';
import { DEFAULT_TOLERANCE } from '../asking/tolerance.js';
import { whyJson } from '../json/why.js';

/** As commander gives them: all text. */
export interface BlockersOptions extends CommonOptions {
  readonly want: readonly string[];
  readonly all?: boolean;
}

const STATUS_OF = {
  yes: STATUS.fits,
  no: STATUS['does not fit'],
  undecided: STATUS.undecided,
} as const;

/**
 * Reads the file, decides, explains and returns the exit status.
 * @throws UserError for anything wrong with the file or the options.
 */
export async function runBlockers(
  file: string,
  options: BlockersOptions,
  io: Io,
  interrupt: Interrupt,
): Promise<number> {
  const { scenario, units, look, showing, warnings } = await opened(file, options, io, interrupt);
  const wants = wantsAsked(options.want, units, scenario);
  const search = why(scenario, { wants, tolerance: DEFAULT_TOLERANCE, units });
  const answer = await drive(search, io, interrupt, showing);
  if (options.json === true) {
    const numbers = { scenario, units, tolerance: DEFAULT_TOLERANCE };
    tellPrograms(whyJson(answer, wants, numbers), warnings, io);
  } else {
    const report = { answer, wants, warnings, all: options.all === true };
    io.out(print(blockersReport(report, { scenario, units, look }), look));
  }
  return STATUS_OF[answer.possible];
}
