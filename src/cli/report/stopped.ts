/** Why a search was stopped, in words. */

import type { Stopped } from '../../solver/answer.js';

/** `by the time limit (2 s)`, for after `stopped`. @param seconds the limit, where it is known. */
export function stoppedBy(stopped: Stopped, seconds?: number): string {
  if (stopped === 'asked') return 'when asked';
  if (stopped === 'memory') return 'by the memory limit';
  return `by the time limit${seconds === undefined ? '' : ` (${seconds} s)`}`;
}
