import { scenarioOf } from './doc.js';
import type { BayDoc } from './doc.js';
import type { Scenario } from '../../src/model/scenario.js';

/**
 * A part under a hood: as low as it may go is best, and two limits hold it up, one on its lowest point
 * and one on a pad 200 mm ahead of the datum. They meet at a slant, so pitch settles between them.
 * @param low millimetres of the part above the ground, the datum 400 above it.
 * @param pad the same of the pad.
 */
export function heldBay(low: number, pad: number, choices?: BayDoc['choices']): Scenario {
  return scenarioOf({
    units: 'mm',
    position: { setback: 0, offset: 0, height: [-50, 50], pitch: [-2, 3] },
    datums: { chassis: { ground: { z: -400 } }, engine: { pad: { x: -200, y: 0, z: 200 } } },
    engine: { 'any 1': { box: { x: [24, 125], y: [-17, 59], z: [11, 144] } } },
    chassis: { hood: { box: { x: [-300, 300], y: [-300, 300], z: [241, 343] } } },
    rules: [{ between: ['engine', 'chassis'], gap: 1 }],
    ...(choices && { choices }),
    limits: [
      { quantity: 'height above', of: 'any 1', above: 'ground', min: low },
      { quantity: 'height above', of: 'pad', above: 'ground', min: pad },
    ],
  });
}
