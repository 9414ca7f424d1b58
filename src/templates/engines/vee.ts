/** V engines of our own proportions: two banks over one crank, headers down the outside. */

import { box, cylinder, part, prism, stretched, tube } from '../drawing.js';
import type { DrawnPart, DrawnSolid, Pair } from '../drawing.js';
import { range } from '../sizes.js';
import type { EngineSize, SizeRange, SizeRanges, Sizes, Sump } from '../sizes.js';
import type { Contact, EngineTemplate } from '../template.js';
import { front, FRONT_CONTACTS, timingCover } from './front.js';
import { oilPan } from './pan.js';

/** The drawing that is stretched: its width, height and front drive, inches. */
interface Build {
  /** Front face of the block to its rear face. */
  readonly block: number;
  readonly width: number;
  readonly height: number;
  readonly camshafts: 'in the block' | 'overhead';
  readonly fuel: 'carburettor' | 'injection';
}

/** Pulley face to the front face of the block. */
const DRIVE = 5.5;
/** The corner of the deck nearest the middle, and the way along it outward and down: [y, z]. */
const DECK: Pair = [4, 9];
const ALONG: Pair = [0.8, -0.6];
const OUT: Pair = [0.6, 0.8];
const DECK_LENGTH = 5;

/** What every V has; and what a pushrod engine, or one with overhead cams, has besides. */
const CONTACTS: readonly Contact[] = [
  ...FRONT_CONTACTS,
  ...pairs('block', ['left head', 'right head', 'intake', 'oil pan', 'left mount', 'right mount']),
  ...pairs('intake', ['left head', 'right head']),
  ['left head', 'left valve cover'],
  ['right head', 'right valve cover'],
  ['starter', 'bell housing'],
];
const PUSHROD_CONTACTS: readonly Contact[] = [
  ['block', 'distributor'],
  ['left head', 'left plugs'],
  ['right head', 'right plugs'],
];
const OVERHEAD_CONTACTS: readonly Contact[] = [
  ['left valve cover', 'left plugs'],
  ['right valve cover', 'right plugs'],
];
const CARBURETTOR_CONTACTS: readonly Contact[] = [
  ['block', 'fuel pump'],
  ['intake', 'carburettor'],
  ['carburettor', 'air cleaner'],
];
const INJECTION_CONTACTS: readonly Contact[] = [['intake', 'air cleaner']];

const LONG = range(23, 27, 32);
const SHORT = range(18, 22, 27);

export const PUSHROD_V8 = vee(
  sizesOf(LONG, range(22, 26, 32), range(11, 14, 18), range(7.5, 8.5, 12)),
  { block: 21.5, width: 26, height: 14, camshafts: 'in the block', fuel: 'carburettor' },
);

export const OVERHEAD_CAM_V8 = vee(
  sizesOf(LONG, range(25, 29, 34), range(13, 16, 20), range(7.5, 9, 12)),
  { block: 21.5, width: 29, height: 16, camshafts: 'overhead', fuel: 'injection' },
);

export const V6 = vee(sizesOf(SHORT, range(22, 25, 31), range(11, 14, 18), range(7.5, 8.5, 12)), {
  block: 16.5,
  width: 26,
  height: 14,
  camshafts: 'in the block',
  fuel: 'injection',
});

function sizesOf(
  length: SizeRange,
  width: SizeRange,
  height: SizeRange,
  sump: SizeRange,
): SizeRanges<EngineSize> {
  return {
    'engine length': length,
    'engine width': width,
    'engine height': height,
    'sump depth': sump,
  };
}

function vee(sizes: SizeRanges<EngineSize>, build: Build): EngineTemplate {
  const overhead = build.camshafts === 'overhead';
  return {
    sizes,
    sump: 'rear',
    top: build.fuel === 'carburettor' ? 'carb pad' : 'intake top',
    contacts: [
      ...CONTACTS,
      ...(overhead ? OVERHEAD_CONTACTS : PUSHROD_CONTACTS),
      ...(build.fuel === 'carburettor' ? CARBURETTOR_CONTACTS : INJECTION_CONTACTS),
    ],
    lacks: [
      ...(build.fuel === 'carburettor' ? [] : (['carburettor', 'fuel pump'] as const)),
      ...(overhead ? (['distributor'] as const) : []),
    ],
    draw: (given, sump) => drawn(build, given, sump),
  };
}

function drawn(build: Build, given: Sizes<EngineSize>, sump: Sump): DrawnPart[] {
  const by = [
    given['engine length'] / (build.block + DRIVE),
    given['engine width'] / build.width,
    given['engine height'] / build.height,
  ] as const;
  const rear = -build.block * by[0];
  return [
    ...stretched([...long(build), ...banks(build), ...top(build), ...around(build)], by),
    oilPan([rear, -0.5 * by[0]], 4.25 * by[1], -3 * by[2], given['sump depth'], sump),
    ...stretched(drive(build), by),
  ];
}

function long({ block }: Build): DrawnPart[] {
  const x: Pair = [-block, 0];
  return [
    part(
      'block',
      'block',
      [
        prism('x', x, [
          [-4.5, -3],
          [4.5, -3],
          [4.5, 1],
          [-4.5, 1],
        ]),
        prism('x', x, [[-4.5, 1], [4.5, 1], ends(0)[1], DECK, left(DECK), left(ends(0)[1])]),
        timingCover(-block, 4.5, [-3, 8.5]),
      ],
      { measuredBy: ['engine length'] },
    ),
  ];
}

