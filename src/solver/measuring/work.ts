/** Hours, then cost: compared in that order. */
export interface Work {
  readonly hours: number;
  readonly cost: number;
}

/** Money and hours closer than this are equal. */
const WORK_EPSILON = 1e-9;

/** Negative when `a` is less work than `b`, 0 when equal. */
export function compareWork(a: Work, b: Work): number {
  if (Math.abs(a.hours - b.hours) > WORK_EPSILON) return a.hours - b.hours;
  return Math.abs(a.cost - b.cost) > WORK_EPSILON ? a.cost - b.cost : 0;
}
