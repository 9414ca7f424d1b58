/** Answers for programs: lengths in the units printed, angles in degrees, no words. */

import { axleLoadsUnder } from '../../geometry/weight.js';
import type { Kind } from '../../model/kinds.js';
import { massUnit } from '../../model/text/mass.js';
import { guessedParts } from '../../model/options.js';
import { pitchOnFloor } from '../../model/rake.js';
import { leanOf } from '../../model/stance.js';
import type { Seat } from '../../model/stance.js';
import { decimalLength } from '../../model/text/tape.js';
import type { Rounding, Units } from '../../model/text/tape.js';
import * as trig from '../../model/trig.js';
import { COORDINATES } from '../../model/scenario.js';
import type { Coordinate, OptionSet, Scenario } from '../../model/scenario.js';
import type { Again } from '../../solver/measuring/again.js';
import type {
  PlaceAnswer,
  Placement,
  Reading,
  Slack,
  SlackSide,
  Standing,
  Stop,
  Wish,
} from '../../solver/answer.js';
import type { Hoist } from '../../solver/measuring/hoist.js';
import { massNumber } from '../../words/axle.js';
import type { Unruled } from '../../solver/measuring/unruled.js';

/** What every number of an answer depends on. */
export interface Numbers {
  readonly scenario: Scenario;
  readonly units: Units;
  /** Millimetres: the bounds must show it. */
  readonly tolerance?: number;
}

/** Decimals of a coordinate, in the units printed or degrees. */
const COORDINATE_DECIMALS = 6;

/** The way in to the optimum and to the setting, where the file has a hoist path. */
export interface PlaceHoist {
  readonly optimum?: Hoist | undefined;
  readonly setting?: Hoist | undefined;
}

/** The answer of `berth place`; `null` stands for what is not there or has no finite value. */
export function placeJson(
  answer: PlaceAnswer,
  notDrawn: readonly Kind[],
  unruled: Unruled,
  n: Numbers,
  again: readonly Again[] = [],
  hoist: PlaceHoist = {},
): object {
  const { main } = answer;
  const { position, ...placed } = placementJson(main, n);
  return {
    title: n.scenario.title,
    units: n.units,
    aim: answer.aim,
    fits: placed.fits,
    anyFits: answer.anyFits,
    best: placed.best,
    margin: placed.margin,
    ...guaranteedJson(main.optimum, n),
    ...maximisedJson(main),
    bound: placed.bound,
    bestBound: length(answer.bestBound, 'up', n),
    tolerance: length(answer.tolerance, 'up', n),
    position,
    ...('frontAxle' in placed && { frontAxle: placed.frontAxle }),
    setting: { ...placed.setting, hoistPath: hoistJson(hoist.setting, n) },
    slack: answer.slack === undefined ? null : slackJson(answer.slack, n),
    options: placed.options,
    hours: placed.hours,
    cost: placed.cost,
    hoistPath: hoistJson(hoist.optimum, n),
    rules: main.optimum.readings.map((reading) => ruleJson(reading, n)),
    asItStands: answer.asItStands === undefined ? null : placementJson(answer.asItStands, n),
    leastWork: answer.leastWork === undefined ? null : placementJson(answer.leastWork, n),
    wishes: Object.fromEntries(answer.wishes.map((wish) => [wish.aim, wishJson(wish, n)])),
    otherPlaces: otherPlacesJson(answer, n),
    cheaperUndecided: answer.cheaperUndecided.map((set) => optionsJson(set, n.scenario)),
    notDrawn,
    guessed: guessedParts(n.scenario, main.options),
    ...unruledJson(unruled, n),
    ...againJson(again, n),
    aimMissed: answer.aimMissed ?? null,
    stopped: answer.stopped ?? null,
    effort: answer.effort,
  };
}

/** The answer of `berth gaps`. */
export function gapsJson(
  standing: Standing,
  set: OptionSet,
  work: { readonly hours: number; readonly cost: number },
  notDrawn: readonly Kind[],
  unruled: Unruled,
  n: Numbers,
  hoist?: Hoist,
): object {
  return {
    title: n.scenario.title,
    units: n.units,
    fits: standing.fits ? 'yes' : 'no',
    margin: length(standing.margin, 'down', n),
    ...guaranteedJson(standing, n),
    position: positionJson(standing.position, n),
    ...frontAxleJson(set, standing.position, n),
    options: optionsJson(set, n.scenario),
    hours: work.hours,
    cost: work.cost,
    hoistPath: hoistJson(hoist, n),
    rules: standing.readings.map((reading) => ruleJson(reading, n)),
    notDrawn,
    guessed: guessedParts(n.scenario, set),
    ...unruledJson(unruled, n),
  };
}

/** Parts that no rule covers, and pairs without a rule that overlap at the position. */
function unruledJson({ parts, overlaps }: Unruled, n: Numbers): object {
  return {
    noRule: parts,
    overlaps: overlaps.map(({ between, depth }) => ({ between, depth: length(depth, 'up', n) })),
  };
}

/** What is there as drawn, whatever the answer was searched on. */
function asDrawn<T extends object>(of: T & { readonly drawn?: Partial<T> }): T {
  return { ...of, ...of.drawn };
}

