/** How the two solids of a contact move, where that is more than the engine's rock. */

import { turns, movingPair, standing } from '../../geometry/motion/moving-pair.js';
import type { MotionState, MovingPair } from '../../geometry/motion/moving-pair.js';
import { shifted } from '../../geometry/placed.js';
import type { Shape } from '../../geometry/shape.js';
import type { Part, Scenario } from '../../model/scenario.js';
import * as trig from '../../model/trig.js';
import type { Contact } from './contact.js';
import { EngineSolid } from './pose.js';
import type { InUse } from './solids.js';

/** Whether two parts of one side are named as moving together. */
export function moveTogether({ together }: Scenario, a: Part, b: Part): boolean {
  return together.some((names) => names.includes(a.name) && names.includes(b.name));
}

/** The pair, or undefined where rock is all that moves it. */
export function motionOf(
  engine: InUse,
  chassis: InUse,
  rock: number,
  lift: number,
): MovingPair | undefined {
  if (!turns(engine) && !turns(chassis) && !(lift > 0)) return undefined;
  return movingPair(engine, chassis, rock, lift);
}

/** How far from the pitch axis any point of the engine solid can be, over every motion. */
export function motionReach({ a, rock, lift }: MovingPair): number {
  const reach = (shape: Shape): number => engineSolidOf(shape).reach(rock);
  // A point that moves by d changes what `reach` bounds by at most d and its rise, a root of two of it.
  return (turns(a) ? a.atMost(reach, Math.SQRT2) : reach(a)) + lift;
}

/** The engine solid at a moment of the contact's motion, pitched about the engine datum. */
export function engineAt(c: Contact, pitch: number, state: MotionState): Shape {
  const { motion } = c;
  if (!motion) return c.engine.at(pitch, state.rock);
  const shape = engineSolidOf(standing(motion.a, state.turnA)).at(pitch, state.rock);
  const { lift } = state;
  if (lift === 0) return shape;
  return shifted(shape, lift * trig.sin(pitch), 0, lift * trig.cos(pitch));
}

/** The chassis solid at a moment of the contact's motion. */
export function chassisAt(c: Contact, state: MotionState): Shape {
  return c.motion ? standing(c.motion.b, state.turnB) : c.chassis;
}

const engineSolids = new WeakMap<Shape, EngineSolid>();

/** The engine solid of a shape, one for as long as the shape is. */
export function engineSolidOf(shape: Shape): EngineSolid {
  let solid = engineSolids.get(shape);
  if (!solid) engineSolids.set(shape, (solid = new EngineSolid(shape)));
  return solid;
}
