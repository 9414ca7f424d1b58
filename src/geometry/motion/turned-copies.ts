/** Copies of a shape turned to the angles asked for most, so that none is turned twice in a row. */

import { placed } from '../placed.js';
import { attitude } from '../rotation.js';
import type { Shape } from '../shape.js';

const rotation = new Float64Array(9);

/** Up to four turned copies of a shape, with the attitude that each stands at. */
class TurnedCopies {
  private readonly shapes: (Shape | undefined)[] = [undefined, undefined, undefined, undefined];
  private readonly stands = new Float64Array(8).fill(NaN);

  /** The shape rocked by `angle`, then pitched; `slot`, 0 to 3, is where the copy is kept. */
  at(slot: number, shape: Shape, pitch: number, angle: number): Shape {
    const known = this.shapes[slot];
    if (
      known !== undefined &&
      this.stands[2 * slot] === pitch &&
      this.stands[2 * slot + 1] === angle
    ) {
      return known;
    }
    const turned = placed(shape, attitude(pitch, angle, rotation), known);
    this.shapes[slot] = turned;
    this.stands[2 * slot] = pitch;
    this.stands[2 * slot + 1] = angle;
    return turned;
  }
}

const turnedCopies = new WeakMap<Shape, TurnedCopies>();

/** The copies of a shape. They are kept for as long as the shape, which must therefore never change. */
export function copiesOf(shape: Shape): TurnedCopies {
  let copies = turnedCopies.get(shape);
  if (copies === undefined) {
    copies = new TurnedCopies();
    turnedCopies.set(shape, copies);
  }
  return copies;
}
