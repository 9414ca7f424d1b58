/** The report of `berth driveline`: does it work, at what angles, how long, how fast, how evenly. */

import { maxOf } from '../../model/extremes.js';
import { isKept } from '../../geometry/driveline/checks.js';
import type { JointAngle } from '../../geometry/driveline/joint.js';
import { tape } from '../../model/text/tape.js';
import type { DrivelineAnswer } from '../json/driveline.js';
import { placeDoubt } from '../asking/where-asked.js';
import { paragraph } from './lines.js';
import type { Line } from './lines.js';
import { list } from './lines.js';
import { pad } from '../../words/text.js';
import {
  allowedWords,
  brokenWords,
  jointCells,
  lengthWords,
  pinionWords,
  rideWords,
  rippleWords,
  speedWords,
} from '../../words/driveline.js';
import { STATE_WORDS } from '../../words/joints.js';
import { whereWords } from '../../words/where.js';
import { setLines } from './set-lines.js';
import { unit } from '../../words/words.js';
import type { Telling } from '../../words/words.js';

export const DRIVELINE_CAUTION =
  'Space only, not strength. Have shaft and mounts reviewed; local codes rule.';

export function drivelineReport(
  answer: DrivelineAnswer,
  warnings: readonly string[],
  telling: Telling,
): Line[] {
  const { look } = telling;
  const { position, found } = answer;
  const doubt = placeDoubt(found);
  return [
    drivelineHeadline(answer),
    ...brokenLines(answer, telling),
    ...setLines('Engine', whereWords(position, telling), look),
    ...(doubt === '' ? [] : paragraph('', doubt, look)),
    ...table(answer, telling),
    ...drivelineLines(answer, telling),
    { label: '', text: DRIVELINE_CAUTION, flush: true },
    ...warnings.flatMap((text, w) => paragraph(w === 0 ? 'Warning' : '', text, look)),
  ];
}

/** What of the driveline is not kept. */
export function brokenLines({ checks }: DrivelineAnswer, telling: Telling): readonly Line[] {
  const broken = checks
    .filter((check) => !isKept(check))
    .map((check) => brokenWords(check, telling));
  return list('Not kept', broken, '; ', telling.look).lines;
}

/** What the joints may work at, the pinion, the shaft's length, its speed and its ripple. */
export function drivelineLines(answer: DrivelineAnswer, telling: Telling): Line[] {
  const { look } = telling;
  return [
    ...paragraph('Allowed', allowedWords(answer), look),
    ...paragraph('Pinion', pinionWords(answer, telling), look),
    ...paragraph('Length', lengthWords(answer, telling), look),
    ...paragraph('Speed', speedWords(answer), look),
    ...paragraph('Ripple', rippleWords(answer.standing.states), look),
  ];
}

/** Whether it works, at what angles and to what speed. */
export function drivelineHeadline(answer: DrivelineAnswer): Line {
  const text = `${rideWords(answer)}.`;
  return answer.checks.every(isKept)
    ? { label: 'WORKS.', text, tone: 'good' }
    : { label: 'DOES NOT WORK.', text, tone: 'bad' };
}

/** Heads, then a row a joint of each state: in side view, in plan view and true, and the length. */
export function drivelineCells({ standing }: DrivelineAnswer, telling: Telling): string[][] {
  const { units, scenario } = telling;
  const cells = (joint: JointAngle): string[] => {
    const { side, plan, true: bend } = jointCells(joint, scenario);
    return [side, plan, bend];
  };
  const rows = standing.states.flatMap((one): string[][] => {
    const length = tape(one.length, units, { round: 'nearest' }) + unit(units);
    const front = [STATE_WORDS[one.state], 'front', ...cells(one.front), length];
    return one.rear ? [front, ['', 'pinion', ...cells(one.rear), '']] : [front];
  });
  return [['', 'joint', 'side view', 'plan view', 'true', 'length'], ...rows];
}

function table(answer: DrivelineAnswer, telling: Telling): Line[] {
  const rows = drivelineCells(answer, telling);
  const widths = rows[0]!.map((_, c) => maxOf(rows.map((row) => row[c]!.length)));
  return rows.map((row) => ({
    label: '',
    text: `  ${row.map((cell, c) => pad(cell, widths[c]! + 2)).join('')}`.trimEnd(),
    flush: true,
  }));
}
