/** A mock-up for programs: lengths in the units asked for, angles in degrees, turns longer positive. */

import type { Scenario } from '../../model/scenario.js';
import { STANCE_MOTIONS } from '../../model/stance.js';
import type { Stance, StanceMotion } from '../../model/stance.js';
import { inUnits } from '../../model/text/tape.js';
import type { Units } from '../../model/text/tape.js';
import type { Hindrance } from '../../solver/fitup/moves.js';
import { mockupVerdict } from '../../words/mockup.js';
import type { MockupAnswer } from '../report/mockup.js';

export function mockupJson(
  { where, found }: MockupAnswer,
  { scenario, units }: { readonly scenario: Scenario; readonly units: Units },
): object {
  const length = (mm: number): number => rounded(inUnits(mm, units));
  const { adjusters, now, target } = found;
  const called = (index: number) => adjusters[index]!.adjuster.name;
  return {
    title: scenario.title,
    units,
    verdict: mockupVerdict(found),
    ...(where.found && { fits: where.found.fits, best: where.found.best }),
    position: stanceJson(target, units),
    adjusters: adjusters.map(({ adjuster, length: at, inRange, turns, quarter, follows }) => ({
      name: adjuster.name,
      thread: adjuster.thread,
      hand: adjuster.hand,
      range: [length(adjuster.range.min), length(adjuster.range.max)],
      ...(adjuster.now !== undefined && { now: length(adjuster.now) }),
      length: length(at),
      inRange,
      ...(turns !== undefined && { turns }),
      quarterTurn: stanceJson(quarter, units),
      ...(follows.length > 0 && {
        with: follows.map((one) => ({ adjuster: called(one.adjuster), share: rounded(one.by) })),
      }),
    })),
    notHeld: found.free.map(({ motion, brings }) => ({
      motion,
      with: brings.map((one) => one.motion),
    })),
    spare: found.spare,
    touching: found.touching,
    ...(now && {
      now: stanceJson(now.stance, units),
      ...(now.off !== undefined && { lengthsOff: length(now.off) }),
      overlapping: now.impossible,
      lands: stanceJson(now.lands, units),
      order: {
        found: now.order.found,
        ...(now.order.hindrance && { hindrance: hindranceJson(now.order.hindrance, called) }),
        moves: now.order.moves.map(({ turned, to, least }) => ({
          turn: turned.map(({ adjuster, turns }) => ({
            adjuster: called(adjuster),
            turns,
          })),
          to: stanceJson(to, units),
          ...(least && { least: { gap: length(least.gap), between: least.between } }),
        })),
      },
    }),
  };
}

function hindranceJson(hindrance: Hindrance, called: (index: number) => string): object {
  if (hindrance.of === 'gap') return { closes: hindrance.between };
  if (hindrance.of === 'range') return { range: called(hindrance.adjuster) };
  return { [hindrance.of]: true };
}

/** All six, lengths in units, angles in degrees. */
export function stanceJson(
  stance: Stance | Readonly<Record<StanceMotion, number>>,
  units: Units,
): Record<StanceMotion, number> {
  const entries = STANCE_MOTIONS.map((motion, k) => {
    const value = k < 3 ? inUnits(stance[motion], units) : (stance[motion] * 180) / Math.PI;
    return [motion, rounded(value)] as const;
  });
  return Object.fromEntries(entries) as Record<StanceMotion, number>;
}

function rounded(value: number): number {
  return Number(value.toFixed(5)) + 0;
}
