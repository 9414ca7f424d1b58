/** The driveline's joints, and the states of the axle, by name. */

import type { AxleState } from '../model/fitup/driveline.js';
import type { Limit } from '../model/scenario.js';

export const STATE_WORDS: Readonly<Record<AxleState, string>> = {
  ride: 'ride',
  bump: 'full bump',
  droop: 'full droop',
};

export function jointWords(joint: 'front' | 'rear'): string {
  return joint === 'front' ? 'front joint' : 'pinion joint';
}

/** What is limited, where it is no height: `pitch`, `front joint at full bump`. */
export function quantityWords(
  quantity: Exclude<Limit['quantity'], { of: 'height above' }>,
): string {
  if (quantity.of === 'joint difference') return 'difference of the joints';
  if (quantity.of !== 'joint angle') return quantity.of;
  return `${jointWords(quantity.joint)} at ${STATE_WORDS[quantity.state]}`;
}
