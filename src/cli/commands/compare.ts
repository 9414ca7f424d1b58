/** `berth compare`: cases side by side, or every option by itself. */

import type { Case } from '../../model/asked/cases.js';
import type { Scenario } from '../../model/scenario.js';
import { withCutSteps } from '../../model/trims.js';
import type { Units } from '../../model/text/tape.js';
import { allDomains } from '../../model/options.js';
import { compareCases } from '../../solver/explaining/compare.js';
import type { Comparison } from '../../solver/explaining/compare.js';
import { frontier } from '../../solver/explaining/frontier.js';
import { casesAsked } from '../asking/options-asked.js';
import { comparisonJson } from '../json/cases.js';
import type { Interrupt } from '../running/interrupt.js';
import type { Io } from '../io.js';
import { opened, tellPrograms } from '../asking/opened.js';
import type { CommonOptions } from '../asking/opened.js';
import { mistake } from '../problems.js';
import { drive } from '../running/progress.js';
import type { Showing } from '../running/progress.js';
import { casesVerdict } from '../report/case-words.js';
import { casesReport } from '../report/cases.js';
import { frontierReport, frontierVerdict } from '../report/frontier.js';
import { print } from '../report/lines.js';
import { sideBySide, threadsFor } from '../running/side-by-side.js';
import { frontierJson } from '../json/slide.js';
import { STATUS } from '../status.js';
import { DEFAULT_TOLERANCE } from '../asking/tolerance.js';

/** As commander gives them: all text. */
export interface CompareOptions extends CommonOptions {
  readonly case?: readonly string[];
  readonly frontier?: boolean;
  readonly withCuts?: boolean;
}

/**
 * Reads the file, answers every case, prints them and returns the exit status.
 * @throws UserError for anything wrong with the file or the options.
 */
export async function runCompare(
  file: string,
  options: CompareOptions,
  io: Io,
  interrupt: Interrupt,
): Promise<number> {
  const { scenario, units, look, showing, warnings } = await opened(file, options, io, interrupt);
  if (options.withCuts === true && options.frontier !== true) {
    throw mistake('--with-cuts goes with --frontier; berth trim tells of single cuts');
  }
  if (options.frontier === true) {
    const weighed = options.withCuts === true ? withCutSteps(scenario, units) : scenario;
    return await runFrontier(weighed, warnings, options, io, interrupt, showing);
  }
  const cases = casesAsked(options.case ?? [], units, scenario);
  const comparison = await compared(scenario, cases, units, io, interrupt, showing);
  if (options.json === true) {
    const numbers = { scenario, units, tolerance: DEFAULT_TOLERANCE };
    tellPrograms(comparisonJson(comparison, numbers), warnings, io);
  } else {
    const report = {
      comparison,
      warnings,
      ...(showing.limit !== undefined && { timeLimit: showing.limit }),
    };
    io.out(print(casesReport(report, { scenario, units, look }), look));
  }
  return STATUS[casesVerdict(comparison)];
}

/** Every set that no other beats in work and margin. */
async function runFrontier(
  scenario: Scenario,
  warnings: readonly string[],
  options: CompareOptions,
  io: Io,
  interrupt: Interrupt,
  showing: Showing,
): Promise<number> {
  if (options.case !== undefined) {
    throw mistake('--frontier looks at every set of options: leave out --case');
  }
  const { units, look } = showing;
  const asked = { tolerance: DEFAULT_TOLERANCE, units, allowed: allDomains(scenario), pins: {} };
  const found = await drive(frontier(scenario, asked), io, interrupt, showing);
  const verdict = frontierVerdict(found);
  if (options.json === true) {
    const numbers = { scenario, units, tolerance: DEFAULT_TOLERANCE };
    tellPrograms(frontierJson(found, verdict, numbers), warnings, io);
  } else {
    io.out(print(frontierReport(found, warnings, { scenario, units, look }), look));
  }
  return STATUS[verdict];
}

/** On as many threads as the cases are worth. */
async function compared(
  scenario: Scenario,
  cases: readonly Case[],
  units: Units,
  io: Io,
  interrupt: Interrupt,
  showing: Showing,
): Promise<Comparison> {
  const request = { tolerance: DEFAULT_TOLERANCE, units };
  const threads = threadsFor(scenario, cases.length + 1, { memory: interrupt.mostMemory });
  return threads === 0
    ? await drive(compareCases(scenario, cases, request), io, interrupt, showing)
    : await sideBySide(scenario, cases, request, io, interrupt, showing, threads);
}
