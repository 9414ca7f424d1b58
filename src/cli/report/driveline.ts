/** The report of `berth driveline`: does it work, at what angles, how long, how fast, how evenly. */

import { isKept } from '../../geometry/driveline/checks.js';
import type { DrivelineCheck } from '../../geometry/driveline/checks.js';
import type { JointAngle } from '../../geometry/driveline/joint.js';
import type { StateStanding } from '../../geometry/driveline/standing.js';
import { degrees, tape } from '../../model/tape.js';
import type { Rounding } from '../../model/tape.js';
import type { DrivelineAnswer } from '../driveline-json.js';
import { placeDoubt } from '../where-asked.js';
import { paragraph } from './lines.js';
import type { Line } from './lines.js';
import { list } from './lines.js';
import { pad } from '../../words/text.js';
import { jointWords, STATE_WORDS } from '../../words/joints.js';
import { whereWords } from '../../words/where.js';
import { setLines } from './set-lines.js';
import { sides, unit } from '../../words/words.js';
import type { Telling } from '../../words/words.js';

/** What a wedge's angle is told to, radians: less is no wedge. */
const NO_WEDGE = (0.05 * Math.PI) / 180;

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
  const broken = checks.filter((check) => !isKept(check)).map((check) => missed(check, telling));
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
export function drivelineHeadline({ checks, standing, driveline }: DrivelineAnswer): Line {
  const ride = standing.states[0]!;
  const joints = [ride.front, ...(ride.rear ? [ride.rear] : [])];
  const words = joints.map((joint) => angle(joint.true, 'up')).join(' and ');
  const at = `${words} deg true at ride, to ${whole(driveline.speed)} rpm`;
  return checks.every(isKept)
    ? { label: 'WORKS.', text: `${joints.length > 1 ? 'Joints' : 'Joint'} ${at}.`, tone: 'good' }
    : {
        label: 'DOES NOT WORK.',
        text: `${joints.length > 1 ? 'Joints' : 'Joint'} ${at}.`,
        tone: 'bad',
      };
}

/** One thing that is not kept; what is there is rounded away from what may be. */
function missed(check: DrivelineCheck, { units }: Telling): string {
  switch (check.of) {
    case 'joint angle': {
      const isLow = check.value < check.min;
      const is = angle(check.value, isLow ? 'down' : 'up');
      const may = isLow ? `at least ${angle(check.min)}` : `at most ${angle(check.max, 'down')}`;
      return `${jointWords(check.joint)} at ${STATE_WORDS[check.state]} ${is} deg, must be ${may}`;
    }
    case 'joint difference':
      return `joints apart by ${angle(check.value, 'up')} deg, may be ${angle(check.max)}`;
    case 'slip': {
      const is = tape(check.value, units, { round: 'up' }) + unit(units);
      const may = tape(check.max, units, { round: 'down' }) + unit(units);
      return `the slip joint must go ${check.way} by ${is}, has ${may}`;
    }
    case 'speed':
      return `the shaft turns at ${whole(check.value)} rpm, is used to ${whole(check.max)}`;
  }
}

/** Heads, then a row a joint of each state: in side view, in plan view and true, and the length. */
export function drivelineCells({ standing }: DrivelineAnswer, telling: Telling): string[][] {
  const { units, scenario } = telling;
  const [right, left] = sides(scenario);
  const way = (radians: number, [plus, minus]: readonly [string, string]): string => {
    const words = angle(Math.abs(radians));
    return Number(words) === 0 ? words : `${words} ${radians > 0 ? plus : minus}`;
  };
  const cells = (joint: JointAngle): string[] => [
    way(joint.side, ['down', 'up']),
    way(joint.plan, [right, left]),
    angle(joint.true, 'up'),
  ];
  const rows = standing.states.flatMap((one): string[][] => {
    const length = tape(one.length, units, { round: 'nearest' }) + unit(units);
    const front = [STATE_WORDS[one.state], 'front', ...cells(one.front), length];
    return one.rear ? [front, ['', 'pinion', ...cells(one.rear), '']] : [front];
  });
  return [['', 'joint', 'side view', 'plan view', 'true', 'length'], ...rows];
}

