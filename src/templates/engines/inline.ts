/** Upright inline engines of our own proportions: intake on the left, header on the right. */

import { box, cylinder, part, stretched, tube } from '../drawing.js';
import type { DrawnPart } from '../drawing.js';
import { range } from '../sizes.js';
import type { EngineSize, SizeRanges, Sizes, Sump } from '../sizes.js';
import type { Contact, EngineTemplate } from '../template.js';
import { front, FRONT_CONTACTS, timingCover } from './front.js';
import { oilPan } from './pan.js';

/** The drawing that is stretched, inches: pulley face to the block's front, width, height. */
const DRIVE = 5;
const WIDTH = 23.5;
const HEIGHT = 16;

const CONTACTS: readonly Contact[] = [
  ...FRONT_CONTACTS,
  ['block', 'head'],
  ['block', 'oil pan'],
  ['block', 'fuel pump'],
  ['block', 'left mount'],
  ['block', 'right mount'],
  ['head', 'valve cover'],
  ['head', 'intake'],
  ['intake', 'carburettor'],
  ['starter', 'bell housing'],
];

export const INLINE_FOUR = inline(18, {
  'engine length': range(19, 23, 28),
  'engine width': range(20, 23.5, 29),
  'engine height': range(13, 16, 20),
  'sump depth': range(7, 8.5, 12),
});

export const INLINE_SIX = inline(26, {
  'engine length': range(26, 31, 38),
  'engine width': range(20, 24, 29),
  'engine height': range(13, 17, 22),
  'sump depth': range(7.5, 9, 12.5),
});

/** @param block front face of the block to its rear face, as drawn. */
function inline(block: number, sizes: SizeRanges<EngineSize>): EngineTemplate {
  return {
    sizes,
    sump: 'rear',
    top: 'valve cover top',
    contacts: CONTACTS,
    lacks: [],
    draw: (given, sump) => drawn(block, given, sump),
  };
}

function drawn(block: number, given: Sizes<EngineSize>, sump: Sump): DrawnPart[] {
  const by = [
    given['engine length'] / (block + DRIVE),
    given['engine width'] / WIDTH,
    given['engine height'] / HEIGHT,
  ] as const;
  return [
    ...stretched([...middle(block), ...sides(block), ...around(block)], by),
    oilPan([-block * by[0], -0.5 * by[0]], 4 * by[1], -3 * by[2], given['sump depth'], sump),
    ...stretched(drive(block), by),
  ];
}

function middle(block: number): DrawnPart[] {
  return [
    part(
      'block',
      'block',
      [box([-block, 0], [-4.5, 4.5], [-3, 9]), timingCover(-block, 4.25, [-3, 8.5])],
      { measuredBy: ['engine length'] },
    ),
    part('head', 'head', box([-block + 0.5, -0.5], [-4, 4], [9, 13])),
    part('valve cover', 'valve cover', box([-block + 0.75, -0.75], [-3.25, 3.25], [13, HEIGHT]), {
      measuredBy: ['engine height'],
    }),
  ];
}

function sides(block: number): DrawnPart[] {
  const at = (share: number) => -share * block;
  const carburettor = at(0.5);
  return [
    part('intake', 'intake', box([at(0.84), at(0.15)], [-9, -4], [9.5, 12])),
    part(
      'carburettor',
      'carburettor',
      box([carburettor - 2.5, carburettor + 2.5], [-9, -5.5], [12, 16]),
    ),
    part('air cleaner', 'air cleaner', cylinder('z', [16.25, 18.75], [carburettor, -7.25], 9)),
    part(
      'header',
      'header',
      tube(2, [at(0.9), 5.3, 11.5], [at(0.6), 8.5, 9], [at(0.35), 10.75, 2], [-2.5, 10.75, -5]),
      { measuredBy: ['engine width'], note: 'down inside the rail' },
    ),
    part('plugs', 'spark plug', box([-block + 1, -1], [4.6, 6.2], [7.4, 9]), {
      note: 'plugs and their boots',
    }),
  ];
}

function around(block: number): DrawnPart[] {
  const at = (share: number) => -share * block;
  return [
    part('distributor', 'distributor', cylinder('z', [2, 9], [at(0.5), -6.5], 3.25)),
    part('oil filter', 'oil filter', cylinder('z', [-4, 1.5], [at(0.78), -6.75], 3.5), {
      comesOut: { z: [-1.5, 0] },
      note: 'spins off downward',
    }),
    part('fuel pump', 'fuel pump', box([at(0.92), at(0.75)], [4.5, 7.5], [-1, 2])),
    part('starter', 'starter', cylinder('x', [-8, 0], [6.6, -2.2], 3.75), {
      comesOut: { x: [-1, 0] },
    }),
    part('left mount', 'engine mount', box([at(0.64), at(0.48)], [-10.5, -4.5], [-1.5, 1]), {
      mirror: 'right mount',
    }),
    part('dipstick', 'dipstick', tube(0.4, [at(0.95), -5.2, 0], [at(0.95), -6.2, 13])),
  ];
}

function drive(block: number): DrawnPart[] {
  const face = -block - DRIVE;
  return front({
    block: -block,
    face,
    balancer: 6,
    fan: 16,
    fanAhead: [1.25, 1.75],
    pump: { z: 6, diameter: 5.25 },
    alternator: { center: [8, 6], diameter: 5.25 },
    steeringPump: { center: [-7.5, 3], diameter: 4.75 },
    upperHose: [
      [-block - 0.6, 0, 11.5],
      [face + 0.5, 2, 11.5],
    ],
    lowerHose: [
      [-block - 2, 3.9, 5],
      [-block - 2.5, 6, -2],
    ],
    hose: 1.75,
  });
}
