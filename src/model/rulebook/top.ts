/** The top and the back of the engine: hood, firewall, booster, heater. */

import { INCH, OURS, PRACTICE } from './row.js';
import type { Row } from './row.js';

export const TOP: readonly Row[] = [
  {
    between: [['air cleaner'], ['hood']],
    gap: INCH,
    why: 'the air cleaner is the highest part, and air has to get in',
    source: OURS,
  },
  {
    between: [['distributor'], ['firewall']],
    gap: INCH,
    why: 'the cap comes off and the body turns to set the timing',
    source: PRACTICE,
  },
  {
    between: [['valve cover', 'head'], ['brake booster']],
    gap: INCH,
    why: 'the engine rocks towards it, and the cover has to lift off',
    source: OURS,
  },
  {
    between: [['valve cover', 'head'], ['heater']],
    gap: (3 / 4) * INCH,
    why: 'the cover has to lift off past it',
    source: OURS,
  },
  {
    between: [
      ['spark plug'],
      ['frame rail', 'inner fender', 'brake booster', 'heater', 'steering box', 'steering shaft'],
    ],
    gap: INCH,
    why: 'room to pull the boot and turn a wrench',
    source: OURS,
  },
];
