/** `berth verify`: whether a certificate proves what it claims of a scenario. */

import { verify } from '../../verify/verify.js';
import { unitsAsked } from '../asking/asked.js';
import type { Io } from '../io.js';
import { loadScenario } from '../asking/load.js';
import { held } from '../asking/opened.js';
import type { Interrupt } from '../running/interrupt.js';
import { lookFor } from '../look.js';
import { problemLine } from '../problems.js';
import { print } from '../report/lines.js';
import { verifyJson, verifyReport } from '../report/verify.js';
import type { VerifyAnswer } from '../report/verify.js';
import { digestOf, readCertificate } from '../writing/sealed.js';
import { jsonText } from '../writing/told.js';
import { STATUS } from '../status.js';

/** As commander gives them: all text. */
export interface VerifyOptions {
  readonly json?: boolean;
  readonly units?: string;
  readonly plain?: boolean;
  readonly timeLimit?: string;
  readonly memoryLimit?: string;
}

/**
 * Reads both files, checks the one against the other, prints and returns the exit status.
 * @throws UserError for anything wrong with the files or the options.
 */
export async function runVerify(
  file: string,
  certificateFile: string,
  options: VerifyOptions,
  io: Io,
  interrupt: Interrupt,
): Promise<number> {
  held(interrupt, options);
  const { scenario, text, warnings } = await loadScenario(file, io);
  const { certificate, isAsWritten, bytes } = await readCertificate(certificateFile, io);
  const units = unitsAsked(options.units, scenario);
  const look = lookFor(io, options.plain === true);
  const began = io.now();
  interrupt.listen();
  // Nothing is put together afterwards.
  interrupt.release();
  const found = verify(scenario, certificate, () => interrupt.word() === 'go');
  const answer: VerifyAnswer = {
    found,
    isAsWritten,
    isSameScenario: certificate.scenario === digestOf(text),
    bytes,
    seconds: (io.now() - began) / 1000,
  };
  const telling = { scenario, units, look };
  if (options.json === true) {
    io.out(jsonText(verifyJson(answer, { scenario, units })));
  } else {
    const said = warnings.map((warning) => problemLine(warning, file, look));
    io.out(print(verifyReport(answer, said, telling), look));
  }
  if ('fault' in found) return found.unchecked ? STATUS.undecided : STATUS['does not fit'];
  return isAsWritten && answer.isSameScenario ? STATUS.fits : STATUS.undecided;
}
