/** The two plates of a mount, each in the plane of the face that the tube stands on. */

import { maxOf, minOf } from '../../model/extremes.js';
import type { MountEnd, PlateMount } from '../../model/fitup/mounts.js';
import type { Vec3 } from '../../model/scenario.js';
import { dot, minus, plus } from '../../model/vector.js';
import type { Lie } from './lie.js';

export type Flat = readonly [number, number];

export interface PlateHole {
  readonly at: Flat;
  readonly diameter: number;
}

/** Millimetres; flat coordinates are along u and v of its lie, from `centre`. */
export interface Plate {
  readonly end: MountEnd;
  /** Where the tube's centreline meets it, on the face towards the tube. */
  readonly centre: Vec3;
  /** Out of that face, towards the tube, length 1. */
  readonly normal: Vec3;
  readonly lie: Lie;
  /** Anticlockwise as seen from the tube. */
  readonly outline: readonly Flat[];
  readonly holes: readonly PlateHole[];
  readonly thick: number;
}

/** Where a point of the vehicle lies on a plate; its distance off the plate is left out. */
export function onPlate({ centre, lie }: Pick<Plate, 'centre' | 'lie'>, point: Vec3): Flat {
  const from = minus(point, centre);
  return [dot(from, lie.u), dot(from, lie.v)];
}

/** A point of a plate's face towards the tube, vehicle frame. */
export function offPlate({ centre, lie }: Pick<Plate, 'centre' | 'lie'>, [x, y]: Flat): Vec3 {
  return plus(plus(centre, lie.u, x), lie.v, y);
}

/** @param centre on the face towards the tube. */
export function basePlate({ base }: PlateMount, centre: Vec3, normal: Vec3, lie: Lie): Plate {
  const given = ([along, across]: Flat): Flat => [
    along * dot(lie.along, lie.u) + across * dot(lie.across, lie.u),
    along * dot(lie.along, lie.v) + across * dot(lie.across, lie.v),
  ];
  const [w, h] = [base.size[0] / 2, base.size[1] / 2];
  return {
    end: 'base',
    centre,
    normal,
    lie,
    outline: rectangle([-w, -h], [w, h]),
    holes: base.holes.map((hole) => ({ at: given(hole), diameter: base.hole })),
    thick: base.thick,
  };
}

/**
 * The plate under the boss: as large as the file says, or so that every hole's centre is a margin from
 * the edge, and the tube's foot half a margin.
 * @param holes where the boss's holes are, vehicle frame.
 * @param foot how far the tube's foot reaches from the centre along u and v.
 */
export function upperPlate(
  { upper, boss }: PlateMount,
  centre: Vec3,
  normal: Vec3,
  lie: Lie,
  holes: readonly Vec3[],
  foot: Flat,
): Plate {
  const flat = holes.map((hole) => onPlate({ centre, lie }, hole));
  const { margin, size } = upper;
  const reach = (k: 0 | 1): readonly [number, number] => {
    if (size) return [-size[k] / 2, size[k] / 2];
    const along = flat.map((hole) => hole[k]);
    const most = foot[k] + margin / 2;
    return [
      Math.min(-most, minOf(along.map((at) => at - margin))),
      Math.max(most, maxOf(along.map((at) => at + margin))),
    ];
  };
  const [[left, right], [low, high]] = [reach(0), reach(1)];
  return {
    end: 'upper',
    centre,
    normal,
    lie,
    outline: rectangle([left, low], [right, high]),
    holes: flat.map((at) => ({ at, diameter: boss.hole })),
    thick: upper.thick,
  };
}

function rectangle([left, low]: Flat, [right, high]: Flat): readonly Flat[] {
  return [
    [left, low],
    [right, low],
    [right, high],
    [left, high],
  ];
}

/** Whether a point lies on the plate, its edge included. */
export function isOn({ outline }: Plate, [x, y]: Flat): boolean {
  return outline.every(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    return (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= -DUST;
  });
}

/** Square millimetres. */
const DUST = 1e-6;

/** Square millimetres of an outline. */
export function areaOf(outline: readonly Flat[]): number {
  const twice = outline.reduce((sum, [x, y], i) => {
    const [nx, ny] = outline[(i + 1) % outline.length]!;
    return sum + x * ny - nx * y;
  }, 0);
  return Math.abs(twice) / 2;
}
