/** Two solids of a pair of parts, ready to measure. */

import type { Along } from '../../geometry/motion/moved-gap.js';
import type { MovingPair } from '../../geometry/motion/moving-pair.js';
import type { Shape } from '../../geometry/shape.js';
import type { EngineSolid } from './pose.js';

/** Two convex solids and the gap they need. A rule's gap is the least over its contacts. */
export interface Contact {
  readonly id: number;
  readonly group: number;
  readonly engine: EngineSolid;
  readonly chassis: Shape;
  /** The same two as a tape meets them: no turn, no sweep, no rock. */
  readonly engineStill: EngineSolid;
  readonly chassisStill: Shape;
  /** Radians each way about the crankshaft; 0 for room to come out. */
  readonly rock: number;
  /** Turns and lift, with the rock; absent where rock is the only motion but sweeps. */
  readonly motion?: MovingPair;
  /** How far from the pitch axis any point of the engine solid can be, over every motion. */
  readonly reach: number;
  /** Vehicle axis of an axis rule, or -1 for the nearest gap. */
  readonly axis: -1 | 0 | 1 | 2;
  /** Along `axis`, +1 when the engine solid lies on the larger side of the chassis solid. */
  readonly sign: 1 | -1;
  /** The unit direction of an axis rule where it does not run along `axis`: as a leaning engine sees it. */
  readonly along?: Along;
  readonly needed: number;
}
