/** The large bay of the benchmarks: 60 parts a side and 8 choices, its answer planted. */

import { seeded } from '../tests/geometry/random.js';
import { fileOf } from '../tests/support/doc.js';
import { plant } from '../tests/support/planted.js';
import type { Plant } from '../tests/support/planted.js';

export const LARGE = { parts: 60, choices: 8 } as const;

/** A bay of so many parts a side, a multiple of six, whose best margin is known. */
export function plantedBay(parts: number, choices: number): Plant {
  return plant({
    random: seeded(21),
    pitch: 'tilted',
    choices,
    pieces: { engine: parts, chassis: parts / 6 },
    play: [1, 5],
  });
}

/** The large bay as a file's text. */
export function largeBay(): string {
  return fileOf(plantedBay(LARGE.parts, LARGE.choices).doc);
}
