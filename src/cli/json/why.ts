/** Why a wish cannot be had, and what cutting gains, for programs: lengths in the units printed, angles in degrees, no words. */

import type { Coordinate, Limit, Trim } from '../../model/scenario.js';
import type { Wants } from '../../model/asked/wants.js';
import type { Reason } from '../../solver/explaining/blockers.js';
import type { Remedy } from '../../solver/explaining/asking.js';
import type { TrimAnswer } from '../../solver/explaining/trimming.js';
import type { WhyAnswer } from '../../solver/explaining/why.js';
import { length, massJson } from './numbers.js';
import { optionsJson, placementJson, positionJson, ruleJson } from './placement.js';
import type { Numbers } from './numbers.js';

/** The answer of `berth blockers`; `null` stands for what is not there or has no finite value. */
export function whyJson(answer: WhyAnswer, wants: Wants, n: Numbers): object {
  return {
    title: n.scenario.title,
    units: n.units,
    wish: wishJson(wants, answer.wish.margin, n),
    possible: answer.possible,
    options: optionsJson(answer.set, n.scenario),
    place: answer.placement === undefined ? null : placementJson(answer.placement, n),
    reasons: answer.reasons.map((reason) => reasonJson(reason, n)),
    reasonsComplete: answer.complete,
    remedies: answer.remedies.map((remedy) => remedyJson(remedy, n)),
    remediesComplete: answer.remediesComplete,
    stopped: answer.stopped ?? null,
    effort: answer.effort,
  };
}

function wishJson({ ranges, options }: Wants, margin: number, n: Numbers): object {
  return {
    ...Object.fromEntries(
      Object.entries(ranges).map(([name, { min, max }]) => [
        name,
        { min: along(name as Coordinate, min, n), max: along(name as Coordinate, max, n) },
      ]),
    ),
    margin: length(margin, 'up', n),
    options: Object.fromEntries(options.map(({ choice, option }) => [choice, option])),
  };
}

function reasonJson(reason: Reason, n: Numbers): object {
  const { short, at, beyond } = reason;
  return {
    parts: reason.parts,
    limits: reason.limits.map((limit) => limitJson(limit, n)),
    ends: reason.ends.map(({ coordinate, end, at: value }) => ({
      coordinate,
      end,
      at: along(coordinate, value, n),
    })),
    smallest: reason.smallest,
    short:
      short === undefined
        ? null
        : { atLeast: length(short.least, 'down', n), atMost: length(short.most, 'up', n) },
    beyond:
      beyond === undefined
        ? null
        : { coordinate: beyond.coordinate, by: along(beyond.coordinate, beyond.by, n) },
    position: at === undefined ? null : positionJson(at, n),
    rules: reason.rules.map((reading) => ruleJson(reading, n)),
  };
}

function remedyJson(remedy: Remedy, n: Numbers): object {
  return {
    options: optionsJson(remedy.options, n.scenario),
    cuts: remedy.cuts.map(({ trim, depth }) => ({
      ...trimmedJson(trim, n),
      depth: length(depth, 'up', n),
    })),
    shallowest: remedy.shallowest,
    hours: remedy.hours,
    cost: remedy.cost,
    place: placementJson(remedy.placement, n),
  };
}

/** Which face: two trims of one part may differ in their stretch alone. */
function trimmedJson({ part, cut, over }: Trim, n: Numbers): object {
  const at = (value: number) => length(value, 'nearest', n);
  const stretch = Object.entries(over ?? {}).map(
    ([axis, { min, max }]) => [axis, { min: at(min), max: at(max) }] as const,
  );
  return { part, cut, ...(over && { over: Object.fromEntries(stretch) }) };
}

function limitJson({ quantity, min, max, why }: Limit, n: Numbers): object {
  const value = (at: number) => {
    if (quantity.of === 'front axle load') return massJson(at, 'nearest', n);
    return isAngle(quantity) ? along('pitch', at, n) : length(at, 'nearest', n);
  };
  const what =
    quantity.of === 'height above'
      ? { ...quantity.what, above: quantity.above }
      : quantity.of === 'joint angle'
        ? { joint: quantity.joint, state: quantity.state }
        : quantity.of === 'joint difference'
          ? { difference: quantity.state }
          : quantity.of === 'front axle load'
            ? { load: 'front axle' }
            : { coordinate: quantity.of };
  return { ...what, min: value(min), max: value(max), ...(why !== undefined && { why }) };
}

function isAngle({ of }: Limit['quantity']): boolean {
  return of === 'pitch' || of === 'joint angle' || of === 'joint difference';
}

/** Degrees along pitch; null for an end that nobody asked for. */
function along(coordinate: Coordinate, value: number, n: Numbers): number | null {
  if (coordinate !== 'pitch') return length(value, 'nearest', n);
  return Number.isFinite(value) ? Number(((value * 180) / Math.PI).toFixed(6)) : null;
}

/** The answer of `berth trim`; `null` stands for what is not there or has no finite value. */
export function trimJson(answer: TrimAnswer, wants: Wants, n: Numbers): object {
  return {
    title: n.scenario.title,
    units: n.units,
    wish: wishJson(wants, answer.wish.margin, n),
    options: optionsJson(answer.set, n.scenario),
    uncut: answer.uncut,
    cheapest: answer.cheapest === undefined ? null : remedyJson(answer.cheapest, n),
    cheapestProved: answer.cheapestProved,
    curves: answer.curves.map(({ trim, points, enough, best }) => ({
      ...trimmedJson(trim, n),
      upTo: length(trim.upTo, 'nearest', n),
      enough: length(enough, 'up', n),
      bestHour:
        best === undefined
          ? null
          : { depth: length(best.depth, 'up', n), perHour: length(best.perHour, 'down', n) },
      points: points.map(({ depth, margin, bound, hours, cost, binding }) => ({
        depth: length(depth, 'up', n),
        margin: length(margin, 'down', n),
        bound: length(bound, 'up', n),
        hours,
        cost,
        binding: binding.map(({ between, measured }) => ({ between, measured })),
      })),
    })),
    stopped: answer.stopped ?? null,
    effort: answer.effort,
  };
}
