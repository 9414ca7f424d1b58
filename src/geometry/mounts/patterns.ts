/**
 * The pieces of a mount laid flat at full size: outlines to cut, marks to scribe, holes to drill. Plain data,
 * millimetres, x right and y up, seen from the tube on a plate and from outside on the tube.
 */

import { maxOf, minOf } from '../../model/extremes.js';
import type { MountEnd } from '../../model/fitup/mounts.js';
import { lengthOf, minus } from '../../model/vector.js';
import * as trig from '../../model/trig.js';
import type { Gusset } from './gusset.js';
import type { MountPieces } from './pieces.js';
import { onPlate as laidOn } from './plate.js';
import type { Flat, Plate, PlateHole } from './plate.js';
import { cutAlong, cutPoint } from './tube.js';
import type { CutTube } from './tube.js';

/** A run of straight lines. */
export interface Run {
  readonly points: readonly Flat[];
  readonly closed: boolean;
}

/** A mark that says something. */
interface Note {
  readonly at: Flat;
  readonly text: string;
}

export interface Pattern {
  readonly piece: 'base plate' | 'upper plate' | 'gusset' | 'tube wrap';
  /** How many are alike. */
  readonly count: number;
  /** Of a gusset: its end, and its numbers there. */
  readonly at?: { readonly end: MountEnd; readonly numbers: readonly number[] };
  /** Of a gusset: millimetres, and radians at the corner between its legs. */
  readonly legs?: {
    readonly onPlate: number;
    readonly onTube: number;
    readonly angle: number;
    readonly slant: number;
  };
  /** Of a plate and a wrap: what clock 0 is on the tube. */
  readonly zero?: CutTube['zero'];
  /** Of a wrap: the diameter of its tube. */
  readonly round?: number;
  /** Millimetres of plate; absent on a wrap, which is paper. */
  readonly thick?: number;
  readonly cut: readonly Run[];
  readonly scribe: readonly Run[];
  readonly holes: readonly PlateHole[];
  readonly notes: readonly Note[];
  /** What lies at the top of the drawing. */
  readonly up: string;
}

/** Points round a tube's foot and along a wrap's edge: every 3 degrees. */
const POINTS = 120;
/** Clock marks round a wrap. */
const CLOCK_MARKS = 12;
/** Millimetres of the mark at clock 0, and from it to what names it. */
const TICK = 4;
const ASIDE = 3;
/** Millimetres: gussets whose edges are this near are alike. */
const ALIKE = 0.01;

/** Base plate, upper plate, the tube's wrap, then gussets, like ones together. */
export function patternsOf({ base, upper, tube, gussets }: MountPieces): readonly Pattern[] {
  return [
    platePattern(base, tube, gussets),
    platePattern(upper, tube, gussets),
    wrapPattern(tube),
    ...gussetPatterns(gussets),
  ];
}

const UP = { up: 'up', right: 'right of vehicle', left: 'left of vehicle' } as const;

function platePattern(plate: Plate, tube: CutTube, gussets: readonly Gusset[]): Pattern {
  const { end, outline, holes, thick } = plate;
  const foot = round((clock) => laidOn(plate, cutPoint(tube, end, clock)));
  const cross = Math.min(10, tube.radius / 2);
  // Where the tube's clock 0 comes to stand: a tick outward from its foot.
  const [zx, zy] = foot[0]!;
  const from = trig.hypot(zx, zy);
  const outward = (by: number): Flat => [zx * (1 + by / from), zy * (1 + by / from)];
  const stands = gussets
    .filter((gusset) => gusset.end === end)
    .map((one) => open([laidOn(plate, one.corner), laidOn(plate, one.onPlate)]));
  return {
    piece: end === 'base' ? 'base plate' : 'upper plate',
    count: 1,
    thick,
    zero: tube.zero,
    cut: [closed(outline)],
    scribe: [
      closed(foot),
      open([
        [-cross, 0],
        [cross, 0],
      ]),
      open([
        [0, -cross],
        [0, cross],
      ]),
      open([foot[0]!, outward(TICK)]),
      ...stands,
    ],
    holes,
    // Beside the tick, for a gusset may stand on it.
    notes: [
      {
        at: [outward(TICK)[0] - (zy / from) * ASIDE, outward(TICK)[1] + (zx / from) * ASIDE],
        text: '0',
      },
    ],
    up: UP[plate.lie.up],
  };
}

