/** From a path to a checked scenario, or to every problem it has. */

import type { Problem } from '../../model/text/problem.js';
import { readScenario } from '../../model/read.js';
import type { Scenario } from '../../model/scenario.js';
import { readInput } from '../io.js';
import type { Io } from '../io.js';
import { UserError } from '../problems.js';

export interface Loaded {
  readonly scenario: Scenario;
  /** What the file holds. */
  readonly text: string;
  readonly warnings: readonly Problem[];
}

/**
 * Reads and checks a scenario file.
 * @throws UserError with every problem where there is an error among them.
 */
export async function loadScenario(path: string, io: Io): Promise<Loaded> {
  const { text, format } = await readInput(path, io);
  const { scenario, problems } = readScenario(text, format);
  const errors = problems.some((problem) => problem.severity === 'error');
  if (scenario === undefined || errors) throw new UserError(problems, path);
  return { scenario, text, warnings: problems };
}
