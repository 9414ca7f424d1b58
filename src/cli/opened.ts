/** What every command that searches begins with: the file read, and how its answer is to be told. */

import type { Scenario } from '../model/scenario.js';
import type { Units } from '../model/tape.js';
import { secondsAsked, unitsAsked } from './asked.js';
import type { Io } from './io.js';
import { loadScenario } from './load.js';
import { lookFor } from './look.js';
import { mistake, problemLine } from './problems.js';
import type { Showing } from './progress.js';
import type { Look } from '../words/text.js';

/** The options that all such commands take, as commander gives them. */
export interface CommonOptions {
  readonly json?: boolean;
  readonly units?: string;
  readonly timeLimit?: string;
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
export async function opened(file: string, options: CommonOptions, io: Io): Promise<Opened> {
  const { timeLimit } = options;
  const limit = timeLimit === undefined ? undefined : secondsAsked('--time-limit', timeLimit);
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
  io.out(`${JSON.stringify(answer, null, 2)}\n`);
}

/** Whether a time limit that begins now has any left; always where there is none. */
export function timeLeft({ limit }: Showing, io: Io): () => boolean {
  const end = limit === undefined ? Infinity : io.now() + limit * 1000;
  return () => io.now() < end;
}
