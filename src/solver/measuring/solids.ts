/** The solids of a part as an option set has it: in use, at rest, and on its way out. */

import { maxOf, minOf } from '../../model/extremes.js';
import { TurningShape } from '../../geometry/motion/turning-shape.js';
import { shapeOf } from '../../geometry/shape.js';
import type { Shape } from '../../geometry/shape.js';
import type { PartInPlace } from '../../model/options.js';
import { AXES } from '../../model/scenario.js';
import type { Box, Range } from '../../model/scenario.js';
import { plus } from '../../model/vector.js';

/** A solid in use: it turns, or it stands with all of its sweep. */
export type InUse = Shape | TurningShape;

/** One entry a solid of the part, in the part's order. */
export interface Solids {
  readonly moving: readonly InUse[];
  readonly still: readonly Shape[];
  readonly out: readonly Shape[];
}

export function solidsOf(place: PartInPlace): Solids {
  const { part, move } = place;
  const how = { mirrored: part.mirrored, move };
  const still = part.solids.map((solid) => shapeOf(solid, how));
  const out = part.comesOut;
  return {
    moving: part.turn || part.sweep ? solidsInUse(place, part.sweep) : still,
    still,
    out: out ? part.solids.map((solid) => shapeOf(solid, { ...how, sweep: out })) : still,
  };
}

/** A part's solids with its turn, and with a sweep that need not be its own. */
function solidsInUse({ part, move }: PartInPlace, sweep: Box | undefined): readonly InUse[] {
  const how = { mirrored: part.mirrored, move, ...(sweep && { sweep }) };
  // What an option moves takes its pivot along.
  const turn = part.turn && { ...part.turn, at: plus(part.turn.at, move) };
  return part.solids.map((solid) =>
    turn ? new TurningShape(solid, how, turn) : shapeOf(solid, how),
  );
}

/**
 * The solids of two parts that move together. As both are swept by the same share of their ranges, all
 * that tells in the gap is what the first is swept by beyond the second: it is given that sweep alone.
 */
export function solidsTogether(
  a: PartInPlace,
  b: PartInPlace,
): readonly [readonly InUse[], readonly InUse[]] {
  const [x, y, z] = AXES.map((axis) => {
    const [one, other] = [a.part.sweep?.[axis] ?? NOTHING, b.part.sweep?.[axis] ?? NOTHING];
    const ends = [one.min - other.min, one.max - other.max];
    return { min: minOf(ends), max: maxOf(ends) };
  });
  return [solidsInUse(a, { x: x!, y: y!, z: z! }), solidsInUse(b, undefined)];
}

const NOTHING: Range = { min: 0, max: 0 };
