/** Which way two parts face each other, for rules measured along an axis. */

import { enginePathExtents, reachOf } from './solids/extents.js';
import { liftBetween } from './solids/lift.js';
import type { Axis, Box, Facing, Measure, Part, Rule, Scenario } from './scenario.js';

const AXIS_OF: Readonly<Record<Exclude<Measure, 'nearest'>, Axis>> = {
  'fore-aft': 'x',
  'side-to-side': 'y',
  'up-down': 'z',
};

/** The word for lying towards less, and towards more, along each axis. */
const WORDS: Readonly<Record<Axis, readonly [Facing, Facing]>> = {
  x: ['ahead', 'behind'],
  y: ['left', 'right'],
  z: ['below', 'above'],
};

/**
 * Where `b` lies as seen from `a`, the part at the rule's first end: what the rule says, or else
 * what its parts' extents say when they are disjoint over all positions, motions and options.
 * Undefined when neither tells, and for a rule that is not measured along an axis.
 */
export function facingBetween(s: Scenario, rule: Rule, a: Part, b: Part): Facing | undefined {
  return rule.facing ?? derivedFacing(s, rule, a, b);
}

/** Where `b` lies by the parts' extents alone, as drawn, whatever the rule says. */
export function derivedFacing(given: Scenario, rule: Rule, a: Part, b: Part): Facing | undefined {
  const s = given.drawn ?? given;
  if (rule.measured === undefined || rule.measured === 'nearest') return undefined;
  const axis = AXIS_OF[rule.measured];
  const lift = rule.comingOut ? 0 : liftBetween(s, a, b);
  const one = extentsOf(s, a, b, rule.comingOut, lift)?.[axis];
  const other = extentsOf(s, b, a, rule.comingOut, lift)?.[axis];
  if (one === undefined || other === undefined) return undefined;
  const [less, more] = WORDS[axis];
  if (other.max <= one.min) return less;
  return one.max <= other.min ? more : undefined;
}

const known = new WeakMap<Scenario, Map<string, Box | undefined>>();

/** A part's extents in the chassis frame where it meets the other side, else in its side's own. */
function extentsOf(
  s: Scenario,
  { name, side }: Part,
  against: Part,
  comingOut: boolean,
  lift: number,
): Box | undefined {
  let boxes = known.get(s);
  if (boxes === undefined) known.set(s, (boxes = new Map<string, Box | undefined>()));
  const moves = side === 'engine' && against.side !== side;
  const key = `${comingOut} ${moves} ${moves ? lift : 0} ${name}`;
  if (!boxes.has(key)) {
    const reach = reachOf(s, name, comingOut);
    const rock = comingOut ? 0 : s.rock;
    boxes.set(key, moves && reach ? enginePathExtents(s, reach, { rock, lift }) : reach);
  }
  return boxes.get(key);
}
