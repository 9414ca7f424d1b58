/** `berth slide`: how the best margin changes as one coordinate moves. */

import { slide } from '../../solver/explaining/slide.js';
import { coordinateAsked, stretchAsked } from '../asking/asked.js';
import { domainsAsked, optionNames } from '../asking/options-asked.js';
import { stepsAsked } from '../asking/amounts-asked.js';
import type { Interrupt } from '../running/interrupt.js';
import type { Io } from '../io.js';
import { opened, tellPrograms } from '../asking/opened.js';
import type { CommonOptions } from '../asking/opened.js';
import { mistake } from '../problems.js';
import { drive } from '../running/progress.js';
import { print } from '../report/lines.js';
import { slideReport, slideVerdict } from '../report/slide.js';
import { slideCsv, slideJson } from '../json/slide.js';
import { STATUS } from '../status.js';
import { DEFAULT_TOLERANCE } from '../asking/tolerance.js';

/** As commander gives them: all text. */
export interface SlideOptions extends CommonOptions {
  readonly along: string;
  readonly from?: string;
  readonly to?: string;
  readonly steps: string;
  readonly option?: readonly string[];
  readonly csv?: boolean;
}

/**
 * Reads the file, slides, prints and returns the exit status.
 * @throws UserError for anything wrong with the file or the options.
 */
export async function runSlide(
  file: string,
  options: SlideOptions,
  io: Io,
  interrupt: Interrupt,
): Promise<number> {
  if (options.json === true && options.csv === true) throw mistake('--json or --csv, not both');
  const along = coordinateAsked('--along', options.along);
  const steps = stepsAsked('--steps', options.steps);
  const names = optionNames(options.option ?? []);
  const { scenario, units, look, showing, warnings } = await opened(file, options, io, interrupt);
  const range = stretchAsked(along, options, units, scenario);
  const tolerance = DEFAULT_TOLERANCE;
  const asked = { tolerance, units, along, range, steps, allowed: domainsAsked(scenario, names) };
  const found = await drive(slide(scenario, asked), io, interrupt, showing);
  const verdict = slideVerdict(found);
  const numbers = { scenario, units, tolerance };
  if (options.json === true) tellPrograms(slideJson(found, verdict, numbers), warnings, io);
  else if (options.csv === true) {
    for (const line of warnings) io.err(`warning: ${line}\n`);
    io.out(slideCsv(found, numbers));
  } else io.out(print(slideReport(found, warnings, { scenario, units, look }), look));
  return STATUS[verdict];
}
