/**
 * Contacts as an engine that leans sees them.
 *
 * The engine turns by R = Rz(yaw) Ry(pitch) Rx(roll). With Q = Rz(yaw) Ry(pitch) Rx(roll) Ry(-pitch), R is
 * Q Ry(pitch), and so a point that its own turn, rock and lift have brought to p is at Q Ry(pitch) p + t.
 * Gaps do not feel a turn of everything by Q back: Ry(pitch) p + Q't against the chassis turned by Q', and
 * along Q'd where the vehicle's d was meant. That is an engine with pitch alone, about its own crankshaft and
 * lifted along its own vertical, in a chassis that is turned the other way; all else measures that exactly.
 */

import { turns } from '../../geometry/motion/moving-pair.js';
import { placed } from '../../geometry/placed.js';
import { pitchRotation } from '../../geometry/rotation.js';
import type { Vec3 } from '../../model/scenario.js';
import { stanceRotation } from '../../model/stance.js';
import type { Stance } from '../../model/stance.js';
import type { Contact } from './contact.js';
import { alongAxis } from './fixed.js';

/** A stance as one with pitch alone among solids turned the other way. */
export class Leaning {
  /** Setback, offset, height and pitch among the turned solids. */
  readonly x: Float64Array;
  /** Q, row-major, and Q turned over. */
  private readonly ahead: Float64Array;
  private readonly back: Float64Array;

  constructor(stance: Stance) {
    const pitch = pitchRotation(stance.pitch, new Float64Array(9));
    this.back = timesTransposed(pitch, stanceRotation(stance));
    this.ahead = transposed(this.back);
    const at = turned(this.back, [stance.setback, stance.offset, stance.height]);
    this.x = Float64Array.of(...at, stance.pitch);
  }

  /** The contact with its chassis solid, and the axis of its rule, turned. */
  contact(c: Contact): Contact {
    const { back } = this;
    const { motion } = c;
    const chassis = placed(c.chassis, back);
    const chassisStill = c.chassisStill === c.chassis ? chassis : placed(c.chassisStill, back);
    return {
      ...c,
      chassis,
      chassisStill,
      ...(c.axis >= 0 && { along: turned(back, alongAxis(c.axis, c.sign)) }),
      ...(motion && {
        motion: { ...motion, b: turns(motion.b) ? motion.b.slanted(back) : placed(motion.b, back) },
      }),
    };
  }

  /** A direction found among the turned solids, in the vehicle frame. */
  inVehicle(direction: Vec3): Vec3 {
    return turned(this.ahead, direction);
  }

  /** A direction of the vehicle as it is among the turned solids. */
  amongTurned(direction: Vec3): Vec3 {
    return turned(this.back, direction);
  }
}

/** Row-major a b', the second turned over. */
function timesTransposed(a: Float64Array, b: Float64Array): Float64Array {
  return Float64Array.from({ length: 9 }, (_, i) => {
    const [row, column] = [3 * Math.floor(i / 3), 3 * (i % 3)];
    return a[row]! * b[column]! + a[row + 1]! * b[column + 1]! + a[row + 2]! * b[column + 2]!;
  });
}

function transposed(r: Float64Array): Float64Array {
  return Float64Array.from({ length: 9 }, (_, i) => r[3 * (i % 3) + Math.floor(i / 3)]!);
}

function turned(r: Float64Array, [x, y, z]: Vec3): Vec3 {
  const row = (i: number): number => r[i]! * x + r[i + 1]! * y + r[i + 2]! * z;
  return [row(0), row(3), row(6)];
}
