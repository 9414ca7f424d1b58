/**
 * The true angle of one joint as a function of the engine's position, with its slopes, and how far it can
 * bend over a box of positions.
 *
 * The angle between a vector D and a fixed direction, in the plane of the two, changes by 1/|D| per unit that
 * D moves, and bends by 1/|D|^2. Out of that plane it can only grow: with u away from the direction and s out of
 * the plane, sqrt(u^2 + s^2) <= u + s^2 / 2u, which is divided by the length of D in the plane for the angle. D is a smooth function of the
 * position: at the front it is taken in the engine's frame, where the output stands still.
 */

import type { AxleState, Driveline } from '../../model/fitup/driveline.js';
import type { Vec3 } from '../../model/scenario.js';
import { cross, dot, lengthOf, unit } from '../../model/vector.js';
import { stanceFrom } from '../../model/stance.js';
import * as trig from '../../model/trig.js';
import { jointsAt, outputDirection, pinionDirection } from './standing.js';

/** How far an angle may leave its straight line over a box, and the least and greatest it can be. */
export interface Enclosure {
  /** The line: the angle at the middle of the box, and its change for half the box's width each way. */
  readonly value: number;
  readonly slopes: Float64Array;
  /** The angle is nowhere less than the line less this, nor more than the line and that; radians. */
  readonly under: number;
  readonly over: number;
  readonly min: number;
  readonly max: number;
  /** The share of `under` and `over` that each coordinate's width causes; they sum to 1 or are all 0. */
  readonly blame: Float64Array;
}

interface Turned {
  /** D, and how it changes with setback, offset, height and pitch. */
  readonly shaft: Vec3;
  readonly by: readonly [Vec3, Vec3, Vec3, Vec3];
  /** How fast D swings with pitch: the length, square to the pitch axis, of what turns. */
  readonly lever: number;
}

export class JointModel {
  private readonly direction: Vec3;
  private readonly pinion: Vec3;

  constructor(
    private readonly driveline: Driveline,
    readonly joint: 'front' | 'rear',
    private readonly state: AxleState,
  ) {
    const pinion = driveline.pinion[state];
    if (pinion === undefined) throw new RangeError(`no pinion at ${state}`);
    this.pinion = pinion.at;
    this.direction =
      joint === 'front' ? outputDirection(driveline, UNTURNED) : pinionDirection(pinion);
  }

  /** Radians at a position: setback, offset, height, pitch; roll and yaw too where the engine leans. */
  at(x: ArrayLike<number>): number {
    if (x.length === 6) {
      const { driveline, joint, state } = this;
      return jointsAt(driveline, stanceFrom(x), driveline.pinion[state]!)[joint]!.true;
    }
    const { shaft } = this.turned(x);
    return trig.atan2(lengthOf(cross(shaft, this.direction)), dot(shaft, this.direction));
  }

  /** Over the box with this middle and these half widths, which must leave the shaft some length. */
  over(mid: ArrayLike<number>, half: ArrayLike<number>): Enclosure {
    const { shaft, by, lever } = this.turned(mid);
    const length = lengthOf(shaft);
    const value = this.at(mid);
    const wide = trig.hypot(half[0]!, half[1]!, half[2]!);
    const turn = half[3]!;
    // What turns is longer at the far end of the box, at the front.
    const swing = (this.joint === 'front' ? lever + wide : lever) * turn;
    const moved = wide + swing;
    const slopes = this.slopes(shaft, by, value, half);
    const least = length - moved;
    if (least <= 0) return { value, slopes, ...ANYTHING, blame: new Float64Array(4) };
    const reach = trig.asin(Math.min(1, moved / length));
    const nearest = Math.max(0, value - reach);
    const bent = (swing * turn) / 2 + (this.joint === 'front' ? wide * turn : 0);
    // Past a right angle the plane's own angle need not be the lesser one.
    const isAcute = value + reach < Math.PI / 2;
    const { aside, across } = this.sideways(shaft, by, half);
    // In the plane of shaft and direction the angle bends by 1/|D|^2, whichever way the shaft swings there.
    const plane = Math.sqrt(Math.max(0, least * least - trig.squared(aside + bent)));
    const under = plane > 0 && isAcute ? trig.squared(moved / plane) / 2 + bent / plane : Infinity;
    const out = length * trig.sin(value) - across - bent;
    const over = out > 0 ? under + trig.squared(aside + bent) / (2 * out * plane) : Infinity;
    const spread = slopes.reduce((sum, slope) => sum + Math.abs(slope), 0);
    const blame = Float64Array.of(half[0]!, half[1]!, half[2]!, swing);
    const all = blame.reduce((sum, part) => sum + part, 0);
    return {
      value,
      slopes,
      under,
      over,
      min: Math.max(nearest, value - spread - under),
      max: Math.min(value + reach, value + spread + over),
      blame: all > 0 ? blame.map((part) => part / all) : blame,
    };
  }

