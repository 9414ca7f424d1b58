/**
 * Which gaps a set of drawings dimensions, and in which views: those that bind and the next tightest,
 * each where it is seen best. Millimetres.
 */

import { maxOf } from '../model/extremes.js';
import type { OptionSet, Scenario } from '../model/scenario.js';
import * as trig from '../model/trig.js';
import type { Reading, Standing } from '../solver/answer.js';
import { onPaper, VIEWS, viewOf } from './view.js';
import type { ViewName } from './view.js';
import { witnessFinder } from './witness.js';
import type { Witness } from './witness.js';

/** One gap to dimension. */
export interface Dimension {
  /** `A`, `B` ...: the same in every view and in the check list. */
  readonly letter: string;
  readonly reading: Reading;
  /** Between the parts as drawn, which is at rest. */
  readonly witness: Witness;
  /** Whether the gap in use is another than the one at rest. */
  readonly moves: boolean;
  /** The views that show it. */
  readonly views: readonly ViewName[];
  /** Whether the view it is seen best in still sees it at a slant, so that it is drawn too short. */
  readonly slanted: boolean;
}

/** So many gaps are dimensioned at most; the check list has them all. */
const MOST = 9;

/** Share of its true length from which on a gap counts as seen in full, and within which views see it alike. */
const IN_FULL = 0.995;
const ALIKE = 0.01;

/** The gaps to dimension, tightest first, with the engine at the standing's position. */
export function dimensionsOf(s: Scenario, set: OptionSet, standing: Standing): Dimension[] {
  const find = witnessFinder(s, set);
  const told = [...standing.readings].filter(isTold).sort(byNeed).slice(0, MOST);
  const counts: Record<ViewName, number> = { side: 0, top: 0, front: 0 };
  return told.flatMap((reading, i): Dimension[] => {
    const found = find(reading, standing.position);
    if (found === undefined) return [];
    const { atRest, inUse } = found;
    const seen = VIEWS.map((name) => trig.hypot(...onPaper(viewOf(name), atRest.along)));
    const most = maxOf(seen);
    // Of views that see it alike, the one with the fewest so far; what binds is in all of them.
    const alike = VIEWS.filter((_, v) => seen[v]! >= most - ALIKE);
    const fewest = [...alike].sort((a, b) => counts[a] - counts[b])[0]!;
    const views = reading.binding ? alike : [fewest];
    for (const name of views) counts[name]++;
    return [
      {
        letter: String.fromCharCode(65 + i),
        reading,
        witness: atRest,
        moves: inUse !== undefined && reading.gap < reading.atRest - SAME,
        views,
        slanted: most < IN_FULL,
      },
    ];
  });
}

/** Millimetres between two gaps that are one. */
const SAME = 1e-3;

/** What no position changes is not what the engine's place is about, unless it falls short. */
function isTold({ fixed, margin, gap, atRest }: Reading): boolean {
  return Number.isFinite(gap) && Number.isFinite(atRest) && (!fixed || margin < 0);
}

function byNeed(a: Reading, b: Reading): number {
  return Number(b.binding) - Number(a.binding) || a.margin - b.margin;
}
