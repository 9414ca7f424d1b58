/** Kinds that are joined to each other on purpose, so that no gap can be asked of them. */

import { OURS } from './row.js';
import type { Row, RowEnd } from './row.js';

export const JOINED: readonly Row[] = [
  joined(['engine mount'], ['frame rail', 'crossmember'], 'the mount stands on it'),
  joined(['engine mount'], ['block', 'bell housing', 'transmission'], 'the mount is bolted to it'),
  joined(['hose'], ['radiator', 'water pump', 'heater'], 'the hose ends there'),
  joined(['exhaust'], ['header', 'turbocharger'], 'the exhaust starts there'),
  joined(['exhaust'], ['exhaust'], 'one pipe runs into the other'),
  joined(['fuel line'], ['fuel pump', 'carburettor'], 'the line ends there'),
  joined(['oil line'], ['oil filter', 'block'], 'the line ends there'),
  joined(['driveshaft'], ['transmission', 'transfer case'], 'the slip yoke sits in it'),
  joined(['shifter'], ['transmission'], 'the shifter works it'),
  joined(['throttle linkage'], ['carburettor'], 'the linkage works the throttle there'),
  joined(['throttle linkage'], ['throttle linkage'], 'one rod works the next'),
  joined(['clutch linkage'], ['bell housing'], 'the linkage works the fork in it'),
];

function joined(one: RowEnd, other: RowEnd, why: string): Row {
  return { between: [one, other], gap: 'ignore', why, source: OURS };
}
