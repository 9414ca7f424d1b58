/** Answers for programs: lengths in the units printed, angles in degrees, no words. */

import type { Kind } from '../../model/kinds.js';
import { guessedParts } from '../../model/options.js';
import { COORDINATES } from '../../model/scenario.js';
import type { OptionSet } from '../../model/scenario.js';
import type {
  PlaceAnswer,
  Placement,
  Slack,
  SlackSide,
  Standing,
  Stop,
  Wish,
} from '../../solver/answer.js';
import type { Again } from '../../solver/measuring/again.js';
import type { Hoist } from '../../solver/measuring/hoist.js';
import type { Unruled } from '../../solver/measuring/unruled.js';
import { angle, length } from './numbers.js';
import type { Numbers } from './numbers.js';
import {
  asDrawn,
  frontAxleJson,
  guaranteedJson,
  optionsJson,
  placementJson,
  positionJson,
  ruleJson,
} from './placement.js';

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