function table(answer: DrivelineAnswer, telling: Telling): Line[] {
  const rows = drivelineCells(answer, telling);
  const widths = rows[0]!.map((_, c) => Math.max(...rows.map((row) => row[c]!.length)));
  return rows.map((row) => ({
    label: '',
    text: `  ${row.map((cell, c) => pad(cell, widths[c]! + 2)).join('')}`.trimEnd(),
    flush: true,
  }));
}

function allowedWords({ driveline }: DrivelineAnswer): string {
  const { least, most, mostBy, within } = driveline.angles;
  const why = mostBy === 'file' ? 'by the file' : `for ${whole(driveline.speed)} rpm`;
  const both = driveline.joints === 'two' ? `, the two within ${angle(within)}` : '';
  return `${angle(least)} to ${angle(most, 'down')} deg ${why}${both}`;
}

function pinionWords({ best, driveline }: DrivelineAnswer, { units }: Telling): string {
  const { up } = driveline.pinion.ride;
  if (!best) return "one with the tube: its angle is the shaft's";
  const is = nose(up);
  if (Math.abs(best.by) < NO_WEDGE) return `${is} is best`;
  const perch = units === 'in' ? { mm: 101.6, words: '4 in' } : { mm: 100, words: '100 mm' };
  const thick = tape(Math.tan(Math.abs(best.by)) * perch.mm, units, { round: 'nearest' });
  return (
    `${is}; best ${nose(best.up)}: nose ${best.by > 0 ? 'up' : 'down'} by ` +
    `${angle(Math.abs(best.by))} deg, a wedge that grows ${thick}${unit(units)} in ${perch.words} of perch`
  );
}

function nose(up: number): string {
  const words = angle(Math.abs(up));
  return Number(words) === 0 ? 'level' : `nose ${up > 0 ? 'up' : 'down'} ${words} deg`;
}

function lengthWords({ standing, driveline }: DrivelineAnswer, { units }: Telling): string {
  const size = (mm: number, round: Rounding): string => tape(mm, units, { round }) + unit(units);
  const { states, shortest, longest } = standing;
  const ride = states[0]!.length;
  const said = `${size(ride, 'nearest')} from joint to joint at ride`;
  if (states.length === 1) return `${said}; bump and droop are not in the file`;
  const moves = `goes in ${size(ride - shortest, 'up')}, out ${size(longest - ride, 'up')}`;
  const has = driveline.slip
    ? `; has ${size(driveline.slip.in, 'down')} in, ${size(driveline.slip.out, 'down')} out`
    : '';
  return `${said}; ${moves}${has}`;
}

function speedWords({ standing, driveline }: DrivelineAnswer): string {
  const { critical } = standing;
  const top = `top ${whole(driveline.speed)} rpm`;
  if (!critical) return `${top}; the tube is not in the file`;
  const share = Math.round(driveline.share * 100);
  return `${top}; whips at ${whole(critical.at)}, used to ${whole(critical.usedTo)} (${share} %)`;
}

/** Percent of the speed from least to greatest, for each state. */
function rippleWords(states: readonly StateStanding[]): string {
  const swing = ({ ripple }: StateStanding): string => {
    const percent = (ripple.greatest - ripple.least) * 100;
    return percent < 0.05 ? 'under 0.05 %' : `${percent.toFixed(1)} %`;
  };
  const told = states.map((one) => `${swing(one)} at ${STATE_WORDS[one.state]}`);
  return `the pinion's speed swings ${told.join(', ')}`;
}

function angle(radians: number, round: Rounding = 'nearest'): string {
  return degrees(radians, round);
}

function whole(rpm: number): string {
  return String(Math.round(rpm));
}
