/** How much this thread's data take, what nothing refers to any more left out. */

import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

const MIB = 1024 * 1024;
/** Shares of a limit: to sweep at, and to be full at once swept, so that sweeps stay few. */
const SWEEP_AT = 0.8;
const FULL_AT = 0.6;

let sweep: (() => void) | undefined;

/**
 * Whether what is in use comes near a limit. Only a sweep tells what is in use from what is not; it takes up
 * to a second, so it is made only when the limit is near.
 * @param limit MiB.
 */
export function isFull(limit: number): boolean {
  if (used() < SWEEP_AT * limit) return false;
  sweep ??= sweeper();
  sweep();
  return used() >= FULL_AT * limit;
}

/** MiB. */
function used(): number {
  const { heapUsed, external } = process.memoryUsage();
  return (heapUsed + external) / MIB;
}

/** The engine's own collector, which it shows on request. */
function sweeper(): () => void {
  setFlagsFromString('--expose-gc');
  return runInNewContext('gc') as () => void;
}
