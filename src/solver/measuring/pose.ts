import * as trig from '../../model/trig.js';
import { attitude } from '../../geometry/rotation.js';
import { placed } from '../../geometry/placed.js';
import type { Shape } from '../../geometry/shape.js';

const SLOTS = 4;

/**
 * A convex solid of the engine with its last few rotated copies kept, so that measuring many pairs
 * at one pitch rotates it once.
 */
export class EngineSolid {
  private readonly slots: { pitch: number; rock: number; shape: Shape | undefined }[] = [];
  private next = 0;
  private readonly rotation = new Float64Array(9);
  /** Greatest distance of any point from the Y axis through the engine datum, at any rock. */
  private readonly reachAt = new Map<number, number>();

  constructor(readonly shape: Shape) {
    for (let i = 0; i < SLOTS; i++) this.slots.push({ pitch: NaN, rock: NaN, shape: undefined });
  }

  /** The solid turned by `rock` about the crankshaft and then by `pitch`, about the engine datum. */
  at(pitch: number, rock: number): Shape {
    for (const slot of this.slots) {
      if (slot.pitch === pitch && slot.rock === rock) return slot.shape!;
    }
    const slot = this.slots[this.next]!;
    this.next = (this.next + 1) % SLOTS;
    attitude(pitch, rock, this.rotation);
    slot.shape = placed(this.shape, this.rotation, slot.shape);
    slot.pitch = pitch;
    slot.rock = rock;
    return slot.shape;
  }

  /**
   * How far from the pitch axis any point can be while the engine rocks by up to `rock` each way:
   * times the pitch travel in radians, it bounds how far pitch moves any point.
   */
  reach(rock: number): number {
    let reach = this.reachAt.get(rock);
    if (reach === undefined) {
      reach = 0;
      const { points, count, disc, ball } = this.shape;
      for (let i = 0; i < count; i++) {
        const x = points[3 * i]!;
        const y = points[3 * i + 1]!;
        const z = points[3 * i + 2]!;
        const height = Math.min(trig.hypot(y, z), Math.abs(z) + Math.abs(y) * trig.sin(rock));
        reach = Math.max(reach, trig.hypot(x, height));
      }
      reach += disc + ball;
      this.reachAt.set(rock, reach);
    }
    return reach;
  }
}
