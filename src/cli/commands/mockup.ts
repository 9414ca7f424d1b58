/** `berth mockup`: how to set the adjustable mounts on which the engine hangs. */

import { stanceOf } from '../../model/stance.js';
import { setUp } from '../../solver/fitup/set-up.js';
import { optionNames } from '../asking/options-asked.js';
import type { Interrupt } from '../running/interrupt.js';
import type { Io } from '../io.js';
import { mockupJson } from '../json/mockup.js';
import { opened, sectionAsked, tellPrograms } from '../asking/opened.js';
import type { CommonOptions } from '../asking/opened.js';
import { print } from '../report/lines.js';
import { mockupReport } from '../report/mockup.js';
import { mockupVerdict } from '../../words/mockup.js';
import type { MockupVerdict } from '../../words/mockup.js';
import { STATUS } from '../status.js';
import { whereAsked } from '../asking/where-asked.js';
import type { WhereOptions } from '../asking/where-asked.js';

/** As commander gives them: all text. */
export type MockupOptions = CommonOptions & WhereOptions;

const STATUS_OF: Readonly<Record<MockupVerdict, number>> = {
  open: STATUS.fits,
  'lengths only': STATUS.fits,
  touches: STATUS['does not fit'],
  'out of range': STATUS['does not fit'],
  'lengths disagree': STATUS.undecided,
  'cannot be so': STATUS.undecided,
  'no order found': STATUS.undecided,
};

/**
 * Reads the file, plans, prints and returns the exit status.
 * @throws UserError for anything wrong with the file or the options.
 */
export async function runMockup(
  file: string,
  options: MockupOptions,
  io: Io,
  interrupt: Interrupt,
): Promise<number> {
  optionNames(options.option ?? []);
  const begun = await opened(file, options, io, interrupt);
  const { scenario, units, look, warnings } = begun;
  const mockup = sectionAsked(scenario.mockup, 'mock-up', 'mock-up: { adjusters: { ... } }');
  const where = await whereAsked(begun, options, io, interrupt);
  // Where no order is found in time, that is an answer too.
  interrupt.listen();
  interrupt.release();
  const keepOn = () => interrupt.word() === 'go';
  const found = setUp(scenario, mockup, where.set, stanceOf(where.position), { keepOn });
  const answer = { where, found };
  if (options.json === true) tellPrograms(mockupJson(answer, { scenario, units }), warnings, io);
  else io.out(print(mockupReport(answer, warnings, { scenario, units, look }), look));
  const status = STATUS_OF[mockupVerdict(found)];
  return status === STATUS.fits && where.found?.fits === 'no' ? STATUS['does not fit'] : status;
}
