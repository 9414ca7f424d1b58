/** `berth check`: every problem of a file, or what it holds. */

import { notDrawn } from '../../model/notdrawn.js';
import { partNames } from '../../model/options.js';
import { variantsOf } from '../../model/part-history.js';
import type { Problem } from '../../model/text/problem.js';
import { readScenario } from '../../model/read.js';
import type { Scenario } from '../../model/scenario.js';
import { readInput } from '../io.js';
import type { Io } from '../io.js';
import { lookFor } from '../look.js';
import { problemCount, problemText, UserError } from '../problems.js';
import { guessedSection } from '../report/answer.js';
import { list, print } from '../report/lines.js';
import type { Line } from '../report/lines.js';
import type { Look } from '../../words/text.js';
import { countOf } from '../../words/words.js';
import { BAD_INPUT } from '../status.js';

/** Prints to standard output, for what is wrong is what was asked for; returns the exit status. */
export async function runCheck(
  file: string,
  options: { readonly plain?: boolean },
  io: Io,
): Promise<number> {
  const look = lookFor(io, options.plain === true);
  const { scenario, problems } = await check(file, io);
  const errors = problems.some((problem) => problem.severity === 'error');
  io.out(problemText(problems, file, look));
  if (scenario === undefined || errors) {
    io.out(`${problemCount(problems)}\n`);
    return BAD_INPUT;
  }
  io.out(print(summary(scenario, problems, look), look));
  return 0;
}

/** A file that cannot be opened is one more problem with it. */
async function check(
  file: string,
  io: Io,
): Promise<{ readonly scenario?: Scenario; readonly problems: readonly Problem[] }> {
  try {
    const { text, format } = await readInput(file, io);
    return readScenario(text, format);
  } catch (error) {
    if (error instanceof UserError) return { problems: error.problems };
    throw error;
  }
}

function summary(scenario: Scenario, problems: readonly Problem[], look: Look): Line[] {
  const engine = scenario.parts.filter((part) => part.side === 'engine').length;
  const chassis = scenario.parts.length - engine;
  const book = scenario.rules.filter((rule) => rule.origin.from === 'rule book').length;
  const options = scenario.choices.map((choice) => choice.options.length);
  const sets = options.reduce((product, count) => product * count, 1);
  const pieces = [
    countOf(engine, 'engine part'),
    countOf(chassis, 'chassis part'),
    `${countOf(scenario.rules.length - book, 'rule')} of the file`,
    `${book} of the rule book`,
    countOf(scenario.limits.length, 'limit'),
    countOf(scenario.choices.length, 'choice') +
      (options.length === 0 ? '' : ` (${countOf(sets, 'way')})`),
  ];
  // Those that options bring among them.
  const guessed = partNames(scenario).filter((name) =>
    variantsOf(scenario, name).some((part) => part.guess === true),
  );
  const said =
    problems.length === 0 ? 'Nothing is wrong with this file.' : `${problemCount(problems)}.`;
  return [
    { label: 'GOOD.', text: said, tone: 'good' },
    ...list('Holds', pieces, ', ', look).lines,
    ...list('Not drawn', notDrawn(scenario), ', ', look).lines,
    ...guessedSection({ scenario, units: scenario.units, look, guessed }).lines,
  ];
}
