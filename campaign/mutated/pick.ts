/** Chance, from one seeded source. */

import type { Random } from '../../tests/geometry/random.js';

/** A whole number from 0 to `most`, `most` left out. */
export function below(random: Random, most: number): number {
  return Math.floor(random() * most);
}

export function oneOf<T>(random: Random, all: readonly T[]): T {
  return all[below(random, all.length)]!;
}
