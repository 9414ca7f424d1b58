import type { Placement, Standing } from '../../solver/answer.js';

/** The standing a report is about: the setting, or the optimum where only that fits. */
export function shown(placement: Placement): {
  readonly standing: Standing;
  readonly exact: boolean;
} {
  const exact = placement.optimum.fits && !placement.setting.fits;
  return { standing: exact ? placement.optimum : placement.setting, exact };
}
