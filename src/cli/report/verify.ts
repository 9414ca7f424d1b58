/** The report of `berth verify`: whether it is a proof, of what, and whether it is as it was written. */

import { hasErrors } from '../../model/errors/worst.js';
import type { Claim } from '../../model/certificate.js';
import type { NotProved, Verified } from '../../verify/verify.js';
import { length } from '../json/numbers.js';
import type { Numbers } from '../json/numbers.js';
import { boundWords, countOf, spare } from '../../words/words.js';
import type { Telling } from '../../words/words.js';
import { clean, name } from '../../words/text.js';
import { paragraph } from './lines.js';
import type { Line } from './lines.js';

export interface VerifyAnswer {
  readonly found: Verified | NotProved;
  /** Whether the certificate's own digest, and that of the scenario's text, are what they were. */
  readonly isAsWritten: boolean;
  readonly isSameScenario: boolean;
  readonly bytes: number;
  readonly seconds: number;
}

const ABOUT: Readonly<Record<Claim['about'], string>> = {
  'all options': 'whatever options are taken',
  'these options': 'with the options of the answer',
  'less work': 'with less work than the answer',
};

export function verifyReport(
  answer: VerifyAnswer,
  warnings: readonly string[],
  { scenario, units, look }: Telling,
): Line[] {
  const { found, bytes, seconds } = answer;
  const size = bytes >= 1e6 ? `${(bytes / 1e6).toFixed(1)} MB` : `${Math.ceil(bytes / 1000)} KB`;
  const took = `${size}, gone through in ${seconds.toFixed(1)} s`;
  if ('fault' in found && found.unchecked) {
    return [
      {
        label: 'NOT CHECKED.',
        text: 'Stopped before its end: nothing is said for it or against it.',
        tone: 'open',
      },
      ...changedLines(answer, look),
      ...paragraph('Size', `${size}, stopped after ${seconds.toFixed(1)} s`, look),
    ];
  }
  if ('fault' in found) {
    return [
      { label: 'NO PROOF.', text: 'This certificate proves nothing of this file.', tone: 'bad' },
      ...paragraph('Fault', clean(found.fault, look), look),
      ...changedLines(answer, look),
      ...paragraph('Size', took, look),
    ];
  }
  return [
    headline(answer),
    ...found.claims.flatMap(({ about, most }, i) =>
      paragraph(
        i === 0 ? 'At most' : '',
        `${boundWords(most, units)} anywhere, ${ABOUT[about]}`,
        look,
      ),
    ),
    ...paragraph('The place', `${spare(found.place, units)} at the tightest rule`, look),
    ...paragraph('Set', `${spare(found.setting, units)} at the tape marks`, look),
    ...(found.guaranteed
      ? paragraph('Errors', 'all of it holds with every measurement off by its most', look)
      : hasErrors(scenario)
        ? paragraph('Errors', 'left out: all of it is of the bay as drawn', look)
        : []),
    ...(found.narrower.length === 0
      ? []
      : paragraph(
          'Held',
          `narrower than the file: ${found.narrower.map((one) => name(one, look)).join(', ')}`,
          look,
        )),
    ...paragraph(
      'Rests on',
      `${countOf(found.gone.leaves, 'box', 'boxes')}, nothing left out between them, closed by ` +
        `${countOf(found.gone.rows, 'row')} worked out again and rounded outward`,
      look,
    ),
    ...paragraph('Size', took, look),
    ...changedLines(answer, look),
    ...warnings.flatMap((text, w) => paragraph(w === 0 ? 'Warning' : '', text, look)),
  ];
}

function headline({ isAsWritten, isSameScenario }: VerifyAnswer): Line {
  return isAsWritten && isSameScenario
    ? {
        label: 'PROVED.',
        text: 'The certificate holds for the parts and sizes in this file.',
        tone: 'good',
      }
    : {
        label: 'PROVED,',
        text: 'but something was changed since the proof was written.',
        tone: 'open',
      };
}

function changedLines(
  { isAsWritten, isSameScenario }: VerifyAnswer,
  look: Telling['look'],
): Line[] {
  const changed = [
    ...(isSameScenario ? [] : ['the scenario is not the text that was proved']),
    ...(isAsWritten ? [] : ['the certificate is not as it was written']),
  ];
  return changed.length === 0 ? [] : paragraph('Changed', changed.join('; '), look);
}

/** The same for programs. */
export function verifyJson(answer: VerifyAnswer, n: Numbers): object {
  const { found, isAsWritten, isSameScenario, bytes } = answer;
  const changed = { certificateAsWritten: isAsWritten, scenarioAsProved: isSameScenario, bytes };
  if ('fault' in found) {
    const { fault, unchecked = false } = found;
    return { proved: false, fault, unchecked, ...changed };
  }
  return {
    proved: true,
    units: n.units,
    claims: found.claims.map(({ about, most }) => ({ about, most: length(most, 'up', n) })),
    place: length(found.place, 'down', n),
    setting: length(found.setting, 'down', n),
    ...(hasErrors(n.scenario) && { maximised: found.guaranteed ? 'guaranteed' : 'margin' }),
    narrower: found.narrower,
    boxes: found.gone.leaves,
    rows: found.gone.rows,
    ...changed,
  };
}
