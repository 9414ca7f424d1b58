/** A place for programs: its position, options, margins and rules. */

import { axleLoadsUnder } from '../../geometry/weight.js';
import { pitchOnFloor } from '../../model/rake.js';
import type { Coordinate, OptionSet, Scenario } from '../../model/scenario.js';
import { leanOf } from '../../model/stance.js';
import type { Seat } from '../../model/stance.js';
import { massUnit } from '../../model/text/mass.js';
import type { Placement, Reading } from '../../solver/answer.js';
import { coordinateNumber, degreesOf, length, massJson, ratio } from './numbers.js';
import type { Numbers } from './numbers.js';

/** What is there as drawn, whatever the answer was searched on. */
export function asDrawn<T extends object>(of: T & { readonly drawn?: Partial<T> }): T {
  return { ...of, ...of.drawn };
}

/** The margin with every measurement off by its most; nothing where none has an error. */
export function guaranteedJson(
  { guaranteed }: { readonly guaranteed?: number },
  n: Numbers,
): object {
  return guaranteed === undefined ? {} : { guaranteed: length(guaranteed, 'down', n) };
}

/** A place, its setting and what is proved of it. */
export function placementJson(placement: Placement, n: Numbers) {
  const { optimum, setting } = placement;
  return {
    fits: placement.fits,
    best: placement.best,
    margin: length(asDrawn(optimum).margin, 'down', n),
    ...guaranteedJson(optimum, n),
    bound: length(placement.bound, 'up', n),
    position: positionJson(optimum.position, n),
    setting: {
      position: positionJson(setting.position, n),
      margin: length(asDrawn(setting).margin, 'down', n),
      ...guaranteedJson(setting, n),
      fits: setting.fits ? 'yes' : 'no',
      ...frontAxleJson(placement.options, setting.position, n),
    },
    ...frontAxleJson(placement.options, optimum.position, n),
    options: optionsJson(placement.options, n.scenario),
    hours: placement.hours,
    cost: placement.cost,
  };
}

export function ruleJson(reading: Reading, n: Numbers): object {
  const { between, measured, comingOut, withdrawn, fixed, binding, rule } = reading;
  const drawn = asDrawn(reading);
  return {
    between,
    measured,
    ...(comingOut ? { comingOut } : {}),
    ...(withdrawn ? { withdrawn: withdrawn.part } : {}),
    needed: length(reading.needed, 'up', n),
    gap: length(drawn.gap, 'down', n),
    atRest: length(drawn.atRest, 'down', n),
    margin: length(drawn.margin, 'down', n),
    ...guaranteedJson(reading, n),
    ...(fixed ? { fixed } : {}),
    binding,
    ...shareJson(reading),
    ...(rule.why === undefined ? {} : { why: rule.why }),
  };
}

/** One number, or the least and the most where several are right. */
function shareJson({ share, shareRange }: Reading): object {
  if (shareRange !== undefined) {
    return { share: { least: ratio(shareRange.least), most: ratio(shareRange.most) } };
  }
  return share === undefined ? {} : { share: ratio(share) };
}

/** The option of each choice, by name. */
export function optionsJson(set: OptionSet, scenario: Scenario): Record<string, string> {
  // Without a prototype, a choice may be called anything.
  const named = Object.create(null) as Record<string, string>;
  scenario.choices.forEach((choice, c) => {
    named[choice.name] = choice.options[set[c]!]!.name;
  });
  return named;
}

/** A position, its pitch in the frame's axes and as a level floor shows it; roll and yaw where there are any. */
export function positionJson(position: Seat, n: Numbers): object {
  const at = (name: Coordinate) => coordinateNumber(name, position[name], n);
  const onFloor = pitchOnFloor(position.pitch, n.scenario);
  return {
    setback: at('setback'),
    offset: at('offset'),
    height: at('height'),
    pitch: at('pitch'),
    pitchOnFloor: coordinateNumber('pitch', onFloor, n),
    ...leanJson(position),
  };
}

/** Roll and yaw in degrees, each where it is not 0. */
export function leanJson(seat: Seat): { readonly roll?: number; readonly yaw?: number } {
  const { roll, yaw } = leanOf(seat);
  return {
    ...(roll !== 0 && { roll: degreesOf(roll) }),
    ...(yaw !== 0 && { yaw: degreesOf(yaw) }),
  };
}

/** Before and after, in the unit of weight that goes with the units printed; nothing where the file has no weights. */
export function frontAxleJson(set: OptionSet, seat: Seat, n: Numbers): object {
  const loads = axleLoadsUnder(n.scenario, set, seat);
  if (loads === undefined) return {};
  const { before, after } = loads;
  const share = ({ front, rear }: typeof before) =>
    rear === undefined ? null : ratio(front / (front + rear));
  const frontAxle = {
    unit: massUnit(n.units),
    before: massJson(before.front, 'nearest', n),
    after: massJson(after.front, 'up', n),
    shareBefore: share(before),
    shareAfter: share(after),
  };
  return { frontAxle };
}