/** One bank, the other its mirror image: head, cover, plugs and header. */
function banks({ block, camshafts }: Build): DrawnPart[] {
  const overhead = camshafts === 'overhead';
  const head = overhead ? 5 : 3.5;
  const cover = head + (overhead ? 2 : 2.5);
  const bank = (kindName: 'head' | 'valve cover', out: Pair, x: Pair): DrawnSolid =>
    prism('x', x, [...ends(out[0]), ...[...ends(out[1])].reverse()].map(left));
  const run: Pair = [-block + 0.5, -1];
  const plugs = overhead
    ? strip([cover, cover + 1.5], [2, 3])
    : strip([0.6, 1.4], [DECK_LENGTH, DECK_LENGTH + 1.75]);
  const outer = overhead ? 13.5 : 12;
  const port: Pair = overhead ? [10.7, 7.2] : [10.9, 7.5];
  return [
    part('left head', 'head', bank('head', [0, head], run), { mirror: 'right head' }),
    part('left valve cover', 'valve cover', bank('valve cover', [head, cover], run), {
      mirror: 'right valve cover',
    }),
    part('left plugs', 'spark plug', prism('x', [run[0] + 1, run[1] - 1], plugs.map(left)), {
      mirror: 'right plugs',
      note: overhead ? 'plugs and coils, on top of the covers' : 'plugs and their boots',
    }),
    part(
      'left header',
      'header',
      tube(
        2,
        [-block + 2.5, -port[0], port[1]],
        [-0.56 * block, 1 / 4 - outer, 5],
        [-0.23 * block, -outer, 0],
        [-2.5, -outer, -6],
      ),
      { mirror: 'right header', measuredBy: ['engine width'], note: 'down inside the rails' },
    ),
  ];
}

function top({ block, height, camshafts, fuel }: Build): DrawnPart[] {
  const overhead = camshafts === 'overhead';
  const shoulder: Pair = overhead ? [6.4, 12.2] : [5.8, 11.4];
  const half = overhead ? 5.5 : 3;
  const profile: Pair[] = [left(DECK), DECK, shoulder, [half, height], [-half, height]];
  const x: Pair = [-0.86 * block, overhead ? -2 : -4];
  const middle = (x[0] + x[1]) / 2;
  const intake = part('intake', 'intake', prism('x', x, [...profile, left(shoulder)]), {
    measuredBy: ['engine height'],
  });
  if (fuel === 'injection') {
    const cleaner = cylinder('z', [height, height + 2.5], [middle, 0], 10);
    return [intake, ...distributor(overhead), part('air cleaner', 'air cleaner', cleaner)];
  }
  const pot = box([middle - 3.25, middle + 3.25], [-3, 3], [height, height + 3]);
  const cleaner = cylinder('z', [height + 3, height + 5.75], [middle, 0], 14);
  return [
    intake,
    part('carburettor', 'carburettor', pot),
    ...distributor(overhead),
    part('air cleaner', 'air cleaner', cleaner),
    part('fuel pump', 'fuel pump', box([-0.95 * block, -0.79 * block], [4.5, 8], [-2.5, 0.5])),
  ];
}

function distributor(overhead: boolean): DrawnPart[] {
  if (overhead) return [];
  const body = cylinder('z', [9, 14], [-1.95, 0], 3.5);
  return [part('distributor', 'distributor', body, { comesOut: { z: [0, 2] } })];
}

/** What hangs on the block's sides. */
function around({ block }: Build): DrawnPart[] {
  const at = (share: number) => -share * block;
  return [
    part('oil filter', 'oil filter', cylinder('z', [-6.5, -1], [at(0.84), -6.5], 3.5), {
      comesOut: { z: [-1.5, 0] },
      note: 'spins off downward',
    }),
    part('starter', 'starter', cylinder('x', [at(0.38), 0], [6.6, -2.6], 3.75), {
      comesOut: { x: [-1, 0] },
    }),
    part('left mount', 'engine mount', box([at(0.62), at(0.48)], [-11, -4.5], [-1.5, 1]), {
      mirror: 'right mount',
    }),
    part('dipstick', 'dipstick', tube(0.4, [-0.5, 5.5, 0.5], [-0.5, 9.2, 6.5], [-0.5, 10, 12])),
  ];
}

function drive({ block, camshafts, height }: Build): DrawnPart[] {
  const face = -block - DRIVE;
  const thermostat = camshafts === 'overhead' ? height - 2 : height - 1;
  return front({
    block: -block,
    face,
    balancer: 6.5,
    fan: 17,
    fanAhead: [1.5, 2],
    pump: { z: 6.5, diameter: 5.75 },
    alternator: { center: [8.5, 8.5], diameter: 5.5 },
    steeringPump: { center: [-8, 2.5], diameter: 5 },
    upperHose: [
      [-0.86 * block - 1, 0, thermostat],
      [face + 1, 3, thermostat - 0.5],
    ],
    lowerHose: [
      [-block - 2.25, 4, 5],
      [-block - 3, 6, -1],
      [-block - 3, 7, -4.5],
    ],
    hose: 1.75,
  });
}

/** The two ends of a bank's section this far out from the deck, the upper one first. */
function ends(out: number): readonly [Pair, Pair] {
  return [corner(0, out), corner(DECK_LENGTH, out)];
}

/** A strip on a bank's section: heights out of the deck and places along it, or along its end. */
function strip(out: Pair, along: Pair): Pair[] {
  return [
    corner(along[0], out[0]),
    corner(along[1], out[0]),
    corner(along[1], out[1]),
    corner(along[0], out[1]),
  ];
}

function corner(along: number, out: number): Pair {
  return [DECK[0] + along * ALONG[0] + out * OUT[0], DECK[1] + along * ALONG[1] + out * OUT[1]];
}

function left([y, z]: Pair): Pair {
  return [-y, z];
}

function pairs(one: string, others: readonly string[]): Contact[] {
  return others.map((other) => [one, other]);
}
