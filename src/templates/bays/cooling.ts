/** The front of a bay: core, its support, and a shallow shroud round the core's edge. */

import { box, part } from '../drawing.js';
import type { DrawnPart } from '../drawing.js';
import type { BaySize, Sizes } from '../sizes.js';

export interface Cooling {
  /** Half the core's width, and its bottom and top from the rail top. */
  readonly half: number;
  readonly bottom: number;
  readonly top: number;
}

const CORE = 2.5;
const SHROUD = 1;

export function cooling(sizes: Sizes<BaySize>, c: Cooling): DrawnPart[] {
  const face = -sizes.core;
  const support = [c.bottom - 1, c.top + 1] as const;
  const rim = [face, face + SHROUD] as const;
  const inner = c.half - SHROUD;
  return [
    part('radiator', 'radiator', box([face - CORE, face], [-c.half, c.half], [c.bottom, c.top]), {
      measuredBy: ['core'],
      note: "its width and height are the template's",
    }),
    part(
      'core support',
      'core support',
      box([face - CORE - 2, face - CORE], [-c.half - 4, c.half + 4], support),
    ),
    part(
      'fan shroud',
      'fan shroud',
      [
        box(rim, [-c.half, c.half], [c.top - SHROUD, c.top]),
        box(rim, [-c.half, c.half], [c.bottom, c.bottom + SHROUD]),
        box(rim, [-c.half, -inner], [c.bottom + SHROUD, c.top - SHROUD]),
        box(rim, [inner, c.half], [c.bottom + SHROUD, c.top - SHROUD]),
      ],
      { note: 'an inch round the edge of the core; a real one is made once the fan has its place' },
    ),
  ];
}
