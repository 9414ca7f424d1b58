/** Four bays of our own proportions: their sizes, and what else differs between them. */

import { range } from '../sizes.js';
import { bay } from './bay.js';
import { arms, beamAxle, drivenAxle } from './running.js';

/** What each bay has not; what an engine or a transmission has not is said with those. */
const LACKS = ['compressor', 'turbocharger', 'oil line', 'steering valve'] as const;

export const PICKUP = bay({
  sizes: {
    'rails front': range(22, 29, 38),
    'rails rear': range(22, 31, 40),
    core: range(2, 10, 26),
    firewall: range(14, 29, 50),
    hood: range(14, 26, 40),
    'crossmember front': range(-10, 4, 14),
    'crossmember length': range(2, 9, 20),
    'crossmember top': range(-2, 5, 12),
    'tunnel width': range(16, 22, 34),
    'tunnel height': range(5, 11, 20),
    'steering box': range(0, 3, 7),
    'steering shaft': range(-6, 1, 8),
    axle: range(5, 11, 20),
  },
  pitch: [2, 4],
  height: [-3, 7],
  lacks: [...LACKS, 'suspension'],
  cooling: { half: 14, bottom: -3, top: 19 },
  frame: { deep: 6, crossmember: 4, ride: 26 },
  steering: { box: 6, z: [-4, 3], tieRod: 7, half: 25 },
  wheels: { carriedBy: beamAxle, half: 28 },
  travel: { bump: 3, droop: 2 },
  sheet: { half: 28, hoodSlope: 0.05, fender: 9, floor: 1 },
});

export const COUPE = bay({
  sizes: {
    'rails front': range(20, 26, 36),
    'rails rear': range(20, 27, 38),
    core: range(2, 13, 28),
    firewall: range(12, 27, 46),
    hood: range(10, 20, 32),
    'crossmember front': range(-10, 5, 14),
    'crossmember length': range(2, 10, 20),
    'crossmember top': range(-2, 4, 12),
    'tunnel width': range(14, 20, 32),
    'tunnel height': range(4, 9, 18),
    'steering box': range(0, 3, 7),
    'steering shaft': range(-6, 0, 8),
    axle: range(3, 7, 16),
  },
  pitch: [2, 4],
  height: [-4, 5],
  lacks: [...LACKS, 'axle'],
  cooling: { half: 12, bottom: -4, top: 13 },
  frame: { deep: 5, crossmember: 4, ride: 16 },
  steering: { box: 7, z: [-4, 2], tieRod: 8, half: 24 },
  wheels: { carriedBy: arms, half: 25 },
  travel: { bump: 3, droop: 2.5 },
  sheet: { half: 25, hoodSlope: 0.07, fender: 8, floor: 0 },
});

export const FOUR_BY_FOUR = bay({
  sizes: {
    'rails front': range(22, 27, 36),
    'rails rear': range(22, 29, 38),
    core: range(2, 12, 26),
    firewall: range(14, 27, 48),
    hood: range(14, 24, 40),
    'crossmember front': range(-10, 9, 16),
    'crossmember length': range(2, 5, 20),
    'crossmember top': range(-2, 4, 12),
    'tunnel width': range(16, 22, 34),
    'tunnel height': range(5, 10, 20),
    'steering box': range(0, 2, 7),
    'steering shaft': range(-6, 0, 8),
    axle: range(4, 9, 20),
  },
  pitch: [1, 4],
  height: [-2, 8],
  lacks: [...LACKS, 'suspension'],
  cooling: { half: 13, bottom: -1, top: 18 },
  frame: { deep: 5, crossmember: 4, ride: 31 },
  steering: { box: -14, z: [-4, 3], tieRod: 7, half: 25 },
  wheels: { carriedBy: drivenAxle, half: 28 },
  travel: { bump: 4, droop: 3 },
  sheet: { half: 26, hoodSlope: 0.03, fender: 8, floor: 1 },
});

/** The engine stands between the seats: the hood is the lid of its box, the firewall its rear wall. */
export const VAN = bay({
  sizes: {
    'rails front': range(22, 30, 40),
    'rails rear': range(22, 31, 42),
    core: range(2, 17, 34),
    firewall: range(10, 26, 46),
    hood: range(14, 24, 36),
    'crossmember front': range(-10, 5, 16),
    'crossmember length': range(2, 10, 20),
    'crossmember top': range(-2, 6, 14),
    'tunnel width': range(16, 26, 40),
    'tunnel height': range(4, 9, 18),
    'steering box': range(0, 3, 7),
    'steering shaft': range(-6, -2, 8),
    axle: range(4, 9, 18),
  },
  pitch: [2, 4],
  height: [-4, 5],
  lacks: [...LACKS, 'axle'],
  cooling: { half: 15, bottom: -2, top: 15 },
  frame: { deep: 6, crossmember: 5, ride: 24 },
  steering: { box: -9, z: [-4, 3], tieRod: 7, half: 27 },
  wheels: { carriedBy: arms, half: 28 },
  travel: { bump: 3, droop: 2.5 },
  sheet: { half: 30, hoodSlope: 0, fender: 9, floor: 2 },
});
