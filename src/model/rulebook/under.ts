/** Below and beside the block: pan, filter, fuel pump, starter, clutch linkage, ground. */

import { INCH, OURS, STEERING } from './row.js';
import type { Row } from './row.js';

export const UNDER: readonly Row[] = [
  {
    between: [['oil pan'], ['crossmember']],
    gap: (3 / 4) * INCH,
    why: 'a failed mount lets the engine down, and the pan has to come off',
    source: OURS,
  },
  {
    between: [['oil pan'], ['axle', 'suspension']],
    gap: INCH,
    why: 'the axle rises to its bump stops',
    source: OURS,
  },
  {
    between: [['oil pan'], ['steering linkage']],
    gap: INCH,
    why: 'the links sweep below it from lock to lock and rise with the axle',
    source: OURS,
  },
  {
    between: [['oil filter'], ['crossmember', 'frame rail', ...STEERING]],
    gap: (3 / 4) * INCH,
    why: 'a filter swells a little and a strap wrench goes round it',
    source: OURS,
  },
  {
    between: [['fuel pump'], ['frame rail', 'crossmember']],
    gap: (3 / 4) * INCH,
    why: 'its fittings and hose bend towards the rail',
    source: OURS,
  },
  {
    between: [['starter'], ['frame rail', 'crossmember', ...STEERING]],
    gap: (3 / 4) * INCH,
    why: 'room for a wrench at its bolts and terminals',
    source: OURS,
  },
  {
    between: [
      ['clutch linkage'],
      ['frame rail', 'starter', 'oil filter', 'oil pan', 'steering box', 'steering shaft'],
    ],
    gap: (5 / 8) * INCH,
    why: 'it swings through its stroke while the engine rocks',
    source: OURS,
  },
  {
    between: [
      ['oil pan', 'bell housing', 'transmission', 'transfer case', 'balancer', 'header', 'exhaust'],
      ['ground'],
    ],
    gap: 5 * INCH,
    measured: 'up-down',
    facing: 'below',
    why: 'ruts, ramps and speed humps',
    source: OURS,
  },
];
