/** A driveline for programs: lengths in the units asked for, angles in degrees, speeds in rpm. */

import { bestPinion } from '../../geometry/driveline/best-pinion.js';
import type { BestPinion } from '../../geometry/driveline/best-pinion.js';
import { drivelineChecks, isKept } from '../../geometry/driveline/checks.js';
import type { DrivelineCheck } from '../../geometry/driveline/checks.js';
import type { JointAngle } from '../../geometry/driveline/joint.js';
import { drivelineAt } from '../../geometry/driveline/standing.js';
import type { DrivelineStanding } from '../../geometry/driveline/standing.js';
import type { Driveline } from '../../model/fitup/driveline.js';
import type { Scenario } from '../../model/scenario.js';
import type { Seat } from '../../model/stance.js';
import { inUnits } from '../../model/text/tape.js';
import type { Units } from '../../model/text/tape.js';
import type { Placement } from '../../solver/answer.js';
import { leanJson } from './placement.js';

export interface DrivelineAnswer {
  readonly driveline: Driveline;
  readonly position: Seat;
  readonly standing: DrivelineStanding;
  readonly checks: readonly DrivelineCheck[];
  readonly best?: BestPinion;
  /** Where the engine was searched for: whether it fits there, and whether that is proved to be the best. */
  readonly found?: Pick<Placement, 'fits' | 'best'>;
}

/** The driveline with the engine there, all that is told of it. */
export function drivelineAnswer(
  driveline: Driveline,
  position: Seat,
  found?: DrivelineAnswer['found'],
): DrivelineAnswer {
  const standing = drivelineAt(driveline, position);
  const checks = drivelineChecks(driveline, standing);
  const best = bestPinion(driveline, position);
  return { driveline, position, standing, checks, ...(best && { best }), ...(found && { found }) };
}

export function drivelineJson(
  { driveline, position, standing, checks, best, found }: DrivelineAnswer,
  { scenario, units }: { readonly scenario: Scenario; readonly units: Units },
): object {
  const length = (mm: number): number => rounded(inUnits(mm, units), 5);
  const angle = (radians: number): number => rounded((radians * 180) / Math.PI, 5);
  const joint = (one: JointAngle | undefined) =>
    one && { side: angle(one.side), plan: angle(one.plan), true: angle(one.true) };
  const { states, critical } = standing;
  const { least, most, within } = driveline.angles;
  return {
    title: scenario.title,
    units,
    works: checks.every(isKept),
    ...(found && { fits: found.fits, best: found.best }),
    position: {
      setback: length(position.setback),
      offset: length(position.offset),
      height: length(position.height),
      pitch: angle(position.pitch),
      ...leanJson(position),
    },
    joints: driveline.joints,
    speed: rounded(driveline.speed, 1),
    allowed: { least: angle(least), most: angle(most), within: angle(within) },
    states: states.map(({ state, front, rear, length: long, ripple }) => ({
      state,
      front: joint(front),
      ...(rear && { rear: joint(rear) }),
      length: length(long),
      ripple: { least: rounded(ripple.least, 7), greatest: rounded(ripple.greatest, 7) },
    })),
    shortest: length(standing.shortest),
    longest: length(standing.longest),
    ...(critical && {
      critical: { at: rounded(critical.at, 1), usedTo: rounded(critical.usedTo, 1) },
    }),
    ...(best && {
      bestPinion: { up: angle(best.up), by: angle(best.by), swing: rounded(best.swing, 7) },
    }),
    checks: checks.map((check) => ({ ...checkJson(check, length, angle), kept: isKept(check) })),
  };
}

function checkJson(
  check: DrivelineCheck,
  length: (mm: number) => number,
  angle: (radians: number) => number,
): object {
  if (check.of === 'speed')
    return { ...check, value: rounded(check.value, 1), max: rounded(check.max, 1) };
  const as = check.of === 'slip' ? length : angle;
  const own = { ...check, value: as(check.value), max: as(check.max) };
  return 'min' in check ? { ...own, min: angle(check.min) } : own;
}

function rounded(value: number, places: number): number {
  return Number(value.toFixed(places)) + 0;
}
