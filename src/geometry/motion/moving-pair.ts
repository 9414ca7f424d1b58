/**
 * Two solids that move against each other in use, and the state of their motions.
 *
 * A rides with the engine: it turns about its own axis, then rocks about the X axis, is lifted along Z,
 * pitches and moves. B rides with the chassis and turns about its own axis. Millimetres and radians.
 */

import type { Shape } from '../shape.js';
import { coreReach, type TurningShape } from './turning-shape.js';

/** Slots of a state of the motions. */
export const TURN_A = 0;
export const ROCK = 1;
export const TURN_B = 2;
export const LIFT = 3;
export const STATES = 4;

/** One moment of a motion. */
export interface MotionState {
  /** Angle of A's own turn. */
  turnA: number;
  rock: number;
  turnB: number;
  /** How far A is lifted, after it has rocked. */
  lift: number;
}

export interface MovingPair {
  readonly a: Shape | TurningShape;
  readonly b: Shape | TurningShape;
  /** Radians each way, at most a quarter turn. */
  readonly rock: number;
  /** From 0 to this. */
  readonly lift: number;
  /** Whether both turns stand at the same share of their ranges at every moment. */
  readonly together: boolean;
  /** Where each slot of the state begins and ends. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** How far A's core reaches from the X axis in its own frame, at any angle of its own turn. */
  readonly rockRadius: number;
}

export function movingPair(
  a: Shape | TurningShape,
  b: Shape | TurningShape,
  rock: number,
  lift: number,
  together = false,
): MovingPair {
  const reach = (shape: Shape): number => coreReach(shape, 0, [0, 0, 0]);
  const turnA = turns(a) ? a.range : STILL;
  const turnB = turns(b) ? b.range : STILL;
  return {
    a,
    b,
    rock,
    lift,
    together: together && turnA.min < turnA.max && turnB.min < turnB.max,
    low: Float64Array.of(turnA.min, -rock, turnB.min, 0),
    high: Float64Array.of(turnA.max, rock, turnB.max, lift),
    rockRadius: turns(a) ? a.atMost(reach, 1) : reach(a),
  };
}

const STILL = { min: 0, max: 0 };

export function turns(solid: Shape | TurningShape): solid is TurningShape {
  return 'range' in solid;
}

/** The solid at an angle of its own turn; the angle says nothing of one that does not turn. */
export function standing(solid: Shape | TurningShape, angle: number): Shape {
  return turns(solid) ? solid.turnedTo(angle) : solid;
}
