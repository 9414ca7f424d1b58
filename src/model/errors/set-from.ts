/** Which datums the engine is set from: where its position is told from, and held to. */

import type { Axis, Datum, Scenario, Side } from '../scenario.js';

/**
 * The datum of a side from which the engine is set along an axis: the one at the side's origin, else
 * the file's first that fixes the axis; undefined when none does, and the origin itself serves, as it
 * does sideways where no datum is at the centre.
 *
 * The builder tapes from the chassis datum to the engine datum until the tape reads what the position
 * makes it. Answers are told from these datums, and guaranteed margins hold for an engine set so.
 */
export function setFrom(
  axis: Axis,
  side: Side,
  { datums }: Pick<Scenario, 'datums'>,
): Datum | undefined {
  const able = datums[side].filter((datum) => datum[axis] !== undefined);
  return able.find((datum) => datum[axis] === 0) ?? (axis === 'y' ? undefined : able[0]);
}