/**
 * What is wrapped round the tube, edge to edge: as wide as the tube is round, both ends cut to their planes. Its
 * lower left corner is at clock 0, which is a mark, as is every further twelfth.
 */
function wrapPattern(tube: CutTube): Pattern {
  const least = lowest(tube);
  const at = (end: MountEnd, clock: number): Flat => [
    tube.radius * clock,
    cutAlong(tube, end, clock) - least,
  ];
  const turn = Array.from({ length: POINTS + 1 }, (_, i) => (2 * Math.PI * i) / POINTS);
  const lower = turn.map((clock) => at('base', clock));
  const upper = turn.map((clock) => at('upper', clock));
  const marks = Array.from({ length: CLOCK_MARKS }, (_, i) => (2 * Math.PI * i) / CLOCK_MARKS);
  return {
    piece: 'tube wrap',
    count: 1,
    zero: tube.zero,
    round: 2 * tube.radius,
    cut: [closed([...lower, ...upper.reverse()])],
    scribe: marks.slice(1).map((clock) => open([at('base', clock), at('upper', clock)])),
    holes: [],
    notes: marks.map((clock, i) => {
      const [x, y] = at('base', clock);
      return { at: [x, (y + at('upper', clock)[1]) / 2], text: String(i) };
    }),
    up: 'upper plate',
  };
}

/** Where the base cut begins, along the tube. */
function lowest(tube: CutTube): number {
  return -tube.radius * trig.hypot(...tube.cuts.base.slope);
}

/** Gussets laid with the leg on the plate along x, the corner at the origin. */
function gussetPatterns(gussets: readonly Gusset[]): Pattern[] {
  const kinds: Gusset[][] = [];
  for (const gusset of gussets) {
    const like = kinds.find(([one]) => isLike(one!, gusset));
    if (like) like.push(gusset);
    else kinds.push([gusset]);
  }
  return kinds.map((like) => {
    const [one] = like;
    const { angle, slant, thick, end } = one!;
    const onPlate = lengthOf(minus(one!.onPlate, one!.corner));
    const onTube = lengthOf(minus(one!.onTube, one!.corner));
    return {
      piece: 'gusset',
      count: like.length,
      at: { end, numbers: like.map(({ number }) => number) },
      legs: { onPlate, onTube, angle, slant },
      thick,
      cut: [
        closed([
          [0, 0],
          [onPlate, 0],
          [onTube * trig.cos(angle), onTube * trig.sin(angle)],
        ]),
      ],
      scribe: [],
      holes: [],
      notes: [],
      up: 'along the tube',
    };
  });
}

/** Alike where the plate is the same and the edges too: a triangle is known by its edges. */
function isLike(a: Gusset, b: Gusset): boolean {
  return a.end === b.end && a.thick === b.thick && Math.abs(a.slant - b.slant) < ALIKE;
}

function round(at: (clock: number) => Flat): Flat[] {
  return Array.from({ length: POINTS }, (_, i) => at((2 * Math.PI * i) / POINTS));
}

function closed(points: readonly Flat[]): Run {
  return { points, closed: true };
}

function open(points: readonly Flat[]): Run {
  return { points, closed: false };
}

/** The least box that holds a pattern's cuts: least and greatest x, then y. */
export function boundsOf({ cut }: Pick<Pattern, 'cut'>): readonly [Flat, Flat] {
  const points = cut.flatMap((run) => run.points);
  const along = (k: 0 | 1): Flat => {
    const all = points.map((point) => point[k]);
    return [minOf(all), maxOf(all)];
  };
  return [along(0), along(1)];
}
