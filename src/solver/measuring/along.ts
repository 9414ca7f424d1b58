/** Which way a rule along an axis looks, as an axis and a sign. */

import { facingBetween } from '../../model/facing.js';
import type { PairRule } from '../../model/precedence.js';
import type { Facing, Part, Scenario } from '../../model/scenario.js';

/**
 * On which side of part `a` part `b` lies, as the pair's rule says; undefined for a rule of the nearest.
 * Throws where it is unclear, which is found when the file is read.
 */
export function facingOf(scenario: Scenario, rule: PairRule, a: Part, b: Part): Facing | undefined {
  if (rule.measured === 'nearest') return undefined;
  const facing = rule.swapped
    ? facingBetween(scenario, rule.rule, b, a)
    : facingBetween(scenario, rule.rule, a, b);
  if (!facing) throw new Error(`no side for a rule along an axis: ${a.name} ${b.name}`);
  return rule.swapped ? OPPOSITE[facing] : facing;
}

const OPPOSITE: Readonly<Record<Facing, Facing>> = {
  ahead: 'behind',
  behind: 'ahead',
  left: 'right',
  right: 'left',
  above: 'below',
  below: 'above',
};

/** Axis and sign for "the second part lies `facing` of the first": +1 when the first is larger. */
export function axisOf(facing: Facing | undefined): { axis: -1 | 0 | 1 | 2; sign: 1 | -1 } {
  switch (facing) {
    case undefined:
      return { axis: -1, sign: 1 };
    case 'ahead':
      return { axis: 0, sign: 1 };
    case 'behind':
      return { axis: 0, sign: -1 };
    case 'left':
      return { axis: 1, sign: 1 };
    case 'right':
      return { axis: 1, sign: -1 };
    case 'below':
      return { axis: 2, sign: 1 };
    case 'above':
      return { axis: 2, sign: -1 };
  }
}
