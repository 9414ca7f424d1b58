/** What tells the two parts of a pair apart: lines one way for the engine's, the other way for the chassis'. */

import { svg } from '../dom.js';

/** Pixels between lines. */
const BETWEEN = 9;

const HATCHES = { engine: 'hatch-engine', chassis: 'hatch-chassis' } as const;

/** Patterns for the parts of a pair, by the ids of HATCHES. */
export function hatches(): SVGDefsElement {
  return svg('defs', {}, one(HATCHES.engine, 45), one(HATCHES.chassis, -45));
}

function one(id: string, turn: number): SVGPatternElement {
  return svg(
    'pattern',
    {
      id,
      attrs: {
        width: BETWEEN,
        height: BETWEEN,
        patternUnits: 'userSpaceOnUse',
        patternTransform: `rotate(${turn})`,
        'data-turn': turn,
      },
    },
    svg('rect', { class: `ground ${id}`, attrs: { width: BETWEEN, height: BETWEEN } }),
    svg('rect', { class: 'stroke', attrs: { width: BETWEEN / 3, height: BETWEEN } }),
  );
}
