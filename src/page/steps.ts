/** How far the engine goes at a touch, and what its coordinates are called. */

import type { Coordinate, Position, Scenario } from '../model/scenario.js';
import { sides } from '../words/words.js';
import { heldInside } from './state.js';

/** One size of step: what it is called, and millimetres or radians. */
export interface Step {
  readonly name: string;
  readonly length: number;
  readonly angle: number;
}

const DEGREE = Math.PI / 180;

/** From a tape's mark up, in the file's units. */
export function stepsOf({ units }: Scenario): readonly Step[] {
  const inch = 25.4;
  return units === 'in'
    ? [
        { name: '1/16', length: inch / 16, angle: DEGREE / 10 },
        { name: '1/4', length: inch / 4, angle: DEGREE / 4 },
        { name: '1', length: inch, angle: DEGREE },
      ]
    : [
        { name: '1 mm', length: 1, angle: DEGREE / 10 },
        { name: '5 mm', length: 5, angle: DEGREE / 4 },
        { name: '25 mm', length: 25, angle: DEGREE },
      ];
}

/** The way to less, and to more, of a coordinate. */
export function waysOf(s: Scenario, coordinate: Coordinate): readonly [string, string] {
  const [right, left] = sides(s);
  switch (coordinate) {
    case 'setback':
      return ['Forward', 'Back'];
    case 'offset':
      return [`To ${left}`, `To ${right}`];
    case 'height':
      return ['Down', 'Up'];
    case 'pitch':
      return ['Tail up', 'Tail down'];
  }
}

/** A position with one coordinate a step on, put on a mark of that step, inside the ranges. */
export function nudged(
  s: Scenario,
  position: Position,
  coordinate: Coordinate,
  way: 1 | -1,
  step: Step,
): Position {
  const by = coordinate === 'pitch' ? step.angle : step.length;
  return heldInside(s, { ...position, [coordinate]: nextMark(position[coordinate], by, way) });
}

/** A value put on the nearest mark. */
export function onMark(value: number, by: number): number {
  return Math.round(value / by) * by;
}

/** The next multiple of a step one way. */
function nextMark(value: number, by: number, way: 1 | -1): number {
  const marks = value / by;
  const dust = 1e-6;
  return (way > 0 ? Math.floor(marks + dust) + 1 : Math.ceil(marks - dust) - 1) * by;
}
