/** A file of boxes at pitch 0 as straight gaps, from its own numbers and nothing of ours. */

import type { BayDoc, FacingDoc, PartDoc } from './doc.js';
import type { Straight, StraightBay, StraightPair } from './milp.js';

/** A range along x, y and z. */
export type Spans = readonly (readonly [number, number])[];
/** The second part's side, and the direction in which the first goes away from it. */
export const WAYS: readonly (readonly [FacingDoc, Straight['d']])[] = [
  ['ahead', [1, 0, 0]],
  ['behind', [-1, 0, 0]],
  ['left', [0, 1, 0]],
  ['right', [0, -1, 0]],
  ['below', [0, 0, 1]],
  ['above', [0, 0, -1]],
];

function spansOf(part: PartDoc): Spans {
  if (!('box' in part)) throw new Error('a bay of boxes only');
  return [part.box.x, part.box.y, part.box.z];
}

/** The gap along a direction when the engine datum is at the chassis datum. */
export function way(d: Straight['d'], engine: Spans, chassis: Spans): Straight {
  const constant = d.reduce((sum, v, k) => {
    if (v === 0) return sum;
    return sum + (v > 0 ? engine[k]![0] - chassis[k]![1] : chassis[k]![0] - engine[k]![1]);
  }, 0);
  return { d, constant };
}

/** A file of boxes at pitch 0 without options, straight from its own numbers. */
export function straightOf(doc: BayDoc): StraightBay {
  const pairs: StraightPair[] = [];
  for (const [name, part] of Object.entries(doc.engine)) {
    for (const [other, against] of Object.entries(doc.chassis)) {
      const boxes = [spansOf(part), spansOf(against)] as const;
      const all = WAYS.map(([, d]) => way(d, ...boxes));
      for (const { between, gap, side } of doc.rules) {
        const meant = between.join() === `${name},${other}` || between.join() === 'engine,chassis';
        if (!meant || typeof gap !== 'number') continue;
        const one = side && way(WAYS.find(([facing]) => facing === side)![1], ...boxes);
        pairs.push({ ways: one ? [one] : all, needed: gap, when: [] });
      }
    }
  }
  const { setback, offset, height } = doc.position;
  return { pairs, ranges: [setback, offset, height] as Spans, domains: [] };
}
