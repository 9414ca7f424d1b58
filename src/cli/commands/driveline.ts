/** `berth driveline`: joint angles, shaft length, speed and ripple with the engine at its place. */

import { drivelineChecks, isKept } from '../../geometry/driveline/checks.js';
import { bestPinion } from '../../geometry/driveline/best-pinion.js';
import { drivelineAt } from '../../geometry/driveline/standing.js';
import type { Placement } from '../../solver/answer.js';
import { place } from '../../solver/place.js';
import { shownOf } from '../../solver/explaining/compare.js';
import { domainsAsked, optionNames, positionAsked } from '../asked.js';
import { drivelineJson } from '../driveline-json.js';
import type { Interrupt } from '../interrupt.js';
import type { Io } from '../io.js';
import { opened, tellPrograms } from '../opened.js';
import type { CommonOptions, Opened } from '../opened.js';
import { mistake } from '../problems.js';
import { drive } from '../progress.js';
import { drivelineReport } from '../report/driveline.js';
import { print } from '../report/lines.js';
import { STATUS } from '../status.js';
import { DEFAULT_TOLERANCE } from '../tolerance.js';

/** As commander gives them: all text. */
export interface DrivelineOptions extends CommonOptions {
  readonly at?: string;
  readonly option?: readonly string[];
}

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
  const names = optionNames(options.option ?? []);
  const begun = await opened(file, options, io);
  const { scenario, units, look, warnings } = begun;
  const { driveline } = scenario;
  if (driveline === undefined)
    throw mistake('this file has no driveline', {
      code: 'missing',
      expected: 'driveline: { ... }',
    });
  const allowed = domainsAsked(scenario, names);
  const found = options.at === undefined && (await placed(begun, allowed, io, interrupt));
  const position = found ? shownOf(found).position : positionAsked(options.at!, units, scenario);
  const standing = drivelineAt(driveline, position);
  const checks = drivelineChecks(driveline, standing);
  const best = bestPinion(driveline, position);
  const answer = {
    driveline,
    position,
    standing,
    checks,
    ...(best && { best }),
    ...(found && { found }),
  };
  if (options.json === true) tellPrograms(drivelineJson(answer, { scenario, units }), warnings, io);
  else io.out(print(drivelineReport(answer, warnings, { scenario, units, look }), look));
  return checks.every(isKept) ? STATUS.fits : STATUS['does not fit'];
}

/** Where `berth place` sets the engine. */
async function placed(
  { scenario, units, showing }: Opened,
  allowed: readonly (readonly number[])[],
  io: Io,
  interrupt: Interrupt,
): Promise<Placement> {
  const request = {
    aim: 'margin',
    keep: 0,
    pins: {},
    tolerance: DEFAULT_TOLERANCE,
    units,
    allowed,
    only: 'main',
  } as const;
  const { main } = await drive(place(scenario, request), io, interrupt, showing);
  return main;
}
