import { createMovedGap, movedGap, TURN_TOLERANCE } from '../../geometry/motion/moved-gap.js';
import type { Along } from '../../geometry/motion/moved-gap.js';
import { movingPair } from '../../geometry/motion/moving-pair.js';
import type { InUse } from './solids.js';

const scratch = createMovedGap();

/**
 * The gap between two parts of one side, in that side's own axes: the least over their solids and
 * motions, which `together` ties. Along an axis (0 to 2), `sign` is +1 when the first part lies on the
 * larger side. Certified from below, and from above in `most`.
 */
export function fixedGap(
  first: readonly InUse[],
  second: readonly InUse[],
  axis: -1 | 0 | 1 | 2,
  sign: 1 | -1,
  together: boolean,
): { gap: number; most: number } {
  let gap = Infinity;
  let most = Infinity;
  const along: Along | undefined = axis < 0 ? undefined : alongAxis(axis, sign);
  for (const a of first) {
    for (const b of second) {
      const pair = movingPair(a, b, 0, 0, together);
      movedGap(pair, [0, 0, 0, 0], along, TURN_TOLERANCE, scratch);
      gap = Math.min(gap, scratch.lower);
      most = Math.min(most, scratch.upper);
    }
  }
  return { gap, most };
}

/** The unit direction along a vehicle axis. */
export function alongAxis(axis: number, sign: 1 | -1): Along {
  return [axis === 0 ? sign : 0, axis === 1 ? sign : 0, axis === 2 ? sign : 0];
}
