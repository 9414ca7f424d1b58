/** `berth driveline`: joint angles, shaft length, speed and ripple with the engine at its place. */

import { isKept } from '../../geometry/driveline/checks.js';
import { optionNames } from '../asking/options-asked.js';
import { drivelineAnswer, drivelineJson } from '../json/driveline.js';
import type { Interrupt } from '../running/interrupt.js';
import type { Io } from '../io.js';
import { opened, sectionAsked, tellPrograms } from '../asking/opened.js';
import type { CommonOptions } from '../asking/opened.js';
import { drivelineReport } from '../report/driveline.js';
import { print } from '../report/lines.js';
import { STATUS } from '../status.js';
import { whereAsked } from '../asking/where-asked.js';
import type { WhereOptions } from '../asking/where-asked.js';

/** As commander gives them: all text. */
export type DrivelineOptions = CommonOptions & WhereOptions;

/**
 * Reads the file, measures the driveline, prints and returns the exit status.
 * @throws UserError for anything wrong with the file or the options.
 */
export async function runDriveline(
  file: string,
  options: DrivelineOptions,
  io: Io,
  interrupt: Interrupt,
): Promise<number> {
  optionNames(options.option ?? []);
  const begun = await opened(file, options, io, interrupt);
  const { scenario, units, look, warnings } = begun;
  const driveline = sectionAsked(scenario.driveline, 'driveline', 'driveline: { ... }');
  const { position, found } = await whereAsked(begun, options, io, interrupt);
  const answer = drivelineAnswer(driveline, position, found);
  if (options.json === true) tellPrograms(drivelineJson(answer, { scenario, units }), warnings, io);
  else io.out(print(drivelineReport(answer, warnings, { scenario, units, look }), look));
  return answer.checks.every(isKept) ? STATUS.fits : STATUS['does not fit'];
}
