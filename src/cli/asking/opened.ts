/** What every command that searches begins with: the file read, and how its answer is to be told. */

import type { Scenario } from '../../model/scenario.js';
import type { Units } from '../../model/text/tape.js';
import { mebibytesAsked, secondsAsked } from './amounts-asked.js';
import { unitsAsked } from './asked.js';
import type { Interrupt } from '../running/interrupt.js';
import type { Io } from '../io.js';
import { loadScenario } from './load.js';
import { lookFor } from '../look.js';
import { mistake, problemLine } from '../problems.js';
import type { Showing } from '../running/progress.js';
import { jsonText } from '../writing/told.js';
import type { Look } from '../../words/text.js';

/** The options that all such commands take, as commander gives them. */
export interface CommonOptions {
  readonly json?: boolean;
  readonly units?: string;
  readonly timeLimit?: string;
  readonly memoryLimit?: string;
  readonly plain?: boolean;
}

export interface Opened {
  readonly scenario: Scenario;
  readonly units: Units;
  readonly look: Look;
  /** Its `limit` is the time limit, in seconds. */
  readonly showing: Showing;
  /** The file's warnings, one line each. */
  readonly warnings: readonly string[];
}

/**
 * Reads the file once the options are known to be good.
 * @throws UserError for anything wrong with either.
 */
export async function opened(
  file: string,
  options: CommonOptions,
  io: Io,
  interrupt: Interrupt,
): Promise<Opened> {
  const limit = held(interrupt, options);
  const { scenario, warnings } = await loadScenario(file, io);
  const units = unitsAsked(options.units, scenario);
  const look = lookFor(io, options.plain === true);
  return {
    scenario,
    units,
    look,
    showing: { units, look, ...(limit !== undefined && { limit }) },
    warnings: warnings.map((warning) => problemLine(warning, file, look)),
  };
}

/**
 * A section that the command is about.
 * @throws UserError where the file has none.
 */
export function sectionAsked<Section>(
  section: Section | undefined,
  called: string,
  expected: string,
): Section {
  if (section !== undefined) return section;
  throw mistake(`this file has no ${called}`, { code: 'missing', expected });
}

/** An answer for programs, the file's warnings beside it. */
export function tellPrograms(answer: object, warnings: readonly string[], io: Io): void {
  for (const line of warnings) io.err(`warning: ${line}\n`);
  io.out(jsonText(answer));
}

/**
 * Holds a command to the limits typed; returns that of time, in seconds.
 * @throws UserError for limits that are none.
 */
export function held(
  interrupt: Interrupt,
  { timeLimit, memoryLimit }: Pick<CommonOptions, 'timeLimit' | 'memoryLimit'>,
): number | undefined {
  const seconds = timeLimit === undefined ? undefined : secondsAsked('--time-limit', timeLimit);
  const memory =
    memoryLimit === undefined ? undefined : mebibytesAsked('--memory-limit', memoryLimit);
  interrupt.hold({
    ...(seconds !== undefined && { seconds }),
    ...(memory !== undefined && { memory }),
  });
  return seconds;
}
