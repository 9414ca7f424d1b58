import type { Reading } from '../answer.js';

/** What a rule is told by: the same at every position, and the same for readings told by the same words. */
export function keyOf({
  between,
  measured,
  comingOut,
}: Pick<Reading, 'between' | 'measured' | 'comingOut'>): string {
  return JSON.stringify([between, measured, comingOut]);
}
