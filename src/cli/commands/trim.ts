/** `berth trim`: the cheapest cuts that reach a wish, and what each depth gains. */

import { trimming } from '../../solver/explaining/trimming.js';
import type { TrimAnswer } from '../../solver/explaining/trimming.js';
import { lengthAsked, secondsAsked, unitsAsked, wantsAsked } from '../asked.js';
import type { Interrupt } from '../interrupt.js';
import type { Io } from '../io.js';
import { loadScenario } from '../load.js';
import { lookFor } from '../look.js';
import { mistake, problemLine } from '../problems.js';
import { drive } from '../progress.js';
import { print } from '../report/lines.js';
import { trimReport } from '../report/trim.js';
import { STATUS } from '../status.js';
import { trimJson } from '../why-json.js';

/** As commander gives them: all text. */
export interface TrimOptions {
  readonly want?: readonly string[];
  readonly margin?: string;
  readonly withOptions?: boolean;
  readonly json?: boolean;
  readonly units?: string;
  readonly timeLimit?: string;
  readonly plain?: boolean;
}

/** Millimetres: 1/64 in. */
const TOLERANCE = 25.4 / 64;

/**
 * Reads the file, searches, prints and returns the exit status.
 * @throws UserError for anything wrong with the file or the options.
 */
export async function runTrim(
  file: string,
  options: TrimOptions,
  io: Io,
  interrupt: Interrupt,
): Promise<number> {
  const limit =
    options.timeLimit === undefined ? undefined : secondsAsked('--time-limit', options.timeLimit);
  const { scenario, warnings } = await loadScenario(file, io);
  if (scenario.trims.length === 0) {
    throw mistake('this file has no trims: it names no face that may be cut', {
      expected: 'trims: a list of part, cut, up to, hours',
    });
  }
  const units = unitsAsked(options.units, scenario);
  const wished = wantsAsked(options.want ?? [], units, scenario);
  const margin =
    options.margin === undefined
      ? (wished.margin ?? 0)
      : lengthAsked('--margin', options.margin, units, '0 or more');
  const wants = { ...wished, margin };
  const look = lookFor(io, options.plain === true);
  const showing = { units, look, ...(limit !== undefined && { limit }) };
  const withOptions = options.withOptions === true;
  const search = trimming(scenario, { wants, tolerance: TOLERANCE, units, withOptions });
  const answer = await drive(search, io, interrupt, showing);
  const said = warnings.map((warning) => problemLine(warning, file, look));
  if (options.json === true) {
    for (const line of said) io.err(`warning: ${line}\n`);
    const told = trimJson(answer, wants, { scenario, units, tolerance: TOLERANCE });
    io.out(`${JSON.stringify(told, null, 2)}\n`);
  } else {
    const report = { answer, wants, warnings: said, withOptions };
    io.out(print(trimReport(report, { scenario, units, look }), look));
  }
  return statusOf(answer);
}

function statusOf({ uncut, cheapest, cheapestProved }: TrimAnswer): number {
  if (uncut === 'yes' || cheapest !== undefined) return STATUS.fits;
  return cheapestProved ? STATUS['does not fit'] : STATUS.undecided;
}
