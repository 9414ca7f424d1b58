/**
 * What each support of an engine carries: forces only, by statics.
 *
 * Upright forces take the weight and the moments about the level axes, level forces the push and the moment
 * about the upright one; each set as supports of equal stiffness would share it, which for three upright
 * forces is the one way there is. Level forces that act at other heights turn the engine too: the upright ones
 * take that up. What supports in a line cannot take is left over, and said. Newtons, newton millimetres.
 */

import { maxOf } from '../../model/extremes.js';
import type { Vec3 } from '../../model/scenario.js';
import { cross, minus, plus } from '../../model/vector.js';
import * as trig from '../../model/trig.js';

/** A force at a point, and a moment. */
export interface Applied {
  readonly force: Vec3;
  readonly at: Vec3;
  readonly moment: Vec3;
}

export interface Shared {
  /** On the engine, a support each, in their order. */
  readonly forces: readonly Vec3[];
  /** The moment on the engine that the supports cannot give: what else holds it must. */
  readonly left: Vec3;
}

/** Square millimetres, as a share of the whole spread: supports no wider than this stand in a line. */
const IN_LINE = 1e-6;

/** @param supports vehicle frame; one or more. */
export function shareLoad(supports: readonly Vec3[], applied: Applied): Shared {
  const count = supports.length;
  const middle = supports.reduce<Vec3>((sum, at) => plus(sum, at, 1 / count), [0, 0, 0]);
  const arms = supports.map((at) => minus(at, middle));
  const { force } = applied;
  const turning = plus(applied.moment, cross(minus(applied.at, middle), force));
  const level = levelForces(arms, force, turning[2]);
  const tipped = arms.reduce<Vec3>((sum, arm, i) => plus(sum, cross(arm, level[i]!)), turning);
  const upright = uprightForces(arms, force[2], tipped);
  const forces = level.map(([x, y], i): Vec3 => [x, y, upright[i]!]);
  const moments = arms.reduce<Vec3>((sum, arm, i) => plus(sum, cross(arm, forces[i]!)), turning);
  const largest = trig.hypot(...turning) + trig.hypot(...force) * spread(arms);
  const left = moments.map((one) => (Math.abs(one) > DUST * largest ? 0 - one : 0));
  return { forces, left: [left[0]!, left[1]!, left[2]!] };
}

/** A moment of this share of those applied is rounding. */
const DUST = 1e-9;

function spread(arms: readonly Vec3[]): number {
  return Math.max(0, maxOf(arms.map((arm) => trig.hypot(...arm))));
}

/** Forces fore-and-aft and sideways that hold a level push and a moment about the upright axis. */
function levelForces(arms: readonly Vec3[], [fx, fy]: Vec3, mz: number): Vec3[] {
  const polar = arms.reduce((sum, [x, y]) => sum + x * x + y * y, 0);
  // Turned by c about the middle, a support is pushed by c (-y, x): the moments sum to c polar.
  const turn = polar > 0 ? -mz / polar : 0;
  return arms.map(([x, y]): Vec3 => [
    -fx / arms.length - turn * y,
    -fy / arms.length + turn * x,
    0,
  ]);
}

/** Upright forces a + b x + c y that hold a weight and two tipping moments, as far as they can. */
function uprightForces(arms: readonly Vec3[], fz: number, [mx, my]: Vec3): number[] {
  const sum = (of: (arm: Vec3) => number): number => arms.reduce((all, arm) => all + of(arm), 0);
  const [xx, xy, yy] = [sum(([x]) => x * x), sum(([x, y]) => x * y), sum(([, y]) => y * y)];
  // Moments of an upright force f at (x, y): (y f, -x f). So sum x f = my and sum y f = -mx.
  const [b, c] = solveSpread([xx, xy, yy], [my, -mx]);
  return arms.map(([x, y]) => -fz / arms.length + b * x + c * y);
}

/**
 * The b and c of least size with xx b + xy c = p and xy b + yy c = q, where the supports spread that way; along
 * their principal directions, so that supports in a line take what they can.
 */
function solveSpread(
  [xx, xy, yy]: readonly [number, number, number],
  [p, q]: readonly [number, number],
): readonly [number, number] {
  const angle = trig.atan2(2 * xy, xx - yy) / 2;
  const [c, s] = [trig.cos(angle), trig.sin(angle)];
  const most = xx * c * c + 2 * xy * c * s + yy * s * s;
  const least = xx * s * s - 2 * xy * c * s + yy * c * c;
  const [along, across] = [p * c + q * s, q * c - p * s];
  const one = most > 0 ? along / most : 0;
  const other = least > IN_LINE * most ? across / least : 0;
  return [one * c - other * s, one * s + other * c];
}
