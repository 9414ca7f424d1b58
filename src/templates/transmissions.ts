/** Bell housings, transmissions and what follows them, of our own proportions. */

import { box, cylinder, part, stretched, tube } from './drawing.js';
import type { DrawnPart, Pair, Point } from './drawing.js';
import { range } from './sizes.js';
import type { Sizes, TransmissionSize } from './sizes.js';
import type { Contact, TransmissionTemplate } from './template.js';

/** The drawing that is stretched along the crank, inches. */
interface Build {
  /** Rear face of the block to the rear of the bell housing, of the case, of the whole. */
  readonly bell: number;
  readonly case: number;
  readonly length: number;
  /** Half width of the case, and its bottom and top. */
  readonly half: number;
  readonly z: Pair;
}

const SLIP_YOKE = 14;
const SHAFT = 3;

const CONTACTS: readonly Contact[] = [
  ['bell housing', 'transmission'],
  ['transmission', 'shifter'],
];
const MANUAL_CONTACTS: readonly Contact[] = [...CONTACTS, ['bell housing', 'clutch linkage']];
const TAIL_CONTACTS: readonly Contact[] = [['transmission', 'driveshaft']];
const TRANSFER_CONTACTS: readonly Contact[] = [
  ['transmission', 'transfer case'],
  ['transfer case', 'driveshaft'],
];

export const SHORT_MANUAL: TransmissionTemplate = {
  sizes: { 'transmission length': range(20, 25, 29), 'tail height': range(4, 5, 8) },
  contacts: [...MANUAL_CONTACTS, ...TAIL_CONTACTS],
  lacks: ['transfer case'],
  draw: manual({ bell: 6, case: 17, length: 25, half: 4.25, z: [-4.5, 4] }),
};

export const LONG_MANUAL: TransmissionTemplate = {
  sizes: { 'transmission length': range(28, 34, 40), 'tail height': range(4, 5.5, 8) },
  contacts: [...MANUAL_CONTACTS, ...TAIL_CONTACTS],
  lacks: ['transfer case'],
  draw: manual({ bell: 6.5, case: 22, length: 34, half: 4.75, z: [-5, 4.5] }),
};

const AUTOMATIC_BUILD: Build = { bell: 8, case: 21, length: 31, half: 5.5, z: [-6.5, 5] };

export const AUTOMATIC: TransmissionTemplate = {
  sizes: { 'transmission length': range(25, 31, 38), 'tail height': range(4, 6, 9) },
  contacts: [...CONTACTS, ...TAIL_CONTACTS],
  lacks: ['transfer case', 'clutch linkage'],
  draw: (sizes) => [
    ...along(AUTOMATIC_BUILD, sizes, [
      ...behind(AUTOMATIC_BUILD, sizes),
      part('shifter', 'shifter', box([14, 17], [-7, -5.5], [-1, 1]), {
        note: 'the lever on the left of the case, and its cable',
      }),
    ]),
    shaft(sizes['transmission length'], [0, 0]),
  ],
};

const TRANSFER_BUILD: Build = { bell: 6.5, case: 20, length: 34, half: 4.75, z: [-5, 4.5] };
/** Where the transfer case stands, and its two outputs: [y, z]. */
const CASE_Y: Pair = [-8, 4];
const FRONT_OUTPUT: Pair = [-6, -8.5];

export const WITH_TRANSFER_CASE: TransmissionTemplate = {
  sizes: { 'transmission length': range(29, 34, 42), 'tail height': range(9, 13, 18) },
  contacts: [...MANUAL_CONTACTS, ...TRANSFER_CONTACTS],
  lacks: [],
  draw: (sizes) => {
    const { bell, case: end, length } = TRANSFER_BUILD;
    const top = 3.5;
    const z: Pair = [top - sizes['tail height'], top];
    return [
      ...along(TRANSFER_BUILD, sizes, [
        bellHousing(bell),
        part('transmission', 'transmission', middle(TRANSFER_BUILD)),
        part('transfer case', 'transfer case', box([end, length], CASE_Y, z), {
          measuredBy: ['transmission length', 'tail height'],
          note: 'it drops to the left',
        }),
        ...byHand(bell, (bell + end) / 2 + 2, TRANSFER_BUILD.z[1]),
        part(
          'front driveshaft',
          'driveshaft',
          tube(2.5, [end - 1.5, ...FRONT_OUTPUT], [2, ...FRONT_OUTPUT]),
          { note: 'as far as the engine; ahead of that it is yours to draw' },
        ),
      ]),
      shaft(sizes['transmission length'], [0, 0]),
    ];
  },
};

function manual(build: Build): TransmissionTemplate['draw'] {
  return (sizes) => [
    ...along(build, sizes, [
      ...behind(build, sizes),
      ...byHand(build.bell, build.case - 3, build.z[1]),
    ]),
    shaft(sizes['transmission length'], [0, 0]),
  ];
}

/** Stretches a drawing along the crank to the length given. */
function along(
  build: Build,
  sizes: Sizes<TransmissionSize>,
  parts: readonly DrawnPart[],
): DrawnPart[] {
  const by: Point = [sizes['transmission length'] / build.length, 1, 1];
  return stretched(parts, by);
}

function behind(build: Build, sizes: Sizes<TransmissionSize>): DrawnPart[] {
  const tail = sizes['tail height'];
  const solids = [middle(build), cylinder('x', [build.case, build.length], [0, 0], tail)];
  return [
    bellHousing(build.bell),
    part('transmission', 'transmission', solids, {
      measuredBy: ['transmission length', 'tail height'],
      note: "case and tail; the case's own size is the template's",
    }),
  ];
}

function bellHousing(bell: number): DrawnPart {
  return part('bell housing', 'bell housing', cylinder('x', [0, bell], [0, 0.5], 14.5));
}

function middle({ bell, case: end, half, z }: Build) {
  return box([bell, end], [-half, half], z);
}

/** What a hand and a foot work. */
function byHand(bell: number, shifter: number, top: number): DrawnPart[] {
  return [
    part('shifter', 'shifter', cylinder('z', [top, top + 8], [shifter, 0], 1.5), {
      note: 'where it comes up is a guess: measure it next',
    }),
    part('clutch linkage', 'clutch linkage', box([bell / 4, bell * 0.75], [-9.5, -7], [-2.5, 0]), {
      sweep: { x: [-1, 1] },
    }),
  ];
}

function shaft(from: number, center: Pair): DrawnPart {
  return part('driveshaft', 'driveshaft', cylinder('x', [from, from + SLIP_YOKE], center, SHAFT), {
    note: 'its first foot, straight back: the joint angle is not asked here',
  });
}
