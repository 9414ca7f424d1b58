/** An as-built check for programs: lengths in the units asked for, angles in degrees. */

import type { MeasuredReading } from '../model/measured.js';
import type { Scenario } from '../model/scenario.js';
import { STANCE_MOTIONS } from '../model/stance.js';
import { inUnits } from '../model/tape.js';
import type { Units } from '../model/tape.js';
import type { AsBuilt } from '../solver/fitup/as-built.js';
import { stanceJson } from './mockup-json.js';

export function asBuiltJson(
  { verdict, meant, readings, unused, estimate, within, built, next }: AsBuilt,
  { scenario, units }: { readonly scenario: Scenario; readonly units: Units },
): object {
  const length = (mm: number): number => rounded(inUnits(mm, units));
  const called = (i: number) => readings[i]!.name;
  const value = ({ of }: Pick<MeasuredReading, 'of'>, size: number) =>
    of === 'angle' ? rounded((size * 180) / Math.PI) : length(size);
  const known = stanceJson(within, units);
  return {
    title: scenario.title,
    units,
    verdict,
    meant: stanceJson(meant, units),
    position: stanceJson(estimate.stance, units),
    rivals: estimate.rivals.map((rival) => stanceJson(rival, units)),
    within: Object.fromEntries(
      STANCE_MOTIONS.map((motion) => [
        motion,
        Number.isFinite(within[motion]) ? known[motion] : null,
      ]),
    ),
    notTold: estimate.open.map(({ motion }) => motion),
    readings: estimate.residuals.map(({ reading, expected, disagrees, checked }) => ({
      name: called(reading),
      reads: value(readings[reading]!, readings[reading]!.value),
      expected: value(readings[reading]!, expected),
      disagrees: rounded(disagrees),
      checked: rounded(checked),
      leftOut: estimate.doubtful.includes(reading),
    })),
    atOdds: estimate.atOdds.map(called),
    notUsed: unused.map(called),
    ...(built && {
      margin: length(built.standing.margin),
      rules: built.rules.map(({ reading, within: by }) => ({
        between: reading.between,
        measured: reading.measured,
        needed: length(reading.needed),
        gap: length(reading.gap),
        atRest: length(reading.atRest),
        margin: length(reading.margin),
        within: length(by),
      })),
      limits: built.limits.map(({ reading, broken }) => ({
        quantity: reading.limit.quantity.of,
        met: reading.met,
        broken,
      })),
      ...(built.again && {
        turns: Object.fromEntries(
          built.again.adjusters.map(({ adjuster, turns }) => [adjuster.name, turns]),
        ),
      }),
    }),
    next: next.map(({ name }) => name),
  };
}

function rounded(value: number): number {
  return Number(value.toFixed(5)) + 0;
}
