/** Planted choices some of whose options need others or rule them out. */

import type { Random } from '../tests/geometry/random.js';
import type { BayDoc } from '../tests/support/doc.js';
import type { Plant } from '../tests/support/planted.js';

export interface Tied {
  readonly doc: BayDoc;
  /** The option sets that are left, by first principles. */
  readonly allowed: readonly (readonly number[])[];
}

/** @param share ties a choice, about. */
export function tied(
  { doc, sets }: Pick<Plant, 'doc' | 'sets'>,
  random: Random,
  share: number,
): Tied {
  const names = Object.keys(doc.choices ?? {});
  const ties: { from: number; to: number; needs: boolean }[] = [];
  for (let n = 0; n < share * names.length; n++) {
    const [from, to] = [0, 0].map(() => Math.floor(names.length * random())) as [number, number];
    const known = ties.some((tie) => tie.from === from);
    if (from !== to && !known) ties.push({ from, to, needs: random() < 0.5 });
  }
  if (names.length === 0) return { doc, allowed: sets };
  const choices = Object.fromEntries(
    Object.entries(doc.choices!).map(([name, options], c) => {
      const tie = ties.find(({ from }) => from === c);
      if (!tie) return [name, options];
      const other = { [names[tie.to]!]: 'moved' };
      const moved = {
        ...options['moved'],
        ...(tie.needs ? { needs: other } : { 'rules out': other }),
      };
      return [name, { ...options, moved }];
    }),
  );
  const allowed = sets.filter((set) =>
    ties.every(({ from, to, needs }) => set[from] === 0 || (set[to] === 1) === needs),
  );
  return { doc: { ...doc, choices }, allowed };
}
