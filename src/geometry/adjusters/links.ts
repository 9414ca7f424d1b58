/**
 * Adjustable links between the frame and the engine: how long each is where the engine sits, and where the
 * engine sits for their lengths. Millimetres and radians, vehicle frame.
 *
 * Motions are weighed alike by giving a turn as the way of a point TURN_ARM off: the six numbers of a
 * stance, its turns times TURN_ARM, are its `scaled` ones, all in millimetres.
 */

import { maxOf } from '../../model/extremes.js';
import type { Vec3 } from '../../model/scenario.js';
import { carried, slopesAlong, stanceFrom, stanceVector } from '../../model/stance.js';
import type { Stance } from '../../model/stance.js';
import * as trig from '../../model/trig.js';
import { dot, singular } from '../singular.js';

/** Millimetres: about half an engine. */
export const TURN_ARM = 300;

export interface Link {
  /** From the chassis datum. */
  readonly frame: Vec3;
  /** From the engine datum. */
  readonly engine: Vec3;
}

/** From point to point. */
export function lengthOf({ frame, engine }: Link, stance: Stance): number {
  const at = carried(stance, engine);
  return trig.hypot(at[0] - frame[0], at[1] - frame[1], at[2] - frame[2]);
}

/** How much longer a link gets for a step of each motion, scaled; all 0 where its points meet. */
export function lengthSlopes({ frame, engine }: Link, stance: Stance): Float64Array {
  const at = carried(stance, engine);
  const length = trig.hypot(at[0] - frame[0], at[1] - frame[1], at[2] - frame[2]);
  if (length === 0) return new Float64Array(6);
  const along = at.map((value, k) => (value - frame[k]!) / length) as unknown as Vec3;
  return scaledSlopes(slopesAlong(stance, at, along));
}

/** Slopes by motion as slopes by scaled motion. */
export function scaledSlopes(slopes: Float64Array): Float64Array {
  return slopes.map((slope, k) => (k < 3 ? slope : slope / TURN_ARM));
}

/** A stance as millimetres in all six. */
export function scaledStance(stance: Stance): Float64Array {
  return stanceVector(stance).map((value, k) => (k < 3 ? value : value * TURN_ARM));
}

/** The stance of such six numbers. */
export function unscaledStance(scaled: ArrayLike<number>): Stance {
  return stanceFrom(Array.from(scaled, (value, k) => (k < 3 ? value : value / TURN_ARM)));
}

/** A scaled direction along which something else holds the engine where `at` is. */
export interface Hold {
  readonly along: readonly number[];
  readonly at: Stance;
}

export interface Found {
  readonly stance: Stance;
  /** The most that a link's length there is off what was asked, mm. */
  readonly off: number;
}

const MOST_STEPS = 60;
/** Millimetres: steps smaller than this change nothing that is measured. */
const SETTLED = 1e-10;
/** Millimetres of one step, so that a long way is followed and not jumped. */
const LONGEST_STEP = 25;
/** Singular values under this share of the greatest tell nothing. */
const BLIND = 1e-9;

/**
 * Where the engine sits when the links have these lengths, nearest to `from` as steps of Gauss and Newton
 * lead; the best fit where the lengths contradict one another. Along `holds` the engine stays.
 */
export function stanceOfLengths(
  links: readonly Link[],
  lengths: ArrayLike<number>,
  from: Stance,
  holds: readonly Hold[],
): Found {
  let x = scaledStance(from);
  const held = holds.map(({ along, at }) => ({ along, value: dot(along, scaledStance(at)) }));
  for (let step = 0; step < MOST_STEPS; step++) {
    const stance = unscaledStance(x);
    const rows: ArrayLike<number>[] = links.map((link) => lengthSlopes(link, stance));
    const rest = links.map((link, i) => lengths[i]! - lengthOf(link, stance));
    for (const { along, value } of held) {
      rows.push(along);
      rest.push(value - dot(along, x));
    }
    const by = leastSquares(rows, rest);
    const size = trig.norm(by);
    const share = size > LONGEST_STEP ? LONGEST_STEP / size : 1;
    x = x.map((value, k) => value + share * by[k]!);
    if (size < SETTLED) break;
  }
  const stance = unscaledStance(x);
  const off = Math.max(
    0,
    maxOf(links.map((link, i) => Math.abs(lengths[i]! - lengthOf(link, stance)))),
  );
  return { stance, off };
}

/**
 * The shortest step that fits `rest` best, in the sense of least squares.
 * @param least singular values under this, or under BLIND of the greatest, tell nothing.
 */
export function leastSquares(
  rows: readonly ArrayLike<number>[],
  rest: readonly number[],
  least = 0,
): number[] {
  const { values, right } = singular(rows, 6);
  const step = new Array<number>(6).fill(0);
  right.forEach((direction, k) => {
    const value = values[k]!;
    if (!(value > BLIND * values[0]! && value > least)) return;
    let along = 0;
    rows.forEach((row, i) => (along += dot(row, direction) * rest[i]!));
    for (let j = 0; j < 6; j++) step[j]! += (direction[j]! * along) / (value * value);
  });
  return step;
}
