/** `berth asbuilt`: where a taped engine really sits, and whether to go on. */

import { readMeasured } from '../../model/fitup/read-measured.js';
import { stanceOf } from '../../model/stance.js';
import { asBuilt } from '../../solver/fitup/as-built.js';
import type { AsBuiltVerdict } from '../../solver/fitup/as-built.js';
import { asBuiltJson } from '../json/asbuilt.js';
import { optionNames } from '../asking/options-asked.js';
import type { Interrupt } from '../running/interrupt.js';
import { readInput } from '../io.js';
import type { Io } from '../io.js';
import { opened, tellPrograms } from '../asking/opened.js';
import type { CommonOptions } from '../asking/opened.js';
import { mistake, problemLine, UserError } from '../problems.js';
import { asBuiltReport } from '../report/asbuilt.js';
import { print } from '../report/lines.js';
import { STATUS } from '../status.js';
import { placeDoubt, whereAsked } from '../asking/where-asked.js';
import type { WhereOptions } from '../asking/where-asked.js';

/** As commander gives them: all text. */
export interface AsBuiltOptions extends CommonOptions, WhereOptions {
  readonly measured: string;
}

const STATUS_OF: Readonly<Record<AsBuiltVerdict, number>> = {
  'go on': STATUS.fits,
  'set again': STATUS['does not fit'],
  'in doubt': STATUS.undecided,
  undetermined: STATUS.undecided,
};

/**
 * Reads both files, estimates, prints and returns the exit status.
 * @throws UserError for anything wrong with the files or the options.
 */
export async function runAsBuilt(
  file: string,
  options: AsBuiltOptions,
  io: Io,
  interrupt: Interrupt,
): Promise<number> {
  optionNames(options.option ?? []);
  if (file === '-' && options.measured === '-')
    throw mistake('only one of the two files can be standard input');
  const begun = await opened(file, options, io, interrupt);
  interrupt.keepFor(1.5);
  const { scenario, units, look } = begun;
  const { text, format } = await readInput(options.measured, io);
  const { readings, problems } = readMeasured(text, format, scenario);
  if (readings === undefined) throw new UserError(problems, options.measured);
  const said = problems.map((problem) => problemLine(problem, options.measured, look));
  const warnings = [...begun.warnings, ...said];
  const { position, set, found: place } = await whereAsked(begun, options, io, interrupt);
  const doubt = placeDoubt(place);
  if (doubt !== '') warnings.push(`where it was meant to be: ${doubt}`);
  const found = asBuilt(scenario, set, stanceOf(position), readings);
  if (options.json === true) tellPrograms(asBuiltJson(found, { scenario, units }), warnings, io);
  else io.out(print(asBuiltReport(found, warnings, { scenario, units, look }), look));
  return STATUS_OF[found.verdict];
}
