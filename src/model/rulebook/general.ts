/**
 * What holds for the engine as a whole.
 *
 * Rows of a kind against a whole side are given for chassis kinds only: one for a chassis kind and
 * one for an engine kind would tie where those two meet.
 */

import { CLUB, FEDERATION, INCH, OURS, PRACTICE, RUNNING_GEAR, STEERING } from './row.js';
import type { Row } from './row.js';

export const GENERAL: readonly Row[] = [
  {
    between: ['engine', 'chassis'],
    // In print as 10 to 15 mm; 1/2 in is 12.7 mm.
    gap: INCH / 2,
    why: 'the engine moves on its mounts and the frame flexes',
    source: FEDERATION,
  },
  {
    between: [['firewall'], 'engine'],
    gap: INCH,
    why: 'engine to firewall about an inch, no closer: hands, wiring and heat',
    source: PRACTICE,
  },
  {
    between: [['radiator'], 'engine'],
    // In print: 20 mm four-cylinder, 25 light V8, 30 small V8, 40 large V8.
    gap: 30,
    why: 'the front of the engine must not reach the core',
    source: CLUB,
  },
  {
    between: [STEERING, 'engine'],
    gap: 15,
    why: 'steering must never bind, from lock to lock, and has priority over all else',
    source: CLUB,
  },
  {
    between: [['hood'], 'engine'],
    gap: INCH,
    why: 'the hood flutters and the engine rocks',
    source: OURS,
  },
  {
    between: [RUNNING_GEAR, 'engine'],
    gap: INCH,
    why: 'what moves with the wheels needs room over its full travel',
    source: OURS,
  },
  {
    between: [['brake line', 'fuel line'], 'engine'],
    gap: INCH,
    why: 'a line that is rubbed through fails without warning',
    source: OURS,
  },
  {
    between: [['brake booster'], 'engine'],
    gap: (3 / 4) * INCH,
    why: 'brakes are never touched by a rocking engine',
    source: OURS,
  },
  {
    between: [['throttle linkage'], 'engine'],
    gap: (3 / 4) * INCH,
    why: 'an engine that rocks or lifts into it opens the throttle',
    source: OURS,
  },
];
