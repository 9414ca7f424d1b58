/** Behind the engine: bell housing, transmission, shafts. */

import { FEDERATION, INCH, OURS } from './row.js';
import type { Row } from './row.js';

export const DRIVELINE: readonly Row[] = [
  {
    between: [['bell housing'], ['firewall', 'tunnel', 'toeboard']],
    gap: (3 / 4) * INCH,
    why: 'its top bolts have to be reached',
    source: OURS,
  },
  {
    between: [['transmission'], ['tunnel', 'floor', 'crossmember']],
    gap: INCH / 2,
    why: 'the transmission moves with the engine; 10 to 15 mm to everything',
    source: FEDERATION,
  },
  {
    between: [['transmission'], ['firewall', 'toeboard']],
    gap: (3 / 4) * INCH,
    why: 'it slides back off its clutch to come out',
    source: OURS,
  },
  {
    between: [['shifter'], ['tunnel', 'floor', 'crossmember', 'firewall']],
    gap: INCH / 2,
    why: 'it must reach every gear while the engine rocks',
    source: OURS,
  },
  {
    between: [
      ['driveshaft'],
      [
        'tunnel',
        'floor',
        'crossmember',
        'frame rail',
        'exhaust',
        'starter',
        'oil pan',
        'bell housing',
      ],
    ],
    gap: INCH,
    why: 'it whips, and rises with the axle',
    source: OURS,
  },
  {
    between: [['transfer case'], ['frame rail', 'floor', 'tunnel', 'crossmember']],
    gap: (3 / 4) * INCH,
    why: 'a heavy case on a long lever moves more than the engine does',
    source: OURS,
  },
];
