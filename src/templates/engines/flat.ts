/** A flat four of our own proportions: heads to the sides, headers below them, starter on top. */

import { box, cylinder, part, stretched, tube } from '../drawing.js';
import type { DrawnPart } from '../drawing.js';
import { range } from '../sizes.js';
import type { Sizes, EngineSize, Sump } from '../sizes.js';
import type { Contact, EngineTemplate } from '../template.js';
import { front, FRONT_CONTACTS, timingCover } from './front.js';
import { oilPan } from './pan.js';

/** The drawing that is stretched, inches: pulley face to rear face, width, height of the pad. */
const BLOCK = 14;
const DRIVE = 3.5;
const WIDTH = 30;
const PAD = 9;

const CONTACTS: readonly Contact[] = [
  ...FRONT_CONTACTS,
  ...['left', 'right'].flatMap((side): Contact[] => [
    ['block', `${side} head`],
    ['block', `${side} mount`],
    [`${side} head`, `${side} valve cover`],
    [`${side} head`, `${side} plugs`],
  ]),
  ['block', 'intake'],
  ['block', 'distributor'],
  ['block', 'oil pan'],
  ['block', 'oil filter'],
  ['intake', 'carburettor'],
  ['carburettor', 'air cleaner'],
];

export const FLAT_FOUR: EngineTemplate = {
  sizes: {
    'engine length': range(14, 17.5, 23),
    'engine width': range(26, 30, 36),
    'engine height': range(7, 9, 13),
    'sump depth': range(6.5, 7, 10),
  },
  sump: 'middle',
  top: 'carb pad',
  contacts: CONTACTS,
  lacks: [],
  draw: drawn,
};

function drawn(given: Sizes<EngineSize>, sump: Sump): DrawnPart[] {
  const by = [
    given['engine length'] / (BLOCK + DRIVE),
    given['engine width'] / WIDTH,
    given['engine height'] / PAD,
  ] as const;
  return [
    ...stretched([...banks(), ...top(), ...around()], by),
    oilPan([-12.5 * by[0], -1.5 * by[0]], 3 * by[1], -4 * by[2], given['sump depth'], sump),
    ...stretched(drive(), by),
  ];
}

function banks(): DrawnPart[] {
  return [
    part(
      'block',
      'block',
      [box([-BLOCK, 0], [-6, 6], [-4, 5]), timingCover(-BLOCK, 3.25, [-3.5, 7.5])],
      { measuredBy: ['engine length'] },
    ),
    part('left head', 'head', box([-13, -1], [-12, -6], [-3.5, 3.5]), { mirror: 'right head' }),
    part('left valve cover', 'valve cover', box([-12.5, -1.5], [-WIDTH / 2, -12], [-3, 3]), {
      mirror: 'right valve cover',
      measuredBy: ['engine width'],
    }),
    part('left plugs', 'spark plug', box([-12, -2], [-11.5, -10], [3.5, 5]), {
      mirror: 'right plugs',
      note: 'plugs and their boots',
    }),
    part(
      'left header',
      'header',
      tube(1.75, [-11, -9.25, -4.6], [-6, -9.5, -5.5], [-2, -9.5, -6]),
      { mirror: 'right header', note: 'below the head' },
    ),
  ];
}

function top(): DrawnPart[] {
  return [
    part('intake', 'intake', box([-11, -4], [-4, 4], [5, PAD]), {
      measuredBy: ['engine height'],
    }),
    part('carburettor', 'carburettor', box([-9.5, -5], [-2.5, 2.5], [PAD, PAD + 2.5])),
    part('air cleaner', 'air cleaner', cylinder('z', [PAD + 2.5, PAD + 5], [-7, 0], 10)),
    part('distributor', 'distributor', cylinder('z', [5, 10], [-1.9, -4.6], 3)),
    part('fuel pump', 'fuel pump', box([-8, -5], [-9, -6.2], [4, 7])),
    part('starter', 'starter', cylinder('x', [-8, 0], [8, 6], 3.5), {
      comesOut: { x: [-1, 0] },
      note: 'on top, beside the bell housing',
    }),
  ];
}

function around(): DrawnPart[] {
  return [
    part('oil filter', 'oil filter', cylinder('z', [-7.5, -4], [-11.5, 5], 3), {
      comesOut: { z: [-1.5, 0] },
      note: 'spins off downward',
    }),
    part('left mount', 'engine mount', box([-9, -6], [-7.75, -4.5], [-5.5, -4]), {
      mirror: 'right mount',
    }),
    part('dipstick', 'dipstick', tube(0.4, [-12.5, 2, 5.4], [-12.5, 3, 11])),
  ];
}

function drive(): DrawnPart[] {
  const face = -BLOCK - DRIVE;
  return front({
    block: -BLOCK,
    face,
    balancer: 5.5,
    fan: 14,
    fanAhead: [1, 1.5],
    pump: { z: 5.5, diameter: 4.75 },
    alternator: { center: [6, 6.5], diameter: 4.75 },
    steeringPump: { center: [-5.75, 5], diameter: 4.25 },
    upperHose: [
      [-BLOCK - 1.25, 0, 8.75],
      [face, 2, 10],
    ],
    lowerHose: [
      [-BLOCK - 1.75, 4.25, 2],
      [-BLOCK - 1.75, 6, -3],
    ],
    hose: 1.25,
  });
}