/** The margin with every measurement off by its most; nothing where none has an error. */
function guaranteedJson({ guaranteed }: { readonly guaranteed?: number }, n: Numbers): object {
  return guaranteed === undefined ? {} : { guaranteed: length(guaranteed, 'down', n) };
}

/** Which of the two margins the bounds, the verdicts and the place are of. */
function maximisedJson({ optimum }: Placement): object {
  if (optimum.guaranteed === undefined) return {};
  return { maximised: optimum.drawn === undefined ? 'margin' : 'guaranteed' };
}

/** Every measurement with an error, the one to take again first before the others. */
function againJson(again: readonly Again[], n: Numbers): object {
  if (again.length === 0) return {};
  const measureAgain = again.map(({ measurement, gain, ofTightest }) => {
    const { path, written, error } = n.scenario.measurements[measurement]!;
    return {
      path,
      written,
      error: length(error, 'up', n),
      gain: length(gain, 'down', n),
      gainOfTightest: length(ofTightest, 'down', n),
    };
  });
  return { measureAgain };
}

/** How far each coordinate may go from the setting's either way, all at once, and what stops it there. */
function slackJson({ down, up }: Slack, n: Numbers): object {
  return Object.fromEntries(
    COORDINATES.map((coordinate) => {
      const side = ({ room, stop }: SlackSide) => ({
        room: coordinate === 'pitch' ? angle(room) : length(room, 'down', n),
        stop: stopJson(stop),
      });
      return [coordinate, { down: side(down[coordinate]), up: side(up[coordinate]) }];
    }),
  );
}

function stopJson(stop: Stop): object {
  if (stop.by === 'rule') return { by: 'rule', ...stop.rule };
  if (stop.by === 'limit') return { by: 'limit', quantity: stop.limit.quantity.of };
  return { by: stop.by };
}

/** `leg` counts the positions of the path from 1, its place last. */
function hoistJson(hoist: Hoist | undefined, n: Numbers): object | null {
  if (hoist === undefined) return null;
  const { fits, margin, needed, worst } = hoist;
  return {
    fits,
    margin: length(margin, 'down', n),
    needed: length(needed, 'up', n),
    between: worst?.between ?? null,
    position: worst === undefined ? null : positionJson(worst.position, n),
    leg: worst === undefined ? null : worst.leg.map((index) => index + 1),
  };
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

/** `complete`: proved that no place elsewhere, but for these, reaches that margin. */
function otherPlacesJson({ otherPlaces }: PlaceAnswer, n: Numbers): object | null {
  if (otherPlaces === undefined) return null;
  const { places, reach, complete } = otherPlaces;
  return {
    reach: length(reach, 'up', n),
    complete,
    places: places.map((place) => placementJson(place, n)),
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

function wishJson(wish: Wish, n: Numbers): object {
  const { standing } = wish;
  return {
    fits: wish.fits,
    best: wish.best,
    margin: standing === undefined ? null : length(asDrawn(standing).margin, 'down', n),
    ...(standing === undefined ? {} : guaranteedJson(standing, n)),
    position: standing === undefined ? null : positionJson(standing.position, n),
    // The lowest height cannot be undercut; the setback and the margin cannot be exceeded.
    bound: length(wish.bound, wish.aim === 'low' ? 'down' : 'up', n),
  };
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

/** A coordinate in the units printed, or degrees. */
export function coordinateNumber(name: Coordinate, value: number, { units }: Numbers): number {
  if (name === 'pitch') return degreesOf(value);
  return decimalLength(value, units, { round: 'nearest', decimals: COORDINATE_DECIMALS });
}

function degreesOf(radians: number): number {
  return Number(((radians * 180) / Math.PI).toFixed(COORDINATE_DECIMALS)) + 0;
}

/** Before and after, in the unit of weight that goes with the units printed; nothing where the file has no weights. */
function frontAxleJson(set: OptionSet, seat: Seat, n: Numbers): object {
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

/** A weight to hundredths, `null` where it is not finite. */
export function massJson(kg: number, round: Rounding, { units }: Numbers): number | null {
  return Number.isFinite(kg) ? massNumber(kg, units, { round, decimals: 2 }) : null;
}

/** In the units printed, `null` where it is not finite. */
export function length(mm: number, round: Rounding, n: Numbers): number | null {
  if (!Number.isFinite(mm)) return null;
  return decimalLength(mm, n.units, { round, decimals: decimals(n) });
}

/** Four decimals of an inch, three of a millimetre, more where the tolerance is finer. */
function decimals({ units, tolerance }: Numbers): number {
  const usual = units === 'in' ? 4 : 3;
  if (tolerance === undefined || !(tolerance > 0)) return usual;
  const printed = units === 'in' ? tolerance / 25.4 : tolerance;
  return Math.min(9, Math.max(usual, 1 - trig.powerOfTen(printed)));
}

/** Degrees, rounded down. */
function angle(radians: number): number {
  return decimalLength((radians * 180) / Math.PI, 'mm', { round: 'down', decimals: 4 });
}

/** A share, to six decimals. */
export function ratio(share: number): number {
  return Number(share.toFixed(6));
}
