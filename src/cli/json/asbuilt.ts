/** An as-built check for programs: lengths in the units asked for, angles in degrees. */

import type { MeasuredReading } from '../../model/fitup/measured.js';
import { inMassUnit, massUnit } from '../../model/text/mass.js';
import type { Limit, Scenario } from '../../model/scenario.js';
import { STANCE_MOTIONS } from '../../model/stance.js';
import { inUnits } from '../../model/text/tape.js';
import type { Units } from '../../model/text/tape.js';
import type { AsBuilt } from '../../solver/fitup/as-built.js';
import { stanceJson } from './mockup.js';

export function asBuiltJson(
  { verdict, meant, readings, unused, unchecked, estimate, within, built, next }: AsBuilt,
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
    notUsed: unused.map(({ reading, why }) => ({ name: called(reading), why })),
    unchecked: unchecked.map(called),
    ...(built && {
      margin: Number.isFinite(built.standing.margin) ? length(built.standing.margin) : null,
      rules: built.rules.map(({ reading, within: by }) => ({
        between: reading.between,
        measured: reading.measured,
        needed: length(reading.needed),
        gap: length(reading.gap),
        atRest: length(reading.atRest),
        margin: length(reading.margin),
        within: length(by),
      })),
      limits: built.limits.map(({ reading: { limit, value: is, met }, within: by, kept }) => {
        const size = sizeOf(limit.quantity.of, units);
        return { quantity: limit.quantity.of, value: size(is), within: size(by), met, kept };
      }),
      missedAsMeant: built.missedAsMeant.map(({ reading }) => reading.between),
      ...(built.again && {
        turns: Object.fromEntries(
          built.again.adjusters.map(({ adjuster, turns }) => [adjuster.name, turns]),
        ),
      }),
    }),
    next: next.map(({ name }) => name),
  };
}

/** A limit's value in the units asked for: a length, degrees, or a weight. */
function sizeOf(of: Limit['quantity']['of'], units: Units): (value: number) => number {
  if (of === 'front axle load') return (kg) => rounded(inMassUnit(kg, massUnit(units)));
  if (of === 'pitch' || of === 'joint angle' || of === 'joint difference')
    return (radians) => rounded((radians * 180) / Math.PI);
  return (mm) => rounded(inUnits(mm, units));
}

function rounded(value: number): number {
  return Number(value.toFixed(5)) + 0;
}
