/**
 * What stands in the bay under an option set, as solids to draw: at rest, over its motions, and what trims
 * have taken off. Engine parts are given in the engine's own frame, so that a scene is made once and posed
 * at any position; chassis parts in the vehicle frame. Millimetres and radians.
 */

import { placed, shifted } from '../geometry/placed.js';
import { attitude } from '../geometry/rotation.js';
import { shapeOf } from '../geometry/shape.js';
import type { Shape } from '../geometry/shape.js';
import type { Kind } from '../model/kinds.js';
import { partNames, partUnder, takenOffUnder } from '../model/options.js';
import type { OptionSet, Position, Scenario, Side } from '../model/scenario.js';
import { withTrims } from '../model/trims.js';
import { motionCells } from './motions.js';

/** One part that stands. */
export interface ScenePart {
  readonly name: string;
  readonly side: Side;
  readonly kind?: Kind;
  /** Whether its sizes are a guess. */
  readonly guess: boolean;
  /** As a tape meets it, in the frame of its side: an engine part is to be posed. */
  readonly solids: readonly Shape[];
  /**
   * Its motions in use (turn, sweep and the engine's rock), in the same frame: solids at moments near one
   * another, whose convex hull is what is passed over between them. Empty where it does not move.
   */
  readonly motions: readonly (readonly Shape[])[];
  /** Of an engine part, what it passes over where a mount has failed and the engine lifts; else empty. */
  readonly lifted: readonly (readonly Shape[])[];
  /** The room it needs to come out, in the same frame; empty where the file names none. */
  readonly comesOut: readonly Shape[];
  /** What the trims of this scene take off it, in the same frame. */
  readonly removed: readonly Shape[];
}

export interface Scene {
  /** In the file's order, those that options bring last. */
  readonly parts: readonly ScenePart[];
}

/**
 * Every part that stands under an option set of the scenario's own choices.
 * @param depths millimetres by trim, each trim carried out so deep; none unless given.
 */
export function sceneOf(
  scenario: Scenario,
  set: OptionSet,
  depths: readonly number[] = scenario.trims.map(() => 0),
): Scene {
  const cut = withTrims(scenario, depths);
  const options = [...set, ...scenario.trims.map(() => 1)];
  const parts = partNames(cut).flatMap((name): ScenePart[] => {
    const place = partUnder(cut, name, options);
    if (place === undefined) return [];
    const { part, move } = place;
    const { side, kind, mirrored, comesOut } = part;
    const how = { mirrored, move };
    const solids = part.solids.map((solid) => shapeOf(solid, how));
    const lift = side === 'engine' ? scenario.lift : 0;
    return [
      {
        name,
        side,
        ...(kind !== undefined && { kind }),
        guess: part.guess === true,
        solids,
        motions: motionCells(place, side === 'engine' ? scenario.rock : 0),
        lifted: lift > 0 ? solids.map((solid) => [solid, shifted(solid, 0, 0, lift)]) : [],
        comesOut: comesOut
          ? part.solids.map((solid) => shapeOf(solid, { ...how, sweep: comesOut }))
          : [],
        removed: takenOffUnder(cut, name, options).map((solid) => shapeOf(solid, { move })),
      },
    ];
  });
  return { parts };
}

/**
 * How the solids of a side stand in the vehicle frame with the engine at a position: an engine's are
 * pitched and moved, a chassis' are as they are.
 */
export function posing(side: Side, position: Position): (shape: Shape) => Shape {
  if (side === 'chassis') return (shape) => shape;
  const { setback, offset, height, pitch } = position;
  const rotation = attitude(pitch, 0, new Float64Array(9));
  return (shape) => shifted(placed(shape, rotation), setback, offset, height);
}
