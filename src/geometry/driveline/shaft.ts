/** How fast a propeller shaft may turn. */

import * as trig from '../../model/trig.js';

const INCH = 25.4;
/**
 * Revolutions a minute at which a steel tube begins to whip: 4.705e6 sqrt(OD^2 + ID^2) / L^2 in inches.
 * Spicer DSAG-0200, from memory; a pinned beam of steel gives 4.769e6.
 * @param tube millimetres; its wall less than half its diameter.
 * @param length millimetres between the joints.
 */
export function criticalSpeed(
  tube: { readonly diameter: number; readonly wall: number },
  length: number,
): number {
  const [outside, inside] = [tube.diameter / INCH, (tube.diameter - 2 * tube.wall) / INCH];
  return (4.705e6 * Math.sqrt(outside * outside + inside * inside)) / trig.squared(length / INCH);
}
