/** Rake: the slope of the frame on the floor it stands on. */

import type { Scenario } from './scenario.js';

/**
 * Pitch as an angle finder reads it on a level floor: radians, positive with the tail down.
 *
 * The file and the engine position are in the frame's own axes, X rearward along the rail and Z up
 * from it. Rake is nose down: turning the whole vehicle nose down by r lifts its tail, and the engine's
 * tail with it, so an engine that lies tail-down by p in the frame lies tail-down by p - r on the
 * floor: nose-down where the rake is the larger.
 */
export function pitchOnFloor(pitch: number, { rake }: Pick<Scenario, 'rake'>): number {
  return pitch - rake;
}
