/**
 * The pieces of a mount as convex solids, to be measured against what must stay clear of them. Round ones
 * are hulls of lines drawn round them, which hold them: what is measured is never more than what there is.
 */

import type { MountEnd, PlateMount } from '../../model/fitup/mounts.js';
import type { Solid, Vec3 } from '../../model/scenario.js';
import { plus } from '../../model/vector.js';
import * as trig from '../../model/trig.js';
import type { Gusset } from './gusset.js';
import type { MountPieces } from './pieces.js';
import { offPlate } from './plate.js';
import type { Plate } from './plate.js';
import { cutAlong, outAt } from './tube.js';
import type { CutTube } from './tube.js';

export type PieceName = 'base plate' | 'upper plate' | 'tube' | 'gusset' | 'insulator';

export interface PieceSolid {
  readonly piece: PieceName;
  /** Which gusset, counted from 1 over both ends. */
  readonly number?: number;
  /** Vehicle frame. */
  readonly solid: Solid;
}

/** The room that a socket on a bolt needs. */
export interface SocketSolid {
  readonly end: MountEnd;
  /** Which hole of its plate, counted from 1. */
  readonly hole: number;
  /** Vehicle frame. */
  readonly solid: Solid;
}

/** The sockets on the bolts of both plates, where the file gives their size. */
export function socketSolids(
  { base, upper }: MountPieces,
  mount: PlateMount,
): readonly SocketSolid[] {
  const sizes = { base: mount.base.socket, upper: mount.boss.socket };
  return [base, upper].flatMap((plate): SocketSolid[] => {
    const size = sizes[plate.end];
    if (!size) return [];
    return plate.holes.map(({ at }, h) => {
      const middle = offPlate(plate, at);
      return {
        end: plate.end,
        hole: h + 1,
        solid: hull(rod(plate, middle, size.diameter, [0, size.length])),
      };
    });
  });
}

/** Flats round a tube: they stand off its skin by a hundredth of its radius at the most. */
const FLATS = 24;

export function pieceSolids(
  { base, upper, tube, gussets }: MountPieces,
  { insulator }: PlateMount,
): readonly PieceSolid[] {
  return [
    { piece: 'base plate', solid: hull(slab(base)) },
    { piece: 'tube', solid: hull(tubeCorners(tube)) },
    { piece: 'upper plate', solid: hull(slab(upper)) },
    ...gussets.map((gusset, i): PieceSolid => {
      return { piece: 'gusset', number: i + 1, solid: hull(wedge(gusset)) };
    }),
    ...(insulator
      ? [
          {
            piece: 'insulator' as const,
            solid: hull(
              rod(upper, upper.centre, insulator.diameter, [
                -upper.thick - insulator.height,
                -upper.thick,
              ]),
            ),
          },
        ]
      : []),
  ];
}

function hull(points: readonly Vec3[]): Solid {
  return { shape: 'hull', points };
}

/** The corners of both faces. */
function slab(plate: Plate): Vec3[] {
  const near = plate.outline.map((corner) => offPlate(plate, corner));
  return [...near, ...near.map((corner) => plus(corner, plate.normal, -plate.thick))];
}

/** The corners of a prism round the tube, cut as the tube is. */
function tubeCorners(tube: CutTube): Vec3[] {
  const round = { ...tube, radius: tube.radius / trig.cos(Math.PI / FLATS) };
  return clocks().flatMap((clock) => {
    const skin = plus(round.from, outAt(round, clock), round.radius);
    return (['base', 'upper'] as const).map((end) =>
      plus(skin, round.axis, cutAlong(round, end, clock)),
    );
  });
}

function wedge({ corner, onPlate, onTube, square, thick }: Gusset): Vec3[] {
  return [corner, onPlate, onTube].flatMap((point) => [
    plus(point, square, thick / 2),
    plus(point, square, -thick / 2),
  ]);
}

/** A round thing square to a plate, from so far to so far along its normal. */
function rod(
  { normal, lie }: Plate,
  middle: Vec3,
  diameter: number,
  ends: readonly [number, number],
): Vec3[] {
  const radius = diameter / 2 / trig.cos(Math.PI / FLATS);
  return clocks().flatMap((clock) => {
    const out = plus(middle, lie.u, radius * trig.cos(clock));
    const rim = plus(out, lie.v, radius * trig.sin(clock));
    return ends.map((far) => plus(rim, normal, far));
  });
}

/** The corners' directions, so that flats touch the skin between them. */
function clocks(): number[] {
  return Array.from({ length: FLATS }, (_, i) => (2 * Math.PI * (i + 0.5)) / FLATS);
}
