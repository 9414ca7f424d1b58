/**
 * The front of an engine, between the block's front face and the fan: balancer, pulleys, belts,
 * pump, and what the belts drive. All engines have the same parts here, at their own places.
 */

import * as trig from '../../model/trig.js';
import { box, cylinder, part, tube } from '../drawing.js';
import type { DrawnPart, Pair, Point } from '../drawing.js';
import type { Contact } from '../template.js';

/** Sizes in inches, from the engine datum; `center` is [y, z]. */
export interface Front {
  /** The front face of the block, and the pulley face: x, both below 0. */
  readonly block: number;
  readonly face: number;
  /** Diameters of the balancer and of the fan. */
  readonly balancer: number;
  readonly fan: number;
  readonly pump: { readonly z: number; readonly diameter: number };
  readonly alternator: { readonly center: Pair; readonly diameter: number };
  readonly steeringPump: { readonly center: Pair; readonly diameter: number };
  /** How far the fan's rear stands ahead of the pulley face, and how thick it is. */
  readonly fanAhead: Pair;
  /** Hoses, as their middle lines. */
  readonly upperHose: readonly Point[];
  readonly lowerHose: readonly Point[];
  readonly hose: number;
}

/** Belt strands lie this far outside the pulleys they run over. */
const STRAND = 1 / 2;

export function front(f: Front): DrawnPart[] {
  const { block, face, pump } = f;
  const cover = block - 1;
  const [ahead, thick] = f.fanAhead;
  return [
    part('balancer', 'balancer', cylinder('x', [face + 1, cover], [0, 0], f.balancer), {
      measuredBy: ['engine length'],
    }),
    part('crank pulley', 'pulley', cylinder('x', [face, face + 1], [0, 0], f.balancer), {
      measuredBy: ['engine length'],
    }),
    part(
      'water pump',
      'water pump',
      cylinder('x', [face + 2, cover], [0, pump.z], pump.diameter - 3 / 4),
    ),
    part('pump pulley', 'pulley', cylinder('x', [face, face + 2], [0, pump.z], pump.diameter)),
    part(
      'fan',
      'mechanical fan',
      cylinder('x', [face - ahead - thick, face - ahead], [0, pump.z], f.fan),
      { note: 'measure it next: depth and diameter' },
    ),
    part(
      'alternator',
      'alternator',
      cylinder('x', [face + 1, block - 1 / 4], f.alternator.center, f.alternator.diameter),
      { note: 'with the belt at full adjustment' },
    ),
    part(
      'steering pump',
      'power steering pump',
      cylinder('x', [face + 1, block - 1 / 4], f.steeringPump.center, f.steeringPump.diameter),
    ),
    part('belt', 'belt', strands(f), { comesOut: { x: [-1 / 2, 0] } }),
    part('upper hose', 'hose', tube(f.hose, ...f.upperHose)),
    part('lower hose', 'hose', tube(f.hose, ...f.lowerHose)),
  ];
}

/** The block's lower front, which carries the front drive. */
export function timingCover(block: number, half: number, z: Pair) {
  return box([block - 1, block], [-half, half], z);
}

export const FRONT_CONTACTS: readonly Contact[] = [
  ['block', 'balancer'],
  ['block', 'water pump'],
  ['balancer', 'crank pulley'],
  ['water pump', 'pump pulley'],
];

/** The belt round crank, pump and alternator: its straight strands, just clear of the rims. */
function strands({ face, balancer, pump, alternator }: Front) {
  const x = face + 1 / 2;
  const crank: Wheel = { center: [0, 0], radius: balancer / 2 + STRAND };
  const driven: Wheel = { center: alternator.center, radius: alternator.diameter / 2 + STRAND };
  const top: Wheel = { center: [0, pump.z], radius: pump.diameter / 2 + STRAND };
  return [strand(x, crank, driven), strand(x, driven, top), strand(x, top, crank)];
}

interface Wheel {
  /** [y, z]. */
  readonly center: Pair;
  readonly radius: number;
}

/** From one wheel to the next, on the right of the way between their centres. */
function strand(x: number, one: Wheel, next: Wheel) {
  const [y, z] = [next.center[0] - one.center[0], next.center[1] - one.center[1]];
  const length = trig.hypot(y, z);
  const rim = ({ center, radius }: Wheel): Point => [
    x,
    center[0] + (radius * z) / length,
    center[1] - (radius * y) / length,
  ];
  return tube(STRAND, rim(one), rim(next));
}
