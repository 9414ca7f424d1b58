/** The report of `berth driveline`: does it work, at what angles, how long, how fast, how evenly. */

import { isKept } from '../../geometry/driveline/checks.js';
import type { JointAngle } from '../../geometry/driveline/joint.js';
import { tape } from '../../model/tape.js';
import type { DrivelineAnswer } from '../driveline-json.js';
import { placeDoubt } from '../where-asked.js';
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

const CAUTION: Line = {
  label: '',
  text: 'Space only, not strength. Have shaft and mounts reviewed; local codes rule.',
  flush: true,
};

export function drivelineReport(
  answer: DrivelineAnswer,
  warnings: readonly string[],
  telling: Telling,
): Line[] {
  const { look } = telling;
  const { position, standing, checks, found } = answer;
  const doubt = placeDoubt(found);
  const broken = checks
    .filter((check) => !isKept(check))
    .map((check) => brokenWords(check, telling));
  return [
    headline(answer),
    ...list('Not kept', broken, '; ', look).lines,
    ...setLines('Engine', whereWords(position, telling), look),
    ...(doubt === '' ? [] : paragraph('', doubt, look)),
    ...table(answer, telling),
    ...paragraph('Allowed', allowedWords(answer), look),
    ...paragraph('Pinion', pinionWords(answer, telling), look),
    ...paragraph('Length', lengthWords(answer, telling), look),
    ...paragraph('Speed', speedWords(answer), look),
    ...paragraph('Ripple', rippleWords(standing.states), look),
    CAUTION,
    ...warnings.flatMap((text, w) => paragraph(w === 0 ? 'Warning' : '', text, look)),
  ];
}

function headline(answer: DrivelineAnswer): Line {
  const text = `${rideWords(answer)}.`;
  return answer.checks.every(isKept)
    ? { label: 'WORKS.', text, tone: 'good' }
    : { label: 'DOES NOT WORK.', text, tone: 'bad' };
}

/** A row a state: each joint in side view, in plan view and true, and the length. */
function table({ standing }: DrivelineAnswer, telling: Telling): Line[] {
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
  const heads = ['', 'joint', 'side view', 'plan view', 'true', 'length'];
  const widths = heads.map((head, c) =>
    Math.max(head.length, ...rows.map((row) => row[c]!.length)),
  );
  return [heads, ...rows].map((row) => ({
    label: '',
    text: `  ${row.map((cell, c) => pad(cell, widths[c]! + 2)).join('')}`.trimEnd(),
    flush: true,
  }));
}
