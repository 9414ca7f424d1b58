/** Frame rails, the crossmember between them, lines along them, and the ground below. */

import { box, part, rail, tube } from '../drawing.js';
import type { DrawnPart, Pair, Point, Station } from '../drawing.js';
import type { BaySize, Sizes } from '../sizes.js';

/** How far the rails run on behind the firewall, and ahead of the core. */
const ON = 40;
const NOSE = 8;
const THICK = 2.5;

export interface Frame {
  /** Height of the rails' section. */
  readonly deep: number;
  /** Height of the crossmember's section. */
  readonly crossmember: number;
  /** Rail top above the ground. */
  readonly ride: number;
}

/** Half the room between the rails at a place along the frame. */
export function insideAt(sizes: Sizes<BaySize>, x: number): number {
  const [front, rear] = [sizes['rails front'] / 2, sizes['rails rear'] / 2];
  const [from, to] = [-sizes.core, sizes.firewall];
  const share = Math.min(1, Math.max(0, (x - from) / (to - from)));
  return front + share * (rear - front);
}

/** @param driver -1 with the driver on the left, 1 on the right. */
export function frame(sizes: Sizes<BaySize>, driver: -1 | 1, f: Frame): DrawnPart[] {
  return [
    rails(sizes, f.deep),
    crossmember(sizes, f.crossmember),
    line('brake line', 1 / 4, driver, sizes, f.deep),
    line('fuel line', 3 / 8, driver === -1 ? 1 : -1, sizes, f.deep),
    part('level ground', 'ground', box([-60, 100], [-50, 50], [-f.ride - 1, -f.ride])),
  ];
}

function rails(sizes: Sizes<BaySize>, deep: number): DrawnPart {
  const [from, to] = [-sizes.core, sizes.firewall];
  const station = (x: number): Station => {
    const inside = insideAt(sizes, x);
    return { x, inside, outside: inside + THICK, top: 0, bottom: -deep };
  };
  return part('right rail', 'frame rail', rail([from - NOSE, from, to, to + ON].map(station)), {
    mirror: 'left rail',
    measuredBy: ['rails front', 'rails rear'],
    note: 'straight from core to firewall; add a station where yours bends',
  });
}

function crossmember(sizes: Sizes<BaySize>, section: number): DrawnPart {
  const from = -sizes['crossmember front'];
  const x: Pair = [from, from + sizes['crossmember length']];
  const half = Math.max(insideAt(sizes, x[0]), insideAt(sizes, x[1]));
  const top = -sizes['crossmember top'];
  return part('front crossmember', 'crossmember', box(x, [-half, half], [top - section, top]), {
    measuredBy: ['crossmember front', 'crossmember length', 'crossmember top'],
  });
}

/** A line along the outside of a rail, below its top. */
function line(
  kind: 'brake line' | 'fuel line',
  diameter: number,
  side: -1 | 1,
  sizes: Sizes<BaySize>,
  deep: number,
): DrawnPart {
  const at = (x: number): Point => [x, side * (insideAt(sizes, x) + THICK + 1 / 2), -deep / 2];
  const through = [at(0), at(sizes.firewall), at(sizes.firewall + ON / 2)];
  return part(kind, kind, tube(diameter, ...through), {
    note: 'outside the rail, as it should be',
  });
}
