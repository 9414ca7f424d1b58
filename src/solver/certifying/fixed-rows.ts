/** Rows of pairs within one side, which no position changes. */

import { maxOf } from '../../model/extremes.js';
import { norm } from '../../model/trig.js';
import type { CertifiedPair, MarginRow, Reason } from '../../model/certificate.js';
import { createMovedGap, movedGap, TURN_TOLERANCE } from '../../geometry/motion/moved-gap.js';
import { movingPair, standing } from '../../geometry/motion/moving-pair.js';
import { partUnder } from '../../model/options.js';
import type { Vec3 } from '../../model/scenario.js';
import type { Bay, FixedGroup } from '../measuring/bay.js';
import { solidsOf } from '../measuring/solids.js';
import { isOpen } from '../measuring/view.js';
import type { View } from '../measuring/view.js';

/** Millimetres that a row is lifted by for rounding. */
const LIFT = 1e-5;

/** A row of one pair that leaves no more than `most` under any open option, if there is such a pair. */
export function fixedRow(
  bay: Bay,
  { domains }: View,
  most: number,
  pairOf: (pair: CertifiedPair) => number,
): MarginRow | undefined {
  for (const group of bay.fixed) {
    const open = group.combos.filter(({ options }) => isOpen(group.choices, options, domains));
    if (!open.every((combo) => combo.holds && combo.most - combo.needed <= most - LIFT)) continue;
    const found = open.map(({ options, needed }) => {
      const set = domains.map((domain) => domain[0]!);
      group.choices.forEach((choice, i) => (set[choice] = options[i]!));
      return closest(bay, group, set, needed);
    });
    const value = maxOf(found.map((one) => one?.margin ?? Infinity)) + LIFT;
    if (value > most) continue;
    const { between: parts, measured } = group;
    return {
      pair: pairOf({ parts, measured }),
      value,
      slopes: [0, 0, 0, 0],
      reasons: found.map((one) => one!.reason),
    };
  }
  return undefined;
}

const gap = createMovedGap();

/** The two solids nearest to each other, with the points that show it. */
function closest(
  { scenario }: Bay,
  { between, measured }: FixedGroup,
  set: readonly number[],
  needed: number,
): { margin: number; reason: Reason } | undefined {
  if (measured !== 'nearest') return undefined;
  const s = scenario.oneSide ?? scenario;
  const [a, b] = between.map((name) => partUnder(s, name, set));
  if (!a || !b) return undefined;
  let best: { margin: number; reason: Reason } | undefined;
  solidsOf(a).moving.forEach((one, i) => {
    solidsOf(b).moving.forEach((other, j) => {
      movedGap(movingPair(one, other, 0, 0), [0, 0, 0, 0], undefined, TURN_TOLERANCE, gap);
      if (gap.coresOverlap) return;
      const shapes = [standing(one, gap.turnA), standing(other, gap.turnB)] as const;
      const points: [Vec3, Vec3] = [
        [gap.ax, gap.ay, gap.az],
        [gap.bx, gap.by, gap.bz],
      ];
      const apart = norm(points[0].map((x, k) => x - points[1][k]!));
      const margin = apart - shapes[0].ball - shapes[1].ball - needed;
      if (best && best.margin <= margin) return;
      const turns = [gap.turnA, gap.turnB] as const;
      best = {
        margin,
        reason: { solids: [i, j], moment: { turns, rock: 0, lift: 0 }, pairs: [{ points }] },
      };
    });
  });
  return best;
}
