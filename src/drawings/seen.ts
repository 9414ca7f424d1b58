/** The parts of a scene as a view sees them: outlines in the view's plane, millimetres of the vehicle. */

import type { Shape } from '../geometry/shape.js';
import type { Position } from '../model/scenario.js';
import { aroundAll, outlineOf } from './outline.js';
import type { Outline } from './outline.js';
import { posing } from './scene.js';
import type { Scene, ScenePart } from './scene.js';
import { depthOf } from './view.js';
import type { View } from './view.js';

export interface Seen {
  readonly part: ScenePart;
  /** Its number on every drawing of the scene, from 1. */
  readonly tag: number;
  readonly outlines: readonly Outline[];
  readonly motions: readonly Outline[];
  readonly comesOut: readonly Outline[];
  readonly removed: readonly Outline[];
  /** How far its middle lies towards the eye. */
  readonly depth: number;
}

/** Every part, posed with the engine at a position. */
export function seenOf({ parts }: Scene, position: Position, view: View): Seen[] {
  return parts.map((part, i) => {
    const pose = posing(part.side, position);
    const flat = (shape: Shape): Outline => outlineOf(pose(shape), view);
    const cells = [...part.motions, ...part.lifted];
    const depths = part.solids.map((shape) => depthOf(view, pose(shape).center));
    return {
      part,
      tag: i + 1,
      outlines: part.solids.map(flat),
      motions: cells.map((cell) => aroundAll(cell.map(flat))),
      comesOut: part.comesOut.map(flat),
      removed: part.removed.map(flat),
      depth: depths.reduce((sum, depth) => sum + depth, 0) / Math.max(1, depths.length),
    };
  });
}
