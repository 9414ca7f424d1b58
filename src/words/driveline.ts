/** The driveline in words: joints, what they may work at, length, speed, pinion and ripple. */

import type { BestPinion } from '../geometry/driveline/best-pinion.js';
import type { DrivelineCheck } from '../geometry/driveline/checks.js';
import type { JointAngle } from '../geometry/driveline/joint.js';
import type { DrivelineStanding, StateStanding } from '../geometry/driveline/standing.js';
import type { Driveline } from '../model/fitup/driveline.js';
import type { Scenario } from '../model/scenario.js';
import { degrees, tape } from '../model/text/tape.js';
import type { Rounding } from '../model/text/tape.js';
import * as trig from '../model/trig.js';
import { jointWords, STATE_WORDS } from './joints.js';
import { sides, unit } from './words.js';
import type { Telling } from './words.js';

/** What a wedge's angle is told to, radians: less is no wedge. */
const NO_WEDGE = (0.05 * Math.PI) / 180;

/** A driveline, and what it comes to at one position. */
export interface DrivelineTold {
  readonly driveline: Driveline;
  readonly standing: DrivelineStanding;
  readonly best?: BestPinion;
}

/** `Joints 1.7 and 1.7 deg true at ride, to 3500 rpm`. */
export function rideWords({ standing, driveline }: DrivelineTold): string {
  const ride = standing.states[0]!;
  const joints = [ride.front, ...(ride.rear ? [ride.rear] : [])];
  const words = joints.map((joint) => angle(joint.true, 'up')).join(' and ');
  return `${joints.length > 1 ? 'Joints' : 'Joint'} ${words} deg true at ride, to ${whole(driveline.speed)} rpm`;
}

/** One joint in degrees: which way the shaft bends in side view and in plan view, and by how much in space. */
export function jointCells(
  joint: JointAngle,
  scenario: Scenario,
): { readonly side: string; readonly plan: string; readonly true: string } {
  const [right, left] = sides(scenario);
  const way = (radians: number, [plus, minus]: readonly [string, string]): string => {
    const words = angle(Math.abs(radians));
    return Number(words) === 0 ? words : `${words} ${radians > 0 ? plus : minus}`;
  };
  return {
    side: way(joint.side, ['down', 'up']),
    plan: way(joint.plan, [right, left]),
    true: angle(joint.true, 'up'),
  };
}

/** One thing that is asked: of what, what it comes to rounded away from what may be, and what that is. */
export function checkCells(
  check: DrivelineCheck,
  { units }: Pick<Telling, 'units'>,
): { readonly called: string; readonly is: string; readonly may: string } {
  switch (check.of) {
    case 'joint angle': {
      const least = angle(check.min, 'up');
      const most = angle(check.max, 'down');
      return {
        called: `${jointWords(check.joint)} at ${STATE_WORDS[check.state]}`,
        is: `${angle(check.value, check.value < check.min ? 'down' : 'up')} deg`,
        may: least === '0.0' ? `may be ${most} at most` : `may be ${least} to ${most}`,
      };
    }
    case 'joint difference':
      return {
        called: `difference of the joints at ${STATE_WORDS[check.state]}`,
        is: `${angle(check.value, 'up')} deg`,
        may: `may be ${angle(check.max, 'down')} at most`,
      };
    case 'slip':
      return {
        called: `slip joint goes ${check.way}`,
        is: tape(check.value, units, { round: 'up' }) + unit(units),
        may: `has ${tape(check.max, units, { round: 'down' })}${unit(units)}`,
      };
    case 'speed':
      return {
        called: 'top speed of the shaft',
        is: `${whole(check.value)} rpm`,
        may: `is used to ${whole(check.max)}`,
      };
  }
}

/** One thing that is not kept; what is there is rounded away from what may be. */
export function brokenWords(check: DrivelineCheck, { units }: Telling): string {
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

export function allowedWords({ driveline }: DrivelineTold): string {
  const { least, most, mostBy, within } = driveline.angles;
  const why = mostBy === 'file' ? 'by the file' : `for ${whole(driveline.speed)} rpm`;
  const both = driveline.joints === 'two' ? `, the two within ${angle(within)}` : '';
  return `${angle(least)} to ${angle(most, 'down')} deg ${why}${both}`;
}

export function pinionWords({ best, driveline }: DrivelineTold, { units }: Telling): string {
  const { up } = driveline.pinion.ride;
  if (!best) return "one with the tube: its angle is the shaft's";
  const is = nose(up);
  if (Math.abs(best.by) < NO_WEDGE) return `${is} is best`;
  const perch = units === 'in' ? { mm: 101.6, words: '4 in' } : { mm: 100, words: '100 mm' };
  const thick = tape(trig.tan(Math.abs(best.by)) * perch.mm, units, { round: 'nearest' });
  return (
    `${is}; best ${nose(best.up)}: nose ${best.by > 0 ? 'up' : 'down'} by ` +
    `${angle(Math.abs(best.by))} deg, a wedge that grows ${thick}${unit(units)} in ${perch.words} of perch`
  );
}

function nose(up: number): string {
  const words = angle(Math.abs(up));
  return Number(words) === 0 ? 'level' : `nose ${up > 0 ? 'up' : 'down'} ${words} deg`;
}

export function lengthWords({ standing, driveline }: DrivelineTold, { units }: Telling): string {
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

export function speedWords({ standing, driveline }: DrivelineTold): string {
  const { critical } = standing;
  const top = `top ${whole(driveline.speed)} rpm`;
  if (!critical) return `${top}; the tube is not in the file`;
  const share = Math.round(driveline.share * 100);
  return `${top}; whips at ${whole(critical.at)}, used to ${whole(critical.usedTo)} (${share} %)`;
}

/** Percent of the speed from least to greatest, for each state. */
export function rippleWords(states: readonly StateStanding[]): string {
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
