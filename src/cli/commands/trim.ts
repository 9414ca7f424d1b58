/** `berth trim`: the cheapest cuts that reach a wish, and what each depth gains. */

import { trimming } from '../../solver/explaining/trimming.js';
import type { TrimAnswer } from '../../solver/explaining/trimming.js';
import { lengthAsked } from '../asking/amounts-asked.js';
import { wantsAsked } from '../asking/asked.js';
import type { Interrupt } from '../running/interrupt.js';
import type { Io } from '../io.js';
import { opened, tellPrograms } from '../asking/opened.js';
import type { CommonOptions } from '../asking/opened.js';
import { mistake } from '../problems.js';
import { drive } from '../running/progress.js';
import { print } from '../report/lines.js';
import { trimReport } from '../report/trim.js';
import { STATUS } from '../status.js';
import { DEFAULT_TOLERANCE } from '../asking/tolerance.js';
import { trimJson } from '../json/why.js';

/** As commander gives them: all text. */
export interface TrimOptions extends CommonOptions {
  readonly want?: readonly string[];
  readonly margin?: string;
  readonly withOptions?: boolean;
}

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
  const { scenario, units, look, showing, warnings } = await opened(file, options, io, interrupt);
  if (scenario.trims.length === 0) {
    throw mistake('this file has no trims: it names no face that may be cut', {
      expected: 'trims: a list of part, cut, up to, hours',
    });
  }
  const wished = wantsAsked(options.want ?? [], units, scenario);
  const margin =
    options.margin === undefined
      ? (wished.margin ?? 0)
      : lengthAsked('--margin', options.margin, units, '0 or more');
  const wants = { ...wished, margin };
  const withOptions = options.withOptions === true;
  const search = trimming(scenario, { wants, tolerance: DEFAULT_TOLERANCE, units, withOptions });
  const answer = await drive(search, io, interrupt, showing);
  if (options.json === true) {
    const numbers = { scenario, units, tolerance: DEFAULT_TOLERANCE };
    tellPrograms(trimJson(answer, wants, numbers), warnings, io);
  } else {
    const report = { answer, wants, warnings, withOptions };
    io.out(print(trimReport(report, { scenario, units, look }), look));
  }
  return statusOf(answer);
}

function statusOf({ uncut, cheapest, cheapestProved }: TrimAnswer): number {
  if (uncut === 'yes' || cheapest !== undefined) return STATUS.fits;
  return cheapestProved ? STATUS['does not fit'] : STATUS.undecided;
}
