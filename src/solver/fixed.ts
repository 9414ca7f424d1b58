import { createGap, gapBetween } from '../geometry/gap.js';
import { extent } from '../geometry/reach.js';
import type { Shape } from '../geometry/shape.js';

const scratch = createGap();

/**
 * The gap between two parts of one side, in that side's own axes: the least over their solids. Along
 * an axis (0 to 2), `sign` is +1 when the first part lies on the larger side. Certified from below,
 * and from above in `most`.
 */
export function fixedGap(
  first: readonly Shape[],
  second: readonly Shape[],
  axis: -1 | 0 | 1 | 2,
  sign: 1 | -1,
): { gap: number; most: number } {
  let gap = Infinity;
  let most = Infinity;
  for (const a of first) {
    for (const b of second) {
      if (axis < 0) {
        gapBetween(a, b, 0, 0, 0, scratch);
        gap = Math.min(gap, scratch.lower);
        most = Math.min(most, scratch.upper);
      } else {
        const d = [0, 0, 0];
        d[axis] = sign;
        const nearest = -extent(a, -d[0]!, -d[1]!, -d[2]!);
        gap = Math.min(gap, nearest - extent(b, d[0]!, d[1]!, d[2]!));
        most = gap;
      }
    }
  }
  return { gap, most };
}
