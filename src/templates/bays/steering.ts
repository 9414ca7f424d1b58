/** Steering: the box inside the driver's rail, its shaft to the firewall, and the tie rod. */

import { box, cylinder, part, tube } from '../drawing.js';
import type { DrawnPart, Pair } from '../drawing.js';
import type { BaySize, Sizes } from '../sizes.js';
import { insideAt } from './rails.js';
import type { Travel } from './running.js';

const LONG = 7;
const SHAFT = 1;

export interface Steering {
  /** Front of the box, behind the front axle. */
  readonly box: number;
  /** Bottom and top of the box, from the rail top. */
  readonly z: Pair;
  /** The tie rod, behind the front axle, and half its length. */
  readonly tieRod: number;
  readonly half: number;
}

export function steering(
  sizes: Sizes<BaySize>,
  driver: -1 | 1,
  s: Steering,
  { bump, droop }: Travel,
): DrawnPart[] {
  const inside = insideAt(sizes, s.box + LONG);
  const reach = inside - sizes['steering box'];
  const y: Pair = [reach, inside + 2];
  const x: Pair = [s.box, s.box + LONG];
  const rear = insideAt(sizes, sizes.firewall) - sizes['steering shaft'] + SHAFT / 2;
  const top = -sizes.axle - 1;
  const rod = [s.tieRod, top - 1.25 / 2 - bump] as const;
  return [
    part('steering box', 'steering box', box(x, driver === -1 ? [-y[1], -y[0]] : y, s.z), {
      measuredBy: ['steering box'],
      note: "its place along the rail and its height are the template's",
    }),
    part(
      'steering shaft',
      'steering shaft',
      tube(
        SHAFT,
        [x[1], driver * (reach + 1.5), s.z[1] - 2],
        [sizes.firewall, driver * rear, s.z[1] + 5],
      ),
      { measuredBy: ['steering box', 'steering shaft'] },
    ),
    part('tie rod', 'steering linkage', cylinder('y', [-s.half, s.half], rod, 1.25), {
      sweep: { x: [-1, 1], z: [-droop, bump] },
      note: 'swept lock to lock, droop to bump',
    }),
  ];
}
