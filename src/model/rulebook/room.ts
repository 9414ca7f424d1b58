/** Room to take a part out, beyond the 0 that is always asked: hands and tools. */

import type { Kind } from '../kinds.js';
import { INCH, OURS } from './row.js';
import type { Row } from './row.js';

/** Given for engine kinds only: see `general.ts` for why never for both sides. */
export const ROOM: readonly Row[] = [
  room(['oil filter'], INCH / 2, 'room for a hand as the filter spins off, and oil runs out'),
  room(['spark plug', 'belt'], INCH / 2, 'room for a hand and a wrench'),
  room(['starter', 'distributor', 'dipstick', 'oil pan'], INCH / 4, 'room to draw it out'),
];

function room(kinds: readonly Kind[], gap: number, why: string): Row {
  return { between: [kinds, 'chassis'], gap, comingOut: true, why, source: OURS };
}
