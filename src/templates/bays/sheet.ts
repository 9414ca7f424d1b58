/** Sheet metal: firewall, tunnel, floor, toeboards, hood, inner fenders, and what hangs on them. */

import { box, cylinder, panel, part, prism, tube } from '../drawing.js';
import type { DrawnPart, Pair, Point } from '../drawing.js';
import { insideAt } from './rails.js';
import type { BaySize, Sizes } from '../sizes.js';

export interface Sheet {
  /** Half the firewall's width. */
  readonly half: number;
  /** How much the hood rises for each inch back. */
  readonly hoodSlope: number;
  /** Inner fenders: inches outside the rails' inside face. */
  readonly fender: number;
  /** The floor's top, from the rail top. */
  readonly floor: number;
}

const SKIN = 1 / 2;
const BEHIND = 34;

export function sheetMetal(sizes: Sizes<BaySize>, driver: -1 | 1, s: Sheet): DrawnPart[] {
  return [firewall(sizes, s), ...cabin(sizes, s), hood(sizes, s), fender(sizes, s)].concat(
    onTheFirewall(sizes, driver),
  );
}

function firewall(sizes: Sizes<BaySize>, s: Sheet): DrawnPart {
  const { firewall: at, hood: top, 'tunnel height': mouth } = sizes;
  const x: Pair = [at, at + SKIN];
  const half = sizes['tunnel width'] / 2;
  const above = box(x, [-s.half, s.half], [mouth, Math.max(top, mouth + 2)]);
  const beside = (from: number, to: number) => box(x, [from, to], [s.floor, mouth]);
  return part('firewall', 'firewall', [above, beside(-s.half, -half), beside(half, s.half)], {
    measuredBy: ['firewall', 'tunnel width', 'tunnel height'],
    note: "above the tunnel's mouth, and to each side of it",
  });
}

function cabin(sizes: Sizes<BaySize>, s: Sheet): DrawnPart[] {
  const { firewall: at, 'tunnel height': roof } = sizes;
  const half = sizes['tunnel width'] / 2;
  const x: Pair = [at + SKIN, at + BEHIND];
  const wall = (from: number) => box(x, [from, from + SKIN], [s.floor, roof]);
  const toe: Pair[] = [
    [at + SKIN, s.floor + 7],
    [at + SKIN + 6, s.floor],
    [at + SKIN + 7, s.floor],
    [at + SKIN, s.floor + 8],
  ];
  const outer: Pair = [-s.half, -half - SKIN];
  return [
    part(
      'tunnel',
      'tunnel',
      [box(x, [-half - SKIN, half + SKIN], [roof, roof + SKIN]), wall(-half - SKIN), wall(half)],
      {
        measuredBy: ['tunnel width', 'tunnel height'],
        note: 'level and straight; most fall and narrow to the rear',
      },
    ),
    part('left floor', 'floor', box(x, outer, [s.floor - SKIN, s.floor]), {
      mirror: 'right floor',
    }),
    part('left toeboard', 'toeboard', prism('y', outer, toe), { mirror: 'right toeboard' }),
  ];
}

/** It passes through the height measured half way from core to firewall. */
function hood(sizes: Sizes<BaySize>, s: Sheet): DrawnPart {
  const { core, firewall: at, hood: height } = sizes;
  const middle = (at - core) / 2;
  const half = s.half - 1;
  const corner = (x: number, y: number): Point => [x, y, height + s.hoodSlope * (x - middle)];
  const front = -core - 4;
  const corners = [corner(front, -half), corner(at, -half), corner(at, half), corner(front, half)];
  return part('hood', 'hood', panel(corners, SKIN, 'above'), {
    measuredBy: ['hood'],
    note: "its underside; the slope is the template's",
  });
}

function fender(sizes: Sizes<BaySize>, s: Sheet): DrawnPart {
  const inner = Math.max(sizes['rails front'], sizes['rails rear']) / 2 + s.fender;
  const x: Pair = [-sizes.core, sizes.firewall];
  return part('left inner fender', 'inner fender', box(x, [-inner - 4, -inner], [1, 16]), {
    mirror: 'right inner fender',
  });
}

/** Booster before the driver, the throttle's lever beside it, heater before the passenger, the loom across. */
function onTheFirewall(sizes: Sizes<BaySize>, driver: -1 | 1): DrawnPart[] {
  const { firewall: at, 'tunnel height': roof } = sizes;
  const out = insideAt(sizes, at) + 2;
  const heater: Pair = driver === -1 ? [out - 5, out + 3] : [-out - 3, -out + 5];
  return [
    part(
      'brake booster',
      'brake booster',
      cylinder('x', [at - 9, at], [driver * out, roof + 5], 8),
      { note: 'master cylinder and all: measure it next' },
    ),
    part(
      'throttle linkage',
      'throttle linkage',
      box([at - 2, at], driver === -1 ? [5.75 - out, 7.25 - out] : [out - 7.25, out - 5.75], [
        roof + 2,
        roof + 5,
      ]),
    ),
    part('heater', 'heater', box([at - 5, at], heater, [roof + 1, roof + 8])),
    part('loom', 'wiring', tube(1, [at - 0.75, -out, roof + 10], [at - 0.75, out, roof + 10])),
  ];
}