  /** How far the shaft's end goes over the box, to first order: out of its plane with the direction, and away from it. */
  private sideways(
    shaft: Vec3,
    by: Turned['by'],
    half: ArrayLike<number>,
  ): { aside: number; across: number } {
    const normal = cross(this.direction, shaft);
    const size = lengthOf(normal);
    // Of a straight joint every way is out of the plane.
    if (size === 0) return { aside: this.all(by, half), across: Infinity };
    const aside = unit(normal);
    const across = cross(aside, this.direction);
    const along = (way: Vec3): number =>
      by.reduce((sum, one, k) => sum + Math.abs(dot(one, way)) * half[k]!, 0);
    return { aside: along(aside), across: along(across) };
  }

  private all(by: Turned['by'], half: ArrayLike<number>): number {
    return by.reduce((sum, one, k) => sum + lengthOf(one) * half[k]!, 0);
  }

  /** Half the box's width times the slope, for each coordinate; 0 where the joint is straight. */
  private slopes(
    shaft: Vec3,
    by: Turned['by'],
    value: number,
    half: ArrayLike<number>,
  ): Float64Array {
    const sin = trig.sin(value);
    const slopes = new Float64Array(4);
    if (sin === 0) return slopes;
    const length = lengthOf(shaft);
    const along = unit(shaft);
    const cos = trig.cos(value);
    const gradient = along.map((d, k) => (cos * d - this.direction[k]!) / (length * sin));
    for (let k = 0; k < 4; k++) slopes[k] = dot(gradient as unknown as Vec3, by[k]!) * half[k]!;
    return slopes;
  }

  private turned(x: ArrayLike<number>): Turned {
    const { output } = this.driveline;
    const [c, s] = [trig.cos(x[3]!), trig.sin(x[3]!)];
    const from: Vec3 = [this.pinion[0] - x[0]!, this.pinion[1] - x[1]!, this.pinion[2] - x[2]!];
    if (this.joint === 'rear') {
      const [px, py, pz] = [
        c * output[0] + s * output[2],
        output[1],
        c * output[2] - s * output[0],
      ];
      return {
        shaft: [from[0] - px, from[1] - py, from[2] - pz],
        by: [
          [-1, 0, 0],
          [0, -1, 0],
          [0, 0, -1],
          [-pz, 0, px],
        ],
        lever: trig.hypot(output[0], output[2]),
      };
    }
    const [ex, ez] = [c * from[0] - s * from[2], s * from[0] + c * from[2]];
    return {
      shaft: [ex - output[0], from[1] - output[1], ez - output[2]],
      by: [
        [-c, 0, -s],
        [0, -1, 0],
        [s, 0, -c],
        [-ez, 0, ex],
      ],
      lever: trig.hypot(from[0], from[2]),
    };
  }
}

const UNTURNED = { setback: 0, offset: 0, height: 0, pitch: 0 };

/** Where the shaft may have no length at all nothing is known. */
const ANYTHING = { under: Infinity, over: Infinity, min: 0, max: Math.PI };
