/** `berth gaps`: every rule measured at one position, under one set of options. */

import { notDrawn } from '../../model/notdrawn.js';
import { workOf } from '../../model/options.js';
import { guaranteedAt } from '../../solver/measuring/guaranteed.js';
import { hoistTo } from '../../solver/measuring/hoist.js';
import { measureAt } from '../../solver/measuring/measure.js';
import { unruledAt } from '../../solver/measuring/unruled.js';
import { optionNames, optionSetAsked } from '../asking/options-asked.js';
import { positionAsked, unitsAsked } from '../asking/asked.js';
import type { Io } from '../io.js';
import { gapsJson } from '../json/answer.js';
import { loadScenario } from '../asking/load.js';
import { lookFor } from '../look.js';
import { problemLine } from '../problems.js';
import { gapsReport } from '../report/gaps.js';
import { print } from '../report/lines.js';
import { jsonText } from '../writing/told.js';
import { STATUS } from '../status.js';

/** As commander gives them: all text. */
export interface GapsOptions {
  readonly at: string;
  readonly option?: readonly string[];
  readonly json?: boolean;
  readonly units?: string;
  readonly plain?: boolean;
}

/**
 * Measures, prints and returns the exit status.
 * @throws UserError for anything wrong with the file or the options.
 */
export async function runGaps(file: string, options: GapsOptions, io: Io): Promise<number> {
  const names = optionNames(options.option ?? []);
  const { scenario, warnings } = await loadScenario(file, io);
  const units = unitsAsked(options.units, scenario);
  const set = optionSetAsked(scenario, names);
  const position = positionAsked(options.at, units, scenario);
  const standing = guaranteedAt(scenario, set, measureAt(scenario, set, position));
  const look = lookFor(io, options.plain === true);
  const said = warnings.map((warning) => problemLine(warning, file, look));
  const unseen = notDrawn(scenario);
  const unruled = unruledAt(scenario, set, standing);
  const hoist = hoistTo(scenario, set, position);
  if (options.json === true) {
    for (const line of said) io.err(`warning: ${line}\n`);
    const work = workOf(scenario, set);
    const answer = gapsJson(standing, set, work, unseen, unruled, { scenario, units }, hoist);
    io.out(jsonText(answer));
  } else {
    const report = {
      standing,
      set,
      notDrawn: unseen,
      warnings: said,
      unruled,
      ...(hoist && { hoist }),
    };
    io.out(print(gapsReport(report, { scenario, units, look }), look));
  }
  return standing.fits ? STATUS.fits : STATUS['does not fit'];
}
