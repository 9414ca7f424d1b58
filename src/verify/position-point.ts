/** A box of positions as numbers with slopes, and the engine's frame turned to it. */

import type { Four } from '../model/certificate.js';
import type { Range4 } from './box.js';
import type { Vector } from './outward.js';
import { coordinate, known, minus, pitchTurn, plus, product } from './slopes.js';
import type { Sloped, Vector3 } from './slopes.js';

/** Something that is 0 or more wherever the limit is kept, over a box. */
export type Side = (at: Point) => Sloped;

/** A box with its middle, and what a position is there. */
export interface Point {
  readonly lo: Four;
  readonly hi: Four;
  readonly middle: Four;
  readonly x: readonly [Sloped, Sloped, Sloped, Sloped];
  readonly cos: Sloped;
  readonly sin: Sloped;
}

export function pointOf({ lo, hi }: Range4): Point {
  const middle = lo.map((low, k) => low + (hi[k]! - low) / 2) as unknown as Four;
  const x = ([0, 1, 2, 3] as const).map((k) => coordinate(k, lo, hi, middle[k]));
  return {
    lo,
    hi,
    middle,
    x: x as unknown as Point['x'],
    ...pitchTurn(lo, hi, middle[3]),
  };
}

/** A vector of the engine's frame in the vehicle's. */
export function pitched(v: Vector, { cos, sin }: Point): Vector3 {
  const [x, y, z] = [known(v[0]), known(v[1]), known(v[2])];
  return [plus(product(cos, x), product(sin, z)), y, minus(product(cos, z), product(sin, x))];
}
