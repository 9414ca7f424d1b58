/** What about a mount cannot be made as the file has it. Data; the words are elsewhere. */

import { maxOf, minOf } from '../../model/extremes.js';
import type { MountEnd, PlateMount } from '../../model/fitup/mounts.js';
import * as trig from '../../model/trig.js';
import type { Gusset } from './gusset.js';
import { isOn, onPlate } from './plate.js';
import type { Flat, Plate } from './plate.js';
import type { MountPieces } from './pieces.js';
import { cutAlong, cutPoint } from './tube.js';
import type { CutTube } from './tube.js';

/** Radians: past this a sawn end is a spike, and the plates no longer hold the tube between them. Ours. */
const STEEPEST_MITRE = Math.PI / 3;

export type MountFault =
  /** The boss is not on the side of the pad that its face looks to. */
  | { readonly of: 'boss below pad' }
  /** The pad is not on the side of the boss that its face looks to: inside the block, or past it. */
  | { readonly of: 'pad behind boss' }
  | { readonly of: 'too sharp'; readonly end: MountEnd; readonly mitre: number }
  /** The cuts cross: millimetres of the shortest line along the tube, less than 0. */
  | { readonly of: 'no tube left'; readonly shortest: number }
  | { readonly of: 'tube off plate'; readonly end: MountEnd; readonly by: number }
  | { readonly of: 'tube over hole'; readonly end: MountEnd; readonly hole: number }
  | { readonly of: 'gusset off plate'; readonly end: MountEnd; readonly number: number }
  | {
      readonly of: 'gusset over hole';
      readonly end: MountEnd;
      readonly number: number;
      readonly hole: number;
    }
  /** The legs on the tube are longer than the tube is there: millimetres that they need, and have. */
  | { readonly of: 'gussets too long'; readonly needs: number; readonly has: number };

/** Clocks at which the tube's foot is looked at: its outline is told to a thousandth of its radius. */
const LOOKS = 180;

export function faultsOf(pieces: MountPieces, mount: PlateMount): readonly MountFault[] {
  const { base, upper, tube, gussets } = pieces;
  const plates = [base, upper];
  const sharp = plates.flatMap(({ end }): MountFault[] => {
    const { mitre } = tube.cuts[end];
    return mitre > STEEPEST_MITRE ? [{ of: 'too sharp', end, mitre }] : [];
  });
  const none: MountFault[] =
    tube.shortest <= 0 ? [{ of: 'no tube left', shortest: tube.shortest }] : [];
  return [
    ...sharp,
    ...none,
    ...plates.flatMap((plate) => footFaults(plate, tube)),
    ...gussets.flatMap((gusset) => gussetFaults(gusset, gusset.end === 'base' ? base : upper)),
    ...(none.length > 0 ? [] : tooLong(tube, gussets, mount)),
  ];
}

function footFaults(plate: Plate, tube: CutTube): MountFault[] {
  const { end } = plate;
  const foot = Array.from({ length: LOOKS }, (_, i) =>
    onPlate(plate, cutPoint(tube, end, (2 * Math.PI * i) / LOOKS)),
  );
  const by = maxOf(foot.map((point) => offBy(plate, point)));
  const off: MountFault[] = by > OFF ? [{ of: 'tube off plate', end, by }] : [];
  const over = plate.holes.flatMap(({ at, diameter }, h): MountFault[] => {
    const clear = minOf(foot.map(([x, y]) => trig.hypot(x - at[0], y - at[1])));
    const covered = clear < diameter / 2 || isInside(foot, at);
    return covered ? [{ of: 'tube over hole', end, hole: h + 1 }] : [];
  });
  return [...off, ...over];
}

/** Millimetres: an edge passed by no more is met. */
const OFF = 1e-6;

/** By how much a point lies past the plate's edges; less than 0 inside. */
function offBy({ outline }: Plate, [x, y]: Flat): number {
  return maxOf(
    outline.map(([ax, ay], i) => {
      const [bx, by] = outline[(i + 1) % outline.length]!;
      return ((by - ay) * (x - ax) - (bx - ax) * (y - ay)) / trig.hypot(bx - ax, by - ay);
    }),
  );
}

/** Whether a point lies inside a convex outline, in either winding. */
function isInside(outline: readonly Flat[], [x, y]: Flat): boolean {
  const sides = outline.map(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    return (bx - ax) * (y - ay) - (by - ay) * (x - ax);
  });
  return sides.every((side) => side > 0) || sides.every((side) => side < 0);
}

function gussetFaults(gusset: Gusset, plate: Plate): MountFault[] {
  const { end, number, thick } = gusset;
  const [a, b] = [onPlate(plate, gusset.corner), onPlate(plate, gusset.onPlate)];
  const off: MountFault[] = isOn(plate, b) ? [] : [{ of: 'gusset off plate', end, number }];
  const over = plate.holes.flatMap(({ at, diameter }, h): MountFault[] => {
    const isOver = distanceTo(at, a, b) < (diameter + thick) / 2;
    return isOver ? [{ of: 'gusset over hole', end, number, hole: h + 1 }] : [];
  });
  return [...off, ...over];
}

/** From a point to a stretch. */
function distanceTo([x, y]: Flat, [ax, ay]: Flat, [bx, by]: Flat): number {
  const [dx, dy] = [bx - ax, by - ay];
  const share = ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy);
  const t = Math.min(1, Math.max(0, share));
  return trig.hypot(x - ax - t * dx, y - ay - t * dy);
}

/** The clock where the tube is shortest for the legs of its gussets. */
function tooLong(tube: CutTube, gussets: readonly Gusset[], mount: PlateMount): MountFault[] {
  const { gussets: given } = mount;
  if (!given) return [];
  const has = minOf(
    gussets.map(({ clock }) => cutAlong(tube, 'upper', clock) - cutAlong(tube, 'base', clock)),
  );
  const needs = given.onTube * given.ends.length;
  return needs > has ? [{ of: 'gussets too long', needs, has }] : [];
}
