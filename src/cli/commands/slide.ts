/** `berth slide`: how the best margin changes as one coordinate moves. */

import { slide } from '../../solver/explaining/slide.js';
import { coordinateAsked, domainsAsked, optionNames, secondsAsked } from '../asked.js';
import { stepsAsked, stretchAsked, unitsAsked } from '../asked.js';
import type { Interrupt } from '../interrupt.js';
import type { Io } from '../io.js';
import { loadScenario } from '../load.js';
import { lookFor } from '../look.js';
import { mistake, problemLine } from '../problems.js';
import { drive } from '../progress.js';
import { print } from '../report/lines.js';
import { slideReport, slideVerdict } from '../report/slide.js';
import { slideCsv, slideJson } from '../slide-json.js';
import { STATUS } from '../status.js';
import { DEFAULT_TOLERANCE } from '../tolerance.js';

/** As commander gives them: all text. */
export interface SlideOptions {
  readonly along: string;
  readonly from?: string;
  readonly to?: string;
  readonly steps: string;
  readonly option?: readonly string[];
  readonly json?: boolean;
  readonly csv?: boolean;
  readonly units?: string;
  readonly timeLimit?: string;
  readonly plain?: boolean;
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
  const limit =
    options.timeLimit === undefined ? undefined : secondsAsked('--time-limit', options.timeLimit);
  const names = optionNames(options.option ?? []);
  const { scenario, warnings } = await loadScenario(file, io);
  const units = unitsAsked(options.units, scenario);
  const range = stretchAsked(along, options, units, scenario);
  const look = lookFor(io, options.plain === true);
  const tolerance = DEFAULT_TOLERANCE;
  const asked = { tolerance, units, along, range, steps, allowed: domainsAsked(scenario, names) };
  const showing = { units, look, ...(limit !== undefined && { limit }) };
  const found = await drive(slide(scenario, asked), io, interrupt, showing);
  const verdict = slideVerdict(found);
  const said = warnings.map((warning) => problemLine(warning, file, look));
  const numbers = { scenario, units, tolerance };
  if (options.json === true || options.csv === true) {
    for (const line of said) io.err(`warning: ${line}\n`);
    const csv = options.csv === true ? slideCsv(found, numbers) : '';
    const json = () => `${JSON.stringify(slideJson(found, verdict, numbers), null, 2)}\n`;
    io.out(csv === '' ? json() : csv);
  } else {
    io.out(print(slideReport(found, said, { scenario, units, look }), look));
  }
  return STATUS[verdict];
}
