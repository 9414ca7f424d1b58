/** Headers, exhaust and turbochargers, and what they would burn. */

import { HOT, INCH, LINES, OURS, RUNNING_GEAR, STEERING } from './row.js';
import type { Row } from './row.js';

export const HEAT: readonly Row[] = [
  {
    between: [HOT, ['brake line', 'fuel line']],
    gap: 3 * INCH,
    why: 'brake and fuel lines keep 3 in from heat unless shielded',
    source: LINES,
  },
  {
    between: [HOT, STEERING],
    gap: INCH,
    why: 'heat dries seals and joints, and steering goes before exhaust',
    source: OURS,
  },
  {
    between: [HOT, ['fuel pump', 'wiring', 'brake booster']],
    gap: 2 * INCH,
    why: 'fuel boils and insulation melts',
    source: OURS,
  },
  {
    between: [HOT, ['throttle linkage']],
    gap: 2 * INCH,
    why: 'heat dries its joints or the liner of its cable, and it sticks open',
    source: OURS,
  },
  {
    between: [HOT, ['floor', 'toeboard', 'firewall', 'tunnel', 'inner fender', 'heater']],
    gap: INCH,
    why: 'heat comes through sheet metal',
    source: OURS,
  },
  {
    between: [HOT, ['frame rail', 'crossmember', 'core support', 'clutch linkage']],
    gap: (3 / 4) * INCH,
    why: 'pipes grow when hot, rock with the engine and must not knock',
    source: OURS,
  },
  {
    between: [HOT, RUNNING_GEAR],
    gap: INCH,
    why: 'springs and joints move towards the pipes over their travel',
    source: OURS,
  },
  {
    between: [HOT, ['hood', 'hose']],
    gap: (3 / 2) * INCH,
    why: 'heat blisters paint and hardens rubber',
    source: OURS,
  },
  {
    between: [HOT, ['starter', 'spark plug', 'oil filter', 'oil line', 'alternator']],
    gap: INCH,
    why: 'heat soak; on one side of the bay, a rule has to name the two parts',
    source: OURS,
  },
];
