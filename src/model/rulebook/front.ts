/** The front of the engine: fans, pulleys, belts, hoses and what belts drive. */

import { FAN_MAKER, INCH, OURS, PRACTICE, RUNNING_GEAR, STEERING } from './row.js';
import type { Row } from './row.js';

export const FRONT: readonly Row[] = [
  {
    between: [['mechanical fan'], ['radiator']],
    gap: 2 * INCH,
    measured: 'fore-aft',
    // A belt-driven fan is on the front of the engine and the core ahead of it.
    facing: 'ahead',
    why: 'a flexing frame brings the core to the fan',
    source: PRACTICE,
  },
  {
    between: [['mechanical fan'], ['fan shroud']],
    gap: (3 / 4) * INCH,
    why: 'the fan moves with the engine, the shroud does not',
    source: FAN_MAKER,
  },
  {
    between: [['mechanical fan'], ['electric fan', 'core support']],
    gap: INCH,
    why: 'blades bend forward at speed',
    source: FAN_MAKER,
  },
  {
    between: [['mechanical fan'], ['hood', 'hose', 'crossmember', 'frame rail', ...STEERING]],
    gap: INCH,
    why: 'blades bend, and cut what they reach',
    source: OURS,
  },
  {
    between: [['electric fan'], ['water pump']],
    gap: INCH,
    why: 'puller fan motor to the pump snout; with less, a pusher ahead of the core',
    source: PRACTICE,
  },
  {
    between: [['electric fan'], ['pulley', 'balancer', 'belt']],
    gap: INCH,
    why: 'an inch fore and aft of any fan; a pusher ahead of the core has it',
    source: FAN_MAKER,
  },
  {
    between: [['electric fan'], ['alternator', 'compressor', 'power steering pump', 'distributor']],
    gap: (3 / 4) * INCH,
    why: 'air has to get out from behind a puller fan; a pusher frees the room',
    source: OURS,
  },
  {
    between: [
      ['pulley', 'balancer'],
      ['crossmember', 'core support', 'fan shroud', ...STEERING],
    ],
    gap: (3 / 4) * INCH,
    why: 'turning parts, and a puller tool and a belt must pass',
    source: OURS,
  },
  {
    between: [
      ['belt'],
      ['crossmember', 'frame rail', 'core support', 'fan shroud', 'inner fender', ...STEERING],
    ],
    gap: INCH,
    why: 'room to work a new belt over its pulleys',
    source: OURS,
  },
  {
    between: [['hose'], ['belt', 'pulley', 'balancer', 'alternator']],
    gap: INCH,
    why: 'a swelling hose must not reach a turning part',
    source: OURS,
  },
  {
    between: [
      ['hose'],
      ['crossmember', 'frame rail', 'core support', ...STEERING, ...RUNNING_GEAR],
    ],
    gap: (3 / 4) * INCH,
    why: 'a hose that rubs leaks',
    source: OURS,
  },
  {
    between: [
      ['alternator', 'compressor', 'power steering pump'],
      ['frame rail', 'inner fender'],
    ],
    gap: (3 / 4) * INCH,
    why: 'it swings out to tighten its belt, and has to come off',
    source: OURS,
  },
  {
    between: [['alternator', 'compressor', 'power steering pump'], ['hood']],
    gap: INCH,
    why: 'it swings up to tighten its belt',
    source: OURS,
  },
];
