/** A solid of a part that turns in use, at the angles of its turn. */

import { AXES, type Range, type Solid, type Turn, type Vec3 } from '../../model/scenario.js';
import * as trig from '../../model/trig.js';
import type { Handling } from '../building/draft.js';
import { placed } from '../placed.js';
import { shapeOf, type Shape } from '../shape.js';

/** Shapes kept; the angles asked for are halves of halves of the range, so they come again. */
const MOST_KEPT = 512;
/** Equal steps of angle from whose ends a bound over the whole turn is made. */
const STEPS = 16;

/** How a turning solid is handled, as `shapeOf` has it, but for the turn itself. */
type TurnHandling = Omit<Handling, 'turn'>;

/** Millimetres and radians, in the frame of the part's side unless slanted. */
export class TurningShape {
  readonly range: Range;
  /** 0 to 2, for x to z. */
  readonly axis: number;
  /** Where the axis runs through. */
  readonly center: readonly [number, number, number];
  /** All of the core, before its sweep, lies within this of the axis of the turn. */
  readonly radius: number;
  /** The longest vector of the sweep. */
  readonly swept: number;
  private readonly kept = new Map<number, Shape>();

  constructor(
    private readonly solid: Solid,
    private readonly how: TurnHandling,
    private readonly turn: Turn,
    /** The row-major rotation from the frame of the part's side, in which `axis` is, to that of all else. */
    readonly slant?: Float64Array,
  ) {
    this.range = turn.by;
    this.axis = AXES.indexOf(turn.about);
    this.center = slant === undefined ? turn.at : turnedPoint(turn.at, slant);
    const { sweep, ...rest } = how;
    this.radius = coreReach(shapeOf(solid, rest), this.axis, turn.at);
    this.swept = sweep
      ? trig.norm(AXES.map((a) => Math.max(Math.abs(sweep[a].min), Math.abs(sweep[a].max))))
      : 0;
  }

  /** The solid turned by an angle, then swept. The same angle gives the same shape, mostly. */
  turnedTo(angle: number): Shape {
    let shape = this.kept.get(angle);
    if (!shape) {
      const { about, at } = this.turn;
      const level = shapeOf(this.solid, { ...this.how, turn: { about, at, by: angle } });
      shape = this.slant === undefined ? level : placed(level, this.slant);
      if (this.kept.size >= MOST_KEPT) this.kept.clear();
      this.kept.set(angle, shape);
    }
    return shape;
  }

  /** The same solid and turn seen from another frame, by the row-major rotation that leads there. */
  slanted(slant: Float64Array): TurningShape {
    return new TurningShape(this.solid, this.how, this.turn, slant);
  }

  /**
   * An upper bound over the whole turn of a measure of the shape that changes by at most `rate` times
   * as much as the shape's points move.
   */
  atMost(measure: (shape: Shape) => number, rate: number): number {
    const { min, max } = this.range;
    const step = (max - min) / STEPS;
    let most = -Infinity;
    for (let k = 0; k <= STEPS; k++) {
      most = Math.max(most, measure(this.turnedTo(min + k * step)));
    }
    return most + (rate * this.radius * step) / 2;
  }
}

function turnedPoint([x, y, z]: Vec3, r: Float64Array): Vec3 {
  const row = (i: number): number => r[i]! * x + r[i + 1]! * y + r[i + 2]! * z;
  return [row(0), row(3), row(6)];
}

/** Greatest distance of a core's points, disc included, from a line along an axis (0 to 2). */
export function coreReach(
  shape: Shape,
  axis: number,
  through: readonly [number, number, number],
): number {
  const [j, k] = [(axis + 1) % 3, (axis + 2) % 3];
  let reach = 0;
  for (let i = 0; i < shape.points.length; i += 3) {
    const u = shape.points[i + j]! - through[j]!;
    const v = shape.points[i + k]! - through[k]!;
    reach = Math.max(reach, trig.hypot(u, v));
  }
  return reach + shape.disc;
}
