/** `berth blockers`: why a wish cannot be had, and what would make it possible. */

import { why } from '../../solver/explaining/why.js';
import { secondsAsked, unitsAsked, wantsAsked } from '../asked.js';
import type { Interrupt } from '../interrupt.js';
import type { Io } from '../io.js';
import { loadScenario } from '../load.js';
import { lookFor } from '../look.js';
import { problemLine } from '../problems.js';
import { drive } from '../progress.js';
import { blockersReport } from '../report/blockers.js';
import { print } from '../report/lines.js';
import { STATUS } from '../status.js';
import { whyJson } from '../why-json.js';

/** As commander gives them: all text. */
export interface BlockersOptions {
  readonly want: readonly string[];
  readonly json?: boolean;
  readonly units?: string;
  readonly timeLimit?: string;
  readonly all?: boolean;
  readonly plain?: boolean;
}

/** Millimetres: 1/64 in. */
const TOLERANCE = 25.4 / 64;

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
  const limit =
    options.timeLimit === undefined ? undefined : secondsAsked('--time-limit', options.timeLimit);
  const { scenario, warnings } = await loadScenario(file, io);
  const units = unitsAsked(options.units, scenario);
  const wants = wantsAsked(options.want, units, scenario);
  const look = lookFor(io, options.plain === true);
  const showing = { units, look, ...(limit !== undefined && { limit }) };
  const search = why(scenario, { wants, tolerance: TOLERANCE, units });
  const answer = await drive(search, io, interrupt, showing);
  const said = warnings.map((warning) => problemLine(warning, file, look));
  if (options.json === true) {
    for (const line of said) io.err(`warning: ${line}\n`);
    const told = whyJson(answer, wants, { scenario, units, tolerance: TOLERANCE });
    io.out(`${JSON.stringify(told, null, 2)}\n`);
  } else {
    const report = { answer, wants, warnings: said, all: options.all === true };
    io.out(print(blockersReport(report, { scenario, units, look }), look));
  }
  return STATUS_OF[answer.possible];
}
